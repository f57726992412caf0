import { expect, test } from 'vitest';
import { maximise } from '../../../../sim/season/fit/survival/maximise.js';

const free = { low: [-100, -100], high: [100, 100] };

test('finds the top of a paraboloid and its second derivatives', () => {
  const { at, value, hessian } = maximise(
    ([x, y]) => 3 - (x! - 1) ** 2 - 2 * (y! + 2) ** 2 + (x! - 1) * (y! + 2),
    {
      start: [5, 5],
      ...free,
    },
  );
  expect(at[0]).toBeCloseTo(1, 6);
  expect(at[1]).toBeCloseTo(-2, 6);
  expect(value).toBeCloseTo(3, 10);
  expect(hessian[0]![0]).toBeCloseTo(-2, 4);
  expect(hessian[1]![1]).toBeCloseTo(-4, 4);
  expect(hessian[0]![1]).toBeCloseTo(1, 4);
});

test('follows a bent ridge to its end', () => {
  // Rosenbrock's valley, turned over.
  const { at } = maximise(([x, y]) => -((1 - x!) ** 2) - 100 * (y! - x! * x!) ** 2, {
    start: [-1.2, 1],
    ...free,
  });
  // Derivatives are taken over steps of 0.002, so the end of a bent ridge is found to about half of that.
  expect(at[0]).toBeCloseTo(1, 2);
  expect(at[1]).toBeCloseTo(1, 2);
});

test('stops at a bound if it rises beyond, and goes on with the others', () => {
  const { at } = maximise(([x, y]) => x! - (y! - x!) ** 2, { start: [0, 5], low: [-1, -9], high: [2, 9] });
  expect(at[0]).toBe(2);
  expect(at[1]).toBeCloseTo(2, 6);
});

test('gets there too with the mixed derivatives of a place nearby', () => {
  const f = ([x, y]: readonly number[]): number =>
    -((x! - 1) ** 2) - y! ** 4 - (y! - 0.5) ** 2 + 0.8 * x! * y!;
  const whole = maximise(f, { start: [0, 0], ...free });
  const spared = maximise(f, { start: [2, 2], ...free, like: whole.hessian });
  spared.at.forEach((x, i) => {
    expect(x).toBeCloseTo(whole.at[i]!, 3);
  });
});

test('a function without numbers leaves it where it is', () => {
  expect(maximise(() => Number.NaN, { start: [1, 2], ...free }).at).toEqual([1, 2]);
});
