import { describe, expect, test } from 'vitest';
import { Line } from '../../../sim/models/line/line.js';
import type { Pause } from '../../../sim/seasons/gather.js';
import { SeasonRunner } from '../../../sim/seasons/season-runner.js';
import type { WorkerPool } from '../../../sim/seasons/worker-pool.js';
import type { Workload } from '../../../sim/seasons/workload.js';
import type { SearchGoal } from '../../../sim/study/search/budget.js';
import type { CandidateResult } from '../../../sim/study/search/candidate-test.js';
import type { Candidate } from '../../../sim/study/search/candidates.js';
import type { SearchResult } from '../../../sim/study/search/result.js';
import { searchStudy } from '../../../sim/study/search/search.js';
import { type Study, WHOLE } from '../../../sim/study/study.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';

const WEEKS = 10;

const GOAL: SearchGoal = {
  heads: 4,
  weeksMet: 0.9,
  least: 'seeds',
  confidence: 0.95,
  near: 0.02,
  first: 20,
  runners: 2,
};

/** So many seeds each Monday, for which there are holes enough; picked a week later if they sprout. */
function sown(seeds: number, germination: number, holes = 50): Candidate {
  const leaf = crop([grow(time(7))], every(7, 7 * WEEKS, seeds), { germination });
  return {
    name: `${seeds} seeds, ${holes} holes`,
    settings: { every: 7, seeds },
    plan: line([stage('tray', holes)], [leaf], {
      weeks: WEEKS,
      visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]),
    }),
    seedsAWeek: seeds,
    visitsAWeek: 1,
  };
}

/** Two plans of each price, for what the holes are does not matter: both meet the goal or neither. */
const GRID = [2, 3, 4, 5, 6, 7, 8].flatMap((seeds) => [
  sown(seeds, 0.8),
  { ...sown(seeds, 0.8), name: `${seeds} again` },
]);

type SearchStudy = Study<readonly CandidateResult[], SearchResult>;

async function result(
  study: SearchStudy,
  crew: WorkerPool = new SeasonRunner(study.workload),
  pause?: Pause,
): Promise<SearchResult> {
  return study.conclude(await study.carryOut(crew, WHOLE, pause)) as SearchResult;
}

/** Several hands that are never done in the order in which they began. */
function restless(workload: Workload, hands: number): WorkerPool {
  const crew = new SeasonRunner(workload);
  let turn = 0;
  return {
    concurrency: hands,
    tally: (...piece) => crew.tally(...piece),
    close: () => crew.close(),
    weeks: async (...seasons) => {
      const waits = (turn++ * 7) % 5;
      for (let i = 0; i < waits; i++) await new Promise<void>((resolve) => setImmediate(resolve));
      return crew.weeks(...seasons);
    },
  };
}

