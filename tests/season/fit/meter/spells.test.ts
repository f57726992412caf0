/** Which spells between top-ups tell what was used, by hand: days are those of January 2027. */

import { describe, expect, test } from 'vitest';
import { type LeftOutWhy, spellsOf, tankDays } from '../../../../sim/season/fit/meter/spells.js';
import { saltReadings, uptakeEc } from '../../../../sim/season/fit/meter/uptake.js';
import { waterScale } from '../../../../sim/season/fit/meter/water-scale.js';
import type { TankRow } from '../../../../sim/season/log/rows.js';
import { expectNear } from '../../../support/near.js';

type Typed = [day: number, litres: number | null, ec?: number | null, changed?: 'changed'];

function row([day, litres, ec = null, changed]: Typed): TankRow {
  const date = `2027-01-${String(day).padStart(2, '0')}`;
  const note = changed ?? null;
  return { line: 0, date, action: 'tank', litres, ec, changed: note !== null, note };
}

const TANK = { litres: 60, fullL: 50 };
const daysOf = (...rows: Typed[]) => tankDays(rows.map(row), '2027-01-01');

/** `from-to litres why` of each spell. @param visits days of January with rows of plants; each at which the tank has one, if left out */
function spells(rows: Typed[], visits = [...new Set(rows.map(([day]) => day))]): string[] {
  const told = spellsOf(
    daysOf(...rows),
    visits.map((day) => day - 1),
    TANK,
  );
  return told.map(({ from, to, litres, leftOut }) =>
    [`${from + 1}-${to + 1}`, litres, leftOut ?? ''].join(' ').trim(),
  );
}

describe('what was topped up was used since the tank was full', () => {
  test('the first row only says when it was full', () => {
    expect(
      spells([
        [4, 7],
        [6, 3],
        [8, 2.5],
      ]),
    ).toEqual(['4-6 3', '6-8 2.5']);
  });

  test('several rows of a day are one', () => {
    expect(
      spells([
        [4, 7],
        [6, 3],
        [6, 0.5],
        [8, 2],
      ]),
    ).toEqual(['4-6 3.5', '6-8 2']);
  });

  test('a reading alone is no topping up', () => {
    expect(
      spells([
        [4, 7],
        [5, null, 1.5],
        [7, 3],
        [8, null, 1.5],
        [10, 3],
      ]),
    ).toEqual(['4-7 3', '7-10 3']);
  });

  test('nothing topped up is known too', () => {
    expect(
      spells([
        [4, 0],
        [6, 0],
        [8, 1],
      ]),
    ).toEqual(['4-6 0', '6-8 1']);
  });

  test('a day on which nothing else was done counts as any other', () => {
    const rows: Typed[] = [
      [4, 7],
      [6, 2],
      [7, 1],
      [8, 1],
      [10, 2],
      [12, 2],
    ];
    expect(spells(rows, [4, 6, 8, 10, 12])).toEqual(['4-6 2', '6-7 1', '7-8 1', '8-10 2', '10-12 2']);
  });
});

describe('a new filling', () => {
  test('its litres are not used, and what was used of the old one nobody knows', () => {
    expect(
      spells([
        [4, 7],
        [6, 50, null, 'changed'],
        [8, 2],
      ]),
    ).toEqual(['4-6 0 drained', '6-8 2']);
  });

  test('unless the old one was topped up before on that day', () => {
    expect(
      spells([
        [4, 7],
        [6, 3],
        [6, 50, null, 'changed'],
        [8, 2],
      ]),
    ).toEqual(['4-6 3', '6-8 2']);
  });

  test('without its litres it is taken to have filled the tank', () => {
    expect(
      spells([
        [4, 7],
        [6, null, null, 'changed'],
        [8, 2],
      ]),
    ).toEqual(['4-6 0 drained', '6-8 2']);
  });

  test('that falls short of the full tank: what is topped up next was not used', () => {
    const rows: Typed[] = [
      [4, 7],
      [6, 40, null, 'changed'],
      [8, 12],
      [10, 2],
    ];
    expect(spells(rows)).toEqual(['4-6 0 drained', '6-8 12 not_full', '8-10 2']);
  });
});

describe('where a row may be missing the spell is left out, whatever its litres', () => {
  const why = (rows: Typed[], visits?: number[]): LeftOutWhy[] =>
    spells(rows, visits).flatMap((text) => (text.split(' ')[2] as LeftOutWhy | undefined) ?? []);

  test('twice the visits of a usual one', () => {
    const rows: Typed[] = [
      [1, 0],
      [2, 1],
      [3, 1],
      [5, 1],
      [6, 1],
    ];
    expect(why(rows)).toEqual(['gap']);
    expect(spells(rows, [1, 2, 3, 4, 5, 6])[2]).toBe('3-5 1 gap');
  });

  test('also where the tank was only read', () => {
    expect(
      why([
        [1, 0],
        [3, 1],
        [5, 1],
        [6, null, 1.5],
        [8, 1],
        [10, 1],
      ]),
    ).toEqual(['gap']);
  });

  test('twice as long as nearly all are, though nobody is known to have come', () => {
    expect(
      spells([
        [1, 0],
        [3, 1],
        [5, 1],
        [7, 1],
        [9, 1],
        [11, 1],
        [25, 1],
        [27, 1],
        [29, 1],
      ])[5],
    ).toBe('11-25 1 gap');
  });

  test('not where topping up once a week is usual', () => {
    const daily = Array.from({ length: 29 }, (_, i) => i + 1);
    expect(
      why(
        [
          [1, 0],
          [8, 9],
          [15, 9],
          [22, 9],
          [29, 9],
        ],
        daily,
      ),
    ).toEqual([]);
  });

  test('more than the tank holds', () => {
    expect(
      spells([
        [1, 0],
        [3, 1],
        [5, 125],
      ])[1],
    ).toBe('3-5 125 too_much');
  });

  test('what lies before the first or behind the last row of plants', () => {
    expect(
      why(
        [
          [1, 0],
          [3, 1],
          [5, 1],
          [7, 1],
        ],
        [3, 5],
      ),
    ).toEqual(['untold', 'untold']);
  });
});

