/** Where a season stands by its log: on lines so small that a reader can follow them. */

import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../sim/models/plan.js';
import { type Today, todayOf } from '../../../sim/season/ahead/today.js';
import { readLog } from '../../../sim/season/log/read.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';

/** Tray of 6 cells, 4 wide holes with 2 days of cleaning; visits on Mon, Wed and Fri of 8 weeks from Mon 4 Jan 2027. */
function plan(rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('tray', 6), stage('wide', 4, 2)],
    [crop([grow(time(4)), grow(time(10))], every(7, 56, 3))],
    { weeks: 8, visits: visitDays(8, [1, 0, 1, 0, 1, 0, 0]), ...rest },
  );
}

function rowsOf(...lines: string[]): readonly LogRow[] {
  const header = 'date,action,crop,batch,stage,channel,count,grams,note';
  const read = readLog([header, ...lines].join('\n'), ['tray', 'wide'], [{ name: 'leaf', cuts: 1 }]);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.rows;
}

const SOWN = '2027-01-04,sow,leaf,B1,tray,,3,,';
const MOVED = '2027-01-08,move,leaf,B1,wide,,3,,';

function at(rows: readonly LogRow[], date: string | null, line = plan()): Today {
  const reading = todayOf(rows, line, date);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.value;
}

function faultsOf(rows: readonly LogRow[], date: string | null, line = plan()) {
  const reading = todayOf(rows, line, date);
  return reading.ok ? [] : reading.faults;
}

describe('the first day to come', () => {
  test('is the day after the last row, if nobody says which day it is', () => {
    expect(at(rowsOf(SOWN, MOVED), null)).toMatchObject({ from: 5, visits: [0, 2, 4] });
  });

  test('is today if today has no row: its visit is still to be made', () => {
    expect(at(rowsOf(SOWN), '2027-01-08')).toMatchObject({ from: 4, visits: [0, 2] });
  });

  test('is tomorrow if today has a row: its visit is over', () => {
    expect(at(rowsOf(SOWN, MOVED), '2027-01-08')).toMatchObject({ from: 5, visits: [0, 2, 4] });
  });

  test('is the first day of the season if nothing was ever done', () => {
    expect(at([], null)).toMatchObject({ from: 0, visits: [], reached: [false, false] });
    expect(at([], '2026-12-24')).toMatchObject({ from: 0, visits: [] });
  });

  test('is any day that is said, if nothing was ever done', () => {
    expect(at([], '2027-01-13')).toMatchObject({ from: 9, visits: [], missed: [] });
  });
});

describe('visits', () => {
  test('without a row were made, if nothing was due: there was nothing to do', () => {
    expect(at(rowsOf(SOWN), '2027-01-11')).toMatchObject({ from: 7, visits: [0, 2, 4], missed: [] });
  });

  test('without a row were not made, if a sowing was due and cells were free', () => {
    // Due on Mon 11 Jan; three cells are free. So nobody has come since the last row, as far as can be told.
    expect(at(rowsOf(SOWN), '2027-01-15')).toMatchObject({ from: 11, visits: [0], missed: [2, 4, 7, 9] });
  });

  test('at every instant are taken as a visit a day, since a log has whole dates', () => {
    const daily = plan({ visits: { kind: 'always' } });
    expect(at(rowsOf(SOWN), '2027-01-07', daily)).toMatchObject({ from: 3, visits: [0, 1, 2] });
  });
});

describe('holes', () => {
  const PICKED = '2027-01-18,pick,leaf,B1,wide,,2,,';

  test('that plants have left are being cleaned for the days of the stage', () => {
    const rows = rowsOf(SOWN, '2027-01-11,sow,leaf,B2,tray,,3,,', MOVED.replace('01-08', '01-11'), PICKED);
    expect(at(rows, null).cleaning).toEqual([{ stage: 1, holes: 2, until: 16 }]);
    const oneDay = plan({ stages: [stage('tray', 6), stage('wide', 4, 1)] });
    expect(at(rows, null, oneDay).cleaning).toEqual([{ stage: 1, holes: 2, until: 15 }]);
    // On Wed 20 Jan the two days are over.
    expect(
      at([...rows, ...rowsOf(SOWN, '2027-01-20,sow,leaf,B3,tray,,3,,').slice(1)], null).cleaning,
    ).toEqual([]);
  });

  test('that a row names as being cleaned are out of use for these days as well', () => {
    const rows = rowsOf(SOWN, MOVED, '2027-01-08,clean,,,wide,1,1,,');
    expect(at(rows, null).cleaning).toEqual([{ stage: 1, holes: 1, until: 6 }]);
  });

  test('short of which the last visit left nobody: of 4 three are taken', () => {
    expect(at(rowsOf(SOWN, MOVED), null).limited[0]![2]).toBe(0);
    const more = rowsOf(SOWN, MOVED, '2027-01-11,sow,leaf,B2,tray,,3,,', '2027-01-15,move,leaf,B2,wide,,1,,');
    expect(at(more, null).limited[0]!.at(-1)).toBe(1);
  });
});

describe('a log that does not fit', () => {
  test('with rows after today is told, with the row', () => {
    expect(faultsOf(rowsOf(SOWN, MOVED), '2027-01-06')).toEqual([
      expect.objectContaining({ line: 3, column: 'date', found: '2027-01-08', more: 0 }),
    ]);
  });

  test('with more plants than the scenario has holes is told, with the numbers', () => {
    const small = plan({ stages: [stage('tray', 6), stage('wide', 2)] });
    const [fault] = faultsOf(rowsOf(SOWN, MOVED), null, small);
    expect(fault).toMatchObject({ line: 3, found: '3 plants in wide after the last row' });
    expect(fault!.expected).toContain('at most 2');
  });

  test('with rows before the season is told', () => {
    expect(faultsOf(rowsOf(SOWN, MOVED), null, plan({ start: '2027-01-06' }))).toHaveLength(1);
  });
});
