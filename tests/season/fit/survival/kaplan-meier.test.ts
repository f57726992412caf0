/**
 * Kaplan-Meier curves of public data against survfit of R's package survival 3.5-3 (again
 * computed with independent Python code): share, Greenwood's standard error, 95 % interval on the scale of
 * ln(-ln S).
 */

import { expect, test } from 'vitest';
import { type CurveStep, kaplanMeier, medianOf } from '../../../../sim/season/fit/survival/kaplan-meier.js';
import { LUNG, PLACEBO, SIX_MP } from './published.js';

const curve = (data: typeof SIX_MP): CurveStep[] => kaplanMeier(data.map((one) => ({ ...one, count: 1 })));

type Row = readonly [
  time: number,
  atRisk: number,
  ended: number,
  share: number,
  error: number,
  low: number,
  high: number,
];

const SIX_MP_ROWS: readonly Row[] = [
  [6, 21, 3, 0.8571428571, 0.0763603548, 0.61971796, 0.95155175],
  [7, 17, 1, 0.8067226891, 0.0869352852, 0.56314656, 0.92280902],
  [10, 15, 1, 0.7529411765, 0.096349653, 0.50319951, 0.88936184],
  [13, 12, 1, 0.6901960784, 0.1068147078, 0.43161022, 0.84906596],
  [16, 11, 1, 0.6274509804, 0.1140538653, 0.36751086, 0.80491219],
  [22, 7, 1, 0.5378151261, 0.1282337517, 0.26777894, 0.74679072],
  [23, 6, 1, 0.4481792717, 0.1345914568, 0.18805201, 0.68014263],
];

const PLACEBO_ROWS: readonly Row[] = [
  [1, 21, 2, 0.9047619048, 0.0640564485, 0.67004588, 0.97529415],
  [2, 19, 2, 0.8095238095, 0.0856890867, 0.56890506, 0.92388883],
  [3, 17, 1, 0.7619047619, 0.0929428641, 0.51939142, 0.89325711],
  [4, 16, 2, 0.6666666667, 0.1028689, 0.42535044, 0.82504401],
  [5, 14, 2, 0.5714285714, 0.1079898494, 0.33797695, 0.74924071],
  [8, 12, 4, 0.380952381, 0.1059711696, 0.18306655, 0.57778868],
  [11, 8, 2, 0.2857142857, 0.0985807942, 0.11656133, 0.48181965],
  [12, 6, 2, 0.1904761905, 0.0856890867, 0.0594817, 0.37743489],
  [15, 4, 1, 0.1428571429, 0.0763603548, 0.03565736, 0.32116157],
  [17, 3, 1, 0.0952380952, 0.0640564485, 0.01625926, 0.26124998],
  [22, 2, 1, 0.0476190476, 0.046471432, 0.00332446, 0.19704491],
];

function hold(steps: readonly CurveStep[], rows: readonly Row[]): void {
  for (const [i, [time, atRisk, ended, share, error, low, high]] of rows.entries()) {
    expect(steps[i]).toMatchObject({ time, atRisk, ended });
    // The printed digits.
    expect(steps[i]!.share).toBeCloseTo(share, 9);
    expect(steps[i]!.error).toBeCloseTo(error, 9);
    expect(steps[i]!.low).toBeCloseTo(low, 7);
    expect(steps[i]!.high).toBeCloseTo(high, 7);
  }
}

test('6-MP: with patients lost sight of', () => {
  const steps = curve(SIX_MP);
  expect(steps).toHaveLength(SIX_MP_ROWS.length);
  hold(steps, SIX_MP_ROWS);
});

test('placebo: down to nobody', () => {
  const steps = curve(PLACEBO);
  hold(steps, PLACEBO_ROWS);
  expect(steps.at(-1)).toEqual({
    time: 23,
    atRisk: 1,
    ended: 1,
    share: 0,
    error: Number.NaN,
    low: Number.NaN,
    high: Number.NaN,
  });
});

test('lung: 228 patients, ties and all', () => {
  const steps = curve(LUNG);
  const shareAt = (day: number): number => steps.findLast(({ time }) => time <= day)!.share;
  const expected = [
    [100, 0.8639689676],
    [200, 0.6802728622],
    [300, 0.5306081178],
    [365, 0.4092416245],
    [500, 0.2932691937],
    [730, 0.1156930983],
  ] as const;
  for (const [day, share] of expected) expect(shareAt(day)).toBeCloseTo(share, 9);
  expect(medianOf(steps).value).toBe(310);
  // survfit prints 285 to 363 for the median, on the scale of ln S, which is its default but not ours. Share and
  // error must give that.
  const passes = (sign: -1 | 1): number =>
    steps.find(({ share, error }) => share * Math.exp((sign * 1.959964 * error) / share) <= 0.5)!.time;
  expect([passes(-1), passes(1)]).toEqual([285, 363]);
});

test('the median is where the curve passes one half; its interval where the interval of the share does', () => {
  // survfit: medians 23 and 8. The intervals are read off the rows above: the lower ends pass 0.5 at 13 and
  // at 4, the upper ends never and at 11.
  expect(medianOf(curve(SIX_MP))).toEqual({ value: 23, low: 13, high: null });
  expect(medianOf(curve(PLACEBO))).toEqual({ value: 8, low: 4, high: 11 });
});

test('those lost sight of at the time of an end still count as at risk of it', () => {
  const steps = kaplanMeier([
    { time: 5, count: 2, ended: false },
    { time: 5, count: 1, ended: true },
    { time: 9, count: 1, ended: true },
  ]);
  expect(steps.map(({ atRisk, share }) => [atRisk, share])).toEqual([
    [4, 0.75],
    [1, 0],
  ]);
});

test('without anybody who met an end there is no curve and no median', () => {
  const steps = kaplanMeier([{ time: 4, count: 7, ended: false }]);
  expect(steps).toEqual([]);
  expect(medianOf(steps)).toEqual({ value: null, low: null, high: null });
});