describe('a search', () => {
  test('finds the cheapest plan that meets the goal and the next ones', async () => {
    // Every seed sprouts: 4 seeds are 4 heads in each week, 3 are not.
    const { best, runners_up, nearest, same_cost } = await result(
      searchStudy(
        [7, 2, 5, 3, 4, 6].map((seeds) => sown(seeds, 1)),
        GOAL,
        1,
      ),
    );
    expect(best).toMatchObject({
      name: '4 seeds, 50 holes',
      place: 3,
      heads_a_week: 4,
      bad_week: 4,
      steadiness: 1,
    });
    expect(best!.weeks_met).toMatchObject({ mean: 1, high: 1 });
    expect(runners_up.map(({ name }) => name)).toEqual(['5 seeds, 50 holes', '6 seeds, 50 holes']);
    expect([nearest, same_cost]).toEqual([null, 1]);
  });

  test('counts the seasons of its verdicts: 20 for what misses, as many as any test needs for what never fails', async () => {
    const { seasons, plans } = await result(
      searchStudy(
        [2, 3, 4, 5, 6, 7].map((n) => sown(n, 1)),
        GOAL,
        1,
      ),
    );
    // beta = 0.05 / 6. A mean of 0.88 gives n good seasons in a row with 0.88^n: below beta from n = 38 on. The bets are split over 4
    // stakes, so that they take ln(4) / ln(1 / 0.88) = 11 more at most.
    const judged = plans.map((plan) => plan.seasons);
    expect([judged[0], judged[1], judged[5]]).toEqual([20, 20, 20]);
    for (const used of judged.slice(2, 5)) {
      expect(used).toBeGreaterThanOrEqual(38);
      expect(used).toBeLessThanOrEqual(38 + 11);
    }
    expect(seasons.used).toBe(judged.reduce((sum, used) => sum + used, 0));
    // The full grid: 20 where 20 bad seasons are enough, 38 for each plan that never fails.
    expect(seasons.full_grid).toBe(2 * 20 + 4 * 38);
  });

  test('judges a plan by its seasons from the first on, one after the other', async () => {
    // P(4 or 5 of 5) = 0.93: near the goal of 0.9, so that several stints are needed.
    const candidate = sown(5, 0.91);
    const { best } = await result(searchStudy([candidate], GOAL, 8));
    expect(best!.seasons).toBeGreaterThan(60);
    const seasons = new Line(candidate.plan);
    let heads = 0;
    let good = 0;
    for (let season = 0; season < best!.seasons; season++) {
      // The first week that counts is the third.
      for (const picked of seasons.run(8, season).weekPicks.subarray(2)) {
        heads += picked;
        if (picked >= GOAL.heads) good++;
      }
    }
    const weeks = best!.seasons * (WEEKS - 2);
    expect(best!.heads_a_week).toBeCloseTo(heads / weeks, 12);
    expect(best!.weeks_met.mean).toBeCloseTo(good / weeks, 12);
  });

  test('tells how many seasons there will probably be', async () => {
    const study = searchStudy([sown(5, 0.91)], GOAL, 8);
    const told: { done: number; all: number }[] = [];
    await study.carryOut(new SeasonRunner(study.workload), WHOLE, async (done, all) => {
      told.push({ done, all });
      return true;
    });
    expect(told.every(({ done, all }) => done <= all)).toBe(true);
    expect(told[0]!.all).toBe(20);
    // So near the goal that many more are needed: that is known once the first seasons are done.
    const next = told.find(({ done }) => done > 20)!;
    expect(next.all).toBeGreaterThan(next.done);
  });

  test('says which came nearest if none meets the goal', async () => {
    const found = await result(
      searchStudy(
        [1, 3, 2].map((seeds) => sown(seeds, 0.9)),
        GOAL,
        1,
      ),
    );
    expect([found.best, found.runners_up, found.partial]).toEqual([null, [], false]);
    // None has a good week: of equal ones the one with most heads.
    expect(found.nearest).toMatchObject({ name: '3 seeds, 50 holes', weeks_met: { mean: 0 } });
    const closer = await result(searchStudy([sown(3, 1), sown(4, 0.9), sown(5, 0.8)], GOAL, 1));
    // P(4 of 4) = 0.66, P(4 or 5 of 5) = 0.74: neither is 0.9.
    expect(closer.nearest).toMatchObject({ name: '5 seeds, 50 holes' });
  });

  test('the frontier holds what brings more or is steadier', async () => {
    const candidates = [sown(20, 0.5), sown(6, 0.5), sown(5, 0.95), sown(3, 1)];
    const { plans, frontier } = await result(searchStudy(candidates, GOAL, 1));
    expect(plans.map(({ settings }) => settings.seeds)).toEqual([3, 5, 6, 20]);
    // 10 heads, 7 in a bad week; 4.75 and 4; 3 heads each week. 6 seeds bring 3 heads as well, but 1 in a bad week.
    expect(frontier).toEqual([4, 2, 1]);
  });

  test('tells what was searched', async () => {
    const { within, counted, candidates } = await result(
      searchStudy(
        [5, 2].map((seeds) => sown(seeds, 1)),
        GOAL,
        1,
      ),
    );
    expect(within).toEqual({ every: [7], seeds: [2, 5] });
    // Settled after 7 days and at most 7 without a visit: from the third week on.
    expect(counted).toEqual({ from: '2027-01-18', weeks: 8 });
    expect(candidates).toBe(2);
  });

  test('refuses to begin where no week counts', () => {
    const { plan, ...rest } = sown(4, 1);
    expect(() => searchStudy([{ ...rest, plan: { ...plan, weeks: 2 } }], GOAL, 1)).toThrow(RangeError);
  });
});

