import { expect, test } from 'vitest';
import { fullSampleSize } from '../../../sim/study/search/sample-size.js';

const STANDARD = { q: 0.9, eps: 0.02, beta: 0.01, n0: 10 };

test('without looking before the end a plan takes what the spread of its first seasons asks for', () => {
  // Half of the shares 0.8, half 1: variance 10 x 0.01 / 9. Student's t, 9 degrees of freedom, 0.99: 2.821 (printed tables).
  const shares = [0.8, 1, 0.8, 1, 0.8, 1, 0.8, 1, 0.8, 1];
  expect(fullSampleSize(shares, STANDARD)).toBe(Math.ceil((0.1 / 9) * (2.8214 / 0.02) ** 2));
});

test('where they differ at all their spread tells, however small it is', () => {
  // Half of the shares 0.99, half 1: variance 10 x 0.000025 / 9, which asks for a season; the first ones are there anyway.
  const shares = [0.99, 1, 0.99, 1, 0.99, 1, 0.99, 1, 0.99, 1];
  expect(fullSampleSize(shares, STANDARD)).toBe(10);
});

test('where all first seasons were alike it takes as many as rule out luck', () => {
  // 0.88^n is 0.01 at n = 36.02, 0.08^n long before the tenth season.
  expect(fullSampleSize(new Array<number>(10).fill(1), STANDARD)).toBe(37);
  expect(fullSampleSize(new Array<number>(10).fill(0), STANDARD)).toBe(10);
  // The mirrored question: below 0.12 by as many bad ones.
  expect(fullSampleSize(new Array<number>(10).fill(0), { ...STANDARD, q: 0.1 })).toBe(37);
  // No mean is below 0: nothing to rule out.
  expect(fullSampleSize(new Array<number>(10).fill(1), { ...STANDARD, q: 0.01 })).toBe(10);
});
