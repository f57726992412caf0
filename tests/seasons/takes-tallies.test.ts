/** What seasons take, tallied: parts join without rounding, and a plan that tells of holes only is as it was. */

import { describe, expect, test } from 'vitest';
import { Line } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import { TANK_EVERY } from '../../sim/models/takes.js';
import { gather } from '../../sim/seasons/gather.js';
import { Tallies } from '../../sim/seasons/tallies.js';
import { shardRange, type Workload } from '../../sim/seasons/workload.js';
import { runStudy } from '../../sim/study/summary.js';
import { takesOf } from '../../sim/study/takes/takes.js';
import { talliesFault } from '../../sim/study/unpack.js';
import { twoCrops } from '../support/clockwork.js';
import { copyOf } from '../support/laws.js';
import { grow, time } from '../support/plans.js';

/** The second clockwork with luck in it. */
const { plan: told, physical } = twoCrops();
const bare: Plan = {
  ...told,
  crops: told.crops.map((crop) => ({
    ...crop,
    germination: 0.9,
    stages: crop.stages.map((growing) => grow(time(growing.time.days, 0.2), { loss: 0.05, keeps: 6 })),
  })),
};
const plan: Plan = { ...bare, physical };

const takes = (tallies: Tallies) => takesOf({ plan, tallies, whole: tallies }, []);

test('tallies of parts, merged in any order, tell what the whole does, to the last digit', () => {
  const line = new Line(plan);
  const whole = new Tallies(plan);
  const parts = [new Tallies(plan), new Tallies(plan), new Tallies(plan)];
  for (let i = 0; i < 30; i++) {
    whole.add(line.run(1, i));
    parts[(i * 7) % 3]!.add(line.run(1, i));
  }
  const merged = new Tallies(plan);
  for (const part of [parts[2]!, parts[0]!, parts[1]!]) merged.merge(part);
  expect(takes(merged)).toEqual(takes(whole));
});

test('tallies sent as plain data are the same tallies', () => {
  const tallies = new Tallies(plan);
  for (let i = 0; i < 5; i++) tallies.add(new Line(plan).run(1, i));
  const sent = new Tallies(plan, JSON.parse(JSON.stringify(tallies.toData())));
  expect(takes(sent)).toEqual(takes(tallies));
});

describe('what is told beyond holes', () => {
  test('changes nothing of a season', () => {
    const [lines, seasons] = [[new Line(bare), new Line(plan)], 5];
    for (let season = 0; season < seasons; season++) {
      const [without, withIt] = lines.map((line) => copyOf(line.run(1, season)));
      expect(without!.takes).toBeNull();
      expect(withIt).toEqual({ ...without!, takes: withIt!.takes });
    }
  });

  test('is missing in the data, and in the result, of a plan that tells nothing of it', async () => {
    const study = runStudy(bare, 1, 4);
    const gathered = await gather(study.workload);
    expect(Object.keys(gathered.whole(0).toData())).toEqual([
      'seasons',
      'counts',
      'ledger',
      'weeks',
      'first',
      'discards',
    ]);
    const result = study.conclude(gathered)!;
    for (const group of ['light', 'growth', 'mass', 'water', 'tank', 'load', 'work', 'money', 'assumes']) {
      expect(result).not.toHaveProperty(group);
    }
    expect(Object.keys(result.figures)).not.toContain('cost_a_head');
  });
});

describe('parts of a study', () => {
  const workload: Workload = { seed: 1, sections: 4, jobs: [{ plan, seasons: 2 * TANK_EVERY, trials: 0 }] };
  const packed = async (k: number): Promise<unknown> => {
    const gathered = await gather(workload, { range: shardRange(2 * TANK_EVERY, k, 2) });
    return JSON.parse(JSON.stringify(gathered.toData()));
  };

  test('are whole with what seasons take, and damaged without', async () => {
    const part = (await packed(2)) as { sections: ({ takes?: unknown } | null)[] }[];
    const range = shardRange(2 * TANK_EVERY, 2, 2);
    expect(talliesFault(workload, part, range)).toBeNull();
    delete part[0]!.sections[0]!.takes;
    expect(talliesFault(workload, part, range)).toBe('its data are not whole at 0.sections.0.takes');
  });

  test('that tell nothing of it, of a plan that does not either, are whole', async () => {
    const others = { ...workload, jobs: [{ plan: bare, seasons: 4, trials: 0 }] };
    const gathered = await gather(others);
    const part = JSON.parse(JSON.stringify(gathered.toData()));
    expect(talliesFault(others, part, { from: 0, to: 4 })).toBeNull();
  });
});

test('in one season of many the tank is looked at from visit to visit, and in all of them what is topped up is known', () => {
  const line = new Line(plan);
  expect(line.run(1, TANK_EVERY).takes!.tank).not.toBeNull();
  expect(line.run(1, 1).takes!.tank).toBeNull();
  const tallies = new Tallies(plan);
  for (let i = 0; i < 2; i++) tallies.add(line.run(1, i));
  expect(tallies.takes!.tankSeasons).toBe(1);
  expect(takes(tallies).tank!.topped_up_l!.mean).toBeGreaterThan(0);
});
