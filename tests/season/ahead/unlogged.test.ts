/**
 * A log in which no failed seed was ever written down tells what the same log tells with them: more stands by it than there are
 * cells, but what is overdue must be gone.
 */

import { describe, expect, test } from 'vitest';
import { Columns } from '../../../sim/engine/columns.js';
import { Moments } from '../../../sim/engine/tally.js';
import { isoOfDay } from '../../../sim/models/dates.js';
import { holesOf, type Plan } from '../../../sim/models/plan.js';
import { runFutures } from '../../../sim/season/ahead/futures.js';
import { InitialStates } from '../../../sim/season/ahead/initial-states.js';
import { type Today, todayOf } from '../../../sim/season/ahead/today.js';
import { picksIn } from '../../../sim/season/ahead/weeks-watch.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';

const DAY = 84;
const WEEKS = 4;

/** 3 in 10 seeds fail, at a time that varies much: of what stands in the tray some failed long ago, and are not overdue yet. */
function planOf(bed: number, keeps = 6): Plan {
  return line(
    [stage('tray', 40), stage('bed', bed)],
    [
      crop([grow(time(8, 0.25), { keeps }), grow(time(12, 0.15), { keeps: 6 })], every(3.5, 112, 12), {
        germination: 0.7,
      }),
    ],
    { weeks: 16, visits: visitDays(16, [1, 0, 0, 1, 0, 0, 0]) },
  );
}

const failed = ({ action, note }: LogRow): boolean => action === 'lose' && note === 'failed';

function at(rows: readonly LogRow[], plan: Plan): Today {
  const reading = todayOf(rows, plan, isoOfDay(plan.start, DAY));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.value;
}

async function heads(today: Today, plan: Plan, futures: number): Promise<number> {
  const setup = {
    openings: new InitialStates(today, 5),
    seed: 6,
    threads: null,
    pause: undefined,
    columns: new Columns(),
  };
  const seen = await runFutures(plan, futures, setup, 'heads', { from: DAY, weeks: WEEKS });
  return picksIn(seen!).reduce((sum, picks) => sum + picks, 0) / futures;
}

describe('what comes', () => {
  /*
   * The two forecasts differ in each log, since the one log tells more; but both are right on average, so the mean of
   * the differences is 0. 3 standard errors of it are allowed, which must be less than 1 % of the heads: a few seeds
   * stand failed on any day and are not overdue yet, and to take them for growing gives more than that.
   */
  test.each([
    ['where there is room for every seedling', 200],
    ['where seedlings wait for holes', 30],
  ])('is the same on average, %s', async (_, bed) => {
    const plan = planOf(bed);
    const difference = new Moments();
    const full = new Moments();
    let gone = 0;
    for (let season = 0; season < 60; season++) {
      const rows = simulatedLog(plan, 21, season, { until: DAY });
      const thin = at(
        rows.filter((row) => !failed(row)),
        plan,
      );
      gone += thin.unseen.length;
      const told = await heads(at(rows, plan), plan, 20);
      full.add(told);
      difference.add((await heads(thin, plan, 20)) - told);
    }
    expect(gone).toBeGreaterThan(60);
    expect(3 * difference.standardError).toBeLessThan(0.01 * full.mean);
    expect(Math.abs(difference.mean)).toBeLessThan(3 * difference.standardError);
  });
});

test('no opening has more plants than cells, also where those that are overdue may wait for ever', () => {
  // Nothing comes into the bed for long, and seedlings keep: who is overdue by its time may be ready and wait.
  const plan = planOf(4, Number.POSITIVE_INFINITY);
  const rows = simulatedLog(plan, 21, 0, { until: DAY }).filter((row) => !failed(row));
  const today = at(rows, plan);
  const { stand } = new InitialStates(today, 5);
  const inTray = stand!.plants.stage.filter((stage) => stage === 0).length;
  const byTheLog = rows.reduce(
    (sum, { action, count, stage: place }) =>
      sum + (action === 'sow' ? count : action === 'move' && place === 'bed' ? -count : 0),
    0,
  );
  expect(byTheLog).toBeGreaterThan(holesOf(plan.stages[0]!));
  expect(inTray).toBeLessThanOrEqual(holesOf(plan.stages[0]!));
  expect(today.unseen.reduce((sum, { count }) => sum + count, 0)).toBe(byTheLog - inTray);
});
