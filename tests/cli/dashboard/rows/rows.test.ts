import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  apart,
  beside,
  cut,
  fitted,
  fittedRight,
  fittedRow,
  piece,
  RowWriter,
  rowWidth,
} from '../../../../cli/dashboard/rows/rows.js';
import { DRAWN, PLAIN, type Signs } from '../../../../cli/dashboard/theme.js';
import { widthOf } from '../../../../cli/render/width.js';
import { linesOf, textOf } from '../given.js';

describe('columns that a text takes', () => {
  test('Latin letters and our signs take one each', () => {
    expect(widthOf('nursery')).toBe(7);
    expect(widthOf('café ñ ß')).toBe(8);
    expect(widthOf('●─●─○ ┊━┄ ▁▂▃█ × ◆ → …')).toBe(22);
  });

  // Unicode, East Asian Width: W and F.
  test('Chinese, Japanese and Korean letters and wide forms take two', () => {
    expect(widthOf('菜苗')).toBe(4);
    expect(widthOf('レタス')).toBe(6);
    expect(widthOf('상추')).toBe(4);
    expect(widthOf('Ａ１')).toBe(4);
  });

  test('an emoji takes two, whatever it is made of', () => {
    expect(widthOf('🌱')).toBe(2);
    expect(widthOf('👩‍🌾')).toBe(2);
    expect(widthOf('🇨🇭')).toBe(2);
    expect(widthOf('☀\ufe0f')).toBe(2);
  });

  test('marks on letters take none', () => {
    expect(widthOf('e\u0301')).toBe(1);
    expect(widthOf('\u1100\u1161\u11a8')).toBe(2);
    expect(widthOf('a\u200bb')).toBe(2);
  });

  test('every sign is one column wide and no two states share one', () => {
    for (const signs of [DRAWN, PLAIN]) {
      const holes = Object.values(signs.holes);
      expect(new Set(holes).size).toBe(holes.length);
      for (const sign of allSigns(signs)) expect(widthOf(sign), sign).toBe(1);
    }
  });

  test('the plain signs are ASCII', () => {
    for (const sign of allSigns(PLAIN)) expect(sign).toMatch(/^[ -~]$/);
  });
});

function allSigns({ holes, ...others }: Signs): string[] {
  return [...Object.values(holes), ...(Object.values(others) as (string | string[])[]).flat()];
}

describe('cutting and filling up', () => {
  test('what is too long is cut, and a sign stands where it was', () => {
    expect(cut('germination', 7, '…')).toBe('germin…');
    expect(cut('germination', 7)).toBe('germina');
    expect(cut('germination', 11, '…')).toBe('germination');
    expect(cut('germination', 0, '…')).toBe('');
  });

  test('a wide letter that goes in by half is left out', () => {
    expect(cut('菜苗菜', 5)).toBe('菜苗');
    expect(fitted('菜苗菜', 5)).toBe('菜苗 ');
    expect(cut('菜苗菜', 4, '…')).toBe('菜…');
  });

  test('control characters and marks that turn the writing round do not reach the terminal', () => {
    expect(cut('a\u001b[31mb\nc\u202ed\u009b', 20)).toBe('a [31mb c d ');
  });

  test('numbers stand to the right', () => {
    expect(fittedRight('42', 5)).toBe('   42');
    expect(fittedRight('12345', 3)).toBe('123');
  });

  test('nothing takes the place of a wide letter that did not go in', () => {
    expect(textOf(fittedRow([piece('ab菜'), piece('x')], 3))).toBe('ab ');
  });

  test('a row has exactly the width that is asked for', () => {
    const letters = fc.constantFrom('a', '菜', '●', ' ', '🌱', 'é', 'e\u0301');
    const rows = fc.array(fc.array(letters, { maxLength: 6 }).map((text) => piece(text.join(''))));
    fc.assert(
      fc.property(rows, fc.nat(30), (row, width) => {
        expect(rowWidth(fittedRow(row, width))).toBe(width);
      }),
      { numRuns: 300, seed: 1 },
    );
  });
});

describe('rows beside each other', () => {
  test('a row apart has both ends, or the left one alone where both have no room', () => {
    expect(textOf(apart([piece('left')], [piece('right')], 12))).toBe('left   right');
    expect(textOf(apart([piece('left')], [piece('right')], 9))).toBe('left');
  });

  test('blocks keep their columns where the one on the left is shorter', () => {
    const blocks = [
      { rows: [[piece('a')]], width: 3 },
      { rows: [[piece('long')], [piece('b')]], width: 3 },
    ];
    expect(linesOf(beside(blocks, 2))).toEqual(['a    lon', '     b']);
  });

  test('neighbours of one meaning become one piece', () => {
    const writer = new RowWriter();
    for (const sign of 'ab') writer.put(sign, 'growing');
    writer.put('c', 'dead');
    writer.put('d', 'dead');
    expect(writer.row()).toEqual([
      { text: 'ab', meaning: 'growing' },
      { text: 'cd', meaning: 'dead' },
    ]);
  });
});
