import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Grid, gridAround, gridSize, variationsWithin } from '../../sim/scenario/grid.js';
import { CELLAR, cellarWith, readWell } from './cellar.js';

const NONE: Grid = { cadences: [], seeds: [], channels: [], visits: [] };

describe('the plans within some limits', () => {
  test('are each with each', () => {
    const grid: Grid = {
      cadences: [{ every: 2 }, { on: ['mon'] }],
      seeds: [4],
      channels: [
        { stage: 'nursery', counts: [1, 2] },
        { stage: 'finishing', counts: [8] },
      ],
      visits: ['daily'],
    };
    const rest = { seeds: 4, visits: 'daily' };
    expect(variationsWithin(grid)).toEqual([
      { ...rest, cadence: { every: 2 }, channels: { nursery: 1, finishing: 8 } },
      { ...rest, cadence: { every: 2 }, channels: { nursery: 2, finishing: 8 } },
      { ...rest, cadence: { on: ['mon'] }, channels: { nursery: 1, finishing: 8 } },
      { ...rest, cadence: { on: ['mon'] }, channels: { nursery: 2, finishing: 8 } },
    ]);
  });

  test('without limits there is the scenario as it is', () => {
    expect(variationsWithin(NONE)).toEqual([{}]);
    expect(gridSize(NONE)).toBe(1);
  });

  test('are as many as is said beforehand, all different', () => {
    const numbers = fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { maxLength: 4 });
    fc.assert(
      fc.property(numbers, numbers, numbers, numbers, (every, seeds, nursery, finishing) => {
        const grid: Grid = {
          cadences: every.map((days) => ({ every: days })),
          seeds,
          channels: [
            { stage: 'nursery', counts: nursery },
            { stage: 'finishing', counts: finishing },
          ],
          visits: [],
        };
        const variations = variationsWithin(grid);
        expect(variations).toHaveLength(gridSize(grid));
        expect(new Set(variations.map((one) => JSON.stringify(one))).size).toBe(variations.length);
      }),
      { seed: 1 },
    );
  });
});

describe('limits around a scenario', () => {
  test('a sowing every 1 to 7 days, half to twice the seeds, two channels more or fewer in the last two stages', () => {
    const grid = gridAround(readWell(CELLAR).value.scenario);
    expect(grid.cadences).toEqual([1, 2, 3, 4, 5, 6, 7].map((every) => ({ every })));
    expect(grid.seeds).toEqual([5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20]);
    expect(grid.channels).toEqual([
      // 2 channels: none is not a number of channels.
      { stage: 'nursery', counts: [1, 2, 3, 4] },
      { stage: 'finishing', counts: [6, 7, 8, 9, 10] },
    ]);
    expect(grid.visits).toEqual([]);
    expect(gridSize(grid)).toBe(7 * 16 * 4 * 5);
  });

  test('many seeds are varied in steps', () => {
    const { seeds } = gridAround(readWell(cellarWith(['seeds: 10}', 'seeds: 1001}'])).value.scenario);
    expect(seeds.length).toBeLessThanOrEqual(16);
    expect([seeds[0], Math.max(...seeds) <= 2002, seeds.at(-1)! > 1900]).toEqual([501, true, true]);
  });

  test('one seed is not halved to none', () => {
    expect(gridAround(readWell(cellarWith(['seeds: 10}', 'seeds: 1}'])).value.scenario).seeds).toEqual([
      1, 2,
    ]);
  });

  test('of a crop that is refilled only channels, of one that is sown on dates also the seeds', () => {
    const refilled = gridAround(
      readWell(cellarWith(['{every: 3, seeds: 10}', '{refill: true}'])).value.scenario,
    );
    expect([refilled.cadences, refilled.seeds]).toEqual([[], []]);
    const dates = '{dates: [2027-01-04], seeds: 2}';
    const dated = gridAround(readWell(cellarWith(['{every: 3, seeds: 10}', dates])).value.scenario);
    expect([dated.cadences, dated.seeds]).toEqual([[], [1, 2, 3, 4]]);
  });
});
