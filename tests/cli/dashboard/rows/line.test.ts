import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { timeAxis } from '../../../../cli/dashboard/rows/axis.js';
import { dayRow, dayWords } from '../../../../cli/dashboard/rows/day.js';
import { emptyAt, openingDay, weeklyPicks } from '../../../../cli/dashboard/rows/film.js';
import { idleRows } from '../../../../cli/dashboard/rows/idle.js';
import { type LineAnswer, legendRows, lineRows } from '../../../../cli/dashboard/rows/line.js';
import { type LineLayout, lineLayout } from '../../../../cli/dashboard/rows/line-layout.js';
import { rowWidth } from '../../../../cli/dashboard/rows/rows.js';
import { DRAWN, PLAIN } from '../../../../cli/dashboard/theme.js';
import { STATES } from '../../../../sim/models/ledger.js';
import type { Film } from '../../../../sim/study/film/film.js';
import {
  acted,
  filmBy,
  type GivenStage,
  HELD_BY_FINISHING,
  linesOf,
  meaningOf,
  pressing,
  start,
} from '../given.js';

const CELLAR_STAGES = [
  { name: 'germination', channels: 1, holesPerChannel: 10 },
  { name: 'nursery', channels: 2, holesPerChannel: 6 },
  { name: 'finishing', channels: 4, holesPerChannel: 3 },
];

function drawn(film: Film, width: number, height: number, day = 0, names: 1 | 2 = 1): string[] {
  const layout = lineLayout(film, width, height, names);
  return linesOf(lineRows({ film, day, answer: null, layout, width, height, signs: PLAIN }));
}

