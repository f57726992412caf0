/** Seasons of a study, cut into pieces and brought together again: nothing is lost, doubled or changed by the cutting. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Line } from '../../sim/models/line/line.js';
import { applied, cannotMatter, changesOf } from '../../sim/seasons/changes.js';
import { gather } from '../../sim/seasons/gather.js';
import { SeasonRunner } from '../../sim/seasons/season-runner.js';
import type { Tallies } from '../../sim/seasons/tallies.js';
import { threadPool } from '../../sim/seasons/thread-pool.js';
import type { WorkerPool } from '../../sim/seasons/worker-pool.js';
import { chunksOf, shardRange, type Workload } from '../../sim/seasons/workload.js';
import type { JobData } from '../../sim/seasons/workload-tallies.js';
import { ofSeasons, type Study } from '../../sim/study/study.js';
import { arbitraryPlan } from '../support/arbitrary-plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

const WEEKS = 10;
const plan = line(
  [stage('tray', 12), stage('finishing', 20)],
  [crop([grow(time(6, 0.2), { loss: 0.1 }), grow(time(15, 0.2))], every(2, WEEKS * 7, 5))],
  { weeks: WEEKS, visits: visitDays(WEEKS, [1, 0, 1, 0]) },
);
const other = { ...plan, stages: [stage('tray', 12), stage('finishing', 28)] };

function workload(seasons: number, sections: number): Workload {
  return {
    seed: 3,
    sections,
    jobs: [
      { plan, seasons, trials: 4 },
      { plan: other, seasons: Math.ceil(seasons / 3), trials: 0 },
    ],
  };
}

describe('pieces', () => {
  test('of a range hold each of its seasons once, and each piece only seasons of one section', () => {
    fc.assert(
      fc.property(
        fc.record({ sections: fc.integer({ min: 1, max: 41 }), seeds: fc.constantFrom(1, 5, 200_000) }),
        fc.nat(300),
        fc.nat(300),
        ({ sections, seeds }, a, b) => {
          const heavy = { ...plan, crops: plan.crops.map((c) => ({ ...c, sowing: every(2, 70, seeds) })) };
          const work: Workload = { seed: 1, sections, jobs: [{ plan: heavy, seasons: 1000, trials: 0 }] };
          const range = { from: Math.min(a, b), to: Math.max(a, b) };
          const seasons = chunksOf(work, range).flatMap(({ first, count }) =>
            Array.from({ length: count }, (_, k) => first + k * sections),
          );
          expect([...seasons].sort((x, y) => x - y)).toEqual(
            Array.from({ length: range.to - range.from }, (_, i) => range.from + i),
          );
        },
      ),
    );
  });

  test('are many for large lines, so that there is work to share out', () => {
    const heavy = { ...plan, crops: plan.crops.map((c) => ({ ...c, sowing: every(1, 70, 5000) })) };
    const work: Workload = { seed: 1, sections: 1, jobs: [{ plan: heavy, seasons: 20, trials: 0 }] };
    expect(chunksOf(work, { from: 0, to: 20 })).toHaveLength(20);
  });
});

test('shards lie one behind the other, hold all seasons and differ by at most one', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 1, max: 60 }), (seasons, n) => {
      const ranges = Array.from({ length: n }, (_, i) => shardRange(seasons, i + 1, n));
      expect(ranges[0]!.from).toBe(0);
      expect(ranges.at(-1)!.to).toBe(seasons);
      ranges.slice(1).forEach((range, i) => {
        expect(range.from).toBe(ranges[i]!.to);
      });
      const sizes = ranges.map(({ from, to }) => to - from);
      expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
    }),
  );
});

describe('gathering', () => {
  test('tallies what running the seasons one by one gives', async () => {
    const gathered = await gather(workload(50, 7));
    const simulator = new Line(plan);
    let picked = 0;
    for (let season = 0; season < 50; season++) picked += simulator.run(3, season).counts[5]!;
    expect(gathered.whole(0).seasons).toBe(50);
    expect(gathered.whole(1).seasons).toBe(17);
    expect(gathered.whole(0).counts.mean(5)).toBe(picked / 50);
    // Section 3 of 7 has the seasons 3, 10, 17, ... 45.
    let section = 0;
    for (let season = 3; season < 50; season += 7) section += simulator.run(3, season).counts[5]!;
    expect(gathered.sectionsOf(0)[3]!.counts.mean(5)).toBe(section / 7);
    expect(gathered.trials(0).map(({ season }) => season)).toEqual([0, 1, 2, 3]);
  });

  test('gives the same for the same seed, and something else for another', async () => {
    const counts = async (seed: number): Promise<number[]> =>
      meansOf((await gather({ ...workload(5, 1), seed })).whole(0));
    expect(await counts(3)).toEqual(await counts(3));
    expect(await counts(4)).not.toEqual(await counts(3));
  });

  test('is not changed by pausing, but for the time it takes', async () => {
    const work = workload(6, 2);
    expect(readable(await gather(work, { pause: () => Promise.resolve(true) }))).toEqual(
      readable(await gather(work)),
    );
  });

  test('in shards, packed, unpacked in any order and joined, is the same to the last digit', async () => {
    const work = workload(50, 7);
    const study: Study<Awaited<ReturnType<typeof gather>>, unknown> = ofSeasons(work, (g) => g.toData());
    const whole = study.conclude(await study.carryOut(new SeasonRunner(work), { k: 1, n: 1 }));
    const parts: unknown[] = [];
    for (const k of [2, 4, 1, 3]) {
      parts.push(
        JSON.parse(JSON.stringify(study.pack(await study.carryOut(new SeasonRunner(work), { k, n: 4 })))),
      );
    }
    const means = (data: unknown): unknown => {
      const { all, trials } = readable(study.unpack([data].flat() as unknown[]));
      return { all, trials };
    };
    for (const [i, k] of [2, 4, 1, 3].entries()) {
      expect(study.faultOf(parts[i], { k, n: 4 })).toBeNull();
      expect(study.faultOf(parts[i], { k: (k % 4) + 1, n: 4 })).not.toBeNull();
    }
    expect(means(parts)).toEqual(readable(await gather(work)));
    const [{ sections }, ...others] = parts[0] as JobData[] as [JobData, ...JobData[]];
    for (const damaged of [null, [], others, [{ sections, trials: [{}] }, ...others]]) {
      expect(study.faultOf(damaged, { k: 2, n: 4 })).toMatch(/^its data are not (there|as many|whole at )/);
    }
    expect(whole).not.toBeNull();
  });

  test('that is stopped keeps the same seasons of every job', async () => {
    const work: Workload = {
      seed: 3,
      sections: 7,
      jobs: [
        { plan, seasons: 5000, trials: 0 },
        { plan: other, seasons: 5000, trials: 0 },
      ],
    };
    let asked = 0;
    const gathered = await gather(work, { pause: () => (++asked < 4000 ? null : Promise.resolve(false)) });
    const [first, second] = [gathered.whole(0).seasons, gathered.whole(1).seasons];
    expect(first).toBe(second);
    expect(first).toBeGreaterThan(0);
    expect(first).toBeLessThan(5000);
  });

  test('that is stopped has what running only the seasons that it kept gives', async () => {
    const one = (seasons: number): Workload => ({
      seed: 3,
      sections: 1,
      jobs: [{ plan, seasons, trials: 0 }],
    });
    const pause = (done: number): Promise<boolean> => Promise.resolve(done < 3000);
    const kept = (await gather(one(5000), { pause })).whole(0);
    expect(kept.seasons).toBeGreaterThan(0);
    expect(kept.seasons).toBeLessThan(5000);
    expect(meansOf(kept)).toEqual(meansOf((await gather(one(kept.seasons))).whole(0)));
  });

  test('reports each season that is run, trials too, and as many in all as it said', async () => {
    const calls: [number, number][] = [];
    const skipped = workload(20, 4);
    await gather(skipped, {
      pause: (done, all) => {
        calls.push([done, all]);
        return null;
      },
    });
    // 20 seasons, 7 of the other job, and 4 seasons with each change of the first and with the risk.
    const all = 20 + 7 + 4 * (changesOf(plan).length + 1);
    expect(calls.at(-1)).toEqual([all, all]);
    expect(calls.map(([done]) => done)).toEqual(Array.from({ length: all }, (_, i) => i + 1));
  });
});

describe('threads', () => {
  const worker = new URL('../../dist/worker.js', import.meta.url);

  test.each([1, 2, 3])('%d of them give what one thread alone gives, to the last digit', async (threads) => {
    const work = workload(60, 8);
    const crew = await threadPool(work, threads, worker);
    try {
      expect(readable(await gather(work, { pool: crew }))).toEqual(readable(await gather(work)));
      expect(await crew.weeks(1, 5, 3)).toEqual(await new SeasonRunner(work).weeks(1, 5, 3));
    } finally {
      await crew.close();
    }
  });

  test('that are let go of leave their work undone, without a complaint', async () => {
    const work: Workload = { seed: 1, sections: 1, jobs: [{ plan, seasons: 1_000_000, trials: 0 }] };
    const crew: WorkerPool = await threadPool(work, 2, worker);
    let begin = (): void => {};
    const begun = new Promise<void>((resolve) => {
      begin = resolve;
    });
    const pause = (): null => {
      begin();
      return null;
    };
    const gathering = gather(work, { pool: crew, pause });
    await begun;
    await crew.close();
    expect((await gathering).whole(0).seasons).toBeLessThan(1_000_000);
  });
});

test('a change that is said not to matter does not: the season run with it is the same', () => {
  let skipped = 0;
  fc.assert(
    fc.property(arbitraryPlan(), fc.nat(50), (any, season) => {
      const before = new Line(any);
      const asItIs = before.run(any.seed, season);
      for (const change of changesOf(any)) {
        if (!cannotMatter(change, any, asItIs)) continue;
        skipped++;
        const after = new Line(applied(any, change)).run(any.seed, season);
        expect([...after.weekPicks]).toEqual([...asItIs.weekPicks]);
        expect([...after.counts]).toEqual([...asItIs.counts]);
      }
    }),
    { numRuns: 2000 },
  );
  // The test is worth something only if it happens often.
  expect(skipped).toBeGreaterThan(300);
});

function meansOf({ counts }: Tallies): number[] {
  return Array.from({ length: counts.width }, (_, i) => counts.mean(i));
}

/** All that can be read off: sums may be carried differently, and are the same. */
function readable(gathered: Awaited<ReturnType<typeof gather>>): { all: unknown[]; trials: unknown[] } {
  const all = [0, 1].flatMap((job) =>
    gathered.sectionsOf(job).map((section) =>
      section === null
        ? null
        : {
            seasons: section.seasons,
            counts: Array.from({ length: 10 }, (_, i) => [
              section.counts.mean(i),
              section.counts.standardError(i),
            ]),
            ledger: Array.from({ length: 18 }, (_, i) => section.ledger.mean(i)),
            weeks: section.weekPicks.map((week) => week.toData()),
            first: section.firstPickDay.toData(),
          },
    ),
  );
  return { all, trials: [gathered.trials(0), gathered.trials(1)] };
}
