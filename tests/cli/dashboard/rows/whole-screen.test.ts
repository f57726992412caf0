import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { answerLegend, drawnRows, toldRows } from '../../../../cli/dashboard/rows/answer.js';
import { isTooSmall, type Layout, layoutOf } from '../../../../cli/dashboard/rows/layout.js';
import { spokenLines } from '../../../../cli/dashboard/rows/spoken.js';
import type { State } from '../../../../cli/dashboard/state/state.js';
import { aboutsOf } from '../../../../cli/dashboard/state/strip.js';
import { DRAWN, PLAIN } from '../../../../cli/dashboard/theme.js';
import type { Film } from '../../../../sim/study/film/film.js';
import {
  acted,
  answered,
  askedOver,
  CELLAR,
  example,
  figures,
  filmBy,
  HELD_BY_FINISHING,
  KITCHEN,
  lineOf,
  linesOf,
  pressing,
  start,
} from '../given.js';

/** Rows of all parts, with the empty ones between them. */
function rowsOf({ head, takes, strip, line, answer, plan, between }: Layout): number {
  const parts = [
    head + takes + strip.height,
    1 + line.height + line.legend,
    answer.chart + 2 + answer.idleTitle + answer.idle,
    plan.height + plan.title,
    1,
  ];
  return parts.reduce((sum, rows) => sum + rows, between * (parts.length - 1));
}

function filmFor(scenario: State['scenario']): Film {
  const stages = scenario.stages.map(({ name, channels, holes }) => ({
    name,
    channels,
    holesPerChannel: holes,
  }));
  return filmBy({ stages, days: 3, stateOf: (day, _, hole) => (hole < day ? 'growing' : 'filling') });
}

/** It tells what it takes. */
const RACK = example('lettuce-rack');

