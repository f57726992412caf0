import { describe, expect, test } from 'vitest';
import { wrapped } from '../../../cli/render/wrap.js';
import { TIE } from '../../../cli/words/numbers.js';

describe('sentences', () => {
  test('are broken between words', () => {
    expect(wrapped('one two three', 7)).toEqual(['one two', 'three']);
  });

  test('are not broken within a large number, nor before a percent sign', () => {
    expect(wrapped('at least 1 000 000 heads', 14)).toEqual(['at least', '1 000 000', 'heads']);
    expect(wrapped('all 95 % of it', 6)).toEqual(['all', '95 %', 'of it']);
    expect(wrapped('by +16 549 or -1 605.5', 11)).toEqual(['by +16 549', 'or -1 605.5']);
  });

  test('are broken between a year and a number behind it', () => {
    expect(wrapped('in 2027 100 heads', 8)).toEqual(['in 2027', '100', 'heads']);
  });

  test('are not broken where words are tied', () => {
    expect(wrapped(`ready: B3${TIE}4, B12${TIE}1`, 14)).toEqual(['ready: B3 4,', 'B12 1']);
  });

  test('are broken within a word only if it is longer than a line, and never within the name of a file', () => {
    expect(wrapped('a abcdefghijkl b', 6)).toEqual(['a', 'abcdef', 'ghijkl', 'b']);
    expect(wrapped('a abcdefghijkl b', 6, true)).toEqual(['a', 'abcdefghijkl', 'b']);
  });
});
