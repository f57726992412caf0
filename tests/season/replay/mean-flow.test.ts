import { expect, test } from 'vitest';
import { MeanFlow } from '../../../sim/season/replay/mean-flow.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf } from '../../support/replayed.js';

/** Crops of 10 and 20 days in one bed; half a day more until the daily visit. */
const PLAN = line(
  [stage('bed', 6)],
  [10, 20].map((days) => ({ ...crop([grow(time(days))], every(7, 70, 1)), name: `${days} days` })),
  { weeks: 10, visits: visitDays(10) },
);

test('crops are weighted by what was sown of each', () => {
  const flow = new MeanFlow(seasonOf(PLAN, rowsOf(PLAN, ['0 sow B1 5 bed'])));
  expect(flow.mean(0).stay).toBe(10.5);
});

test('where nothing was sown they count alike', () => {
  const flow = new MeanFlow(seasonOf(PLAN, rowsOf(PLAN, ['3 clean - 1 bed'])));
  expect(flow.mean(0).stay).toBe(15.5);
  // All that should stand there on the first day would have had to be sown before it.
  expect(flow.beforeTheStart(0, 0)).toBe(1);
  expect(flow.seedsNeeded(0)).toBe(6 / 15.5);
});

test('what is sown stands from its day on, also if that is the last of the season', () => {
  const flow = new MeanFlow(seasonOf(PLAN, rowsOf(PLAN, ['69 sow B1 5 bed'])));
  expect(flow.expected(0, 68)).toBe(0);
  expect(flow.expected(0, 69)).toBe(5);
});
