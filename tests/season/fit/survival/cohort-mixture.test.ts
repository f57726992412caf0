/** The likelihood of a mixed batch against counting every way of dealing its fates to its cohorts. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CohortMixture, tilted } from '../../../../sim/season/fit/survival/cohort-mixture.js';

/** Sum over all ways of giving each plant's fate to a cohort, so that cohort j gets sizes[j] plants. */
function byCounting(sizes: readonly number[], counts: readonly number[], p: readonly number[][]): number {
  const fates = counts.flatMap((count, v) => new Array<number>(count).fill(v));
  const go = (i: number, left: readonly number[]): number => {
    if (i === fates.length) return 1;
    let sum = 0;
    for (const [j, size] of left.entries()) {
      if (size === 0) continue;
      sum += p[fates[i]!]![j]! * go(i + 1, left.with(j, size - 1));
    }
    return sum;
  };
  return go(0, sizes);
}

/** By the formula, for given tilts. */
function byFormula(
  sizes: readonly number[],
  counts: readonly number[],
  p: readonly number[][],
  t: number[],
): number {
  const chances = Float64Array.from(p.flat());
  let value = new CohortMixture(sizes, counts).hit(chances, t);
  for (const [v, count] of counts.entries()) value *= tilted(chances, v, t) ** count;
  for (const [j, size] of sizes.entries()) value /= t[j]! ** size;
  return value;
}

const chance = fc.double({ min: 0.01, max: 1, noNaN: true });

const anyBatch = fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 2, maxLength: 3 }).chain((sizes) => {
  const plants = sizes.reduce((sum, size) => sum + size, 0);
  return fc
    .array(fc.integer({ min: 0, max: plants }), { minLength: 1, maxLength: 3 })
    .map((cuts) => {
      const ends = [0, ...[...cuts].sort((a, b) => a - b), plants];
      return ends
        .slice(1)
        .map((end, i) => end - ends[i]!)
        .filter((count) => count > 0);
    })
    .chain((counts) =>
      fc.record({
        sizes: fc.constant(sizes),
        counts: fc.constant(counts),
        p: fc.array(fc.array(chance, { minLength: sizes.length, maxLength: sizes.length }), {
          minLength: counts.length,
          maxLength: counts.length,
        }),
        t: fc.array(fc.double({ min: 0.1, max: 10, noNaN: true }), {
          minLength: sizes.length,
          maxLength: sizes.length,
        }),
      }),
    );
});

test('the formula is exact for any tilts', () => {
  fc.assert(
    fc.property(anyBatch, ({ sizes, counts, p, t }) => {
      const counted = byCounting(sizes, counts, p);
      expect(Math.abs(byFormula(sizes, counts, p, t) / counted - 1)).toBeLessThan(1e-10);
    }),
    { seed: 1, numRuns: 300 },
  );
});

test('fates that are dealt beforehand change nothing, for all that is asked then of others', () => {
  fc.assert(
    fc.property(anyBatch, ({ sizes, counts, p, t }) => {
      const others = p.map((row) => row.map((one) => one ** 2));
      for (let dealt = 0; dealt <= counts.length; dealt++) {
        const begun = new CohortMixture(sizes, counts);
        begun.begin(Float64Array.from(p.flat()), t, dealt);
        for (const rest of [p, others]) {
          const chances = Float64Array.from([...p.slice(0, dealt), ...rest.slice(dealt)].flat());
          expect(begun.hit(chances, t)).toBe(new CohortMixture(sizes, counts).hit(chances, t));
        }
      }
    }),
    { seed: 3, numRuns: 100 },
  );
});

test('at its tilts each cohort is expected to have the plants that it has', () => {
  fc.assert(
    fc.property(anyBatch, ({ sizes, counts, p }) => {
      const chances = Float64Array.from(p.flat());
      const t = new CohortMixture(sizes, counts).tilts(chances);
      const expected = sizes.map((_, j) =>
        counts.reduce((sum, count, v) => sum + (count * t[j]! * p[v]![j]!) / tilted(chances, v, t), 0),
      );
      // Eight rounds of scaling; where chances differ by a factor of 100 they come to a few hundredths of a
      // plant.
      for (const [j, size] of sizes.entries()) expect(Math.abs(expected[j]! - size)).toBeLessThan(0.15);
    }),
    { seed: 2, numRuns: 300 },
  );
});

/**
 * The chance of the sizes by plain counting up, for three cohorts: states are the plants of the first two.
 */
function chanceByStates(sizes: readonly number[], counts: readonly number[], p: readonly number[][]): number {
  let chance = new Map<string, number>([['0 0', 1]]);
  for (const [v, count] of counts.entries()) {
    const sum = p[v]!.reduce((total, one) => total + one, 0);
    for (let i = 0; i < count; i++) {
      const next = new Map<string, number>();
      for (const [state, before] of chance) {
        const [a, b] = state.split(' ').map(Number) as [number, number];
        for (const [key, j] of [
          [`${a + 1} ${b}`, 0],
          [`${a} ${b + 1}`, 1],
          [state, 2],
        ] as const) {
          next.set(key, (next.get(key) ?? 0) + (before * p[v]![j]!) / sum);
        }
      }
      chance = next;
    }
  }
  return chance.get(`${sizes[0]} ${sizes[1]}`) ?? 0;
}

test('large batches by the normal law: within 3 % of the chance by counting up', () => {
  const sizes = [30, 40, 50];
  const counts = [45, 40, 35];
  const p = [
    [0.45, 0.25, 0.3],
    [0.2, 0.5, 0.3],
    [0.1, 0.25, 0.65],
  ];
  const batch = new CohortMixture(sizes, counts);
  const chances = Float64Array.from(p.flat());
  const t = batch.tilts(chances);
  const dealt = p.map((row) => row.map((chance, j) => t[j]! * chance));
  // The next term of the expansion about the normal law is of the order of 1 over the plants of a cohort.
  expect(Math.abs(batch.hit(chances, t) / chanceByStates(sizes, counts, dealt) - 1)).toBeLessThan(0.03);
});
