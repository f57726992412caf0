import { describe, expect, test } from 'vitest';
import { plannedSeeds, seedsNotSown } from '../../../sim/season/replay/planned-sowings.js';
import { crop, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf } from '../../support/replayed.js';

/** Visits on even days of a week; 4 seeds due on days 0, 1.5 and 4. */
const plan = line(
  [stage('bed', 20)],
  [crop([grow(time(30))], { kind: 'due', days: [0, 1.5, 4], seeds: 4 })],
  { weeks: 1, visits: visitDays(1, [1, 0]) },
);

/** Seeds not sown on days 0 to 6. @param free cells on each day @param missed planned visits without anybody */
function notSown(
  texts: readonly string[],
  free: readonly number[],
  missed: readonly number[] = [],
): number[] {
  const season = seasonOf(plan, rowsOf(plan, texts));
  const [short] = seedsNotSown(season, plannedSeeds(season), Int32Array.from(free), new Set(missed));
  return [...short!];
}

const ROOM = [9, 9, 9, 9, 9, 9, 9];

test('sowings are planned for the first visit at or after the day on which they fall due', () => {
  expect([...plannedSeeds(seasonOf(plan, []))[0]!]).toEqual([4, 0, 4, 0, 4, 0, 0]);
});

describe('seeds that were planned and not sown', () => {
  test('are those that are missing on the day', () => {
    expect(notSown(['0 sow A 4 bed', '2 sow B 1 bed', '4 sow C 4 bed'], ROOM)).toEqual([0, 0, 3, 0, 0, 0, 0]);
  });

  test('are made up for by those that are sown beyond the plan, as after a visit that was missed', () => {
    expect(notSown(['0 sow A 4 bed', '4 sow C 8 bed'], ROOM, [2])).toEqual([0, 0, 4, 0, -4, 0, 0]);
  });

  test('are not those for which there was no cell', () => {
    expect(notSown(['0 sow A 4 bed', '2 sow B 1 bed', '4 sow C 4 bed'], [9, 9, 0, 9, 9, 9, 9])).toEqual(
      new Array(7).fill(0),
    );
    // Nor are those that were due on a missed visit and found no cell at the next one.
    expect(notSown(['0 sow A 4 bed', '4 sow C 5 bed'], [9, 9, 9, 9, 0, 9, 9], [2])).toEqual([
      0, 0, 4, 0, -4, 0, 0,
    ]);
  });

  test('are not carried on: what somebody left out on a visit is not due again', () => {
    // Nothing was sown on day 2 although there were cells; on day 4 there was none for 2 of the 4.
    expect(notSown(['0 sow A 4 bed', '4 sow C 2 bed'], [9, 9, 9, 9, 0, 9, 9])).toEqual([0, 0, 4, 0, 0, 0, 0]);
    // The same after a missed visit: 8 were due on day 4, 4 were sown; on day 6 there is no cell for 4 more.
    const more = {
      ...plan,
      crops: [{ ...plan.crops[0]!, sowing: { kind: 'due' as const, days: [0, 2, 4, 6], seeds: 4 } }],
    };
    const season = seasonOf(more, rowsOf(more, ['0 sow A 4 bed', '4 sow C 4 bed']));
    const free = Int32Array.from([9, 9, 9, 9, 9, 9, 0]);
    const [short] = seedsNotSown(season, plannedSeeds(season), free, new Set([2]));
    expect([...short!]).toEqual([0, 0, 4, 0, 0, 0, 0]);
  });
});
