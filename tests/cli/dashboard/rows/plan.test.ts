import { describe, expect, test } from 'vitest';
import { differenceRows, differencesOf } from '../../../../cli/dashboard/rows/difference.js';
import { answerWords, factWords, figureRows, remediesOf } from '../../../../cli/dashboard/rows/figures.js';
import { footRow } from '../../../../cli/dashboard/rows/foot.js';
import { helpRows } from '../../../../cli/dashboard/rows/help.js';
import { cellsOf } from '../../../../cli/dashboard/rows/kept.js';
import { knobHeight, knobRows } from '../../../../cli/dashboard/rows/knobs.js';
import { planRows } from '../../../../cli/dashboard/rows/plan.js';
import { rowWidth } from '../../../../cli/dashboard/rows/rows.js';
import { spellRows, spellsOn } from '../../../../cli/dashboard/rows/spells.js';
import { GROUPS } from '../../../../cli/dashboard/state/keys.js';
import { differing, knobsOf } from '../../../../cli/dashboard/state/knobs.js';
import type { State } from '../../../../cli/dashboard/state/state.js';
import { DRAWN, PLAIN } from '../../../../cli/dashboard/theme.js';
import { STATES } from '../../../../sim/models/ledger.js';
import {
  acted,
  answered,
  askedOver,
  CELLAR,
  example,
  figures,
  HELD_BY_FINISHING,
  KITCHEN,
  linesOf,
  meaningOf,
  pressing,
  start,
  textOf,
} from '../given.js';

const RESULT = figures({ limits: HELD_BY_FINISHING });

