/** Names in tables: short enough, and still told apart. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { shortNames } from '../../../cli/render/short-names.js';
import { widthOf } from '../../../cli/render/width.js';

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
    const name = fc.stringMatching(/^[ab根][ab根 .12]{0,40}$/u);
    fc.assert(
      fc.property(
        fc.uniqueArray(name, { maxLength: 30 }),
        fc.integer({ min: 6, max: 30 }),
        (names, width) => {
          const short = called(names, width);
          expect(new Set(short).size).toBe(names.length);
          for (const [i, one] of short.entries()) {
            expect(widthOf(one)).toBeLessThanOrEqual(width);
            if (widthOf(names[i]!) <= width) expect(one).toBe(names[i]);
          }
        },
      ),
      { seed: 3, numRuns: 400 },
    );
  });
});
