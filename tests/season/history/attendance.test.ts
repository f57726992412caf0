import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../sim/models/plan.js';
import { attendance, usualGap } from '../../../sim/season/history/attendance.js';
import { cohortsOf } from '../../../sim/season/history/cohorts.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf } from '../../support/replayed.js';

/** Visits on even days, 4 seeds due every 4 days, 8 cells. */
const plan = line(
  [stage('tray', 8), stage('bed', 20)],
  [crop([grow(time(6)), grow(time(10))], every(4, 28, 4))],
  { weeks: 4, visits: visitDays(4, [1, 0]) },
);

function cameTo(some: Plan, ...texts: string[]) {
  const season = seasonOf(some, rowsOf(some, texts));
  return attendance(season, cohortsOf(season));
}

const sowings = (days: readonly number[]): string[] => days.map((day) => `${day} sow S${day} 4 tray`);
const moves = (days: readonly number[]): string[] => days.map((day) => `${day} move S${day - 6} 4 bed`);
const inOrder = (texts: readonly string[]): string[] =>
  [...texts].sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10));

describe('the visits of a season', () => {
  test('are those of the plan, also where nothing was logged because nothing was due', () => {
    const texts = inOrder([...sowings([0, 4, 8, 12, 16, 20, 24]), ...moves([6, 10, 14, 18, 22, 26])]);
    const { visits, missed } = cameTo(plan, ...texts);
    // On day 2 there was nothing to do.
    expect(visits).toEqual([0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26]);
    expect(missed).toEqual([]);
  });

  test('and every date with a row', () => {
    expect(cameTo(plan, ...sowings([0, 4, 7])).visits.slice(0, 5)).toEqual([0, 2, 4, 6, 7]);
  });

  test('but not those on which a sowing was due, cells were free and nothing was logged, nor those around them', () => {
    const texts = inOrder([...sowings([0, 4]), '6 move S0 4 bed', '18 move S4 4 bed', ...sowings([20, 24])]);
    const { visits, missed } = cameTo(plan, ...texts);
    // Due on days 8, 12 and 16; the rows end on day 6 and go on on day 18.
    expect(missed).toEqual([8, 10, 12, 14, 16]);
    expect(visits).toEqual([0, 2, 4, 6, 18, 20, 22, 24, 26]);
  });

  test('nobody is said to have stayed away where no cell was free', () => {
    // 8 cells are full from day 4 to the end.
    expect(cameTo(plan, ...sowings([0, 4])).missed).toEqual([]);
  });

  test('a crop that is sown by refill proves nothing', () => {
    const refill = { ...plan, crops: [{ ...plan.crops[0]!, sowing: { kind: 'refill' as const } }] };
    expect(cameTo(refill, '0 sow B1 4 tray').missed).toEqual([]);
  });
});

describe('the usual gap', () => {
  test('is one that 9 in 10 gaps do not exceed', () => {
    expect(usualGap([0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 27])).toBe(2);
    expect(usualGap([0, 7, 14, 21])).toBe(7);
  });

  test('is 0 where there is none', () => {
    expect(usualGap([])).toBe(0);
    expect(usualGap([5])).toBe(0);
  });
});
