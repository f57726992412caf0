/**
 * The fit against truth that is known: simulated seasons, written down as a grower would have, and fitted.
 *
 * Two visits a week, batches that come into a stage over several visits, a finishing stage that is too small,
 * and a log that ends while plants still stand.
 *
 * Of 6000 other logs (12 other seeds) the intervals hold the truth in 94.1 to 95.4 %, by figure, each known to
 * 0.3 percentage points. The spread of the nursery is the least of them: there plants wait and batches are mixed.
 * Germination is held in 94.1 %, and could not be held in more: so much an interval like this one gives for 200 seeds
 * of which 85 % sprout, computed from the binomial law, because seeds are whole numbers.
 */

import { beforeAll, describe, expect, test } from 'vitest';
import { observe } from '../../../sim/season/fit/observations.js';
import { fifoStays } from '../../../sim/season/fit/survival/fifo-stays.js';
import type { KindModel } from '../../../sim/season/fit/survival/kind-search.js';
import type { ProfileEstimate } from '../../../sim/season/fit/survival/profile.js';
import { type Group, type StageRecord, total } from '../../../sim/season/fit/survival/record.js';
import { fitStage } from '../../../sim/season/fit/survival/stage-fit.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { repeats, shareError } from '../../support/repeats.js';
import { simulatedLog } from '../../support/simulated-log.js';

const REPEATS = repeats(120, 500);
const SEED = 1;
const STAGES = ['tray', 'nursery', 'finishing'];
/** Two standard errors and a little: with 500 logs 95 % are 93 to 97. */
const ALLOWED = 2.05 * shareError(0.95, REPEATS);
/** The last visit of the log is on day 91; sowing ends on day 66.5. */
const UNTIL = 92;

const PLAN = line(
  [stage('tray', 60), stage('nursery', 80), stage('finishing', 50)],
  [
    crop(
      [grow(time(10, 0.2)), grow(time(14, 0.15), { loss: 0.08 }), grow(time(21, 0.15), { loss: 0.05 })],
      every(3.5, 70, 10),
      { germination: 0.85 },
    ),
  ],
  { weeks: 20, visits: visitDays(20, [1, 0, 0, 1, 0, 0, 0]) },
);

const TRUTH = [
  { days: 10, spread: 0.2, share: 0.85 },
  { days: 14, spread: 0.15, share: 0.08 },
  { days: 21, spread: 0.15, share: 0.05 },
];

const question = (s: number): KindModel => ({
  shape: 'lognormal',
  seeds: s === 0,
  losses: s > 0,
  guess: { mean: 14, cv: 0.15 },
  fit: true,
});

/** `share`: germination in the first stage, loss in the others. */
const FIGURES = ['days', 'spread', 'share'] as const;

/** Results over the repeats, by stage and figure. */
const found = STAGES.map(() => ({
  days: [] as ProfileEstimate[],
  spread: [] as ProfileEstimate[],
  share: [] as ProfileEstimate[],
}));
/**
 * In the nursery: mean days from coming in to moving on, and the spread if plants were taken to leave in
 * turn.
 */
const naive: number[] = [];
const inTurn: ProfileEstimate[] = [];
const counts = { ready: 0, short: 0, standing: 0, entered: 0 };

/** The same group as if its plants had left in the order of their coming, one group for each date. */
function takenInTurn(group: Group, record: StageRecord): Group[] {
  const stays = fifoStays(group, record);
  return group.entries.map(({ day, count }) => {
    const mine = stays.filter((stay) => stay.day === day);
    return {
      kind: group.kind,
      entries: [{ day, count }],
      ready: mine.filter(({ end }) => end === 'ready'),
      dead: mine.filter(({ end }) => end === 'dead'),
      standing: total(mine.filter(({ end }) => end === 'standing')),
    };
  });
}

