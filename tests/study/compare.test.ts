import { describe, expect, test } from 'vitest';
import type { Plan } from '../../sim/models/plan.js';
import { gather } from '../../sim/seasons/gather.js';
import { type CompareResult, compareStudy } from '../../sim/study/compare.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

const WEEKS = 20;

/** A line that nothing holds up: what is sown is picked 21 days later. */
function plain(seedsADay: number, rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('nursery', 400), stage('finishing', 400)],
    [crop([grow(time(7)), grow(time(14))], every(1, WEEKS * 7, seedsADay))],
    { weeks: WEEKS, visits: visitDays(WEEKS), ...rest },
  );
}

/** A crowded line in which much is left to chance. */
function crowded(holes: number): Plan {
  return line(
    [stage('nursery', 20), stage('finishing', holes)],
    [
      crop([grow(time(7, 0.3), { loss: 0.1, keeps: 3 }), grow(time(14, 0.3))], every(2, WEEKS * 7, 5), {
        germination: 0.8,
      }),
    ],
    { weeks: WEEKS, visits: visitDays(WEEKS, [1, 0, 0]) },
  );
}

async function compared(
  plans: Readonly<Record<string, Plan>>,
  { seasons = 40, by = null as string | null } = {},
): Promise<CompareResult> {
  const contenders = Object.entries(plans).map(([name, plan]) => ({ name, plan }));
  const study = compareStudy(contenders, 1, seasons, by);
  return study.conclude(await gather(study.workload))!;
}

describe('where nothing is left to chance', () => {
  test('the figures are those of pencil and paper', async () => {
    const { plans, running } = await compared({ two: plain(2), three: plain(3) }, { seasons: 5 });
    // The first pick is on day 21, the first week that begins after a first pick begins on day 28.
    expect(running).toEqual({ from: '2027-02-01', weeks: 16 });
    const [two, three] = plans;
    expect(two!.figures['heads_a_week']).toEqual({ mean: 14, low: 14, high: 14, difference: null });
    expect(two!.figures['bad_week']!.mean).toBe(14);
    expect(two!.figures['weeks_without_pick']!.mean).toBe(0);
    expect(two!.figures['first_pick_day']!.mean).toBe(21);
    // 2 a day on 140 days; those of the last 21 days still stand.
    expect(two!.figures['seeds_a_head']!.mean).toBe(280 / 238);
    expect(two!.figures['hole_days_a_head']!.mean).toBe((800 * 140) / 238);
    expect(two!.figures['thrown_away']!.mean).toBe(0);
    // Nursery: 14 plants stand from day 7 on, before 2 more each day.
    const occupied = 2 * (1 + 2 + 3 + 4 + 5 + 6) + 14 * 134;
    expect(two!.idle[0]!.share!.mean).toBeCloseTo(1 - occupied / (400 * 140), 14);
    expect(three!.figures['heads_a_week']!.difference).toEqual({ mean: 7, low: 7, high: 7, verdict: 'more' });
  });

  test('a plan against itself shows no difference in any figure', async () => {
    const { plans } = await compared({ this: crowded(30), same: crowded(30) });
    for (const figure of Object.values(plans[1]!.figures)) {
      expect(figure!.difference).toEqual({ mean: 0, low: 0, high: 0, verdict: 'none' });
    }
    for (const { share } of plans[1]!.idle) expect(share!.difference!.verdict).toBe('none');
  });

  test('only weeks count in which every line is running that ever runs', async () => {
    const late = { ...plain(2), crops: [crop([grow(time(20)), grow(time(30))], every(1, WEEKS * 7, 2))] };
    const never = { ...plain(2), crops: [crop([grow(time(90)), grow(time(90))], every(1, WEEKS * 7, 2))] };
    const { running, plans } = await compared({ early: plain(2), late, never }, { seasons: 5 });
    // The late line picks from day 50 on: the first week that begins after that is the one of day 56.
    expect(running!.from).toBe('2027-03-01');
    expect(plans[2]!.figures['heads_a_week']!.mean).toBe(0);
    expect(plans[2]!.figures['seeds_a_head']).toBeNull();
    expect(plans[2]!.figures['first_pick_day']).toBeNull();
    expect(plans[2]!.limits).toBeNull();
  });

  test('lines that never run have no figures of weeks, and say so', async () => {
    const never = { ...plain(2), crops: [crop([grow(time(90)), grow(time(90))], every(1, WEEKS * 7, 2))] };
    const { running, plans } = await compared({ never, neither: never }, { seasons: 5 });
    expect(running).toBeNull();
    expect(plans[0]!.figures['heads_a_week']).toBeNull();
  });
});

describe('order', () => {
  const plans = { two: plain(2), four: plain(4), three: plain(3) };
  test.each([
    [null, ['two', 'four', 'three']],
    ['heads_a_week', ['four', 'three', 'two']],
    ['hole_days_a_head', ['four', 'three', 'two']],
    // Equal ones stay as they were.
    ['first_pick_day', ['two', 'four', 'three']],
  ])('by %s', async (by, names) => {
    const result = await compared(plans, { seasons: 2, by });
    expect(result.plans.map(({ name }) => name)).toEqual(names);
    expect(result.first).toBe('two');
  });

  test('plans without the figure come last', async () => {
    const never = { ...plain(2), crops: [crop([grow(time(90)), grow(time(90))], every(1, WEEKS * 7, 2))] };
    const result = await compared(
      { never, two: plain(2), three: plain(3) },
      { seasons: 2, by: 'seeds_a_head' },
    );
    expect(result.plans.map(({ name }) => name)).toEqual(['two', 'three', 'never']);
  });
});

describe('luck', () => {
  test('that both plans share cancels out: the difference is known far better than the figures', async () => {
    const { plans } = await compared({ thirty: crowded(30), more: crowded(31) }, { seasons: 200 });
    const figure = plans[1]!.figures['heads_a_week']!;
    const width = figure.high! - figure.low!;
    const difference = figure.difference!;
    expect(difference.high! - difference.low!).toBeLessThan(width / 2);
  });

  test('does not make a difference of what is none: 19 of 20 comparisons of like plans say none', async () => {
    // Crops of other names have other luck. The verdict is wrong in 1 of 20 on average: of 200, 10 (standard error 3.1).
    let wrong = 0;
    for (let seed = 0; seed < 200; seed++) {
      const renamed = { ...crowded(30), crops: crowded(30).crops.map((c) => ({ ...c, name: 'other' })) };
      const contenders = [
        { name: 'a', plan: crowded(30) },
        { name: 'b', plan: renamed },
      ];
      const study = compareStudy(contenders, seed, 40, null);
      const { plans } = study.conclude(
        await gather({ ...study.workload, jobs: withoutTrials(study.workload.jobs) }),
      )!;
      if (plans[1]!.figures['heads_a_week']!.difference!.verdict !== 'none') wrong++;
    }
    expect(wrong).toBeLessThanOrEqual(10 + 3 * 3.1);
    expect(wrong).toBeGreaterThan(0);
  });

  test('with one season there are no intervals, and nothing is called a difference', async () => {
    const { plans } = await compared({ a: crowded(30), b: crowded(40) }, { seasons: 1 });
    const { low, high, difference } = plans[1]!.figures['heads_a_week']!;
    expect([low, high, difference!.verdict]).toEqual([null, null, 'unknown']);
  });
});

function withoutTrials<Job extends { readonly trials: number }>(jobs: readonly Job[]): Job[] {
  return jobs.map((job) => ({ ...job, trials: 0 }));
}
