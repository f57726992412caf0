/**
 * Other light for the same line: what becomes of its days, its kWh and its watts. Days are held against ratios that another program worked out
 * (tests/models/physical/growing-days.test.ts, whose third course this line is); what no luck moves is counted on paper.
 */

import { describe, expect, test } from 'vitest';
import { compare } from '../../sim/calls/compare.js';
import { lightNotes } from '../../sim/scenario/light-notes.js';
import { toPlan } from '../../sim/scenario/plan.js';
import { type Variation, variationText, vary } from '../../sim/scenario/vary.js';
import { expectNear } from '../support/near.js';
import { CELLAR, edited, readWell } from './cellar.js';
import { THIRD } from './third-course.js';

const DAYS = 70;

const scenarioOf = (text: string) => readWell(text).value.scenario;

function varied(text: string, variation: Variation) {
  const result = vary(scenarioOf(text), variation);
  if (!result.ok) throw new Error(result.faults.join('\n'));
  return result.value;
}

const faultsOf = (variation: Variation, text = THIRD) => {
  const result = vary(scenarioOf(text), variation);
  return result.ok ? [] : result.faults;
};

function notesOf(text: string, variation: Variation): string[] {
  const scenario = varied(text, variation);
  return lightNotes(readWell(text).value, variation, { scenario, plan: toPlan(scenario) });
}

const light = (times: number) => ({ seedlings: 150 * times, nursery: 200 * times, finishing: 260 * times });

describe('a line without luck', () => {
  /*
   * Days of a stage are 8, 13 and 20 times the worked ratios; each ends at the next visit. A sowing every week is picked so many days
   * later, if that is within 70 days; 4 heads each.
   */
  test.each<[string, Variation, number, number]>([
    // 8, 13, 20: moved on day 8 and 21.
    ['as it is', {}, 41, 20],
    // 7.44, 12.25, 18.25: moved on day 8 and 21 (20.25).
    ['18 h', { hours: 18 }, 40, 20],
    // 7.20, 12.11, 17.92: moved on day 8 and 21 (20.11).
    ['a quarter more light', { ppfd: light(1.25) }, 39, 20],
    // 6.66, 11.49, 16.60: moved on day 7 and 19 (18.49).
    ['half as much light again', { ppfd: light(1.5) }, 36, 20],
    // 9.29, 14.44, 23.68: moved on day 10 and 25 (24.44).
    ['a quarter less light', { ppfd: light(0.75) }, 49, 12],
  ])('%s: the day of the first pick, the kWh and the cost of a head', async (_, variation, day, heads) => {
    const plans = [{ name: 'as it is', plan: toPlan(scenarioOf(THIRD)) }];
    plans.push({ name: 'with other light', plan: toPlan(varied(THIRD, variation)) });
    const result = await compare(plans, { seasons: 2 });
    if (!result.ok) throw new Error(result.faults.join('\n'));
    const figures = result.value.plans[1]!.figures as Record<string, { mean: number; difference: unknown }>;
    expect(figures['first_pick_day']!.mean).toBe(day);

    const { hours = 16, ppfd = light(1) } = variation as { hours?: number; ppfd?: ReturnType<typeof light> };
    const made = (holes: number, cm2: number, umol: number) =>
      (holes * (cm2 / 1e4) * umol * hours) / (1000 * 2.5 * 0.8);
    // Metered at 150 umol: 10 W there.
    const metered = (((10 * ppfd.seedlings) / 150) * hours) / 1000;
    const kwh = DAYS * (metered + made(24, 81, ppfd.nursery) + made(40, 400, ppfd.finishing));
    expectNear(figures['kwh_a_head']!.mean, kwh / heads, 1e-12);
    expectNear(figures['cost_a_head']!.mean, (0.3 * kwh) / heads, 1e-12);
  });
});

describe('what is varied', () => {
  test('is what somebody would write into the file, metered watts with it, to the last digit', () => {
    const byHand = edited(THIRD, [
      ['ppfd: 150, hours: 16, watts: 10', 'ppfd: 225, hours: 18, watts: 15'],
      ['ppfd: 260, hours: 16', 'ppfd: 300, hours: 18'],
    ]);
    const other = { ppfd: { seedlings: 225, finishing: 300 }, hours: { seedlings: 18, finishing: 18 } };
    expect(varied(THIRD, other)).toEqual(scenarioOf(byHand));
    expect(toPlan(varied(THIRD, other))).toEqual(toPlan(scenarioOf(byHand)));
  });

  test('without the name of a stage is all lit stages, and no dark one', () => {
    const dark = edited(THIRD, [
      ['ppfd: 150, hours: 16, watts: 10', 'ppfd: 0'],
      [', days_at: {ppfd: 150, hours: 16}', ''],
    ]);
    const { stages } = varied(dark, { ppfd: 220, hours: 14 });
    expect(stages.map(({ ppfd, hours }) => [ppfd, hours])).toEqual([
      [0, undefined],
      [220, 14],
      [220, 14],
    ]);
  });

  test('is the scenario itself where its light is as it was', () => {
    expect(varied(THIRD, { hours: { finishing: 16 }, ppfd: light(1) })).toEqual(scenarioOf(THIRD));
  });

  test('goes with more channels: watts with both', () => {
    const { stages } = varied(THIRD, { ppfd: { seedlings: 300 }, channels: { seedlings: 3 } });
    expect(stages[0]!.watts).toBe(30);
  });
});

