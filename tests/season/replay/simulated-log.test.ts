/** The simulated log is what later tests rest on: it is held against the season that it tells of. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dayFrom } from '../../../sim/models/dates.js';
import { DISCARDED, PICKED, SOWN } from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import type { Plan } from '../../../sim/models/plan.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { logText, simulatedLog } from '../../support/simulated-log.js';

const SEED = 20270104;

/** Two stages; plants need 3 and 4 days; visits on even days. */
const plan = line(
  [stage('nursery', 4), stage('finishing', 3)],
  [crop([grow(time(3)), grow(time(4))], every(6, 14, 2), { name: 'chard', headG: 50 })],
  { weeks: 2, visits: visitDays(2, [1, 0]) },
);

function counted(rows: readonly LogRow[], action: LogRow['action'], note?: string): number {
  return rows
    .filter((row) => row.action === action && (note === undefined || row.note === note))
    .reduce((sum, row) => sum + row.count, 0);
}

test('a small season by hand: sown on days 0, 6 and 12, moved after 4 days, picked after 4 more', () => {
  expect(
    simulatedLog(plan, 1, 0).map((row) => [row.date, row.action, row.batch, row.stage, row.count]),
  ).toEqual([
    ['2027-01-04', 'sow', 'B1', 'nursery', 2],
    ['2027-01-08', 'move', 'B1', 'finishing', 2],
    ['2027-01-10', 'sow', 'B2', 'nursery', 2],
    ['2027-01-12', 'pick', 'B1', 'finishing', 2],
    ['2027-01-14', 'move', 'B2', 'finishing', 2],
    ['2027-01-16', 'sow', 'B3', 'nursery', 2],
  ]);
});

test('the log may end early, tell channels, and is written as CSV', () => {
  expect(logText(simulatedLog(plan, 1, 0, { until: 8, channels: true }))).toBe(
    [
      'date,action,crop,batch,stage,channel,count,grams,note',
      '2027-01-04,sow,chard,B1,nursery,1,2,,',
      '2027-01-08,move,chard,B1,finishing,1,2,,',
      '2027-01-10,sow,chard,B2,nursery,1,2,,',
      '',
    ].join('\r\n'),
  );
  expect(simulatedLog(plan, 1, 0).find((row) => row.action === 'pick')).toMatchObject({
    count: 2,
    grams: 100,
  });
});

test('a sowing that takes several trays is one row without a channel', () => {
  const trays = { ...plan, stages: [{ ...stage('nursery', 1), channels: 4 }, stage('finishing', 3)] };
  const [sow, move] = simulatedLog(trays, 1, 0, { channels: true });
  expect(sow).toMatchObject({ action: 'sow', count: 2, channel: null });
  expect(move).toMatchObject({ action: 'move', count: 2, channel: '1' });
});

test('on every line with visit days the log has as many as the season counts, on visit dates only', () => {
  const withDays = arbitraryPlan().filter((some) => some.visits.kind === 'days');
  const law = (some: Plan): void => {
    const rows = simulatedLog(some, 5, 2);
    const season = new Line(some).run(5, 2);
    expect(counted(rows, 'sow')).toBe(season.counts[SOWN]);
    expect(counted(rows, 'pick')).toBe(season.counts[PICKED]);
    expect(counted(rows, 'lose', 'discarded')).toBe(season.counts[DISCARDED]);
    const days = some.visits.kind === 'days' ? some.visits.days : [];
    for (const row of rows) expect(days).toContain(dayFrom(some.start, row.date));
  };
  fc.assert(fc.property(withDays, law), { seed: SEED, numRuns: 60 });
});
