import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnOfDay, dateScale, timeAxis, weekOfColumn } from '../../../../cli/dashboard/rows/axis.js';
import { type ChartInput, chartLegend, chartRows, niceTop } from '../../../../cli/dashboard/rows/chart.js';
import { DRAWN, PLAIN } from '../../../../cli/dashboard/theme.js';
import { figures, linesOf, meaningOf, textOf } from '../given.js';

describe('the weeks from left to right', () => {
  test('each has as many columns as there is room for, at most one a day', () => {
    expect(timeAxis(26, 60)).toMatchObject({ columns: 52, daysPerColumn: 3.5, weeksPerColumn: 1 });
    expect(timeAxis(4, 200)).toMatchObject({ columns: 28, daysPerColumn: 1 });
  });

  test('several share a column where there is less room, and all of the season is there', () => {
    expect(timeAxis(52, 30)).toMatchObject({ columns: 26, weeksPerColumn: 2 });
    expect(timeAxis(520, 30)).toMatchObject({ columns: 29, weeksPerColumn: 18 });
  });

  test('days go from the first column to the last, none is left out, weeks begin at a column', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 520 }), fc.integer({ min: 1, max: 220 }), (weeks, width) => {
        const axis = timeAxis(weeks, width);
        expect(axis.columns).toBeLessThanOrEqual(Math.max(1, width));
        const columns = Array.from({ length: weeks * 7 }, (_, day) => columnOfDay(axis, day));
        // Days that are told together: a check of each takes longer than all the columns.
        const jumps = columns.filter((column, day) => ![0, 1].includes(column - (columns[day - 1] ?? 0)));
        expect(jumps).toEqual([]);
        if (axis.weeksPerColumn === 1) {
          const astray = columns.filter((column, day) => weekOfColumn(axis, column) !== Math.floor(day / 7));
          expect(astray).toEqual([]);
        }
        expect(columns.at(-1)).toBe(axis.columns - 1);
        expect(columnOfDay(axis, weeks * 7)).toBe(axis.columns - 1);
      }),
      { numRuns: 100, seed: 1 },
    );
  });

  test('a month stands where it begins, and the day where it is', () => {
    // 4 weeks from Mon 25 Jan 2027, a column a day: February begins on day 7.
    const scale = dateScale(timeAxis(4, 28), '2027-01-25', 20, PLAIN);
    expect(textOf(scale)).toBe('+Jan---+Feb---------|-------');
  });

  test('the day leaves the letters of a month as they are, and stands out among them', () => {
    // Day 30 lies in the name of January, which takes the columns up to day 56.
    const scale = dateScale(timeAxis(26, 13), '2027-01-04', 30, PLAIN);
    expect(textOf(scale)).toBe('+Jan+Mar+May-');
    expect(scale.filter(({ meaning }) => meaning === 'chosen').map(({ text }) => text)).toEqual(['a']);
  });

  test('names that do not find room are left out', () => {
    // 26 weeks from Mon 4 Jan 2027 in 13 columns of 14 days: February begins on day 28, in column 2, within
    // the name of
    // January; March on day 56, in column 4; April on day 87, in column 6, within March; May on day 117, in
    // column 8.
    expect(textOf(dateScale(timeAxis(26, 13), '2027-01-04', 182, PLAIN))).toBe('+Jan+Mar+May|');
  });
});

