/** The tank from visit to visit, its conductivity, and the pump's stop: worked values, and what must always hold. */

import { describe, expect, test } from 'vitest';
import { ecAfter, ecBefore } from '../../../sim/models/physical/conductivity.js';
import type { ChannelSize } from '../../../sim/models/physical/plan.js';
import { drainBackL, filmL, floodL, hoursToWilting, spillL } from '../../../sim/models/physical/pump-stop.js';
import { daysToLow, TankSeason } from '../../../sim/models/physical/tank.js';
import { expectNear } from '../../support/near.js';
import { TANK as USUAL_TANK } from '../../support/told.js';

const TANK = { ...USUAL_TANK, pipesL: 3 };

describe('conductivity', () => {
  test.each([
    [0, 1.41],
    [2.4, 1.53],
  ])('100 L at 1.5, 5 L used at 1.8, topped up with %s', (topUp, after) => {
    const before = ecBefore(100, 1.5, 1.8, 5);
    expectNear(before, 1.48421053, 1e-8);
    expectNear(ecAfter(100, before, topUp, 5), after, 1e-12);
  });

  test.each([
    [0, 0.87],
    [2.4, 1.71],
  ])('after a week of that: %s gives %s', (topUp, known) => {
    let ec = 1.5;
    for (let day = 0; day < 7; day++) ec = ecAfter(100, ecBefore(100, ec, 1.8, 5), topUp, 5);
    expect(Math.abs(ec - known)).toBeLessThan(0.001);
  });

  test('a week without topping up, uptake 1.0: 1.769', () => {
    expectNear(ecBefore(100, 1.5, 1, 35), 1.76923, 1e-5);
  });

  /** Day on which the forecast of 50 L, 3 L a day, ends; Infinity if never in 1000 days. */
  function ends(topUpEc: number, uptakeEc: number | null): number {
    const tank = new TankSeason({ ...TANK, topUpEc, uptakeEc });
    for (let day = 0; day < 1000; day++) tank.visit(day, day === 0 ? 0 : 3);
    return tank.ecGoodDays(Number.POSITIVE_INFINITY)!;
  }

  test.each([
    [0, [7, 5, 3], 3],
    [1.5, [24, 24, 6], 6],
    [1.8, [13, Number.POSITIVE_INFINITY, 8], 8],
    [2.4, [7, 13, 21], 7],
  ])('topped up with %s the forecast ends on days %o by uptake 1.2, 1.8, 2.7', (topUp, byUptake, untold) => {
    expect([1.2, 1.8, 2.7].map((uptake) => ends(topUp, uptake))).toEqual(byUptake);
    expect(ends(topUp, null)).toBe(untold);
  });

  test('it is not told without what it needs', () => {
    expect(new TankSeason({ ...TANK, ec: null }).ecGoodDays(7)).toBeNull();
    expect(new TankSeason({ ...TANK, topUpEc: null }).ecGoodDays(7)).toBeNull();
  });

  test('it ends when the tank is empty, and does not begin again with a new filling', () => {
    const tank = new TankSeason({ ...TANK, changeDays: 2 });
    tank.visit(0, 0);
    tank.visit(3, 50);
    tank.visit(6, 1);
    expect(tank.ecGoodDays(42)).toBe(3);
  });
});

describe('level', () => {
  test('what is used is topped up at the next visit', () => {
    const tank = new TankSeason(TANK);
    tank.visit(0, 0);
    tank.visit(3, 12);
    tank.visit(5, 4);
    expect(tank.levelL).toBe(50);
    tank.end(45);
    expect(tank).toMatchObject({ toppedUpL: 16, drainedL: 0, lowestL: 5, mostBetweenVisitsL: 45, levelL: 5 });
  });

  test('a new filling: what stood is drained, all of it is bought', () => {
    const tank = new TankSeason({ ...TANK, fullL: 46, changeDays: 16 });
    tank.visit(0, 0);
    tank.visit(17, 7.5);
    expect(tank).toMatchObject({ toppedUpL: 46, drainedL: 38.5, mostBetweenVisitsL: 7.5, levelL: 46 });
  });

  test.each([
    ['mondays and thursdays', (day: number) => day % 7 === 0 || day % 7 === 3, [17, 35, 52, 70]],
    ['daily', () => true, [16, 32, 48, 64, 80]],
  ])('it is filled anew at the first visit 16 days after the last filling or later: %s', (_, comes, days) => {
    const tank = new TankSeason({ ...TANK, changeDays: 16 });
    const filled: number[] = [];
    for (let day = 0; day < 84; day++) {
      if (!comes(day)) continue;
      const drained = tank.drainedL;
      tank.visit(day, 1);
      if (tank.drainedL > drained) filled.push(day);
    }
    expect(filled).toEqual(days);
  });

  test('put in less used less drained is the change of level', () => {
    const tank = new TankSeason({ ...TANK, changeDays: 5 });
    const uses = [0, 3.3, 7.1, 0.2, 11, 4.7, 2.9];
    for (const [i, used] of uses.entries()) tank.visit(2 * i, used);
    tank.end(6.5);
    const used = uses.reduce((sum, l) => sum + l, 6.5);
    expect(Math.abs(tank.toppedUpL - used - tank.drainedL - (tank.levelL - 50))).toBeLessThan(1e-12);
    expect(tank.drainedL).toBeGreaterThan(0);
  });

  test('days from full to low', () => {
    expect(daysToLow(TANK, 0.5)).toBe(80);
  });
});

describe('the pump stops', () => {
  const size: ChannelSize = { lengthCm: 600, widthCm: 10, heightCm: 5, filmMm: 2, kg: 4 };

  test('a channel of 6 m by 10 cm with 2 mm of film holds 1.2 L', () => {
    expectNear(filmL(size), 1.2, 1e-12);
  });

  test('a square metre of 1 cm is 10 L, or 10 kg', () => {
    expectNear(filmL({ ...size, lengthCm: 100, widthCm: 100, filmMm: 10 }), 10, 1e-12);
  });

  test('what comes back from all channels and pipes, and what finds no room', () => {
    const tank = { ...TANK, litres: 120, fullL: 110 };
    const back = drainBackL(tank, [
      { channels: 5, size },
      { channels: 3, size },
    ])!;
    expectNear(back, 12.6, 1e-12);
    expectNear(spillL(tank, back), 2.6, 1e-12);
    expect(spillL(TANK, 8)).toBe(0);
    expect(floodL(TANK)).toBe(40);
  });

  test('where a channel’s size is not told, nobody knows', () => {
    expect(
      drainBackL(TANK, [
        { channels: 5, size },
        { channels: 3, size: null },
      ]),
    ).toBeNull();
  });

  test('the thirstiest plant wilts first; of two alike the one with less water', () => {
    const plants = [
      { mlPerHour: 4, waterMl: 10 },
      { mlPerHour: 5, waterMl: 150 },
      { mlPerHour: 5, waterMl: 50 },
      { mlPerHour: 5, waterMl: 80 },
    ];
    const dry = hoursToWilting(20, plants)!;
    expectNear(dry.least, 10 / 7.5, 1e-12);
    expectNear(dry.most, 25 / 5, 1e-12);
    expect(hoursToWilting(20, [])).toBeNull();
  });
});
