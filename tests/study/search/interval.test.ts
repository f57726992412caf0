import { describe, expect, test } from 'vitest';
import { fillUniform, stream } from '../../../sim/engine/random.js';
import { shareEstimate } from '../../../sim/study/search/interval.js';

function uniforms(count: number, run: number): Float64Array {
  const numbers = new Float64Array(count);
  fillUniform(stream(20270104, run, ['interval']), numbers, count);
  return numbers;
}

describe('the interval of a share of weeks', () => {
  test('where every season is good it reaches down as far as a run of good seasons by luck does', () => {
    for (const n of [10, 20, 100, 500]) {
      const { mean, low, high } = shareEstimate(new Array<number>(n).fill(1));
      expect([mean, high]).toEqual([1, 1]);
      // No right lower end lies above 0.025^(1/n): with that mean all n are good with a probability of 0.025. Of the seven
      // stakes the whole purse alone needs p^-n to reach 7 / 0.025.
      expect(low).toBeLessThanOrEqual(0.025 ** (1 / n));
      expect(low).toBeGreaterThanOrEqual((0.025 / 7) ** (1 / n) - 1e-8);
    }
  });

  test('it is the same upside down', () => {
    const shares = [...uniforms(60, 0)].map((u) => u ** 3);
    const { mean, low, high } = shareEstimate(shares);
    const mirrored = shareEstimate(shares.map((share) => 1 - share));
    expect(mirrored.mean).toBeCloseTo(1 - mean, 12);
    expect(mirrored.low).toBeCloseTo(1 - high!, 8);
    expect(mirrored.high).toBeCloseTo(1 - low!, 8);
  });

  test.each([
    { name: 'seasons that fail as a whole', p: 0.9, weeks: 1 },
    { name: 'weeks that fail one by one', p: 0.9, weeks: 10 },
    { name: 'rare failures', p: 0.99, weeks: 1 },
  ])(
    'it holds the true share at least 95 times of 100, at the season at which it looks best: $name',
    ({ p, weeks }) => {
      const runs = 400;
      let held = 0;
      for (let run = 0; run < runs; run++) {
        const numbers = uniforms(80 * weeks, run);
        const shares = Array.from({ length: 80 }, (_, season) => {
          let good = 0;
          for (let week = 0; week < weeks; week++) if (numbers[season * weeks + week]! < p) good++;
          return good / weeks;
        });
        // Looking after every tenth season: the interval must hold the true share each time.
        const looks = [10, 20, 30, 40, 50, 60, 70, 80].map((n) => shareEstimate(shares.slice(0, n)));
        if (looks.every(({ low, high }) => low! <= p && p <= high!)) held++;
      }
      expect(held / runs).toBeGreaterThanOrEqual(0.95);
    },
  );

  test('it narrows with more seasons', () => {
    const shares = [...uniforms(400, 1)].map((u) => (u < 0.8 ? 1 : 0.5));
    const width = (n: number): number => {
      const { low, high } = shareEstimate(shares.slice(0, n));
      return high! - low!;
    };
    expect(width(100)).toBeLessThan(width(25));
    expect(width(400)).toBeLessThan(width(100));
    // The usual interval, for one look at 400 seasons: 2 x 1.96 x 0.2 / 20 = 0.039; twice that would be of little use.
    expect(width(400)).toBeLessThan(2 * 0.039);
  });
});
