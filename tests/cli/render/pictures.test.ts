/** Bars and planes in plain characters. */

import { expect, test } from 'vitest';
import { barText } from '../../../cli/render/bar.js';
import { planeLines } from '../../../cli/render/plane.js';
import { bar, type Mark, type Plane } from '../../../cli/sections/section.js';
import { COUNT } from '../../../cli/words/numbers.js';

test('a bar goes up to a share, dashes from there to another', () => {
  expect(barText(bar(0.5, { upTo: 0.75 }), 8)).toBe('====--');
  expect(barText(bar(0.5, { upTo: 0.25 }), 8)).toBe('====');
  expect(barText(bar(0, { upTo: 1 }), 4)).toBe('----');
});

test('a piece stands between its shares, whichever is larger; one too small to see is a stroke, none is nothing', () => {
  expect(barText(bar(0.75, { from: 0.25 }), 8)).toBe('  ====');
  expect(barText(bar(0.25, { from: 0.75 }), 8)).toBe('  ====');
  expect(barText(bar(0.51, { from: 0.5 }), 8)).toBe('    |');
  expect(barText(bar(0.999, { from: 1 }), 8)).toBe('       |');
  expect(barText(bar(1, { from: 1 }), 8).trimEnd()).toBe('');
  expect(barText(bar(0), 8)).toBe('');
});

function planeOf(marks: readonly Mark[], least: number): Plane {
  const axis = { form: COUNT, label: '' };
  return {
    kind: 'plane',
    marks,
    x: { ...axis, least: 10, most: 30 },
    y: { ...axis, least, most: 11 },
  };
}

test('marks stand on a plane, the later one before the earlier, with the ends of its axes', () => {
  const marks = [
    { x: 10, y: 0, sign: 'a' },
    { x: 20, y: 6, sign: 'b' },
    { x: 30, y: 11, sign: 'c' },
    { x: 20, y: 6, sign: 'd' },
  ];
  const lines = planeLines(planeOf(marks, 0), 9);
  expect(lines).toHaveLength(14);
  expect(lines[0]).toBe('11 |    c');
  expect(lines[5]).toBe('   |  d');
  expect(lines.slice(11)).toEqual([' 0 |a', '   +-----', '    10 30']);
});

test('a plane begins at the least of its axis, not at its lowest mark', () => {
  const lines = planeLines(planeOf([{ x: 10, y: 11, sign: 'x' }], 0), 9);
  expect(lines[0]).toBe('11 |x');
  expect(lines[11]).toBe(' 0 |');
});