describe('the figures', () => {
  const said = (words: readonly { label: string; value: string }[]): string[] =>
    words.map(({ label, value }) => `${label.trim()}: ${value}`);

  test('for somebody who listens the answer comes first: usual week, bad one, what holds the line back, what brings more', () => {
    expect(said(answerWords(RESULT))).toEqual([
      'usual week: 22 heads',
      'bad week: 14 or fewer',
      'held back by: finishing',
      'one more finishing channel: +1.9 heads a week (+1.6 to +2.2)',
      '10 % more seeds: +0.4 heads a week (+0.1 to +0.7)',
      'one more nursery channel: 0.0 heads a week (-0.1 to +0.1), hardly anything',
    ]);
    expect(said(factWords(RESULT))).toEqual([
      'first pick: Mon 15 Feb 2027',
      'without a pick: 3.1 % of weeks',
      'heads a week: 20.5 on average',
      'if 10 % slower: -1.9 a week',
    ]);
  });

  test('until it is known, what holds the line back is being tried', () => {
    const out = figures({ limits: null });
    expect(said(answerWords(out)).at(-1)).toBe('held back by: being tried');
    expect(linesOf(figureRows(out, 38, 4, PLAIN))[0]).toBe('being tried: what would bring more');
  });

  test('remedies stand in the order of what they bring, the most marked, with the interval where it has room', () => {
    expect(linesOf(figureRows(RESULT, 60, 5, PLAIN))).toEqual([
      'one more finishing channel +1.9 (+1.6 to +2.2) most',
      '10 % more seeds            +0.4 (+0.1 to +0.7)',
      'hardly anything: nursery +1 channel',
      'first pick     Mon 15 Feb 2027',
      // There are more figures.
      'without a pick 3.1 % of weeks ~',
    ]);
    expect(linesOf(figureRows(RESULT, 38, 3, PLAIN))).toEqual([
      'one more finishing channel +1.9 most',
      '10 % more seeds            +0.4',
      'first pick     Mon 15 Feb 2027 ~',
    ]);
  });

  test('those that have no room are counted', () => {
    expect(linesOf(figureRows(RESULT, 38, 2, PLAIN))).toEqual([
      'and 2 that bring less',
      'first pick     Mon 15 Feb 2027 ~',
    ]);
    const three = {
      ...HELD_BY_FINISHING,
      trials: HELD_BY_FINISHING.trials.map((trial) => ({ ...trial, brings: true })),
    };
    expect(linesOf(figureRows(figures({ limits: three }), 38, 3, PLAIN))).toEqual([
      'one more finishing channel +1.9 most',
      'and 2 that bring less',
      'first pick     Mon 15 Feb 2027 ~',
    ]);
  });

  test('where a name is long its middle goes, not what is said of it, and two that differ at their end stay different', () => {
    const shelves = ['finishing on the upper shelf', 'finishing on the lower shelf'];
    const [nursery, finishing, seeds] = HELD_BY_FINISHING.trials;
    const of = (stage: string, trial = finishing!): typeof trial => ({
      ...trial,
      change: { kind: 'channel', stage, channels: 1, holes: 9 },
    });
    const trials = [nursery!, ...shelves.map((stage) => of(stage)), seeds!];
    const limits = { ...HELD_BY_FINISHING, stages: shelves, trials };
    expect(linesOf(figureRows(figures({ limits }), 34, 5, PLAIN)).slice(0, 3)).toEqual([
      'fin~per shelf +1 channel +1.9 most',
      'fin~wer shelf +1 channel +1.9',
      'seeds +10 %              +0.4',
    ]);
    // So little room that no cut tells them apart.
    expect(linesOf(figureRows(figures({ limits }), 30, 5, PLAIN)).slice(0, 2)).toEqual([
      'finishi~1 +1 channel +1.9 most',
      'finishi~2 +1 channel +1.9',
    ]);
  });

  test('what brings more by luck only is not among what brings more', () => {
    const unsure = { ...HELD_BY_FINISHING.trials[0]!, gain: 3, low: -1, high: 7 };
    const trials = [unsure, ...HELD_BY_FINISHING.trials.slice(1)];
    expect(remediesOf({ ...HELD_BY_FINISHING, trials }).map(({ short }) => short)).toEqual([
      'finishing +1 channel',
      'seeds +10 %',
      'nursery +1 channel',
    ]);
  });

  test('where nothing brings more, that is said', () => {
    const trials = HELD_BY_FINISHING.trials.map((trial) => ({ ...trial, brings: false }));
    const limits = { ...HELD_BY_FINISHING, by: 'nothing', stages: [], trials } as const;
    expect(linesOf(figureRows(figures({ limits }), 38, 3, PLAIN))[0]).toBe(
      'nothing that was tried brings more',
    );
  });

  test('of what is wanted it is told how much is missed', () => {
    expect(factWords(figures({ wanted: 200, short: 30 }))).toContainEqual({
      label: 'wanted, missed',
      value: '15.0 %',
    });
  });

  test('where no week is one of a running line there is no usual week', () => {
    expect(said(answerWords(figures({ p50: null })))).toEqual(['usual week: none in this time']);
  });

  test('no row is longer than its room', () => {
    for (const width of [20, 30, 38, 46, 58]) {
      for (const row of figureRows(RESULT, width, 9, DRAWN)) expect(rowWidth(row)).toBeLessThanOrEqual(width);
    }
  });
});