describe('the result is the same to the last digit', () => {
  const text = (found: SearchResult): string => JSON.stringify(found);

  test('whoever runs the seasons, and in whatever order', async () => {
    for (const seed of [1, 2, 3]) {
      const study = searchStudy(GRID, GOAL, seed);
      const whole = await result(study);
      expect(whole.same_cost).toBe(2);
      for (const hands of [2, 5, 40]) {
        expect(text(await result(study, restless(study.workload, hands)))).toBe(text(whole));
      }
    }
  });

  test('in parts that were written, read and joined in another order', async () => {
    for (const [n, seed] of [
      [1, 1],
      [2, 2],
      [3, 3],
      [5, 4],
      [14, 5],
    ] as const) {
      const study = searchStudy(GRID, GOAL, seed);
      const parts: unknown[] = [];
      for (let k = n; k >= 1; k--) {
        const yielded = await study.carryOut(restless(study.workload, 1 + (k % 3)), { k, n });
        parts.push(JSON.parse(JSON.stringify(study.pack(yielded))));
      }
      expect(text(study.conclude(study.unpack(parts)) as SearchResult)).toBe(text(await result(study)));
    }
  });

  test('in parts also where no plan meets the goal and it is looked for what stands in the way', async () => {
    const study = searchStudy(GRID, { ...GOAL, heads: 9 }, 1);
    const parts: unknown[] = [];
    for (const k of [2, 3, 1])
      parts.push(await study.carryOut(new SeasonRunner(study.workload), { k, n: 3 }));
    const whole = await result(study);
    expect(whole.nearest?.name).toMatch(/^8 /);
    expect(whole.obstacles?.in_the_way).toEqual(['seeds']);
    expect(text(study.conclude(study.unpack(parts)) as SearchResult)).toBe(text(whole));
  });

  test('parts that are not whole are refused', async () => {
    const study = searchStudy(GRID, GOAL, 1);
    const part = (k: number) => study.carryOut(new SeasonRunner(study.workload), { k, n: 2 });
    const [first, second] = [await part(1), await part(2)];
    const fault = (data: unknown, k = 2) => study.faultOf(data, { k, n: 2 });
    expect([fault(first, 1), fault(second)]).toEqual([null, null]);
    expect(fault(undefined)).toBe('its data are not there');
    expect(fault(first)).not.toBeNull();
    for (const some of [[...second, second[0]], second.slice(1)]) {
      expect(fault(some)).toBe('its data are not as many as they must be');
    }
    const [one, ...others] = second as [CandidateResult, ...CandidateResult[]];
    const damaged = (change: object): string | null => fault([{ ...one, ...change }, ...others]);
    const { good, picks } = one.first;
    expect(damaged({ first: { good } })).toBe('its data are not whole at 0.first.picks');
    expect(damaged({ first: { good: good.slice(1), picks } })).toBe('its data are not whole at 0.first.good');
    expect(damaged({ first: { good, picks: [...picks, 1] } })).toBe('its data are not whole at 0.first');
    expect(damaged({ first: { good, picks: [1e9, ...picks.slice(1)] } })).toBe(
      'its data are not whole at 0.first.picks',
    );
    expect(damaged({ judged: { good: good.map(() => 99), picks } })).toBe(
      'its data are not whole at 0.judged.good.0',
    );
  });
});

describe('a search that is stopped', () => {
  /** Stops after so many seasons. */
  const stopAfter =
    (seasons: number): Pause =>
    async (done) =>
      done < seasons;

  test('before any plan had its first seasons gives nothing', async () => {
    const study = searchStudy(GRID, GOAL, 1);
    const trials = await study.carryOut(new SeasonRunner(study.workload), WHOLE, stopAfter(19));
    expect(study.conclude(trials)).toBeNull();
  });

  test('gives what is known by then, marked as partial', async () => {
    const study = searchStudy(GRID, GOAL, 1);
    const whole = await result(study);
    // 3 plans whole, 5 seasons of the next.
    const early = await result(study, new SeasonRunner(study.workload), stopAfter(65));
    expect([early.partial, early.plans.length, early.seasons.used]).toEqual([true, 3, 60]);
    // All plans have had their first seasons, some of those that need more not yet all of them.
    const late = await result(study, new SeasonRunner(study.workload), stopAfter(20 * GRID.length + 30));
    expect([late.partial, late.plans.length]).toEqual([true, GRID.length]);
    expect(late.seasons.used).toBeGreaterThanOrEqual(20 * GRID.length);
    expect(late.seasons.used).toBeLessThan(whole.seasons.used);
    expect(whole.partial).toBe(false);
  });

  test('is partial also if the plans by then would be enough', async () => {
    // So low a goal is met beyond doubt after the first seasons.
    const plans = [2, 3, 4, 5].map((seeds) => sown(seeds, 0.8));
    const study = searchStudy(plans, { ...GOAL, heads: 1, weeksMet: 0.1, runners: 0 }, 1);
    const early = await result(study, new SeasonRunner(study.workload), stopAfter(65));
    expect(early.best).not.toBeNull();
    expect([early.partial, early.plans.length]).toEqual([true, 3]);
    expect((await result(study)).partial).toBe(false);
  });
});
