/** Names in tables, and sentences on lines: short enough, and still told apart. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { counted, countedMean, gainText, shortNames, tableOfNames, wrap } from '../../../cli/views/format.js';

describe('names in a table', () => {
  const called = (names: readonly string[], width: number): string[] => {
    const short = shortNames(names, width);
    return names.map((name) => short.get(name)!);
  };

  test('lose their middle, so that the end still tells them apart', () => {
    expect(called(['butterhead green', 'butterhead red'], 15)).toEqual(['butterhea..reen', 'butterhead red']);
  });

  test('are cut elsewhere, all at one place, where the usual cut would make two alike', () => {
    // The usual cut leaves nine and four letters. From the end on they differ at the seventh letter first.
    expect(called(['finishing aaa one shelf', 'finishing aaa two shelf'], 15)).toEqual([
      'finish..e shelf',
      'finish..o shelf',
    ]);
  });

  test('are numbered if no cut tells them apart', () => {
    const names = ['a', 'b'].map((letter) => `${'x'.repeat(20)}${letter}${'x'.repeat(20)}`);
    expect(called(names, 10)).toEqual(['xxxxxxx..1', 'xxxxxxx..2']);
    // A number that somebody's own name has already is passed over.
    expect(called([...names, 'xxxxxxx..1'], 10)).toEqual(['xxxxxxx..2', 'xxxxxxx..3', 'xxxxxxx..1']);
  });

  test('never become longer than asked, and never alike, whatever they are', () => {
    const name = fc.stringMatching(/^[ab][ab .12]{0,40}$/);
    fc.assert(
      fc.property(
        fc.uniqueArray(name, { maxLength: 30 }),
        fc.integer({ min: 6, max: 30 }),
        (names, width) => {
          const short = called(names, width);
          expect(new Set(short).size).toBe(names.length);
          for (const [i, one] of short.entries()) {
            expect(one.length).toBeLessThanOrEqual(width);
            if (names[i]!.length <= width) expect(one).toBe(names[i]);
          }
        },
      ),
      { seed: 3, numRuns: 400 },
    );
  });

  test('leave room for the other columns: first the gaps shrink, then the names', () => {
    const rows = (of: (name: string) => string) => [[of('abcdefghijklmnop'), '1234567890']];
    const table = (width: number): string => tableOfNames(['abcdefghijklmnop'], rows, { width })[0]!;
    expect(table(28)).toBe('abcdefghijklmnop  1234567890');
    expect(table(27)).toBe('abcdefghijklmnop 1234567890');
    expect(table(26)).toBe('abcdefghi..mnop 1234567890');
  });
});

describe('sentences', () => {
  test('are not broken within a large number', () => {
    expect(wrap('at least 1 000 000 heads', 14)).toBe('at least\n1 000 000\nheads');
    expect(wrap('by +16 549 or -1 605.5', 11)).toBe('by +16 549\nor -1 605.5');
  });

  test('are broken between a year and a number behind it', () => {
    expect(wrap('in 2027 100 heads', 8)).toBe('in 2027\n100\nheads');
  });

  test('are broken within a word only if it is longer than a line, and never within the name of a file', () => {
    expect(wrap('a abcdefghijkl b', 8, '  ')).toBe('  a\n  abcdef\n  ghijkl\n  b');
    expect(wrap('a abcdefghijkl b', 8, '  ', true)).toBe('  a\n  abcdefghijkl\n  b');
  });
});

test('one is one, not many', () => {
  expect([1, 2].map((count) => counted(count, 'week'))).toEqual(['1 week', '2 weeks']);
  expect([1, 1.04, 1.3, 1200].map((mean) => countedMean(mean, 'head'))).toEqual([
    '1 head',
    '1.0 heads',
    '1.3 heads',
    '1 200 heads',
  ]);
});

test('large gains are in groups of three, their decimals are not', () => {
  expect([16549, -1234567, 999.96].map((gain) => gainText(gain, 0))).toEqual([
    '+16 549',
    '-1 234 567',
    '+1 000',
  ]);
  expect(gainText(1234.5678, 3)).toBe('+1 234.568');
});
