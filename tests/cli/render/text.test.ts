/** Sections as text: of any width, and with everything in it that the sections say. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { textOf } from '../../../cli/render/text.js';
import { widthOf } from '../../../cli/render/width.js';
import {
  bar,
  type Cell,
  chapter,
  day,
  doubtful,
  figure,
  interval,
  key,
  name,
  section,
  type Table,
  table,
  task,
  words,
} from '../../../cli/sections/section.js';
import { dateText } from '../../../cli/words/dates.js';
import { COUNT, figureText, fixed, intervalText, SHARE, signed } from '../../../cli/words/numbers.js';

function linesOf(block: Table, width: number): string[] {
  return textOf([section(null, block)], width)
    .split('\n')
    .slice(0, -1);
}

describe('a table', () => {
  const rows = [
    ['a', figure(3, COUNT), 'more'],
    ['nursery', figure(1200, COUNT), 'no difference'],
  ];

  test('has its texts to the left and its figures to the right', () => {
    expect(linesOf(table(rows, { head: ['', 'heads', ''] }), 80)).toEqual([
      '         heads',
      'a            3  more',
      'nursery  1 200  no difference',
    ]);
  });

  test('has the words behind its figures below each other', () => {
    const heads = [
      ['a', figure(19, COUNT, 'heads')],
      ['b', figure(1, COUNT, 'head or fewer')],
      ['c', figure(0.5, SHARE)],
    ];
    expect(linesOf(table(heads), 80)).toEqual(['a      19 heads', 'b       1 head or fewer', 'c  50.0 %']);
  });

  test('keeps the line breaks of its head, whose last lines stand over the columns', () => {
    const head = ['stage', 'heads\na week', ''];
    expect(linesOf(table(rows, { head }), 80).slice(0, 2)).toEqual(['          heads', 'stage    a week']);
  });

  test('comes closer together where there is little room, then its names get shorter', () => {
    const named = table([[name('abcdefghijklmnop'), figure(1234567890, COUNT)]]);
    expect(linesOf(named, 31)).toEqual(['abcdefghijklmnop  1 234 567 890']);
    expect(linesOf(named, 30)).toEqual(['abcdefghijklmnop 1 234 567 890']);
    expect(linesOf(named, 29)).toEqual(['abcdefghi..mnop 1 234 567 890']);
  });

  test('has columns below others where they do not fit beside them, each time with the first', () => {
    const stages = ['one', 'two', 'six'].map((of) => name(of));
    const wide = table([['holes in all', ...stages.map(() => figure(123456789, COUNT))]], {
      head: ['', ...stages],
    });
    expect(linesOf(wide, 40)).toEqual([
      '                      one          two',
      'holes in all  123 456 789  123 456 789',
      '',
      '                      six',
      'holes in all  123 456 789',
    ]);
  });

  test('has boxes to tick, and brackets about what is not sure', () => {
    const list = table([
      [task('pick'), doubtful(7, COUNT)],
      [task('clear'), figure(12, COUNT)],
    ]);
    expect(linesOf(list, 80)).toEqual(['[ ] pick   (7)', '[ ] clear   12']);
  });

  test('breaks the words of its first column, where all others fit beside it then', () => {
    const rows = [
      ['ready, but nobody came by yet', ...[1, 2].map((times) => figure(times * 1234567, COUNT))],
    ];
    expect(linesOf(table(rows, { head: ['', 'one', 'two'] }), 42)).toEqual([
      '                             one       two',
      'ready, but nobody came 1 234 567 2 469 134',
      'by yet',
    ]);
  });

  test('breaks the words that stand last into lines', () => {
    const told = table([[name('plan'), 'nothing that was tried brings any more heads']]);
    expect(linesOf(told, 40)).toEqual(['plan  nothing that was tried brings any', '      more heads']);
  });

  test('has bars as long as there is room for, and says what they mean only then', () => {
    const bars = table([['a', figure(5, COUNT), bar(0.5, { upTo: 1 })]], { bars: key(['=', 'picked']) });
    expect(linesOf(bars, 80)).toEqual([`a  5  ${'='.repeat(12)}${'-'.repeat(12)}`, '= picked']);
    expect(linesOf(bars, 16)).toEqual(['a  5  =====-----', '= picked']);
    expect(linesOf(bars, 10)).toEqual(['a  5']);
  });

  test('shows a step of a bar in its place, and one too small to see as a line', () => {
    const steps = [bar(1, { from: 0.5 }), bar(0.5, { from: 1 }), bar(0.5, { from: 0.501 }), bar(0)].map(
      (step) => ['a', step],
    );
    expect(linesOf(table(steps), 80)).toEqual([
      `a  ${' '.repeat(12)}${'='.repeat(12)}`,
      `a  ${' '.repeat(12)}${'='.repeat(12)}`,
      `a  ${' '.repeat(12)}|`,
      'a',
    ]);
  });
});

test('what belongs to a title stands further to the right, sections a line apart', () => {
  const inner = section('Part', 'one two three');
  expect(textOf([section(null, 'A'), section('Title', 'B', inner)], 12)).toBe(
    'A\n\nTitle\n  B\n  Part\n    one two\n    three\n',
  );
});

test('the parts of a chapter stand a line apart', () => {
  const parts = [section('Mon', 'B'), section('Thu', 'C')];
  expect(textOf([chapter('Week', ...parts), section(null, 'D')])).toBe(
    'Week\n  Mon\n    B\n\n  Thu\n    C\n\nD\n',
  );
});

test('lines of a scenario file go on after a comma', () => {
  const code = { kind: 'code', lines: [`- {name: ${'x'.repeat(20)}, channels: 12}`] } as const;
  expect(textOf([section(null, code)], 40)).toBe(`- {name: ${'x'.repeat(20)},\n    channels: 12}\n`);
});

test('a picture has each mark in its place, and as many columns as there is room for', () => {
  const axis = { least: 0, most: 10, form: COUNT, label: 'holes' };
  const plane = {
    kind: 'plane',
    marks: [
      { x: 0, y: 0, sign: '.' },
      { x: 10, y: 10, sign: 'x' },
      { x: 10, y: 10, sign: '*' },
    ],
    x: axis,
    y: axis,
  } as const;
  const lines = textOf([section(null, plane)], 44).split('\n');
  expect(lines[0]).toBe(`10 |${' '.repeat(39)}*`);
  expect(lines.slice(11, 14)).toEqual([
    ' 0 |.',
    `   +${'-'.repeat(40)}`,
    `    0${' '.repeat(16)}holes${' '.repeat(16)}10`,
  ]);
});

describe('whatever the names, figures and width', () => {
  const text = fc.stringMatching(/^[a-c根][a-c根 ]{0,70}[a-c]$/u);
  const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  const makers: fc.Arbitrary<Cell>[] = [
    text,
    text.map((one) => name(one)),
    text.map((one) => words('+1 channel of ', { name: one }, ' (9 holes)')),
    value.map((one) => figure(Math.abs(one), COUNT, '')),
    value.map((one) => figure(one, signed(1))),
    share.map((one) => figure(one, SHARE)),
    fc.tuple(value, value).map(([low, high]) => interval({ low, high }, fixed(1))),
    fc.constant(day('2027-01-04')),
    fc.constant(null),
  ];
  const column = fc.oneof(...makers.map((maker) => fc.array(maker, { minLength: 4, maxLength: 4 })));
  const bars = fc.array(
    share.map((one) => bar(one)),
    { minLength: 4, maxLength: 4 },
  );
  const tables = fc
    .record({
      columns: fc.array(column, { minLength: 1, maxLength: 9 }),
      last: fc.option(bars),
      headed: fc.boolean(),
    })
    .map(({ columns, last, headed }) => {
      const all: readonly (readonly Cell[])[] = last === null ? columns : [...columns, last];
      const rows = Array.from({ length: 3 }, (_, row) => all.map((cells) => cells[row]!));
      const head = all.map((cells) => (isText(cells[3]!) ? cells[3]! : 'heads\na week'));
      return table(rows, headed ? { head, bars: key(['=', 'heads']) } : {});
    });
  const widths = fc.integer({ min: 40, max: 130 });

  test('no line is wider', () => {
    fc.assert(
      fc.property(tables, widths, text, (block, width, title) => {
        const lines = textOf([section(title, block, title)], width).split('\n');
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(width);
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  test('each figure of a table stands in it, and each text', () => {
    fc.assert(
      fc.property(tables, widths, (block, width) => {
        const told = textOf([section(null, block)], width);
        const letters = told.replaceAll(/\s/g, '');
        for (const cell of block.rows.flat()) {
          if (cell === null || typeof cell === 'string') continue;
          const expected =
            cell.kind === 'figure'
              ? figureText(cell.value, cell.form)
              : cell.kind === 'interval'
                ? intervalText(cell, cell.form)
                : cell.kind === 'date'
                  ? dateText(cell.iso)
                  : '';
          expect(told).toContain(expected);
        }
        // A text may take several lines, beside which others stand: its letters are there.
        for (const cell of block.rows.flat())
          if (typeof cell === 'string')
            for (const word of cell.split(' ')) expect(letters).toContain(word.slice(0, 8));
      }),
      { seed: 12, numRuns: 200 },
    );
  });
});

function isText(cell: Cell): boolean {
  return typeof cell === 'string' || cell?.kind === 'words';
}