test.each<[Variation, string]>([
  [{ ppfd: { finishing: 200 }, hours: { finishing: 16 } }, 'finishing 200 µmol, 16 h'],
  [{ hours: 14 }, 'lamps 14 h'],
  [
    { cadence: { every: 3 }, seeds: 8, hours: { nursery: 14 }, ppfd: 200 },
    'every 3 d, 8 seeds, lamps 200 µmol, nursery 14 h',
  ],
])('%j is called %s', (variation, name) => {
  expect(variationText(variation)).toBe(name);
});

describe('what is refused, and where', () => {
  test.each<[string, Variation, RegExp]>([
    [
      'an unknown stage',
      { hours: { cellar: 16 } },
      /^There is no stage cellar\. The stages are seedlings, nursery, finishing\.$/,
    ],
    [
      'light of none',
      { ppfd: { nursery: 0 } },
      /^ppfd must not be 0 where light is varied\. It must be above 0/,
    ],
    [
      'more hours than a day has',
      { hours: { nursery: 25 } },
      /^stages\[1\]\.hours must not be 25\. It must be a number from 0 to 24/,
    ],
    [
      'light outside the range of the growth model',
      { ppfd: { nursery: 40 }, hours: { nursery: 12 } },
      /^With nursery 40 µmol, 12 h: stages\[1\]\.ppfd must not be 40\. It must be ppfd from 50 to 750 where days_at stands/,
    ],
    [
      'days that the model does not believe',
      { ppfd: 60 },
      /^With lamps 60 µmol: crops\[0\]\.stages\.seedlings\.days_at must not be conditions under which/,
    ],
  ])('%s', (_, variation, fault) => {
    expect(faultsOf(variation)[0]).toMatch(fault);
  });

  test('light where the scenario tells of none', () => {
    expect(faultsOf({ hours: 16 }, CELLAR)[0]).toMatch(
      /^There is no light to change: the scenario tells of none\./,
    );
    expect(faultsOf({ hours: { nursery: 16 } }, CELLAR)[0]).toMatch(
      /^Stage nursery must not be given other hours/,
    );
  });
});

describe('notes', () => {
  const WITHOUT = edited(THIRD, [
    [', days_at: {ppfd: 150, hours: 16}', ''],
    ['days_at: {ppfd: 200, hours: 16}', 'days_at: {ppfd: 200}'],
  ]);

  test('are none where days follow and nothing was metered', () => {
    expect(notesOf(THIRD, { hours: 15, ppfd: { finishing: 240 } })).toEqual([]);
    expect(notesOf(WITHOUT, { cadence: { every: 3 } })).toEqual([]);
  });

  test('tell in one sentence for which light days stay, and they do', () => {
    const variation = { hours: 15, ppfd: { nursery: 210 } };
    expect(notesOf(WITHOUT, variation)).toEqual([
      'Days were not changed for hours in seedlings, nursery, only what the lamps draw: days follow the light where days_at tells in which they hold.',
    ]);
    const days = (text: string, change: Variation) =>
      toPlan(varied(text, change)).crops[0]!.stages.map(({ time }) => time.days);
    const [, nursery] = days(WITHOUT, {});
    expect(days(WITHOUT, variation).map((one) => one === 8)).toEqual([true, false, false]);
    // In the same hours then and now, a little more light alone.
    expect(days(WITHOUT, variation)[1]!).toBeLessThan(nursery!);
    expect(days(THIRD, variation)[1]!).toBeGreaterThan(days(WITHOUT, variation)[1]!);
  });

  test('name the crops where it holds of some', () => {
    const two = `${THIRD.replace(
      'climate:',
      `  - name: romaine lettuce
    head_g: 200
    sow: {every: 7, seeds: 1}
    stages:
      seedlings: {days: 8, shape: fixed}
      nursery: {days: 13, shape: fixed}
      finishing: {days: 20, shape: fixed}
climate:`,
    )}`;
    expect(notesOf(two, { hours: { finishing: 15 } })[0]).toContain('hours of romaine lettuce in finishing,');
  });

  test('tell that watts go with ppfd, and what becomes doubtful, each once', () => {
    expect(notesOf(THIRD, { ppfd: { seedlings: 140, finishing: 310 } })).toEqual([
      'Watts of seedlings were metered at the ppfd of the scenario and are taken to go with ppfd: meter them again.',
      'seedlings 140 µmol, finishing 310 µmol: 17.9 mol of light a day and m2 in finishing: above 17 the tips of leaves may burn.',
    ]);
  });
});
