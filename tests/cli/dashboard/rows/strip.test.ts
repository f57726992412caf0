import { describe, expect, test } from 'vitest';
import { headline, headRows, wholePercent } from '../../../../cli/dashboard/rows/headline.js';
import { rowWidth } from '../../../../cli/dashboard/rows/rows.js';
import { stripRows } from '../../../../cli/dashboard/rows/strip.js';
import type { State } from '../../../../cli/dashboard/state/state.js';
import { DRAWN, PLAIN } from '../../../../cli/dashboard/theme.js';
import type { StripTold } from '../../../../cli/dashboard/thread/messages.js';
import type { Bottleneck } from '../../../../sim/study/bottleneck.js';
import type { PlanResult } from '../../../../sim/study/compare.js';
import { ofFigures } from '../../../../sim/study/figures.js';
import {
  acted,
  answered,
  CELLAR,
  example,
  figures,
  HELD_BY_FINISHING,
  KITCHEN,
  lineOf,
  linesOf,
  pressing,
  start,
} from '../given.js';

const SOWING: Bottleneck = { ...HELD_BY_FINISHING, by: 'sowing', stages: [] };

/** A plan of the strip that brings so much, with the same share of its holes empty in each stage. */
function plan(
  state: State,
  usual: number | null,
  bad: number,
  idle: number,
  limits: Bottleneck | null,
  average: number | null = null,
): PlanResult {
  const of = (mean: number) => ({ mean, low: null, high: null, difference: null });
  return {
    name: '',
    title: '',
    figures: {
      ...ofFigures('whole', () => null),
      usual_week: usual === null ? null : of(usual),
      bad_week: usual === null ? null : of(bad),
      heads_a_week: average === null ? null : of(average),
      seeds_a_head: usual === null ? null : of(1.666),
    },
    idle: state.scenario.stages.map(({ name }) => ({ stage: name, share: of(idle) })),
    limits,
    without_absence: null,
  };
}

/** The strip of a state, told: usual and bad week of each of its plans; null where nothing is known yet. */
function told(
  state: State,
  weeks: readonly (readonly [usual: number | null, bad: number] | null)[],
  more: Partial<StripTold> & { ran?: number; limits?: Bottleneck | null; mean?: number } = {},
): State {
  const { ran = 200, limits = SOWING, seasons = 200, from = '2027-02-15', mean = null } = more;
  const rows = weeks.map(
    (week) => week && { result: plan(state, week[0], week[1], 0.3, limits, mean), seasons: ran },
  );
  return acted(state, { type: 'strip', id: state.asked, told: { seasons, from, rows } });
}

const ALL = [
  [20, 13],
  [20, 13],
  [19, 11],
  [15, 8],
  [10, 5],
] as const;
const KNOWN = told(answered(start()), ALL);

function strip(state: State, width = 78, plans = 5, signs = PLAIN): string[] {
  return linesOf(stripRows({ state, width, plans, signs }));
}

