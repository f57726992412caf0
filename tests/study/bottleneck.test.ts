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
    // 10 % more of 14 seeds a week, and as many heads.
    const seeds = limits.trials.find(({ change }) => change.kind === 'seeds')!;
    expect(seeds.gain).toBeCloseTo(1.4, 1);
    expect(seeds.elasticity.mean).toBeCloseTo(1, 1);
  });

  test('what is wanted, when that is picked', async () => {
    const plan = twoStages([40, 100], 2, { want: { heads: 3, days: mondays() } });
    expect(await limitsThere(plan)).toMatchObject({ by: 'want' });
  });

  test('the visits, when more is wanted than is there to be picked on the few', async () => {
    // 3 heads are wanted every day and may be picked on one day of the week; more than enough are sown.
    const plan = twoStages([200, 300], 4, {
      visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]),
      want: { heads: 3, days: Array.from({ length: DAYS }, (_, day) => day) },
    });
    const limits = await limitsThere(plan);
    expect(limits).toMatchObject({ by: 'visits', stages: [] });
    // 7 times the visits, and 7 times the heads.
    const { gain, added, elasticity } = limits.trials.find(({ change }) => change.kind === 'visits')!;
    expect([gain, added]).toEqual([18, 6]);
    expect(elasticity).toEqual({ mean: 1, low: 1, high: 1 });
  });

  test('the absence, when what is wanted is picked but for the days on which nobody can come', async () => {
    const gone = [105, 112, 119];
    const days = Array.from({ length: DAYS }, (_, day) => day).filter((day) => day < 105 || day > 119);
    const away = { days: Array.from({ length: 15 }, (_, i) => 105 + i), visits: gone };
    const plan = twoStages([40, 200], 2, {
      want: { heads: 3, days: mondays() },
      visits: { kind: 'days', days: days.filter((day) => day % 7 === 0), away },
    });
    const limits = await limitsThere(plan);
    expect(limits).toMatchObject({ by: 'away', stages: [] });
    const first = limits.trials.find(({ change }) => change.kind === 'away')!;
    // Three Mondays with 3 heads each; the weeks that count begin with the first pick.
    const weeks = WEEKS - 9;
    expect(first.gain).toBeCloseTo(9 / weeks, 12);
  });

  test.each([467, 47])(
    'judged free of scale: germination, of %d channels as of a tenth',
    async (channels) => {
      // Germination passes on channels / 7 a day; three times its holes would do in finishing, and seeds are sown without end.
      const plan = line(
        [
          { ...stage('germination', 1), channels },
          { ...stage('finishing', 1), channels: 4 * channels },
        ],
        [crop([grow(time(7, 0.1)), grow(time(21, 0.1))], every(1, DAYS, Math.ceil(channels / 4)))],
        { weeks: WEEKS },
      );
      const limits = await limitsThere(plan, channels === 467 ? 5 : 12);
      expect(limits).toMatchObject({ by: 'stage', stages: ['germination'] });
      const [germination, finishing] = limits.trials;
      const tried = channels === 467 ? 5 : 1;
      expect(germination!.change).toMatchObject({ channels: tried, holes: tried });
      expect(germination!.added).toBeCloseTo(tried / channels, 12);
      // What limits alone: each 1 % more room brings 1 % more heads.
      expect(germination!.elasticity.low).toBeLessThan(1);
      expect(germination!.elasticity.high).toBeGreaterThan(1);
      expect(germination!.elasticity.high - germination!.elasticity.low).toBeLessThan(0.3);
      expect(finishing!.elasticity).toEqual({ mean: 0, low: 0, high: 0 });
    },
  );
});

test('beside the remedies stands what it costs if all growing takes a tenth longer', async () => {
  // 42 holes of 21 d, always full: 14 heads a week; of 23.1 d: 12.73.
  const plan = line([stage('finishing', 42)], [crop([grow(time(21))], every(0.1, DAYS, 5))], {
    weeks: WEEKS,
  });
  const { risk } = await limitsThere(plan, 5);
  expect(risk.change).toEqual({ kind: 'growing', percent: 10 });
  // Rounds of 42 are cut by the end of 23 weeks.
  expect(Math.abs(risk.gain - (14 / 1.1 - 14))).toBeLessThan(42 / 23);
  expect([risk.low, risk.high]).toEqual([risk.gain, risk.gain]);
});

test('that it begins later is no loss of each week', async () => {
  // Two a day are sown and picked, in 34 days or in 37.4: the first weeks that count begin on days 35 and 42.
  const plan = line(
    [stage('nursery', 100), stage('finishing', 100)],
    [crop([grow(time(10)), grow(time(24))], every(1, DAYS, 2))],
    { weeks: WEEKS },
  );
  const { risk } = await limitsThere(plan, 5);
  expect(risk).toMatchObject({ gain: 0, low: 0, high: 0 });
});

test('where what is sown holds it back it is told too what brings more for what it adds', async () => {
  // Two a day on 26 Mondays but three: a visit more than 23 brings what it would have picked, and seeds no more than their share.
  const gone = [105, 112, 119];
  const days = Array.from({ length: DAYS }, (_, day) => day).filter(
    (day) => day % 7 === 0 && !gone.includes(day),
  );
  const plan = line([stage('finishing', 100)], [crop([grow(time(20), { keeps: 3 })], every(7, DAYS, 10))], {
    weeks: WEEKS,
    visits: {
      kind: 'days',
      days,
      away: { days: Array.from({ length: 15 }, (_, i) => 105 + i), visits: gone },
    },
  });
  const limits = await limitsThere(plan, 5);
  expect(limits).toMatchObject({ by: 'sowing', stages: [], better: [{ kind: 'away' }] });
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
  // As it is, with a channel more in either stage, with more seeds, and with the risk.
  const picks = [nothing, nothing, nothing, nothing, nothing];
  const tried = [0, 1].map((season) => ({ season, picks }));
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