describe('the difference to the plan before', () => {
  const differences = {
    heads_a_week: { mean: 1.34, low: 1.04, high: 1.62, verdict: 'more' },
    bad_week: { mean: 0, low: -1, high: 1, verdict: 'none' },
  } as const;
  const changed = pressing(start(), '+');
  const known = acted(changed, { type: 'figures', id: 2, figures: { result: RESULT, differences } });

  test('is told with its interval and in words', () => {
    expect(linesOf(differenceRows(known, 78, 3))).toEqual([
      'Against the plan before, with 95 % intervals',
      'heads a week +1.3 (+1.0 to +1.6) more',
      'bad week 0 (-1 to +1) no difference',
    ]);
    expect(linesOf(differenceRows(known, 78, 2))).toHaveLength(2);
  });

  test('finds room in one row, and in few columns', () => {
    expect(linesOf(differenceRows(known, 116, 1))).toEqual([
      'Against before: heads a week +1.3 (+1.0 to +1.6) more   bad week 0 (-1 to +1) no difference',
    ]);
    expect(linesOf(differenceRows(known, 78, 1))).toEqual([
      'heads a week +1.3 (+1.0 to +1.6) more   bad week 0 (-1 to +1) no difference',
    ]);
    expect(linesOf(differenceRows(known, 58, 1))).toEqual([
      'Against before: heads a week +1.3 (+1.0 to +1.6) more',
    ]);
  });

  test('while the figures of the new plan are out it is said that they are', () => {
    expect(linesOf(differenceRows(changed, 78, 3))).toEqual(['running 200 seasons']);
    expect(differencesOf(changed)).toEqual({ why: 'running 200 seasons' });
    // Of the first seasons there are figures, but no difference yet.
    const partial = { ...figures(), seasons: 20, partial: true };
    const few = acted(changed, {
      type: 'figures',
      id: 2,
      figures: { result: partial, differences: null },
    });
    expect(differencesOf(few)).toEqual({ why: 'running 200 seasons' });
  });

  test('waits for as many seasons as are run: fewer of a very large line', () => {
    const [crop] = changed.scenario.crops;
    const crops = [{ ...crop!, sow: { every: 1, seeds: 100_000 } }];
    expect(differencesOf({ ...changed, scenario: { ...changed.scenario, crops } })).toEqual({
      why: 'running 20 seasons',
    });
  });

  test('is none after an undo that leaves nothing to undo', () => {
    const undone = answered(pressing(known, 'u'));
    expect(undone.past).toEqual([]);
    expect(linesOf(differenceRows(undone, 78, 2))[0]).toMatch(/^What a change to the plan brings/);
  });

  test('is none before anything was changed, and it is said how to', () => {
    expect(linesOf(differenceRows(answered(start()), 78, 2))[0]).toMatch(/^What a change to the plan brings/);
  });

  test('where a plan has no such figure, that is said', () => {
    const none = acted(changed, {
      type: 'figures',
      id: 2,
      figures: { result: RESULT, differences: { heads_a_week: null, bad_week: null } },
    });
    expect(linesOf(differenceRows(none, 78, 2))[0]).toBe('heads a week cannot be told');
  });
});

describe('the knobs', () => {
  const knobs = (chosen: number, width: number, height: number): string[] =>
    linesOf(knobRows({ scenario: CELLAR, chosen, isMarked: true, width, height, signs: PLAIN }));

  test('stand in columns, the chosen one behind a pointer and turned round', () => {
    expect(knobs(1, 80, 2)).toEqual([
      '  sow   every 3 d    germination channels 1    finishing channels 8',
      '> seeds 10           nursery channels     2    visits             mon thu sat',
    ]);
    const rows = knobRows({
      scenario: CELLAR,
      chosen: 1,
      isMarked: true,
      width: 80,
      height: 2,
      signs: PLAIN,
    });
    expect(meaningOf(rows, '10')).toBe('chosen');
    expect(meaningOf(rows, 'every 3 d')).toBe('plain');
  });

  test('the columns around the chosen one are shown where there is less room, and marks that there are more', () => {
    expect(knobs(5, 50, 2)).toEqual(['~   finishing channels 8', '  > visits             mon thu sat']);
    expect(knobs(2, 60, 2)[0]).toBe('    sow   every 3 d  > germination channels 1 ~');
  });

  test('the chosen one is always in sight', () => {
    const farm = example('market-farm');
    knobsOf(farm).forEach(({ label }, chosen) => {
      for (const [width, height] of [
        [38, 1],
        [58, 1],
        [78, 2],
        [41, 5],
      ] as const) {
        const rows = knobRows({ scenario: farm, chosen, isMarked: true, width, height, signs: PLAIN });
        expect(linesOf(rows).some((line) => line.includes(`> ${label.slice(0, 12)}`))).toBe(true);
        expect(rows.length).toBeLessThanOrEqual(height);
        for (const row of rows) expect(rowWidth(row)).toBeLessThanOrEqual(width);
      }
    });
  });

  test('take no more rows than they need', () => {
    expect(knobHeight(CELLAR, 200, 4, PLAIN)).toBe(1);
    expect(knobHeight(CELLAR, 78, 4, PLAIN)).toBe(2);
    expect(knobHeight(CELLAR, 30, 4, PLAIN)).toBe(4);
  });
});

