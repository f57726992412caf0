import fc from 'fast-check';
import { expect, test } from 'vitest';
import { paretoFrontier } from '../../../sim/study/search/frontier.js';

test('the plans that no other beats in both, the most heads first', () => {
  expect(
    paretoFrontier([
      [0.5, 0.5],
      [1, 0.2],
      [0.4, 0.9],
      [0.6, 0.6],
      [0.3, 0.8],
    ]),
  ).toEqual([1, 3, 2]);
});

test('differences of less than a hundredth count as none; of equal plans the cheapest is on it', () => {
  expect(
    paretoFrontier([
      [0.701, 0.302],
      [0.704, 0.304],
      [0.699, 0.31],
    ]),
  ).toEqual([2]);
  expect(
    paretoFrontier([
      [0.701, 0.302],
      [0.704, 0.304],
    ]),
  ).toEqual([0]);
});

test('it is what comparing each plan with each other gives', () => {
  const hundredths = fc.integer({ min: 0, max: 12 });
  fc.assert(
    fc.property(fc.array(fc.tuple(hundredths, hundredths), { maxLength: 30 }), (points) => {
      const beaten = (i: number): boolean =>
        points.some(([x, y], j) => {
          const [ox, oy] = points[i]!;
          return x >= ox && y >= oy && (x > ox || y > oy || j < i);
        });
      const expected = points.flatMap((_, i) => (beaten(i) ? [] : [i]));
      const front = paretoFrontier(points.map(([x, y]) => [x / 100, y / 100] as const));
      expect([...front].sort((a, b) => a - b)).toEqual(expected);
    }),
    { seed: 3 },
  );
});
