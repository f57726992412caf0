/** Days under other conditions: worked values (from a program that shares no code with this one), and every refusal. */

import { describe, expect, test } from 'vitest';
import { emergenceDays } from '../../../sim/models/physical/emergence.js';
import {
  firstStageRatio,
  growingDays,
  type StageConditions,
} from '../../../sim/models/physical/growing-days.js';
import type { Conditions } from '../../../sim/models/physical/plan.js';
import { SEED_G, solved, THIRD } from '../../support/lettuce-courses.js';
import { expectNear } from '../../support/near.js';

const { endG } = solved(THIRD);
const PPFD = [150, 200, 260];

interface Change {
  readonly light?: number;
  readonly hours?: number;
  readonly air?: readonly [day: number, night: number];
  readonly co2?: number;
  readonly germination?: number;
}

function conditions(
  s: number,
  { light = 1, hours = 16, air = [22, 19], co2 = 600, germination = 22 }: Change,
): Conditions {
  return { ppfd: PPFD[s]! * light, hours, airC: air[0], nightC: air[1], co2, germinationC: germination };
}

/** The third course, whose days hold under its usual conditions, under others. */
function changed(
  change: Change,
  told: (s: number) => Conditions | null = (s) => conditions(s, {}),
): StageConditions[] {
  return THIRD.stages.map(({ areaM2, days }, s) => ({
    stage: s,
    areaM2,
    days,
    endG: endG[s]!,
    now: conditions(s, change),
    told: told(s),
  }));
}

describe('worked values', () => {
  test.each<[string, Change, number | null, number[], number[]]>([
    ['as the days were told', {}, null, [2.57016, 10.166925, 20.684914], [1, 1, 1]],
    ['light x 1.25', { light: 1.25 }, null, [2.200104, 9.467889, 18.529447], [0.900356, 0.931244, 0.895795]],
    ['light x 0.75', { light: 0.75 }, null, [3.170193, 11.290121, 24.49345], [1.161568, 1.110476, 1.184121]],
    ['light x 1.5', { light: 1.5 }, null, [1.947993, 8.983234, 17.171699], [0.832471, 0.883574, 0.830156]],
    ['18 h', { hours: 18 }, null, [2.309935, 9.580258, 18.871466], [0.92993, 0.942297, 0.91233]],
    ['CO2 400', { co2: 400 }, null, [3.037161, 11.230714, 24.929551], [1.125747, 1.104632, 1.205205]],
    ['CO2 1000', { co2: 1000 }, null, [2.21519, 9.341768, 17.724471], [0.904418, 0.918839, 0.856879]],
    [
      '18/16 degC',
      { air: [18, 16], germination: 18 },
      null,
      [2.520306, 11.011022, 21.093453],
      [1.067614, 1.083024, 1.019751],
    ],
    [
      '20/17 degC',
      { air: [20, 17], germination: 20 },
      null,
      [2.540499, 10.59983, 20.812513],
      [1.02782, 1.04258, 1.006169],
    ],
    [
      '24/20 degC',
      { air: [24, 20], germination: 24 },
      null,
      [2.61705, 9.873972, 20.857089],
      [0.983575, 0.971186, 1.008324],
    ],
    [
      '26/22 degC',
      { air: [26, 22], germination: 26 },
      null,
      [2.60999, 9.730244, 20.77792],
      [0.969111, 1, 1.004496],
    ],
    [
      '26/22 degC, light x 1.25',
      { air: [26, 22], germination: 26, light: 1.25 },
      null,
      [2.233875, 9.027616, 18.42418],
      [0.867836, 0.931244, 0.895795],
    ],
    ['26/16 degC', { air: [26, 16] }, null, [2.630165, 10.14382, 21.029998], [1.016157, 1, 1.016683]],
    ['germination 28', { germination: 28 }, null, [2.57016, 10.166925, 20.684914], [0.958386, 1, 1]],
  ])('%s', (_, change, emerge, modelDays, ratios) => {
    const days = growingDays(SEED_G, changed(change), emerge);
    if (!days.ok) throw new Error(JSON.stringify(days.faults));
    for (const s of PPFD.keys()) {
      // The worked values allow 1e-4 for another method of integration; this is the same one, and they have seven digits.
      expectNear(days.value.modelDays[s]!, modelDays[s]!, 1e-6, `days of stage ${s}`);
      expectNear(days.value.ratios[s]!, ratios[s]!, 1e-6, `ratio of stage ${s}`);
    }
    expect(days.value.atBest).toBe(change.air !== undefined && change.air[0] > 24);
  });

  test('an emergence that the grower knows is the same at any warmth', () => {
    const days = growingDays(SEED_G, changed({ germination: 18 }), 3);
    expect(days).toMatchObject({ ok: true, value: { ratios: [1, 1, 1] } });
  });

  test('emergence that takes longer than the stage counts for 0.9 of it', () => {
    const ratio = firstStageRatio(0.9, 2, emergenceDays(null, 25), emergenceDays(null, 20));
    expectNear(ratio, 0.787297297, 1e-9);
  });
});