describe('the chart', () => {
  const input: ChartInput = {
    axis: timeAxis(4, 4),
    weeks: figures({
      weeks: [
        [0, 0, 0],
        [2, 4, 8],
        [5, 5, 5],
        [0, 9, 9],
      ],
    }).weeks,
    want: null,
    picked: [],
    over: 4,
    mostPicked: 0,
    day: 0,
    height: 5,
    gutter: 4,
    signs: PLAIN,
  };

  test('shows the band from a bad week to a good one and the middle in between', () => {
    // Up to 10: two heads a row. 4 and 8 lie at the bottom of their rows, 5 and 9 half-way up.
    expect(linesOf(chartRows(input))).toEqual([' 10 |: =', '    |: :', '  5 |_=:', '    |: :', '  0 |  :']);
  });

  test('shows what was picked, from the first pick on, over everything', () => {
    const rows = chartRows({ ...input, picked: [0, 3, 0], mostPicked: 3 });
    expect(linesOf(rows)).toEqual([' 10 |: =', '    |: :', '  5 |_=:', '    |+ :', '  0 | +:']);
    expect(meaningOf(rows, '+')).toBe('picked');
  });

  test('a week that is not over is drawn as one that may go up, also where it shares a column', () => {
    const so = { ...input, picked: [0, 3, 0], over: 2, mostPicked: 3 };
    expect(linesOf(chartRows(so)).slice(3)).toEqual(['    |+ :', '  0 | ^:']);
    // The first two weeks are over, the fourth is not: two of them stand in the second column.
    const shared = linesOf(chartRows({ ...so, axis: timeAxis(4, 2), picked: [3, 3, 3, 3], over: 3 }));
    expect(shared[3]!.slice(4)).toBe('+^');
    const all = linesOf(chartRows({ ...so, axis: timeAxis(4, 2), picked: [3, 3, 3, 3], over: 4 }));
    expect(all[3]!.slice(4)).toBe('++');
  });

  test('shows what is wanted where nothing else stands, and reaches up to it', () => {
    const rows = linesOf(chartRows({ ...input, want: 30 }));
    // The day goes through it.
    expect(rows[0]).toBe(' 30 |---');
  });

  test('the day on the screen is a line, through the band of its week too', () => {
    // The band of the third week begins and ends in the middle row, where its usual week stands.
    expect(linesOf(chartRows({ ...input, day: 15 }))).toEqual([
      ' 10  :|=',
      '     :|:',
      '  5  _=:',
      '     :|:',
      '  0   |:',
    ]);
    expect(linesOf(chartRows({ ...input, day: 27 }))).toEqual([
      ' 10  : =',
      '     : !',
      '  5  _=!',
      '     : !',
      '  0    !',
    ]);
  });

  test('does not grow while the season runs', () => {
    const early = linesOf(chartRows({ ...input, picked: [0], mostPicked: 40 }));
    const late = linesOf(chartRows({ ...input, picked: [0, 40], mostPicked: 40 }));
    expect(early[0]?.slice(0, 4)).toBe(' 40 ');
    expect(late[0]?.slice(0, 4)).toBe(' 40 ');
  });

  test('weeks of several columns stand apart: the band in one of them, the middle in all', () => {
    const rows = linesOf(chartRows({ ...input, axis: timeAxis(4, 12), day: 27 }));
    expect(rows[2]).toBe('  5    ___=== :|');
  });

  test('weeks that share a column: the lowest, the highest, the middle on average', () => {
    // (0, 0, 0) with (2, 4, 8): 0 to 8, in the middle 2; (5, 5, 5) with (0, 9, 9): 0 to 9, in the middle 7.
    const rows = linesOf(chartRows({ ...input, axis: timeAxis(4, 2), day: 27 }));
    expect(rows).toEqual([' 10 :!', '    :=', '  5 :!', '    _!', '  0 :!']);
  });

  test('without figures there is a scale and the day', () => {
    expect(linesOf(chartRows({ ...input, weeks: null }))).toEqual([
      '  2 |',
      '    |',
      '  1 |',
      '    |',
      '  0 |',
    ]);
  });

  test('its top is the next even, round number', () => {
    expect([0, 2, 3, 9, 11, 13, 17, 21, 25, 45, 81, 101, 18_139].map(niceTop)).toEqual([
      2, 2, 4, 10, 12, 16, 20, 24, 30, 50, 100, 120, 20_000,
    ]);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e9, noNaN: true }), (most) => {
        const top = niceTop(most);
        expect(top).toBeGreaterThanOrEqual(most);
        expect(top % 2).toBe(0);
        if (most > 2) expect(top).toBeLessThanOrEqual(2 * most);
      }),
      { numRuns: 300, seed: 1 },
    );
  });
});

describe('the legend of the chart', () => {
  const all = { want: 44, real: false, width: 80, said: 'more heads', isOld: false };

  test('names every sign that it shows, and what stands beside it', () => {
    const text = textOf(chartLegend(timeAxis(26, 60), all, DRAWN));
    expect(text).toBe('Heads a week  ━ usual  ┊ 8 of 10  ┄ wanted 44  ╋ this season …        more heads');
  });

  test('says if a column is more than a week, and if the picks are those of a log', () => {
    const text = textOf(chartLegend(timeAxis(52, 30), { ...all, want: null, real: true }, DRAWN));
    expect(text).toMatch(/^Heads a week, by 2 weeks {2}.*╋ really picked/);
    expect(text).not.toMatch(/wanted/);
  });

  test('leaves out what has no room, which is marked', () => {
    expect(textOf(chartLegend(timeAxis(26, 60), { ...all, width: 90 }, DRAWN))).toContain('  ↑ so far  ');
    expect(textOf(chartLegend(timeAxis(52, 30), { ...all, width: 50 }, DRAWN))).toBe(
      'Heads a week, by 2 weeks  ━ usual …     more heads',
    );
  });
});