describe('the strip', () => {
  test('has a row a plan: the present one marked, usual and bad week, a bar, idle holes, what holds it back', () => {
    expect(strip(KNOWN)).toEqual([
      'Sow every   usual  bad  heads        idle: germ~n nurs~y fini~g  held back by',
      '  1 d          20   13  ==========+======    30 %   30 %   30 %  what is sown',
      '  2 d          20   13  ==========+======    30 %   30 %   30 %  what is sown',
      '* 3 d now      19   11  ========+=======     30 %   30 %   30 %  what is sown',
      '  4 d          15    8  ======+======        30 %   30 %   30 %  what is sown',
      '  5 d          10    5  ===+=====            30 %   30 %   30 %  what is sown',
      '  200 seasons each - + bad week, 1 in 10 - c seeds, channels, visits',
    ]);
  });

  test('all bars are on one scale, and the bad week stands in its place on them', () => {
    const bars = strip(KNOWN)
      .slice(1, 6)
      .map((line) => /[=+]+/.exec(line)![0]);
    const longest = bars[0]!.length;
    bars.forEach((bar, i) => {
      const [usual, bad] = ALL[i]!;
      expect(bar.length).toBe(Math.round((usual / 20) * longest));
      expect(bar.indexOf('+') + 1).toBe(Math.round((bad / 20) * longest));
    });
  });

  test('has names in full and seeds a head where there is room', () => {
    expect(strip(KNOWN, 116)[0]).toMatch(
      /^Sow every +usual +bad {2}heads a week +idle: germination nursery finishing +seeds\/head {2}held back by$/,
    );
    expect(strip(KNOWN, 116)[1]).toMatch(/ 30 % +30 % +30 % +1\.67 {2}what is sown$/);
  });

  test('plans of which nothing is known yet show that they are computed, and how many there are', () => {
    const [, first, , now, , , status] = strip(told(answered(start()), [null, null, [19, 11], null, null]));
    expect(first).toMatch(/^ {2}1 d +\.\.\. +\.\.\. +\.\.\.$/);
    expect(now).toMatch(/^\* 3 d now +19 +11 /);
    expect(status).toMatch(/^ {2}1 of 5 plans so far/);
  });

  test('figures of few seasons say of how many', () => {
    const few = strip(told(answered(start()), ALL, { ran: 20, limits: null }));
    expect(few[1]).toMatch(/20 of 200$/);
    expect(few[6]).toMatch(/^ {2}20 of 200 seasons so far/);
    expect(strip(told(answered(start()), ALL, { limits: null }))[1]).toMatch(/\.\.\.$/);
  });

  test('after a change figures of plans that stood beside others are in brackets until they come again', () => {
    const changed = pressing(KNOWN, '+');
    const lines = strip(changed);
    // 2, 3, 4, 5, 6 days: of 6 nothing is known.
    expect(lines.slice(1, 6).map((line) => line.slice(0, 24).trimEnd())).toEqual([
      '  2 d        (20) (13)',
      '  3 d        (19) (11)',
      '* 4 d now    (15)  (8)',
      '  5 d        (10)  (5)',
      '  6 d         ...  ...',
    ]);
    expect(lines[6]).toMatch(/^ {2}0 of 5 plans so far/);
    const again = told(answered(changed), [...ALL.slice(1), [8, 3]]);
    expect(strip(again).join('\n')).not.toMatch(/[()]/);
  });

  test('what is told of another strip is not taken for this one', () => {
    const { asked } = KNOWN;
    const turned = pressing(KNOWN, 'c');
    const late = acted(turned, {
      type: 'strip',
      id: asked,
      told: { seasons: 200, from: null, rows: [null, null, null, null, null] },
    });
    expect(late).toBe(turned);
  });

  test('says from which week on all of them run, where that is later than of the present plan alone', () => {
    // The present plan runs from 15 February on.
    expect(strip(told(answered(start()), ALL, { from: '2027-03-01' }))[6]).toMatch(
      /^ {2}200 seasons each - weeks from Mon 1 Mar 2027 on - /,
    );
    expect(strip(told(answered(start()), ALL, { from: '2027-02-15' }))[6]).not.toMatch(/weeks from/);
  });

  test('says so from the first row on that comes in, also where plans stand in columns', () => {
    const some = told(answered(start()), [null, [20, 13], [19, 11], null, null], { from: '2027-03-01' });
    expect(strip(some)[6]).toMatch(/^ {2}2 of 5 plans so far - weeks from Mon 1 Mar 2027 on - /);
    expect(strip(some, 58, 0).map((line) => line.slice(46).trim())).toEqual([
      'weeks from',
      '1 Mar',
      'more: 80x24',
    ]);
    expect(strip(some, 76, 0).map((line) => line.slice(58).trim())).toEqual([
      'weeks from',
      '1 Mar',
      'more at 80x24',
    ]);
    const few = told(answered(start()), ALL, { from: '2027-03-01', ran: 20, limits: null });
    expect(strip(few, 58, 0).map((line) => line.slice(46))).toEqual(['20 of 200', 'weeks from', '1 Mar']);
    // After a change the weeks are not known, and figures are in brackets.
    expect(strip(pressing(some, '+'))[6]).not.toMatch(/weeks from/);
  });

  test('where the usual week brings nothing in every row, heads a week on average stand there, and it says so', () => {
    const none = told(answered(start()), [[0, 0], [0, 0], [0, 0], null, null], { mean: 2.4 });
    const lines = strip(none);
    expect(lines[0]).toMatch(/^Sow every +mean +bad /);
    expect(lines[3]).toMatch(/^\* 3 d now +2\.4 +0 {2}\+=+ /);
    expect(lines[6]).toMatch(/ - mean heads a week: the usual week has none/);
    expect(strip(none, 58, 0)[1]).toMatch(/^mean week .*2\.4/);
    expect(strip(told(answered(start()), [[0, 0], [1, 0], null, null, null], { mean: 2.4 }))[0]).toMatch(
      / usual /,
    );
  });

  test('days of visits are counted where their names have no room', () => {
    let state = answered(start());
    for (let i = 0; i < 5; i++) state = pressing(state, 'c');
    const [title] = strip(told(state, ALL), 58, 0);
    expect(title).toMatch(/^Days a wk +1 +2 +\*3 +4 +5 /);
  });

  test('where nothing is picked there is no figure and no bar', () => {
    const never = strip(
      told(answered(start()), [[20, 13], [null, 0], [19, 0], [0, 0], null], { limits: null }),
    );
    expect(never[2]).toMatch(/^ {2}2 d +- +- +30 % +30 % +30 % {2}-$/);
    expect(never[3]).toMatch(/^\* 3 d now +19 +0 {2}\+=+ /);
  });

  test('c turns it to seeds, channels of each stage, visits and back', () => {
    const titles: string[] = [];
    for (let state = KNOWN, i = 0; i < 7; i++, state = pressing(state, 'c')) {
      const [title, ...rows] = strip(state);
      titles.push(title!.split(/ +usual/)[0]!);
      expect(rows.filter((row) => row.startsWith('*'))).toHaveLength(1);
    }
    expect(titles).toEqual([
      'Sow every',
      'Seeds',
      'Channels of finishing',
      'Channels of nursery',
      'Channels of germin~on',
      'Visits',
      'Sow every',
    ]);
  });

  test('kept plans stand there with what is different about them; those without room are counted', () => {
    let state = answered(start());
    for (const key of ['k', '+', 'k', '+', 'k', '+', 'k', '+', 'k', '+', 'k']) state = pressing(state, key);
    for (let i = 0; i < 6; i++) state = pressing(state, 'c');
    state = told(state, ALL);
    const lines = strip(state);
    expect(lines[0]).toMatch(/^Kept plans/);
    expect(lines[1]).toMatch(/^\* 6 now/);
    expect(lines[2]).toMatch(/^ {2}2: sow every 4 d/);
    expect(lines[6]).toMatch(/1 older plan not shown/);
    expect(strip(acted(state, { type: 'resize', columns: 120, rows: 40 }), 116, 7)).toContainEqual(
      expect.stringMatching(/^ {2}1: sow every 3 d/),
    );
  });

  test('on a low screen plans stand in columns with usual and bad week, and what is left out is said', () => {
    expect(strip(KNOWN, 58, 0)).toEqual([
      'Sow every    1 d   2 d  *3 d   4 d   5 d      title, idle,',
      'usual week    20    20    19    15    10      held, season',
      'bad week      13    13    11     8     5      at 80 x 24',
    ]);
    // As long as there are only some seasons that stands there.
    const few = strip(told(answered(start()), ALL, { ran: 20, limits: null }), 58, 0);
    expect(few.map((line) => line.slice(46))).toEqual(['20 of 200', 'seasons', 'so far']);
  });

  test('no row is longer than its room, of any line on any screen', () => {
    const many = lineOf(
      Array.from({ length: 12 }, (_, s) => ({ name: `栽培 stage ${s}`, channels: 3, holesPerChannel: 7 })),
    );
    for (const scenario of [CELLAR, KITCHEN, example('market-farm'), example('hall-150000'), many]) {
      for (const high of [24, 40]) {
        let state = answered(start(scenario, { columns: 80, rows: high }));
        for (let i = 0; i < 8; i++, state = pressing(state, 'c', ...(i === 3 ? ['k', '+'] : []))) {
          const known = told(
            state,
            state.strip.rows.map(() => [18_139, 17_965] as const),
          );
          for (const width of [58, 64, 78, 98, 116, 196]) {
            for (const plans of [0, high === 40 ? 7 : 5]) {
              const rows = stripRows({ state: known, width, plans, signs: DRAWN });
              expect(rows.filter((row) => rowWidth(row) > width)).toEqual([]);
            }
          }
        }
      }
    }
  });

  test('where not all stages have room that is marked', () => {
    const many = lineOf(
      Array.from({ length: 12 }, (_, s) => ({ name: `stage ${s}`, channels: 3, holesPerChannel: 7 })),
    );
    expect(strip(answered(start(many)), 78, 5, DRAWN)[0]).toMatch(/idle… s…/);
    expect(strip(KNOWN, 78, 5, DRAWN)[0]).not.toMatch(/idle…/);
  });
});

