/** Studies by one call: what is asked goes in, the result comes out, and being stopped is told in one way. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { compare } from '../../sim/calls/compare.js';
import { run } from '../../sim/calls/run.js';
import { type SearchOptions, search } from '../../sim/calls/search.js';
import { size } from '../../sim/calls/size.js';
import { toPlan } from '../../sim/scenario/plan.js';
import { readScenario } from '../../sim/scenario/read.js';
import { vary } from '../../sim/scenario/vary.js';
import { gather } from '../../sim/seasons/gather.js';
import { SEASONS } from '../../sim/seasons/how-many.js';
import { compareStudy } from '../../sim/study/compare.js';
import { runStudy } from '../../sim/study/summary.js';

const shelf = readScenario(readFileSync(new URL('../../scenarios/home-shelf.yaml', import.meta.url), 'utf8'));
if (!shelf.ok) throw new Error('the built-in scenario has faults');
const { plan, scenario } = shelf.value;

function varied(every: number): typeof plan {
  const scenarioWith = vary(scenario, { cadence: { every } });
  if (!scenarioWith.ok) throw new Error(scenarioWith.faults.join());
  return toPlan(scenarioWith.value);
}

describe('one call', () => {
  test('runs the study: the same result as its parts put together by hand', async () => {
    const study = runStudy(plan, 3, 30);
    expect(await run(plan, { seasons: 30, seed: 3 })).toEqual(study.conclude(await gather(study.workload)));
    const plans = [
      { name: 'every 2 d', plan: varied(2) },
      { name: 'every 5 d', plan: varied(5) },
    ];
    const comparison = compareStudy(plans, 3, 30, 'heads_a_week');
    expect(await compare(plans, { seasons: 30, seed: 3, by: 'heads_a_week' })).toEqual({
      ok: true,
      value: comparison.conclude(await gather(comparison.workload)),
    });
  });

  test('takes the plan’s own seed, and as many seasons as the program', async () => {
    const { seed, seasons } = await run(plan);
    expect({ seed, seasons }).toEqual({ seed: plan.seed, seasons: 200 });
  });

  test('tries sizes, and searches within limits around the scenario', async () => {
    const sized = await size(plan, {
      seasons: 10,
      layout: { kind: 'channels', stages: [{ stage: 'finishing', counts: [1, 2] }] },
    });
    expect(sized.ok && sized.value.sizes.filter(({ asked }) => asked)).toHaveLength(2);
    const found = await search(scenario, {
      heads: 5,
      first: 5,
      within: { cadences: [{ every: 2 }, { every: 3 }], seeds: [], channels: [], visits: [] },
    });
    expect(found.ok && found.value.candidates).toBe(2);
  });
});

describe('what does not fit is told, each fault in a sentence', () => {
  test('plans that cannot be compared', async () => {
    const one = { name: 'one', plan };
    expect(await compare([one])).toMatchObject({
      ok: false,
      faults: [expect.stringMatching(/only one plan/)],
    });
    expect(await compare([one, one])).toMatchObject({
      ok: false,
      faults: [expect.stringMatching(/named twice/)],
    });
    const longer = { name: 'longer', plan: { ...plan, weeks: plan.weeks + 1 } };
    expect(await compare([one, longer])).toMatchObject({
      ok: false,
      faults: [expect.stringMatching(/different lengths/)],
    });
  });

  test('sizes and limits that name no stage of the line', async () => {
    const nowhere = { stage: 'nowhere', counts: [1] };
    expect(await size(plan, { layout: { kind: 'channels', stages: [nowhere] } })).toMatchObject({
      ok: false,
      faults: [expect.stringMatching(/no stage "nowhere"/)],
    });
    const within = { cadences: [], seeds: [], channels: [nowhere], visits: [] };
    expect(await search(scenario, { heads: 5, within })).toMatchObject({
      ok: false,
      faults: [expect.stringMatching(/no stage nowhere/)],
    });
  });

  test('an option out of range breaks the contract', async () => {
    for (const seasons of [0, -1, 1.5, Number.NaN, SEASONS.most + 1]) {
      await expect(run(plan, { seasons })).rejects.toThrow(RangeError);
    }
    await expect(run(plan, { seed: 1.5 })).rejects.toThrow(RangeError);
    await expect(run(plan, { workers: 0 })).rejects.toThrow(RangeError);
    const two = [
      { name: 'a', plan },
      { name: 'b', plan },
    ];
    await expect(compare(two, { by: 'luck' })).rejects.toThrow(/heads_a_week/);
  });
});

describe('an option of a search out of range is named, with what it may be', () => {
  test.each<[Omit<SearchOptions, 'heads'> & { heads?: number }, string]>([
    [{ heads: 0 }, 'heads must be a whole number from 1 to 1000000000: 0'],
    [{ runners: -3 }, 'runners must be a whole number from 0 to 20: -3'],
    [{ first: 4 }, 'first must be a whole number from 5 to 1000: 4'],
    [{ seed: 1.5 }, 'seed must be a whole number from 0 to 9007199254740991: 1.5'],
    [{ weeksMet: 7 }, 'weeksMet must be a number from 0.01 to 1: 7'],
    [{ confidence: 2 }, 'confidence must be a number from 0.6 to 0.9999: 2'],
    [{ confidence: Number.NaN }, 'confidence must be a number from 0.6 to 0.9999: NaN'],
    [{ near: 0 }, 'near must be a number from 0.005 to 0.2: 0'],
    [{ least: 'water' as 'holes' }, 'least must be one of holes, seeds, light, kwh, cost: water'],
    [{ workers: 0 }, 'workers must be a whole number from 1 to 256: 0'],
  ])('%j', async (options, message) => {
    await expect(search(scenario, { heads: 5, ...options })).rejects.toThrow(new RangeError(message));
  });
});

describe('a signal', () => {
  test('stops a study: what was run by then is the result, and it says so', async () => {
    const stop = new AbortController();
    const heard: number[] = [];
    const result = await run(plan, {
      seasons: 400,
      signal: stop.signal,
      onProgress: (done) => {
        heard.push(done);
        if (done === 300) stop.abort();
      },
    });
    expect(result.partial).toBe(true);
    expect(result.seasons).toBeGreaterThan(0);
    expect(result.seasons).toBeLessThan(400);
    expect(heard).toEqual(Array.from({ length: 300 }, (_, i) => i + 1));
  });

  test('that comes before the first season is what the call throws', async () => {
    const why = new Error('not today');
    await expect(run(plan, { signal: AbortSignal.abort(why) })).rejects.toBe(why);
  });
});
