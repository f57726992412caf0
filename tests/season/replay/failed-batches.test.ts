import { describe, expect, test } from 'vitest';
import { chanceOfAtLeast } from '../../../sim/engine/binomial.js';
import { cohortsOf } from '../../../sim/season/history/cohorts.js';
import { failedBatches } from '../../../sim/season/replay/failed-batches.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf } from '../../support/replayed.js';

describe('the chance of at least k of n', () => {
  // Exact binomial tails to 8 digits, computed independently (scipy.stats.binom).
  test.each([
    [5, 9, 0.7, 0.90119134],
    [10, 15, 0.8, 0.93894857],
    [20, 24, 0.9, 0.91492511],
    [40, 51, 0.85, 0.92862214],
    [200, 215, 0.95, 0.92539387],
  ])('P(X >= %i) with n = %i, p = %f', (k, n, p, chance) => {
    expect(chanceOfAtLeast(k, n, p)).toBeCloseTo(chance, 8);
  });

  test('is the last term alone for k = n, however small', () => {
    expect(chanceOfAtLeast(30, 30, 0.01) / 1e-60).toBeCloseTo(1, 9);
  });

  test('is 0 or 1 where nothing is left to chance', () => {
    expect(chanceOfAtLeast(1, 10, 0)).toBe(0);
    expect(chanceOfAtLeast(0, 10, 0)).toBe(1);
    expect(chanceOfAtLeast(10, 10, 1)).toBe(1);
  });
});

describe('a batch', () => {
  const plan = line(
    [stage('tray', 40), stage('bed', 40)],
    [crop([grow(time(4)), grow(time(9), { loss: 0.05 })], every(3, 42, 10), { germination: 0.9 })],
    { weeks: 6, visits: visitDays(6) },
  );
  const failedOf = (...texts: string[]) => {
    const season = seasonOf(plan, rowsOf(plan, texts));
    return failedBatches(season, cohortsOf(season));
  };

  test('of which 8 of 10 seeds fail has failed: with 1 in 10 that is rarer than 1 in 1000', () => {
    expect(failedOf('0 sow B1 10 tray', '4 lose B1 5 tray', '6 lose B1 3 tray')).toEqual([
      { batch: 0, stage: 0, came: 10, lost: 8, expected: expect.closeTo(1), from: 4, to: 6 },
    ]);
  });

  test('of which 4 of 10 fail has not (1.3 in 100)', () => {
    // P(X >= 4) with n = 10, p = 0.1 is 0.0128, by hand.
    expect(failedOf('0 sow B1 10 tray', '4 lose B1 4 tray')).toEqual([]);
  });

  test('is not blamed for plants that were thrown away', () => {
    expect(failedOf('0 sow B1 10 tray', '4 lose B1 10 tray overgrown')).toEqual([]);
  });

  test('may fail in a later stage', () => {
    const failed = failedOf(
      '0 sow B1 10 tray',
      '1 sow B2 10 tray',
      '4 move B1 9 bed',
      '5 move B2 9 bed',
      '8 lose B2 6 bed died: roots',
    );
    expect(failed).toMatchObject([{ batch: 1, stage: 1, came: 9, lost: 6 }]);
  });
});