describe('kept plans', () => {
  test('differ in what was turned', () => {
    const other = pressing(start(), '+', { downArrow: true }, '+', '+').scenario;
    expect(differing(other, CELLAR)).toBe('sow every 4 d, seeds 12');
    expect(differing(CELLAR, CELLAR)).toBe('');
    expect(cellsOf(other, null)).toEqual(['-', '-', '-', '-', '160']);
  });
});

describe('why holes stood empty', () => {
  const spells = [
    { stage: 'finishing', from: 28, to: 42, holes: 6, cause: 'nobody came, as planned' },
    { stage: 'nursery', from: 40, to: 41, holes: 1, cause: 'out for cleaning' },
  ];
  const rows = (day: number, height: number, width = 100): string[] =>
    linesOf(spellRows(spells, day, { start: '2027-01-04', width, height, signs: PLAIN }));

  test('a spell counts from its first day up to the day before its end', () => {
    expect(spellsOn(spells, 27)).toEqual([]);
    expect(spellsOn(spells, 28)).toHaveLength(1);
    expect(spellsOn(spells, 40)).toHaveLength(2);
    expect(spellsOn(spells, 41)).toHaveLength(1);
    expect(spellsOn(spells, 42)).toEqual([]);
  });

  test('is told with the stage, the dates, the cause and the holes, the cause before what may have no room', () => {
    // Day 28 from Monday, 4 January 2027; the last of 14 days; day 40.
    expect(rows(40, 3)).toEqual([
      'finishing, 1 Feb to 14 Feb: nobody came, as planned; up to 6 holes empty',
      'nursery, 13 Feb: out for cleaning; up to 1 hole empty',
    ]);
  });

  test('says how many more there are where not all have room, and at least one cause', () => {
    expect(rows(40, 2, 60)).toEqual([
      'finishing, 1 Feb to 14 Feb: nobody came, as planned; up t~',
      'nursery, 13 Feb: out for cleaning; up to 1 hole empty',
    ]);
    expect(rows(40, 1, 60)).toEqual(['finishing, 1 Feb to 14 Feb: nobody came, as plan~ and 1 more']);
    const three = [...spells, { ...spells[0]!, cause: 'chance' }];
    const room = { start: '2027-01-04', width: 100, height: 2, signs: PLAIN };
    expect(linesOf(spellRows(three, 40, room))[1]).toBe('and 2 more causes');
  });

  test('says so where none did', () => {
    expect(rows(0, 3)).toEqual(['No hole of the log stood empty that day.']);
  });
});

