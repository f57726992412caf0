import { describe, expect, test } from 'vitest';
import type { Plan } from '../../sim/models/plan.js';
import { gather } from '../../sim/seasons/gather.js';
import { firstRunningWeek } from '../../sim/seasons/tallies.js';
import { type Bottleneck, findBottleneck, trialSeasons } from '../../sim/study/bottleneck.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

const WEEKS = 26;
const DAYS = WEEKS * 7;

/** A line of two stages, 7 and 21 days, whose holes and seeds decide what holds it back. */
function twoStages(holes: readonly [number, number], seedsADay: number, rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('nursery', holes[0]), stage('finishing', holes[1])],
    [crop([grow(time(7, 0.1), { keeps: 5 }), grow(time(21, 0.1))], every(1, DAYS, seedsADay))],
    { weeks: WEEKS, ...rest },
  );
}

async function limitsOf(plan: Plan, seasons = 12): Promise<Bottleneck | null> {
  const gathered = await gather({ seed: plan.seed, sections: 1, jobs: [{ plan, seasons, trials: seasons }] });
  return findBottleneck(plan, gathered.trials(0), firstRunningWeek(gathered.whole(0)));
}

/** For lines that have a running week. */
async function limitsThere(plan: Plan, seasons?: number): Promise<Bottleneck> {
  const limits = await limitsOf(plan, seasons);
  if (limits === null) throw new Error('no week of this line counts');
  return limits;
}

describe('what holds the line back is', () => {
  test('the finishing stage, when its holes are too few for what the nursery brings', async () => {
    // The nursery passes on 3 a day; finishing takes 42/21 = 2.
    const limits = await limitsThere(oneHoleChannels(twoStages([21, 42], 4)));
    expect(limits).toMatchObject({ by: 'stage', stages: ['finishing'] });
    const finishing = limits.trials.find(
      ({ change }) => change.kind === 'channel' && change.stage === 'finishing',
    )!;
    // One more hole is worth 1/21 heads a day: 1/3 a week. The line is full, so luck hardly matters.
    expect(finishing.low).toBeLessThan(1 / 3);
    expect(finishing.high).toBeGreaterThan(1 / 3);
  });

  test('the nursery, when finishing could take more', async () => {
    const limits = await limitsThere(oneHoleChannels(twoStages([7, 80], 4)));
    expect(limits).toMatchObject({ by: 'stage', stages: ['nursery'] });
  });

  test('what is sown, when there are holes enough', async () => {
    const limits = await limitsThere(twoStages([40, 100], 2));
    expect(limits).toMatchObject({ by: 'sowing', stages: [] });
    for (const { change, gain, brings } of limits.trials) {
      if (change.kind !== 'channel') continue;
      expect(gain).toBe(0);
      expect(brings).toBe(false);
    }
    // 10 % more of 2 seeds is rounded up to 3: 7 more heads a week.
    expect(limits.trials.find(({ change }) => change.kind === 'seeds')!.gain).toBeCloseTo(7, 0);
  });

  test('what is wanted, when that is picked', async () => {
    const plan = twoStages([40, 100], 2, { want: { heads: 3, days: mondays() } });
    expect(await limitsThere(plan)).toMatchObject({ by: 'want' });
  });

  test('the visits, when plants are thrown away before somebody comes', async () => {
    const refilled = twoStages([200, 300], 2, { visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]) });
    // No cadence, so that more seeds cannot be tried; nursery plants keep 2 days and are seen once a week.
    const [only] = refilled.crops;
    const plan: Plan = {
      ...refilled,
      crops: [
        {
          ...only!,
          sowing: { kind: 'refill' },
          stages: [grow(time(9, 0.2), { keeps: 2 }), grow(time(21, 0.1))],
        },
      ],
      stages: [stage('nursery', 400), stage('finishing', 40)].map((s) => ({ ...s, channels: 1 })),
    };
    const limits = await limitsThere(plan);
    expect(limits.trials.find(({ change }) => change.kind === 'visits')!.brings).toBe(true);
    expect(limits.by === 'visits' || limits.better.some(({ kind }) => kind === 'visits')).toBe(true);
  });
});

test('a stage that cannot be told from the best is named beside it', async () => {
  // Two stages of one kind in a row: holes in the last are worth what holes in the one before are.
  const plan = oneHoleChannels(
    line(
      [stage('seedlings', 200), stage('early', 30), stage('late', 30)],
      [crop([grow(time(2)), grow(time(15, 0.3)), grow(time(15, 0.3))], every(1, DAYS, 3))],
      { weeks: WEEKS },
    ),
  );
  const { by, stages } = await limitsThere(plan, 20);
  expect(by).toBe('stage');
  expect([...stages].sort()).toEqual(['early', 'late']);
});

test('the trials meet the luck of the baseline: a change that cannot matter brings exactly nothing', async () => {
  const { trials } = await limitsThere(twoStages([4000, 9000], 2));
  for (const trial of trials.filter(({ change }) => change.kind === 'channel')) {
    expect(trial).toMatchObject({ gain: 0, low: 0, high: 0, brings: false });
  }
});

test('without a running week there is nothing to try', async () => {
  expect(await limitsOf(twoStages([10, 10], 1, { weeks: 3 }), 5)).toBeNull();
});

test('in seasons that give nothing no change brings anything', () => {
  const plan = twoStages([10, 30], 1);
  const nothing = new Array<number>(WEEKS).fill(0);
  // As it is, with a channel more in either stage, with more seeds.
  const picks = [nothing, nothing, nothing, nothing];
  const tried = [0, 1].map((season) => ({ season, wanted: 0, short: 0, picks }));
  const limits = findBottleneck(plan, tried, 0);
  expect(limits).toMatchObject({ by: 'nothing', stages: [], better: [] });
  expect(limits!.trials.map(({ brings }) => brings)).toEqual([false, false, false]);
});

test('one season gives no interval, so nothing is judged', async () => {
  expect(await limitsOf(twoStages([10, 30], 1), 1)).toBeNull();
});

test.each([
  [1, 1],
  [3, 3],
  [20, 5],
  [60, 12],
  [200, 12],
  [1_000_000, 12],
])('of %d seasons, %d are run again for each trial', (seasons, trials) => {
  expect(trialSeasons(seasons)).toBe(trials);
});

/** The same holes, one a channel: then a channel more is a hole more. */
function oneHoleChannels(plan: Plan): Plan {
  return {
    ...plan,
    stages: plan.stages.map((s) => ({ ...s, channels: s.channels * s.holesPerChannel, holesPerChannel: 1 })),
  };
}

function mondays(): number[] {
  return Array.from({ length: WEEKS - 8 }, (_, week) => (week + 8) * 7);
}