describe('the line', () => {
  const film = filmBy({
    stages: CELLAR_STAGES,
    days: 7,
    stateOf: (day, s, hole) => (s === 0 ? 'growing' : s === 1 && hole <= day ? 'blocked' : 'unsupplied'),
    dealt: (day) => (day === 1 ? [10, 4, 5, 7] : []),
  });

  test('stands from left to right, what was sown before it, what went on behind each stage', () => {
    expect(drawn(film, 80, 5, 1)[0]).toMatch(
      /^10 > germination -+ {2}5 > {3}nursery -+ {2}7 > {3}finishing -+ {2}4 >$/,
    );
    expect(drawn(film, 80, 5, 0)[0]).toMatch(
      /^- > germination -+ {2}- > {3}nursery -+ {2}- > {3}finishing -+ {2}- >$/,
    );
  });

  test('holes get farther apart from stage to stage, as the plants do, where there is room', () => {
    const rows = drawn(film, 100, 5, 1);
    expect(rows[1]).toMatch(/^o{10} +# # _ _ _ _ +_ {2}_ {2}_$/);
    expect(rows[2]).toMatch(/^ +_ _ _ _ _ _ +_ {2}_ {2}_$/);
    expect(rows).toHaveLength(5);
  });

  test('below the names stands how many holes are empty', () => {
    expect(drawn(film, 100, 6, 1, 2)[1]).toMatch(/^0 of 10 empty +10 of 12 empty +12 of 12 empty$/);
  });

  test('on a day beyond the film its last picture stands', () => {
    expect(drawn(film, 80, 5, 99)).toEqual(drawn(film, 80, 5, 7));
  });
});

describe('a stage that does not fit hole by hole', () => {
  const stages = [
    { name: 'tray', channels: 1, holesPerChannel: 8 },
    { name: 'finishing', channels: 100, holesPerChannel: 10 },
  ];
  const stateOf = (_: number, s: number, hole: number) =>
    s === 0 || hole < 750 ? 'growing' : hole < 999 ? 'unsupplied' : 'dead';

  test('is drawn as shares: a bar of the sign of each state, and its percentage', () => {
    const rows = drawn(filmBy({ stages, days: 1, stateOf }), 60, 5);
    expect(rows[1]).toMatch(/^o{8} +o+ 75\.0 %$/);
    expect(rows[2]).toMatch(/^ +x 0\.1 %$/);
    expect(rows[3]).toMatch(/^ +_+ 24\.9 %$/);
  });

  test('bars are as long as their shares', () => {
    const rows = drawn(filmBy({ stages, days: 1, stateOf }), 60, 5);
    const bar = (row: string, sign: string): number => row.slice(20).split(sign).length - 1;
    expect(bar(rows[1]!, 'o') / bar(rows[3]!, '_')).toBeCloseTo(75 / 24.9, 0);
  });

  test('a state that comes and goes over the season keeps its row', () => {
    const film = filmBy({
      stages,
      days: 2,
      stateOf: (day, _, hole) => (day === 1 && hole < 10 ? 'dead' : 'growing'),
    });
    expect(drawn(film, 60, 4, 0)[2]).toMatch(/ x 0 %$/);
    expect(drawn(film, 60, 4, 1)[2]).toMatch(/ x 1\.0 %$/);
  });

  test('so is every stage of a film that keeps counts only', () => {
    const rows = drawn(filmBy({ stages, days: 1, stateOf, onlyCounts: true }), 60, 5);
    expect(rows[1]).toMatch(/^o+ 100\.0 % +o+ 75\.0 %$/);
  });
});

const STAGES: fc.Arbitrary<GivenStage[]> = fc.array(
  fc.record({
    name: fc.constantFrom('germination', 'nursery', '育苗室', 'a', 'the last stage of a very long name'),
    channels: fc.integer({ min: 1, max: 30 }),
    holesPerChannel: fc.integer({ min: 1, max: 40 }),
  }),
  { minLength: 1, maxLength: 20 },
);
const SIZES = fc.record({
  width: fc.integer({ min: 58, max: 196 }),
  height: fc.integer({ min: 4, max: 30 }),
});

describe('lines of any kind on screens of any size', () => {
  test('never exceed their room, whatever day it is', () => {
    fc.assert(
      fc.property(STAGES, SIZES, fc.constantFrom<1 | 2>(1, 2), (stages, { width, height }, names) => {
        const film = filmBy({
          stages,
          days: 2,
          stateOf: (day, s, hole) => STATES[(day + s + hole) % STATES.length]!,
          dealt: (day) => (day === 1 ? [1000, 20, 3] : []),
        });
        const layout = lineLayout(film, width, height, names);
        if (layout !== null) expect(layout.height).toBeLessThanOrEqual(height);
        for (const day of [0, 1, 2]) {
          const rows = lineRows({ film, day, answer: null, layout, width, height, signs: DRAWN });
          expect(rows.length).toBeLessThanOrEqual(height);
          if (layout !== null) expect(rows).toHaveLength(layout.height);
          expect(rows.filter((row) => rowWidth(row) > width)).toEqual([]);
        }
      }),
      { numRuns: 120, seed: 1 },
    );
  });

  test('a stage hole by hole shows as many of each sign as there are holes in that state', () => {
    fc.assert(
      fc.property(STAGES, SIZES, (stages, { width, height }) => {
        const film = filmBy({
          stages,
          days: 1,
          stateOf: (_, s, hole) => STATES[(s + hole) % STATES.length]!,
        });
        const layout = lineLayout(film, width, height, 1);
        fc.pre(layout !== null);
        const { places, body } = layout.bands[0]!;
        const shown = { ...layout, bands: [{ places: places.filter((p) => p.arrangement !== null), body }] };
        fc.pre(shown.bands[0]!.places.length > 0);
        const rows = bodyOf(
          lineRows({ film, day: 0, answer: null, layout: shown, width, height, signs: DRAWN }),
          shown,
        );
        STATES.forEach((state, k) => {
          const signs = rows.flat().flatMap((piece) => (piece.meaning === state ? [...piece.text] : []));
          const holes = shown.bands[0]!.places.reduce(
            (sum, { stage }) => sum + film.countsAt(0, stage)[k]!,
            0,
          );
          expect(signs).toEqual(Array.from({ length: holes }, () => DRAWN.holes[state]));
        });
      }),
      { numRuns: 100, seed: 2 },
    );
  });

  test('each stage is there, in their order', () => {
    fc.assert(
      fc.property(STAGES, SIZES, (stages, { width, height }) => {
        const film = filmBy({ stages, days: 1 });
        const layout = lineLayout(film, width, height, 1);
        fc.pre(layout !== null);
        const order = layout.bands.flatMap(({ places }) => places.map(({ stage }) => stage));
        expect(order).toEqual(stages.map((_, s) => s));
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  function bodyOf<R>(rows: readonly R[], { names }: LineLayout): readonly R[] {
    return rows.slice(names);
  }
});

test('twenty stages on the smallest screen are told in a few words each', () => {
  const stages = Array.from({ length: 20 }, (_, s) => ({
    name: `stage ${s + 1}`,
    channels: 1,
    holesPerChannel: 4,
  }));
  const film = filmBy({
    stages,
    days: 1,
    stateOf: (_, s, hole) => (s === 3 && hole < 3 ? 'growing' : 'filling'),
  });
  const rows = drawn(film, 78, 5);
  expect(rows).toHaveLength(5);
  expect(rows[3]).toMatch(/^stage 4 +75 %/);
  expect(rows[4]).toMatch(/stage 20 +0 %$/);
});

describe('the legend', () => {
  const film = filmBy({
    stages: CELLAR_STAGES,
    days: 3,
    stateOf: (day, s) => (s === 0 ? 'growing' : day === 2 ? 'held' : 'filling'),
  });

  test('tells the signs that come up in the season, and no others', () => {
    expect(linesOf(legendRows(film, false, 80, 2, DRAWN))).toEqual([
      '● growing   ▲ ready, not wanted   · empty, line filling',
    ]);
  });

  test('of a logged season tells taken and empty holes only: a log does not know what was ready', () => {
    const logged = filmBy({
      stages: CELLAR_STAGES,
      days: 1,
      stateOf: (_, s) => (s === 0 ? 'growing' : 'unsupplied'),
    });
    expect(linesOf(legendRows(logged, true, 80, 2, DRAWN))).toEqual(['● taken   ○ empty']);
  });

  test('goes on in the next row, and leaves out what has no room', () => {
    expect(linesOf(legendRows(film, false, 34, 2, DRAWN))).toEqual([
      '● growing   ▲ ready, not wanted',
      '· empty, line filling',
    ]);
    expect(linesOf(legendRows(film, false, 34, 1, DRAWN))).toHaveLength(1);
    expect(legendRows(film, false, 34, 0, DRAWN)).toEqual([]);
  });
});

describe('empty holes over the season', () => {
  const film = filmBy({
    stages: [
      { name: 'tray', channels: 1, holesPerChannel: 8 },
      { name: 'finishing', channels: 1, holesPerChannel: 4 },
    ],
    days: 14,
    // The tray is full but for being cleaned; of finishing all holes are empty in the first week, one in the
    // second.
    stateOf: (day, s, hole) =>
      s === 0 ? (hole === 0 ? 'cleaning' : 'growing') : day < 7 || hole === 0 ? 'unsupplied' : 'growing',
  });
  const input = { film, axis: timeAxis(2, 2), day: 13, height: 2, gutter: 12, signs: PLAIN };

  test('a curve a stage: all empty is highest, a quarter lower, being cleaned is not empty', () => {
    expect(emptyAt(film, 13, 0)).toBe(0);
    expect(emptyAt(film, 13, 1)).toBe(1);
    // Steps of an eighth: a quarter is the second of eight.
    expect(linesOf(idleRows({ ...input, day: 0 }))).toEqual(['tray      0 |', 'finishing 4 |:']);
    expect(linesOf(idleRows(input))).toEqual(['tray      0  |', 'finishing 1 @|']);
  });

  test('where there is room for one, it is that of the stage that stands empty most', () => {
    expect(linesOf(idleRows({ ...input, height: 1 }))).toEqual(['finishing 1 @|']);
  });

  test('a little is never nothing', () => {
    const little = filmBy({
      stages: [{ name: 'tray', channels: 1, holesPerChannel: 1000 }],
      days: 14,
      stateOf: (_, __, hole) => (hole === 0 ? 'untended' : 'growing'),
    });
    expect(linesOf(idleRows({ ...input, film: little }))[0]).toBe('tray      1 .|');
  });
});

describe('picks of the season on the screen', () => {
  const picks = (day: number): readonly number[] =>
    day === 6 ? [0, 5] : day === 7 ? [0, 3] : day === 9 ? [0, 2] : [];
  const film = filmBy({ stages: CELLAR_STAGES, days: 21, dealt: picks });

  test('belong to the week of the visit, up to the day on the screen', () => {
    expect(weeklyPicks(film, 0, false)).toEqual([0]);
    expect(weeklyPicks(film, 6, false)).toEqual([5]);
    expect(weeklyPicks(film, 8, false)).toEqual([5, 3]);
    expect(weeklyPicks(film, 21, false)).toEqual([5, 5, 0]);
  });

  test('belong to the day before the picture where somebody is always there', () => {
    expect(weeklyPicks(film, 21, true)).toEqual([8, 2, 0]);
  });
});

describe('the row of the day', () => {
  const film = filmBy({
    stages: CELLAR_STAGES,
    days: 182,
    dealt: (day) => (day === 49 ? [10, 4, 3, 4] : []),
    visits: (day) => day !== 50,
  });
  const state = acted(start(), { type: 'step', days: 49 });
  const row = (of = state, width = 78, alone = false): string =>
    linesOf([dayRow({ state: of, film, width, alone, signs: DRAWN })])[0]!;

  test('tells date, day, what was done and which season it is', () => {
    // Day 49 from Monday, 4 January 2027.
    expect(row(state, 80)).toBe(
      'Mon 22 Feb 2027  day 49 of 182  sown 10, moved 7, picked 4    season 1 · at rest',
    );
    // On a narrow screen the deeds take the room of the year and of the season.
    expect(row(state, 58)).toBe('Mon 22 Feb  day 49 of 182  sown 10, moved 7, picked 4');
    expect(row({ ...state, real: true })).toMatch(/the log · at rest$/);
    expect(
      meaningOf([dayRow({ state, film, width: 78, alone: true, signs: DRAWN })], 'Mon 22 Feb 2027'),
    ).toBe('strong');
  });

  test('tells whether the season runs, and how', () => {
    expect(row(pressing(state, ' '))).toMatch(/ season 1 · running$/);
    expect(row(pressing(state, 'b', 'w', 'm'), 90)).toMatch(/ season 2 · running backward by weeks$/);
    expect(row(pressing(state, 'w'), 90)).toMatch(/ · at rest, by weeks$/);
  });

  test('tells a visit with nothing to do from none, and the end', () => {
    expect(dayWords(film, 48)).toBe('a visit, nothing to do');
    expect(dayWords(film, 50)).toBe('no visit');
    expect(dayWords(film, 182)).toBe('the season is over');
  });

  test('marks that deeds have no room', () => {
    expect(row(state, 48)).toBe('Mon 22 Feb  day 49 of 182  sown 10, moved 7 …');
  });
});

describe('the first day that is shown', () => {
  const dealt = (day: number): number[] =>
    ({ 40: [0, 1], 45: [30, 0, 30, 30], 52: [5, 5, 5], 54: [9, 4, 3, 4], 70: [99, 99, 99, 99] })[day] ?? [];
  const film = filmBy({ stages: CELLAR_STAGES, days: 182, dealt });

  test('is one on which most was done, within a fortnight from the week after the first pick on', () => {
    // The first pick falls into the week of day 35: the fortnight is day 42 to 55. Day 45 has no pick.
    expect(openingDay(film, false)).toBe(54);
  });

  test('where nothing is picked, the liveliest of all; of a log the last day that it tells of', () => {
    const never = filmBy({
      stages: CELLAR_STAGES,
      days: 30,
      dealt: (day) => (day === 3 ? [10] : day === 9 ? [10, 0, 4] : []),
    });
    expect(openingDay(never, false)).toBe(9);
    expect(openingDay(film, true)).toBe(181);
  });
});

describe('what holds the line back', () => {
  const film = filmBy({ stages: CELLAR_STAGES, days: 7, stateOf: () => 'growing' });
  const drawnWith = (answer: LineAnswer, width = 100, names: 1 | 2 = 1): string[] => {
    const layout = lineLayout(film, width, 6, names);
    return linesOf(lineRows({ film, day: 0, answer, layout, width, height: 6, signs: PLAIN }));
  };
  const limits = { ...HELD_BY_FINISHING, stages: ['nursery', 'finishing'] };

  test('is marked at its stages by a sign, and in words where there is room', () => {
    expect(drawnWith({ limits, idle: [] }, 140)[0]).toMatch(
      /^- > germination -+ {2}- > {3}nursery < holds back -+ {2}- > {3}finishing < holds back -+ {2}- >$/,
    );
    expect(drawnWith({ limits, idle: [] }, 76)[0]).toMatch(/nursery < -+ .*fin\S+ < -* +- >$/);
  });

  test('is marked where seeds come in if it is what is sown; nowhere if it is no stage', () => {
    const by = (kind: 'sowing' | 'visits'): string =>
      drawnWith({ limits: { ...HELD_BY_FINISHING, by: kind, stages: [] }, idle: [] })[0]!;
    expect(by('sowing')).toMatch(/^- < > germination -/);
    expect(by('visits')).not.toContain('<');
  });

  test('the share of the season stands beside the count of the day', () => {
    expect(drawnWith({ limits, idle: [0.304, 0.004, null] }, 140, 2)[1]).toMatch(
      /^0 of 10 empty, 30 % over the season +0 of 12 empty, <1 % over the season +0 of 12 empty$/,
    );
  });
});