describe('the plan', () => {
  const layout = { width: 78, plan: { title: 1, height: 4, knobs: 2, differences: 2 } } as const;
  const plan = (state: State, spells = [] as const): string[] =>
    linesOf(planRows({ state, spells, day: 0, layout, signs: PLAIN }));

  test('says in its heading whether it was changed, and how many plans are kept', () => {
    expect(plan(start())[0]).toMatch(/^The plan -+$/);
    expect(plan(pressing(answered(start()), 'k', '+', 'k', '+'))[0]).toMatch(
      /^The plan -+ changed - 2 kept --$/,
    );
  });

  test('shows causes in place of the difference where the season is that of a log', () => {
    const state = start(CELLAR, { columns: 80, rows: 24 }, true);
    expect(plan(state)[3]).toBe('No hole of the log stood empty that day.');
  });

  test('behind the last day of the log, where its end is shown, the causes are those of the last day', () => {
    const state = start(CELLAR, { columns: 80, rows: 24 }, true);
    const { lastDay } = state;
    const spell = { stage: 'nursery', from: 0, to: lastDay, holes: 3, cause: 'chance' };
    const rows = (day: number): string[] =>
      linesOf(planRows({ state, spells: [spell], day, layout, signs: PLAIN }));
    expect(rows(lastDay)[3]).toMatch(/^nursery, .*: chance; up to 3 holes empty$/);
    expect(rows(lastDay)).toEqual(rows(lastDay - 1));
  });
});