describe('the screen is dealt to its parts', () => {
  const scenarios = fc.oneof(
    fc.constantFrom(CELLAR, KITCHEN, example('market-farm'), example('school-club'), RACK),
    fc.integer({ min: 1, max: 20 }).map((count) =>
      lineOf(
        Array.from({ length: count }, (_, s) => ({
          name: `stage ${s}`,
          channels: 3 + s,
          holesPerChannel: 7,
        })),
      ),
    ),
  );
  const states = fc.record({
    scenario: scenarios,
    columns: fc.integer({ min: 60, max: 210 }),
    rows: fc.integer({ min: 16, max: 70 }),
    real: fc.boolean(),
    hasFilm: fc.boolean(),
  });

  test('and all find room on any screen from 60 x 16 on, whatever is shown', () => {
    fc.assert(
      fc.property(states, ({ scenario, columns, rows, real, hasFilm }) => {
        const state = { opened: scenario, scenario, columns, rows, real };
        const layout = layoutOf(state, hasFilm ? filmFor(scenario) : null, DRAWN);
        expect(rowsOf(layout)).toBeLessThanOrEqual(rows - 1);
        const { width, margin, answer, plan } = layout;
        expect(width + 2 * margin).toBe(columns);
        expect(answer.chart).toBeGreaterThanOrEqual(2);
        // A name cut to 10 columns, the widest count, the figures: at least 8 columns are left for the weeks.
        expect(width - answer.figures - answer.gutter - 2).toBeGreaterThanOrEqual(8);
        expect(plan.knobs).toBeGreaterThanOrEqual(1);
        expect(plan.knobs + plan.differences).toBeLessThanOrEqual(plan.height);
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  test('what a head takes has two rows where the scenario tells of it, and the cadences beside each other keep theirs', () => {
    for (const [columns, rows] of [
      [60, 16],
      [80, 24],
      [120, 40],
      [200, 60],
    ] as const) {
      const [bare, told] = [CELLAR, RACK].map((scenario) =>
        layoutOf({ opened: scenario, scenario, columns, rows, real: false }, filmFor(scenario), DRAWN),
      ) as [Layout, Layout];
      expect([bare.takes, told.takes]).toEqual([0, 2]);
      expect(told.strip).toEqual(bare.strip);
      expect(told.answer.chart).toBeGreaterThanOrEqual(rows < 24 ? 2 : 3);
      expect(told.plan.knobs).toBe(bare.plan.knobs);
    }
  });

  test('the same whatever the day', () => {
    const film = filmFor(CELLAR);
    const first = layoutOf(start(), film, DRAWN);
    expect(layoutOf(acted(start(), { type: 'go', to: 'end' }), film, DRAWN)).toEqual(first);
  });

  test('a smaller screen is too small', () => {
    expect(isTooSmall({ columns: 60, rows: 16 })).toBe(false);
    expect(isTooSmall({ columns: 59, rows: 16 })).toBe(true);
    expect(isTooSmall({ columns: 60, rows: 15 })).toBe(true);
  });
});

describe('the answer', () => {
  const layout = {
    width: 78,
    answer: { chart: 4, idleTitle: 0, idle: 3, gutter: 15, figures: 33 },
  } as const;
  const film = filmBy({
    stages: CELLAR.stages.map(({ name, channels, holes }) => ({ name, channels, holesPerChannel: holes })),
    days: 182,
    dealt: (day) => (day % 7 === 0 ? [0, 8] : []),
  });
  const state = answered(
    start(),
    figures({ weeks: Array(26).fill([10, 16, 20]), limits: HELD_BY_FINISHING }),
  );
  const rows = (of: State, realPicks: readonly number[] | null = null): string[] =>
    linesOf([
      answerLegend({ state: of, layout, signs: PLAIN }),
      ...drawnRows({ state: of, film, realPicks, layout, signs: PLAIN }),
    ]);
  const told = (of: State): string[] => linesOf(toldRows({ state: of, layout, signs: PLAIN }));

  test('has the chart, the dates and the curves, and the figures beside them', () => {
    const lines = rows(state);
    expect(lines).toHaveLength(9);
    expect(lines[0]).toMatch(/^Heads a week .*more heads a week$/);
    expect(lines[1]).toMatch(/^ {12}20 /);
    expect(told(state)[0]).toMatch(
      /^one more finishing channel \+1\.9 most$|finishing \+1 channel +\+1\.9 most$/,
    );
    expect(lines[5]).toMatch(/^ {15}\|Jan/);
    expect(lines[6]).toMatch(/^germination 40 /);
    expect(lines[8]).toMatch(/^finishing {3}72 /);
  });

  /** What stands in the 26 columns of the weeks. */
  const weeks = (lines: readonly string[]): string =>
    lines
      .slice(1, 5)
      .map((line) => line.slice(15, 41))
      .join('\n');

  test('shows what the season on the screen has brought so far', () => {
    // 8 heads on the first day of each of the first 4 weeks; of up to 20 in 4 rows that is the second row
    // from below.
    expect(weeks(rows(acted(state, { type: 'step', days: 21 }))).split('\n')[2]).toMatch(/^\+\+\+\^[^+]*$/);
    // Of the first week so far.
    expect(weeks(rows(state))).toMatch(/^[^+^]*\^[^+^]*$/);
  });

  test('shows the picks of the log, all of them, where its season is shown', () => {
    const lines = rows({ ...state, real: true }, [0, 0, 8, 8, 8]);
    expect(lines[0]).toMatch(/really picked/);
    expect(weeks(lines).split('\n')[2]).toMatch(/^..\+\+\+[^+^]*$/);
  });

  test('leaves the picks of the log out where a simulated season is shown', () => {
    expect(weeks(rows(state, [8, 8, 8, 8]))).toMatch(/^[^+^]*\^[^+^]*$/);
  });

  test('says that seasons are being run until there are figures', () => {
    expect(told(start())).toEqual(['running 200 seasons']);
  });
});

describe('for somebody who listens', () => {
  const film = filmBy({
    stages: CELLAR.stages.map(({ name, channels, holes }) => ({ name, channels, holesPerChannel: holes })),
    days: 182,
    stateOf: (_, s, hole) => (s === 2 && hole < 3 ? 'cleaning' : 'growing'),
    dealt: (day) => (day === 1 ? [10] : []),
  });
  const state = acted(answered(start()), { type: 'step', days: 1 });
  const spoken = (of: State, spells: Parameters<typeof spokenLines>[0]['spells'] = []): string[] =>
    spokenLines({ state: of, film, spells });

  test('the day, the stages, the figures and the plan are told in sentences, the knobs numbered', () => {
    expect(spoken(state)).toEqual([
      'Cellar line, simulated season 1. Tue 5 Jan 2027, day 1 of 182.',
      'That day: sown 10.',
      'germination, 40 holes: 40 growing.',
      'nursery, 48 holes: 48 growing.',
      'finishing, 72 holes: 69 growing; 3 being cleaned.',
      'Figures: usual week 22 heads; bad week 14 or fewer; held back by finishing; one more finishing channel +1.9 heads a week (+1.6 to +2.2); 10 % more seeds +0.4 heads a week (+0.1 to +0.7); one more nursery channel 0.0 heads a week (-0.1 to +0.1), hardly anything; first pick Mon 15 Feb 2027; without a pick 3.1 % of weeks; heads a week 20.5 on average; if 10 % slower -1.9 a week.',
      'Plans side by side, Tab goes there, Enter takes one:',
      '1. every 1 d: not known yet',
      '2. every 2 d: not known yet',
      '3. every 3 d, now: not known yet',
      '4. every 4 d: not known yet',
      '5. every 5 d: not known yet',
      'The plan:',
      '1. sow: every 3 d, chosen',
      '2. seeds: 10',
      '3. germination channels: 1',
      '4. nursery channels: 2',
      '5. finishing channels: 8',
      '6. visits: mon thu sat',
      'What a change to the plan brings stands here.',
      'Question mark: help. q: leave.',
    ]);
  });

  test('no signs are drawn', () => {
    const signs = [...Object.values(DRAWN.holes).filter((sign) => sign !== '·' && sign !== '~'), '─', '┊'];
    for (const line of spoken(state)) for (const sign of signs) expect(line).not.toContain(sign);
  });

  test('figures of an older plan are called that, and the difference is told once it is known', () => {
    const changed = pressing(state, '+');
    expect(spoken(changed)).toContain('Running 200 seasons.');
    expect(spoken(changed).some((line) => line.startsWith('Figures of an older plan: '))).toBe(true);
    const heads = { mean: -1, low: -2, high: -0.5, verdict: 'less' } as const;
    const known = acted(changed, {
      type: 'figures',
      id: 2,
      figures: { result: figures(), differences: { heads_a_week: heads, bad_week: null } },
    });
    expect(spoken(known)).toContain('heads a week -1.0 (-2.0 to -0.5), less.');
    expect(spoken(known)).toContain('heads in a bad week: cannot be told.');
  });

  test('kept plans, causes, questions and messages are told', () => {
    expect(spoken(pressing(state, 'k', '+')).at(-2)).toBe(
      'Kept plan 1, sow every 3 d: usual week 22, bad week 14, heads a week 20.5, 10 seeds a week, 160 holes.',
    );
    const spell = { stage: 'finishing', from: 0, to: 7, holes: 6, cause: 'nobody came' };
    expect(spoken({ ...state, real: true }, [spell])).toContain(
      'finishing, 4 Jan to 10 Jan: nobody came; up to 6 holes empty.',
    );
    expect(spoken({ ...state, real: true })).toContain('germination, 40 holes: 40 taken.');
    expect(spoken(pressing(state, 'u')).at(-1)).toBe('There is nothing to undo.');
    expect(spoken(pressing(state, 's', 'a.yaml')).at(-1)).toBe(
      'Save as, end with Enter, Escape leaves it: a.yaml',
    );
    expect(spoken(pressing(state, '2')).at(-1)).toBe(
      'Sow, now every 3 d; type, end with Enter, Escape leaves it: 2',
    );
    expect(spoken(pressing(state, '0', { return: true })).at(-1)).toMatch(
      /^Not taken: found 0; expected .* Sow, now/,
    );
    expect(spoken(pressing(state, '+', 'k', 'q')).at(-1)).toBe(
      '1 kept plan is not saved. Leave? y: yes, n: no.',
    );
    expect(spoken({ ...state, cover: askedOver('a.yaml') }).at(-1)).toBe(
      'a.yaml is there already. Write over it? y: yes, n: no.',
    );
  });

  test('the plans side by side are told, the chosen one while the mark is on them, and how to take one', () => {
    const lines = spoken(pressing(state, { tab: true }, { downArrow: true }));
    const at = lines.indexOf('Plans side by side, up and down choose, Enter takes one:');
    expect(lines.slice(at + 1, at + 6)).toEqual([
      '1. every 1 d: not known yet',
      '2. every 2 d: not known yet',
      '3. every 3 d, now: not known yet',
      '4. every 4 d: not known yet, chosen',
      '5. every 5 d: not known yet',
    ]);
    expect(lines).toContain('1. sow: every 3 d');
    // Beside kept plans the one on the screen is called so.
    const kept = pressing(state, 'k', '+', ...Array(aboutsOf(CELLAR, 1).length - 1).fill('c'), { tab: true });
    expect(kept.strip.about.kind).toBe('kept');
    expect(spoken(kept)).toContain('1. now: not known yet, chosen');
    const unmarked = spoken(state);
    const before = unmarked.indexOf('Plans side by side, Tab goes there, Enter takes one:');
    expect(unmarked[before + 4]).toBe('4. every 4 d: not known yet');
    // Enter takes the chosen row.
    expect(spoken(pressing(state, { tab: true }, { downArrow: true }, { return: true }))).toContain(
      '1. sow: every 4 d',
    );
  });

  test('the help names the plain text as the better way', () => {
    expect(spoken(pressing(state, '?')).join('\n')).toMatch(/easier to listen to: evensow run FILE/);
  });

  test('a title cannot send codes to the terminal', () => {
    const title = 'a\u001b[2Jb';
    expect(spoken({ ...state, scenario: { ...CELLAR, title } })[0]).toMatch(/^a \[2Jb, simulated/);
  });
});
