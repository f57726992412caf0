import { expect, test } from 'vitest';
import { CUTOFF_PATHS, sharesOf } from '../../../../sim/season/fit/survival/cutoff-paths.js';

test('at each visit the paths take every equal part of the probability once', () => {
  const paths = Array.from({ length: CUTOFF_PATHS }, (_, path) => sharesOf(path, 30));
  const middles = Array.from({ length: CUTOFF_PATHS }, (_, part) => (part + 0.5) / CUTOFF_PATHS);
  for (let visit = 0; visit < 30; visit++) {
    expect(paths.map((shares) => shares[visit]!).sort((a, b) => a - b)).toEqual(middles);
  }
});

test('from one visit to the next no two paths keep their distance', () => {
  const [first, second] = [sharesOf(0, 2), sharesOf(1, 2)];
  expect(first[0]! - second[0]!).not.toBeCloseTo(first[1]! - second[1]!, 6);
});
