import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Arrangement,
  arrangements,
  type Channels,
  cutUp,
  FIRST_ROW,
  holeAt,
  LAST_ROW,
  MIDDLE_ROW,
  NOTHING,
  RAIL,
  uncut,
} from '../../../../cli/dashboard/rows/stage.js';

const MARKS: Readonly<Record<number, string>> = {
  [NOTHING]: ' ',
  [RAIL]: '-',
  [FIRST_ROW]: '/',
  [MIDDLE_ROW]: '|',
  [LAST_ROW]: '\\',
};

/** The arrangement with the holes as the letters of their channels. */
function drawn(stage: Channels, arrangement: Arrangement): string[] {
  return Array.from({ length: arrangement.height }, (_, y) =>
    Array.from({ length: arrangement.width }, (_, x) => {
      const hole = holeAt(stage, arrangement, x, y);
      return MARKS[hole] ?? 'abcdefgh'[Math.floor(hole / stage.holesPerChannel)];
    })
      .join('')
      .trimEnd(),
  );
}

describe('channels that are not cut', () => {
  const stage = { channels: 3, holesPerChannel: 4 };

  test('stand below each other, their holes as far apart as asked for', () => {
    expect(drawn(stage, uncut(stage, 5, 1))).toEqual(['aaaa', 'bbbb', 'cccc']);
    expect(drawn(stage, uncut(stage, 3, 2))).toEqual(['a-a-a-a', 'b-b-b-b', 'c-c-c-c']);
    expect(drawn(stage, uncut(stage, 3, 3))[0]).toBe('a--a--a--a');
  });

  test('go on in a block beside the first where the rows do not suffice', () => {
    expect(drawn(stage, uncut(stage, 2, 1))).toEqual(['aaaa cccc', 'bbbb']);
    expect(drawn(stage, uncut(stage, 1, 2))).toEqual(['a-a-a-a  b-b-b-b  c-c-c-c']);
  });
});

describe('a channel that is too long', () => {
  test('is cut over rows of equal length, with a bracket before them', () => {
    const stage = { channels: 1, holesPerChannel: 7 };
    expect(drawn(stage, cutUp(stage, 3, 1)!)).toEqual(['/aaa', '|aaa', '\\a']);
    expect(drawn(stage, cutUp(stage, 2, 2)!)).toEqual(['/a-a-a-a', '\\a-a-a']);
  });

  test('has its own bracket where there are several', () => {
    const stage = { channels: 2, holesPerChannel: 4 };
    expect(drawn(stage, cutUp(stage, 5, 1)!)).toEqual(['/aa', '\\aa', '/bb', '\\bb']);
  });

  test('cannot be cut where there is one row for each', () => {
    expect(cutUp({ channels: 3, holesPerChannel: 10 }, 5, 1)).toBeNull();
    expect(cutUp({ channels: 1, holesPerChannel: 1 }, 5, 1)).toBeNull();
  });
});

test('every hole stands exactly once within width and height, and holes of a channel stay in order', () => {
  const stages = fc.record({
    channels: fc.integer({ min: 1, max: 40 }),
    holesPerChannel: fc.integer({ min: 1, max: 60 }),
  });
  fc.assert(
    fc.property(stages, fc.integer({ min: 1, max: 30 }), fc.constantFrom(1, 2, 3), (stage, height, pitch) => {
      for (const arrangement of arrangements(stage, height, pitch)) {
        expect(arrangement.height).toBeLessThanOrEqual(height);
        const places: number[] = [];
        let last = -1;
        for (let y = 0; y < height; y++) {
          // Some columns more than it says it takes.
          for (let x = 0; x < arrangement.width + 5; x++) {
            const hole = holeAt(stage, arrangement, x, y);
            if (hole < 0) continue;
            places.push(hole);
            last = Math.max(last, x);
          }
        }
        expect(last).toBeLessThan(arrangement.width);
        expect(places.sort((a, b) => a - b)).toEqual(
          Array.from({ length: stage.channels * stage.holesPerChannel }, (_, hole) => hole),
        );
      }
    }),
    { numRuns: 120, seed: 1 },
  );
});

test('the roomiest way comes first', () => {
  const ways = arrangements({ channels: 2, holesPerChannel: 6 }, 4, 3);
  expect(ways.map(({ pitch, rowsPerChannel }) => [rowsPerChannel, pitch])).toEqual([
    [1, 3],
    [1, 2],
    [1, 1],
    [2, 2],
    [2, 1],
  ]);
  expect(arrangements({ channels: 2, holesPerChannel: 6 }, 0, 3)).toEqual([]);
});