describe('the scale', () => {
  const spell = (litres: number, givenOff: number[], inPlants: number[]) => ({ litres, givenOff, inPlants });

  test('is what was topped up, less what stays in plants, over what is given off at scale 1', () => {
    const { value, low, high } = waterScale([spell(3, [2], [0.2]), spell(4, [2], [0.6])])!;
    // (7 - 0.8) / 4; departures of -0.3 and 0.3, so an error of sqrt(2 x (0.09 + 0.09)) / 4, and t with 1 degree of freedom.
    expectNear(value, 1.55, 1e-12);
    expectNear(high - value, (12.7062047362 * 0.6) / 4, 1e-9);
    expectNear(value - low, high - value, 1e-12);
  });

  test('is as unsure as the pasts differ in sum, not in single spells', () => {
    // What one past has less in the first spell it has more in the second.
    const shifted = waterScale([spell(2, [1, 3], [0, 0]), spell(2, [3, 1], [0, 0])])!;
    expectNear(shifted.high, 1, 1e-12);
    const apart = waterScale([spell(2, [1, 3], [0, 0]), spell(2, [1, 3], [0, 0])])!;
    // All given off: 2 or 6, variance 8, and the mean of two pasts.
    expectNear(apart.high - 1, (12.7062047362 * Math.sqrt(8 + 4)) / 4, 1e-9);
  });

  test('needs two spells', () => {
    expect(waterScale([spell(3, [2], [0])])).toBeNull();
  });
});

describe('uptake', () => {
  // 50 L full at 1.5 mS/cm; 5 L used at 1.8: (75 - 9) / 45; topped up at 0.4: (66 + 2) / 50 = 1.36; 4 L more: (68 - 7.2) / 46.
  const rows: Typed[] = [
    [2, 50, null, 'changed'],
    [4, 5, 66 / 45],
    [6, 4, 60.8 / 46],
    [8, 3, (62.4 - 5.4) / 47],
  ];
  const readings = (rows: Typed[]) => {
    const days = daysOf(...rows);
    const visits = days.map(({ day }) => day);
    return saltReadings(days, spellsOf(days, visits, TANK), 50, 0.4);
  };

  test('salts less those topped up fall by uptake times litres used', () => {
    const [filling] = readings(rows);
    expect(filling!.map(({ usedL }) => usedL)).toEqual([5, 9, 12]);
    for (const { usedL, salts } of filling!) expectNear(salts, 75 - 1.8 * usedL, 1e-12);
    expectNear(uptakeEc([filling!])!.value, 1.8, 1e-12);
  });

  test('a reading that is missing is bridged', () => {
    const [filling] = readings(rows.map((row) => (row[0] === 6 ? [6, 4] : row)));
    expect(filling!.map(({ usedL }) => usedL)).toEqual([5, 12]);
    for (const { usedL, salts } of filling!) expectNear(salts, 75 - 1.8 * usedL, 1e-12);
  });

  test('behind a spell that is left out it begins anew, as with a new filling', () => {
    const more: Typed[] = [...rows, [10, 3, 1.2], [12, 125, 1.2], [14, 3, 1.2], [16, 3, 1.2]];
    expect(readings(more).map((filling) => filling.map(({ usedL }) => usedL))).toEqual([
      [5, 9, 12, 15],
      [3, 6],
    ]);
  });

  test('is not told of fewer than two readings beyond the first', () => {
    expect(uptakeEc(readings(rows.slice(0, 3)))).toBeNull();
    expect(uptakeEc([])).toBeNull();
  });

  test.each([
    ['readings that are off by themselves: least squares', [0, 1, -1, 1, -1, 0], 'white'],
    ['a level that wanders: what was taken up over what was used', [0, 10, 20, 30, 40, 20], 'wandering'],
  ] as const)('%s', (_, off, kind) => {
    const filling = off.map((salts, i) => ({ usedL: i, salts: 100 - 1.8 * i + salts, ec: 0 }));
    const { value } = uptakeEc([filling])!;
    const mean = off.reduce<number>((sum, one) => sum + one, 0) / 6;
    // By hand: least squares over 0 to 5, whose squares about 2.5 add up to 17.5; the last less the first over 5.
    const slope = off.reduce<number>((sum, one, i) => sum + (i - 2.5) * (one - mean), 0) / 17.5;
    if (kind === 'white') expectNear(value, 1.8 - slope, 1e-12);
    else expect(Math.abs(value - (1.8 - 20 / 5))).toBeLessThan(Math.abs(value - (1.8 - slope)));
  });
});
