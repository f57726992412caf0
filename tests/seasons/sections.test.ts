/** Intervals by sections: the arithmetic by hand, and how often they hold the truth. */

import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../sim/engine/normal.js';
import { fillUniform, stream } from '../../sim/engine/random.js';
import { estimate } from '../../sim/seasons/sections.js';

test('with one season a section the interval is the usual one of paired differences', () => {
  // Differences B - A of a worked example (R 4.2: t.test(B, A, paired = TRUE)): mean 2.2, 0.8595671556 to 3.5404328444.
  const a = [102, 117, 119, 101, 100, 101, 115, 112, 118, 116];
  const b = [104, 118, 121, 106, 106, 102, 117, 112, 120, 117];
  const parts = a.map((x, i) => ({ figure: b[i]! - x, seasons: 1 }));
  const { mean, low, high } = estimate(2.2, parts);
  expect(mean).toBe(2.2);
  expect(low).toBeCloseTo(0.8595671556, 9);
  expect(high).toBeCloseTo(3.5404328444, 9);
});

test('sections of different size count by their seasons', () => {
  // (1 x (1 - 3)^2 + 2 x (4 - 3)^2) / ((2 - 1) x 3) = 2; Student's t at 0.975 with 1 degree of freedom is 12.7062047362.
  const { low, high } = estimate(3, [
    { figure: 1, seasons: 1 },
    { figure: 4, seasons: 2 },
  ]);
  expect(high! - 3).toBeCloseTo(12.7062047362 * Math.SQRT2, 8);
  expect(3 - low!).toBeCloseTo(12.7062047362 * Math.SQRT2, 8);
});

test('one section gives no interval', () => {
  expect(estimate(3, [{ figure: 3, seasons: 9 }])).toEqual({ mean: 3, low: null, high: null });
});

describe('of 1000 studies, 93 to 97 % have an interval that holds the truth', () => {
  // 95 % of 1000 has a standard error of 0.7 %: 93 to 97 % is nearly 3 of them.
  const STUDIES = 1000;

  test.each([
    { seasons: 40, sections: 40 },
    { seasons: 200, sections: 40 },
    // Sections of 2 and of 1.
    { seasons: 57, sections: 40 },
  ])('for a difference of means, $seasons seasons in $sections sections', ({ seasons, sections }) => {
    let holds = 0;
    for (let study = 0; study < STUDIES; study++) {
      const values = normals(study, seasons).map((z) => 1.7 + 3 * z);
      if (covers(values, sections, 1.7, mean)) holds++;
    }
    expect(holds / STUDIES).toBeGreaterThan(0.93);
    expect(holds / STUDIES).toBeLessThan(0.97);
  });
});

function covers<Season>(
  seasons: readonly Season[],
  sections: number,
  truth: number,
  figure: (seasons: readonly Season[]) => number,
): boolean {
  const parts = Array.from({ length: sections }, (_, s) => seasons.filter((_, i) => i % sections === s));
  const { low, high } = estimate(
    figure(seasons),
    parts.map((part) => ({ figure: figure(part), seasons: part.length })),
  );
  return low! <= truth && truth <= high!;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function uniforms(study: number, count: number): number[] {
  const values = new Float64Array(count);
  fillUniform(stream(study, 0, ['sections']), values, count);
  return [...values];
}

function normals(study: number, count: number): number[] {
  return uniforms(study, count).map(normalQuantile);
}