describe('the last row', () => {
  const foot = (state: State, width = 78): string => textOf(footRow(state, width, PLAIN));
  const noted = (note: string): State => ({ ...start(), note });
  const naming = (text: string): State => ({ ...start(), cover: { kind: 'name', text, fault: null } });

  test('shows the keys that do something now, the most needed first, and always those for help and for leaving', () => {
    expect(foot(start())).toBe(
      'up down choose  + - change  0-9 type  Tab strip  space run  ~  ? help  q leave',
    );
    // What was undone can be brought back: that is never left out.
    expect(foot(pressing(start(), '+', 'u'), 58)).toBe(
      'up down choose  + - change  r redo  ~  ? help  q leave',
    );
    expect(foot(start(), 116)).toBe(
      'up down choose  + - change  0-9 type  Tab strip  space run  Enter type  left right day  ~  ? help  q leave',
    );
    expect(foot(pressing(start(), { upArrow: true }))).toContain('1-7 days');
    expect(foot(pressing(start(), { tab: true }))).toMatch(
      /^up down choose {2}Enter take {2}Tab plan {2}space run/,
    );
    expect(foot(pressing(start(), '+'))).toContain('u undo');
    for (const width of [58, 78, 100]) {
      const text = foot(start(), width);
      expect(text).toMatch(/^up down choose .* {2}\? help {2}q leave$/);
      expect(text.length).toBeLessThanOrEqual(width);
    }
  });

  test('shows a message instead, cut to one row', () => {
    expect(foot(noted('There is nothing to undo.'))).toBe('There is nothing to undo.');
    expect(foot(noted('a\nb'.repeat(60)))).toHaveLength(78);
  });

  test('asks for a name, and says what a file of that name will hold', () => {
    expect(foot(naming('line.yaml'))).toBe(
      'Save as: line.yaml_  Enter: the plan (.txt, .csv: the strip). Escape: none.',
    );
    expect(foot(naming('line.txt'))).toBe(
      'Save as: line.txt_  Enter: the plans side by side, as text. Escape: none.',
    );
    expect(foot(naming('line.csv'), 58)).toBe('Save as: line.csv_  Enter: strip as CSV. Escape');
  });

  test('asks for a value with what it is now', () => {
    const typing = pressing(start(), { downArrow: true }, '12');
    expect(foot(typing)).toBe('seeds, now 10: 12_  Enter: take it. Escape: leave it.');
    expect(foot(pressing(start(KITCHEN), { return: true }), 58)).toBe(
      'butterhead sow, now tue fri: _  Enter, Escape',
    );
  });

  test('asks before it writes over a file, and before kept plans are lost', () => {
    expect(foot({ ...start(), cover: askedOver('line.yaml') })).toBe(
      'line.yaml is there already. Write over it?  y: yes  n: no',
    );
    expect(foot(pressing(start(), '+', 'k', 'q'))).toBe('1 kept plan is not saved. Leave?  y: yes  n: no');
    expect(foot(pressing(start(), '+', 'k', '+', 'k', 'q'))).toBe(
      '2 kept plans are not saved. Leave?  y: yes  n: no',
    );
  });

  test('says how the help is closed', () => {
    expect(foot(pressing(start(), '?'))).toBe('Any key closes this help. Ctrl-C leaves.');
  });

  test('of a long text the end is seen, where one types; nothing is wider than the row', () => {
    const text = `${'a'.repeat(100)}菜.yaml`;
    expect(foot(naming(text), 58)).toMatch(/^Save as: a+菜\.yaml_ {2}Enter/);
    const states: State[] = [
      naming(text),
      { ...start(), cover: { kind: 'value', text, fault: null } },
      { ...start(KITCHEN), cover: { kind: 'value', text, fault: null } },
      { ...start(), cover: askedOver(text) },
    ];
    for (const state of states) {
      for (const width of [58, 78, 116]) {
        expect(rowWidth(footRow(state, width, PLAIN))).toBeLessThanOrEqual(width);
        expect(foot(state, width)).toContain('菜.yaml');
      }
    }
  });

  test('a value that is refused is told above it, whole where there is room; what was typed stays', () => {
    const refused = pressing(start(), { downArrow: true }, { return: true }, 'ten', { return: true });
    expect(foot(refused)).toMatch(/^seeds, now 10: ten_/);
    const layout = { width: 78, plan: { title: 1, height: 3, knobs: 2, differences: 1 } } as const;
    const above = (state: State, width: number): string[] =>
      linesOf(planRows({ state, spells: [], day: 0, layout: { ...layout, width }, signs: PLAIN }));
    expect(above(refused, 78)).toHaveLength(4);
    expect(above(refused, 78).slice(2)).toEqual([
      'Not taken: found "ten"; expected a whole number from 1 to 1000000 (seeds).',
      'Example: seeds: 10',
    ]);
    const low = { width: 58, plan: { title: 0, height: 2, knobs: 1, differences: 1 } } as const;
    const visits = pressing(start(), { upArrow: true }, { return: true }, 'dayly', { return: true });
    const rows = linesOf(planRows({ state: visits, spells: [], day: 0, layout: low, signs: PLAIN }));
    expect(rows).toHaveLength(2);
    expect(rows.join(' ')).toMatch(/^Not taken: found "dayly"; expected daily, always or a list .*~$/);
    // The row of the value that is typed stays.
    expect(above(refused, 78)[1]).toMatch(/^> seeds 10 /);
    // The next digit begins anew; what was refused can be mended, too.
    expect(foot(pressing(refused, '12'))).toMatch(/^seeds, now 10: 12_/);
    expect(foot(pressing(refused, { backspace: true }))).toMatch(/^seeds, now 10: te_/);
    // Mended, it is taken.
    const mended = pressing(refused, { backspace: true }, { backspace: true }, { backspace: true }, '10');
    expect(above(mended, 78).join('\n')).not.toContain('Not taken');
  });
});

describe('the help', () => {
  test('has every key with its words and every sign, whole, on a screen of 80 x 24', () => {
    // The last row says how it is closed.
    const rows = helpRows(78, 22, DRAWN);
    expect(rows.length).toBeLessThanOrEqual(22);
    const text = linesOf(rows).join('\n');
    for (const { title, bindings } of GROUPS) {
      expect(text).toContain(title);
      for (const { keys, words } of bindings)
        expect(text).toMatch(new RegExp(`(^|  )${escaped(keys)} +${escaped(words)}( |$)`, 'm'));
    }
    for (const state of STATES) expect(text).toContain(` ${DRAWN.holes[state]} `);
    expect(text).not.toContain('A window of');
    for (const row of rows) expect(rowWidth(row)).toBeLessThanOrEqual(78);
  });

  test('says on a smaller screen that a larger one shows all', () => {
    const lines = linesOf(helpRows(58, 15, DRAWN));
    expect(lines).toHaveLength(15);
    expect(lines.at(-1)).toBe('A window of 80 x 24 shows all of the help.');
  });
});

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