describe('the headline', () => {
  const rows = (state: State, width = 78, height: 1 | 2 = 1): string[] =>
    linesOf(headRows({ state, width, height, signs: PLAIN }));
  const with_ = (result: Parameters<typeof answered>[1]): State => answered(start(), result);

  test('says what a week brings, a bad one, and what holds the line back', () => {
    expect(rows(answered(start()))).toEqual([
      '22 heads in a usual week, 14 in a bad one; held back by finishing  Cellar line',
    ]);
    expect(rows(answered(start()), 100, 2)).toEqual([
      `Cellar line${' '.repeat(61)}simulated season 1 - at rest`,
      '22 heads in a usual week, 14 in a bad one; held back by finishing',
    ]);
    expect(rows(answered(start()), 58)[0]).toBe('22 heads a week, 14 in a bad one; held back by finishing');
  });

  test('names what brings more than what holds the line back, in few words where there is little room', () => {
    const [nursery, finishing, seeds] = HELD_BY_FINISHING.trials;
    const present = {
      ...seeds!,
      change: { kind: 'away' },
      gain: 3,
      low: 2.5,
      high: 3.5,
    } as const;
    const one: Bottleneck = {
      ...HELD_BY_FINISHING,
      better: [present.change],
      trials: [nursery!, finishing!, seeds!, present],
    };
    const told = (limits: Bottleneck, width: number): string =>
      rows(answered(start(), figures({ limits })), width)[0]!;
    expect(told(one, 116)).toMatch(
      /^22 heads in a usual week, 14 in a bad one; held back by finishing; nobody away would bring more /,
    );
    expect(told(one, 78)).toBe(
      '22 heads a week, 14 in a bad one; held back by finishing; more: nobody away  ~',
    );
    expect(told(one, 58)).toBe('22 heads a week, 14 in a bad one; held back by finishing');
    // What brings most is named first, and alone where there is little room.
    const two: Bottleneck = {
      ...one,
      better: [seeds!.change, present.change],
      trials: [nursery!, finishing!, { ...seeds!, low: 2 }, present],
    };
    expect(told(two, 116)).toContain('; nobody away and 10 % more seeds would bring more');
    expect(told(two, 78)).toContain('; more: nobody away ');
    // A channel more brings as much: nothing is worth more.
    expect(told({ ...one, better: [], trials: [nursery!, finishing!, seeds!] }, 116)).not.toContain('more');
    // What limits it otherwise is named by itself.
    expect(told({ ...one, by: 'away', stages: [] }, 116)).not.toContain('more');
  });

  test('says of how many seasons it is as long as there are more to come', () => {
    const partial = { ...figures({ limits: null }), seasons: 60, partial: true };
    expect(rows(with_(partial))[0]).toMatch(
      /^60 of 200 seasons: 22 heads in a usual week, 14 in a bad one( |$)/,
    );
  });

  test('figures of the plan before are called that', () => {
    expect(rows(pressing(answered(start()), '+'))[0]).toMatch(/^the plan before: 22 heads /);
  });

  test('says that nothing is picked, that the line does not run yet, and what is missed of what is wanted', () => {
    const none = figures({ p50: null });
    expect(headline({ ...none, first_pick: { ...none.first_pick, p50: null } }, false)).toBe(
      'nothing is picked in this time, in most seasons',
    );
    expect(headline(none, false)).toBe('the line does not run yet in this time');
    expect(headline(figures({ wanted: 200, short: 30, limits: null }), false)).toBe(
      '22 heads in a usual week, 14 in a bad one; 15.0 % of what is wanted is missed',
    );
    expect(headline(figures({ p50: 1, p10: 0, limits: null }), false)).toBe(
      '1 head in a usual week, 0 in a bad one',
    );
  });

  test('before there are figures it says what is being done', () => {
    expect(rows(start())[0]).toMatch(/^running 200 seasons/);
  });

  test('no row is longer than its room', () => {
    const long = {
      ...HELD_BY_FINISHING,
      stages: ['a stage of a very long name', 'another such stage', 'and one more'],
    };
    const state = answered(start(), figures({ limits: long }));
    for (const one of [state, pressing(state, '+'), start()]) {
      for (const width of [58, 78, 116]) {
        for (const height of [1, 2] as const) {
          for (const row of headRows({ state: one, width, height, signs: DRAWN })) {
            expect(rowWidth(row)).toBeLessThanOrEqual(width);
          }
        }
      }
    }
  });
});

test('a share in whole per cent never reads as nothing or all where it is not', () => {
  expect([0, 0.001, 0.005, 0.146, 0.994, 0.999, 1].map(wholePercent)).toEqual([
    '0',
    '<1',
    '1',
    '15',
    '99',
    '>99',
    '100',
  ]);
});
