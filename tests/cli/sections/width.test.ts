/** No text is wider than it may be, whatever its owner calls the line, its stages and its crops. */

import { describe, expect, test } from 'vitest';
import { textOf } from '../../../cli/render/text.js';
import { widthOf } from '../../../cli/render/width.js';
import type { Plan } from '../../../sim/models/plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { allTexts, studySections } from './shown.js';

const WEEKS = 20;
const DAY = 70;

interface Names {
  readonly title: string;
  readonly stages: readonly string[];
  readonly crops: readonly string[];
}

/** Three crops, one of them refilled; too few holes at the end, so that plants wait and some are thrown away. */
function named({ title, stages, crops }: Names, size = 1): Plan {
  const last = stages.length - 1;
  const growing = stages.map((_, s) => grow(time(6, 0.2), { loss: 0.05, keeps: s === last ? 2 : 4 }));
  return line(
    stages.map((name, s) => stage(name, size * (s === last ? 8 : 20), s === last ? 1 : 0)),
    crops.map((name, c) =>
      c === 2
        ? crop(growing, { kind: 'refill' }, { name, germination: 0.9 })
        : crop(growing, every(3 + c, 7 * WEEKS, 5 * size), { name, germination: 0.9 }),
    ),
    {
      title,
      weeks: WEEKS,
      visits: visitDays(WEEKS, [1, 0, 1, 0, 0, 1, 0]),
      want: { heads: 6 * size, days: Array.from({ length: WEEKS }, (_, week) => 7 * week + 2) },
    },
  );
}

/** A text of so many letters that begins and ends as given. */
function long(beginning: string, end: string, letters: number, fill = 'abcdefghi '): string {
  const middle = fill.repeat(letters).slice(0, letters - beginning.length - end.length);
  return `${beginning}${middle}${end}`;
}

const NUMBERS = ['one', 'two', 'six'];

const LINES: Record<string, [Names, size?: number]> = {
  'names of 60 letters in several words, a title of 200': [
    {
      title: long('Keller', 'Ende', 200),
      stages: NUMBERS.map((number) => long('finishing ', ` ${number}`, 60)),
      crops: NUMBERS.map((number) => long('butterhead ', ` ${number}`, 60)),
    },
  ],
  'names of 60 letters and a title of 200, each in one word': [
    {
      title: long('Keller', 'Ende', 200, 'x'),
      stages: NUMBERS.map((number) => long(number, 'shelf', 60, 'x')),
      crops: NUMBERS.map((number) => long(number, 'green', 60, 'x')),
    },
  ],
  'names of 60 letters that differ in the middle only': [
    {
      title: 'Line',
      stages: NUMBERS.map((number) => `${'x'.repeat(28)}${number}${'x'.repeat(29)}`),
      crops: NUMBERS.map((number) => `${'y'.repeat(28)}${number}${'y'.repeat(29)}`),
    },
  ],
  'names of 24 letters': [
    {
      title: 'Line',
      stages: ['germination in the cellar', 'nursery lower shelf right', 'finishing upper shelf left'],
      crops: ['butterhead dark green 24', 'butterhead red', 'butterhead green'],
    },
  ],
  'many stages with short names': [
    {
      title: 'Line',
      stages: ['a', 'b', 'nursery', 'finish1', 'finish2', 'f', 'g'],
      crops: ['leaf', 'basil'],
    },
  ],
  'thousands of plants': [
    {
      title: 'Line',
      stages: NUMBERS.map((number) => long('finishing ', ` ${number}`, 60)),
      crops: NUMBERS.map((number) => long('butterhead ', ` ${number}`, 60)),
    },
    // More than 6000 seeds in all, so counts have four digits. A larger line only takes longer.
    15,
  ],
};

function wideRows(name: string, text: string, width: number): string[] {
  return (
    text
      .split('\n')
      // A command to be typed is one line, however long.
      .filter((row) => !/^ +evensow /.test(row))
      .flatMap((row) => (widthOf(row) > width ? [`${name}, ${widthOf(row)}: ${row}`] : []))
  );
}

describe.each(Object.entries(LINES))('%s', (_, [names, size]) => {
  test('fit: run, compare, check, size and search, into 40 columns and more', async () => {
    const told = await studySections(named(names, size));
    for (const width of [40, 60, 80, 120]) {
      const wide = Object.entries(told).flatMap(([of, sections]) =>
        wideRows(of, textOf(sections, width), width),
      );
      // A line of a scenario file ends at a comma, and never within a name.
      expect(wide.filter((row) => width >= 80 || !/^search, \d+: +- \{name: .{60},$/.test(row))).toEqual([]);
    }
  });

  test('fit: ahead, chores and replay, into 80 columns', async () => {
    const texts = await allTexts(named(names, size), DAY);
    expect(Object.entries(texts).flatMap(([of, text]) => wideRows(of, text, 80))).toEqual([]);
  });
});

test('a table tells apart what its owner tells apart', async () => {
  const plan = named(LINES['names of 60 letters that differ in the middle only']![0]);
  const { ahead, chores } = await allTexts(plan, DAY);
  const run = textOf((await studySections(plan))['run']!);
  for (const text of [run, ahead!, chores!]) {
    const called = new Set(text.match(/x{5,}\.\.\d/g));
    expect(called.size).toBeGreaterThanOrEqual(3);
  }
  // The work list is made of tables only: no name is broken over two lines there.
  expect(chores).not.toMatch(/[xy]{25}/);
});