test('days that hold under the very conditions of the line stay as they are, to the last digit', () => {
  for (const change of [
    {},
    { light: 1.1 },
    { air: [27, 23] as const, germination: 27 },
    { hours: 17.3, co2: 812 },
  ]) {
    const days = growingDays(
      SEED_G,
      changed(change, (s) => conditions(s, change)),
      null,
    );
    expect(days).toMatchObject({ ok: true, value: { ratios: [1, 1, 1] } });
  }
});

test('a stage of which nothing is told counts as now in both, and still feels what plants bring along', () => {
  const days = growingDays(
    SEED_G,
    changed({ light: 1.25 }, (s) => (s === 0 ? conditions(0, {}) : null)),
    null,
  );
  if (!days.ok) throw new Error('it can be');
  expectNear(days.value.ratios[0]!, 0.900356, 1e-6);
  expect(days.value.ratios[1]).not.toBe(1);
  expectNear(days.value.ratios[1]!, 1, 0.02);
});

describe('a dark stage', () => {
  const dark =
    (s: number) =>
    (stage: StageConditions): StageConditions =>
      stage.stage === s
        ? { ...stage, endG: endG[s - 1]!, now: { ...stage.now, ppfd: 0 }, told: { ...stage.told!, ppfd: 0 } }
        : stage;

  test('keeps its days, whatever its air', () => {
    const stages = changed({ light: 1.25 })
      .map(dark(1))
      .map((stage) => (stage.stage === 1 ? { ...stage, now: { ...stage.now, airC: 5 } } : stage));
    const days = growingDays(SEED_G, stages, null);
    expect(days).toMatchObject({ ok: true, value: { ratios: [expect.any(Number), 1, expect.any(Number)] } });
  });

  test.each([
    ['now', { now: { ...conditions(1, {}), ppfd: 0 } }],
    ['told', { told: { ...conditions(1, {}), hours: 0 } }],
  ])('that is dark only %s is refused', (when, part) => {
    const stages = changed({}).map((stage) => (stage.stage === 1 ? { ...stage, ...part } : stage));
    expect(growingDays(SEED_G, stages, null)).toEqual({
      ok: false,
      faults: [{ kind: 'dark', stage: 1, when }],
    });
  });
});

describe('outside its range the model refuses, and says where and what was found', () => {
  test.each<[Change, string, number, number, number]>([
    [{ air: [9.9, 10] }, 'air_c', 9.9, 10, 30],
    [{ air: [31, 22] }, 'air_c', 31, 10, 30],
    [{ air: [22, 9] }, 'night_c', 9, 10, 30],
    [{ co2: 299 }, 'co2', 299, 300, 1600],
    [{ co2: 1700 }, 'co2', 1700, 300, 1600],
  ])('%o', (change, condition, found, least, most) => {
    const refused = growingDays(SEED_G, changed(change), null);
    const fault = { kind: 'outside', condition, found, least, most };
    expect(refused).toEqual({
      ok: false,
      faults: [0, 1, 2].map((stage) => ({ ...fault, stage, when: 'now' })),
    });
  });

  test('light, by stage, and what was told', () => {
    const refused = growingDays(
      SEED_G,
      changed({ light: 3 }, (s) => conditions(s, { light: 0.3 })),
      null,
    );
    const fault = { kind: 'outside', condition: 'ppfd', least: 50, most: 750 };
    expect(refused).toEqual({
      ok: false,
      faults: [
        { ...fault, stage: 0, when: 'told', found: 45 },
        { ...fault, stage: 2, when: 'now', found: 780 },
      ],
    });
  });

  test('germination above 30 degC, where it goes by the warmth', () => {
    const change = { germination: 31 };
    const fault = { kind: 'outside', condition: 'germination_c', stage: 0, when: 'now', found: 31, most: 30 };
    expect(growingDays(SEED_G, changed(change), null)).toMatchObject({ ok: false, faults: [fault] });
    expect(growingDays(SEED_G, changed(change), 3).ok).toBe(true);
  });

  test('a ratio that is not believed', () => {
    const refused = growingDays(SEED_G, changed({ hours: 5 }), null);
    if (refused.ok) throw new Error('it is not believed');
    expect(refused.faults[0]).toMatchObject({ kind: 'ratio', stage: 0, least: 0.5, most: 2 });
    expect((refused.faults[0] as { found: number }).found).toBeGreaterThan(2);
  });

  test('a mass that is never reached', () => {
    const stages = changed({ hours: 1, light: 0.5 }).map((stage) => ({ ...stage, endG: stage.endG * 1000 }));
    const refused = growingDays(SEED_G, stages, null);
    expect(refused).toMatchObject({ ok: false, faults: [{ kind: 'never', stage: 0, when: 'now' }] });
  });
});
