/** Streams by name. Tolerances: 4 standard errors, or a chi-square bound that chance passes 1 in 1000 times. */

import { describe, expect, test } from 'vitest';
import { fillUniform, stream, streamKey } from '../../sim/engine/random.js';

const N = 100_000;

function draws(seed: number, season: number, name: readonly string[], n = N): Float64Array {
  const values = new Float64Array(n);
  fillUniform(stream(seed, season, name), values, n);
  return values;
}

/** Correlation of two rows of uniform numbers; its standard error is 1 / sqrt(n) if they are independent. */
function correlation(a: Float64Array, b: Float64Array, lag = 0): number {
  const n = a.length - lag;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += (a[i]! - 0.5) * (b[i + lag]! - 0.5);
  return (12 * sum) / n;
}

describe('a stream is its name', () => {
  test('the same seed, season and name give the same numbers, whatever else was drawn', () => {
    const alone = draws(1, 0, ['leaf', 'time'], 100);
    const source = stream(1, 0, ['leaf', 'time']);
    const other = stream(1, 0, ['leaf', 'loss']);
    const mixed = new Float64Array(100);
    for (let i = 0; i < 100; i++) {
      fillUniform(other, new Float64Array(3), 3);
      fillUniform(source, mixed.subarray(i), 1);
    }
    expect(mixed).toEqual(alone);
  });

  test('seed, season and every part of the name make another stream', () => {
    const names: [number, number, string[]][] = [
      [1, 0, ['leaf', 'time']],
      [2, 0, ['leaf', 'time']],
      [1, 1, ['leaf', 'time']],
      [0, 1, ['leaf', 'time']],
      [1, 0, ['leaf', 'loss']],
      [1, 0, ['time', 'leaf']],
      [10, 0, ['leaf', 'time']],
      [1, 0, ['leaf']],
    ];
    const rows = names.map(([seed, season, name]) => draws(seed, season, name));
    for (let i = 0; i < rows.length; i++) {
      for (let j = i + 1; j < rows.length; j++) {
        expect(Math.abs(correlation(rows[i]!, rows[j]!))).toBeLessThan(4 / Math.sqrt(N));
      }
    }
  });

  test('names with odd characters do not run into each other', () => {
    const names = [
      ['a', 'b'],
      ['a,b'],
      ['a","b'],
      ['a', 'b', ''],
      ['', 'a', 'b'],
      ['ab'],
      ['a\\', 'b'],
      ['a\\"', '"b'],
      ['a\n', 'b'],
      ['a\u0000b'],
      ['Sälat', '🥬'],
      ['Sa\u0308lat', '🥬'],
      ['1', '0'],
      [],
      [''],
    ];
    const firsts = names.map((name) => draws(1, 0, name, 3).join());
    expect(new Set(firsts).size).toBe(names.length);
    // Numbers as text are not numbers: season 0 and a part '0' are two things.
    expect(draws(1, 0, ['0'], 3)).not.toEqual(draws(1, 0, ['0', '0'], 3));
  });
});

test('no two of 100 000 names share a key', () => {
  // By chance two keys of 64 bits among so many would be the same once in 3 thousand million tries.
  const keys = new Set<string>();
  for (let c = 0; c < 250; c++) {
    for (let s = 0; s < 100; s++) {
      for (const draw of ['time', 'loss', 'moment', 'sprouting']) {
        keys.add(streamKey([`crop ${c}`, 'stage', `stage ${s}`, draw]));
      }
    }
  }
  expect(keys.size).toBe(100_000);
});

describe('the numbers', () => {
  test('lie strictly between 0 and 1, in the middle of 2^32 cells', () => {
    for (const u of draws(3, 0, ['cells'])) {
      if (!(u > 0 && u < 1 && Number.isInteger(u * 2 ** 32 - 0.5))) throw new Error(`${u}`);
    }
  });

  test('fill as many places as were asked for', () => {
    const values = new Float64Array(4);
    fillUniform(stream(1, 0, ['x']), values, 3);
    expect(values[2]).toBeGreaterThan(0);
    expect(values[3]).toBe(0);
  });

  /** Chi-square of counts against equal shares. */
  function chiSquare(counts: readonly number[]): number {
    const expected = counts.reduce((sum, n) => sum + n, 0) / counts.length;
    return counts.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
  }

  // 99 degrees of freedom: above 148.2 once in 1000 times (Wilson and Hilferty's approximation).
  const LIMIT_99 = 99 * (1 - 2 / (9 * 99) + 3.0902 * Math.sqrt(2 / (9 * 99))) ** 3;

  test('are even over 100 cells, within one stream', () => {
    for (const name of ['time', 'loss', 'moment', 'sprouting']) {
      const counts = new Array<number>(100).fill(0);
      for (const u of draws(1, 0, ['leaf', 'stage', 'nursery', name])) counts[Math.floor(100 * u)]!++;
      expect(chiSquare(counts)).toBeLessThan(LIMIT_99);
    }
  });

  test('are even over 10 x 10 cells, as pairs that follow each other', () => {
    const counts = new Array<number>(100).fill(0);
    const row = draws(1, 0, ['pairs']);
    for (let i = 0; i + 1 < N; i += 2)
      counts[10 * Math.floor(10 * row[i]!) + Math.floor(10 * row[i + 1]!)]!++;
    expect(chiSquare(counts)).toBeLessThan(LIMIT_99);
  });

  test('are even over 100 cells, as the first draws of seasons that follow each other', () => {
    const counts = new Array<number>(100).fill(0);
    let before = 0.5;
    let sum = 0;
    const seasons = 20_000;
    for (let season = 0; season < seasons; season++) {
      const first = stream(1, season, ['leaf', 'stage', 'nursery', 'time'])();
      counts[Math.floor(100 * first)]!++;
      sum += (first - 0.5) * (before - 0.5);
      before = first;
    }
    expect(chiSquare(counts)).toBeLessThan(LIMIT_99);
    expect(Math.abs((12 * sum) / seasons)).toBeLessThan(4 / Math.sqrt(seasons));
  });

  test('do not depend on those 1, 2, 7 or 32 draws before', () => {
    const row = draws(1, 0, ['lags']);
    for (const lag of [1, 2, 7, 32]) {
      expect(Math.abs(correlation(row, row, lag))).toBeLessThan(4 / Math.sqrt(N));
    }
  });

  test('have mean 1/2 and variance 1/12', () => {
    const row = draws(9, 0, ['moments']);
    const mean = row.reduce((sum, u) => sum + u, 0) / N;
    const variance = row.reduce((sum, u) => sum + (u - 0.5) ** 2, 0) / N;
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / N));
    // Var (u - 1/2)^2 = 1/80 - 1/144 = 1/180.
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(4 * Math.sqrt(1 / 180 / N));
  });
});
