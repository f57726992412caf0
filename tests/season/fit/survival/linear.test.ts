import { expect, test } from 'vitest';
import { logDeterminant, negated, solve } from '../../../../sim/season/fit/survival/linear.js';

const matrix = [
  [4, 2, 0.6],
  [2, 5, 1],
  [0.6, 1, 3],
];

test('solves what multiplication gives', () => {
  const x = [1, -2, 0.5];
  const b = matrix.map((row) => row.reduce((sum, value, j) => sum + value * x[j]!, 0));
  solve(matrix, b)!.forEach((value, i) => {
    expect(value).toBeCloseTo(x[i]!, 13);
  });
});

test('the determinant is that of the rule for three rows', () => {
  const [[a, b, c], [d, e, f], [g, h, i]] = matrix as [number[], number[], number[]];
  const rule = a! * (e! * i! - f! * h!) - b! * (d! * i! - f! * g!) + c! * (d! * h! - e! * g!);
  expect(Math.exp(logDeterminant(matrix)!)).toBeCloseTo(rule, 11);
});

test('what is not positive definite has no answer', () => {
  const flat = [
    [1, 2],
    [2, 4],
  ];
  expect(solve(flat, [1, 1])).toBeNull();
  expect(solve(negated(matrix), [1, 1, 1])).toBeNull();
  expect(logDeterminant([[Number.NaN]])).toBeNull();
});