function watchNursery(record: StageRecord, season: number): void {
  const stays = record.groups.flatMap((group) => fifoStays(group, record));
  const moved = stays.filter(({ end }) => end === 'ready');
  const days = moved.reduce(
    (sum, { day, count, visit }) => sum + count * (record.visits[visit]!.day - day),
    0,
  );
  naive.push(days / total(moved));
  for (const group of record.groups) {
    counts.ready += total(group.ready);
    counts.short += total(group.ready.filter(({ visit }) => record.visits[visit]!.short));
    counts.standing += group.standing;
    counts.entered += total(group.entries);
  }
  // A fifth of the logs will do for a difference that is ten times its error.
  if (season % 5 > 0) return;
  const groups = record.groups.flatMap((group) => takenInTurn(group, record));
  inTurn.push(fitStage({ ...record, groups }, [question(1)], false)[0]!.spread);
}

// A quarter of a minute of one processor; in full more than one.
beforeAll(() => {
  for (let season = 0; season < REPEATS; season++) {
    const { stages } = observe(simulatedLog(PLAN, SEED, season, { until: UNTIL }), STAGES, PLAN);
    for (const [s, { record }] of stages.entries()) {
      const { days, spread, loss, germination } = fitStage(record, [question(s)], false)[0]!;
      found[s]!.days.push(days);
      found[s]!.spread.push(spread);
      found[s]!.share.push((s === 0 ? germination : loss)!);
    }
    watchNursery(stages[1]!.record, season);
  }
});

test('the logs are such as were asked for: plants that waited for a hole, and about a tenth still standing', () => {
  expect(counts.short / counts.ready).toBeGreaterThan(0.25);
  expect(Math.abs(counts.standing / counts.entered - 0.1)).toBeLessThan(0.03);
});

describe.each(STAGES.map((name, s) => [name, s] as const))('%s', (_, s) => {
  test.each(FIGURES)('intervals of its %s hold the truth in 95 of 100 logs, but for chance', (figure) => {
    const truth = TRUTH[s]![figure];
    const held = found[s]![figure].filter(({ low, high }) => low <= truth && truth <= high).length;
    expect(held / REPEATS).toBeGreaterThanOrEqual(0.95 - ALLOWED);
    expect(held / REPEATS).toBeLessThanOrEqual(0.95 + ALLOWED);
  });

  test('its mean days are right on average, to 2 % and to what chance allows', () => {
    const ratios = found[s]!.days.map(({ value }) => value / TRUTH[s]!.days);
    const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / REPEATS;
    const variance = ratios.reduce((sum, ratio) => sum + (ratio - mean) ** 2, 0) / (REPEATS - 1);
    expect(Math.abs(mean - 1)).toBeLessThan(0.02);
    // Four standard errors; of 500 they are below a thousandth.
    expect(Math.abs(mean - 1)).toBeLessThan(4 * Math.sqrt(variance / REPEATS));
  });

  test('its spread is right on average to 3 %', () => {
    const mean = found[s]!.spread.reduce((sum, { value }) => sum + value, 0) / REPEATS;
    // A spread from some 150 plants, each known to within a visit, is too small by about a percent: it is
    // found as a logarithm, whose distribution is lopsided.
    expect(Math.abs(mean / TRUTH[s]!.spread - 1)).toBeLessThan(0.03);
  });
});

test('the mean of the days from coming in to moving on is too long by more than a tenth on the same logs', () => {
  const mean = naive.reduce((sum, days) => sum + days, 0) / naive.length;
  expect(mean / TRUTH[1]!.days).toBeGreaterThan(1.1);
  expect(Math.min(...naive)).toBeGreaterThan(TRUTH[1]!.days);
});

test('taking the plants of a batch to leave in turn makes the spread too small, and its intervals miss it', () => {
  const mean = inTurn.reduce((sum, { value }) => sum + value, 0) / inTurn.length;
  expect(mean).toBeLessThan(0.9 * TRUTH[1]!.spread);
  const held = inTurn.filter(({ low, high }) => low <= 0.15 && 0.15 <= high).length;
  expect(held / inTurn.length).toBeLessThan(0.75);
});
