/**
 * The two-state growth model and thermal time against what was published, and what does not hold.
 *
 * "Equation" in a title: the code is what the paper says. "Outside": an observation that the model was not made from. Where a check
 * fails, that is what is tested: the figures stand in docs/what-it-takes.md.
 *
 * Van Henten 1994, Agricultural Systems 45:55-72 (equations and constants seen in a public restatement; rates and masses below were
 * computed from them by another program). Wheeler et al., NASA Kennedy: lettuce in channels, 300 umol m-2 s-1 for 16 h, 23 degC, 1000 ppm,
 * 24 plants/m2, at 28 days 129 g fresh and 6.8 g dry a shoot and 0.6 g of root (conference abstract seen). Carotti et al. 2021, Frontiers in
 * Plant Science 11:592171 (abstract seen). Koontz & Prince 1986, HortScience 21:123 (seen): 24 h of light instead of 16 h doubled the
 * weight. Harrington & Minges 1954: days to emergence (a reprint seen). Onions after Brewster (seen), data of Harrington 1962.
 */

import { describe, expect, test } from 'vitest';
import { emergenceDays, thermalDays } from '../../sim/models/physical/emergence.js';
import { dailyLight } from '../../sim/models/physical/light.js';
import { freshShootG, SHOOT_OF_PLANT, wholeDryG } from '../../sim/models/physical/tissue.js';
import {
  growFor,
  growthPace,
  growthRates,
  growUntil,
  seedStates,
  type TwoStates,
} from '../../sim/models/physical/two-state-growth.js';
import { expectNear } from '../support/near.js';

/** Conditions that never change. @param ppfd [umol m-2 s-1] */
function steady(ppfd: number, hours: number, airC: number, co2: number) {
  return growthPace({ ppfd, hours, airC, nightC: airC, co2 });
}

function total({ loose, built }: TwoStates): number {
  return loose + built;
}

/** umol of photons a joule, as the model has it. */
const UMOL_PER_J = 4.6;

describe('lettuce emerges within a day of what was published (outside; the line was fitted to these four)', () => {
  test.each([
    [10, 7, 6.56944],
    [15, 4, 3.87705],
    [20, 3, 2.75],
    [25, 2, 2.13063],
  ])('at %s degC after %s days', (airC, published, known) => {
    const days = emergenceDays(null, airC);
    expect(Math.abs(days - published)).toBeLessThanOrEqual(1);
    expectNear(days, known, 1e-5);
  });

  test('at 28 degC no sooner than at 25', () => {
    expectNear(emergenceDays(null, 28), 2.130631, 1e-6);
  });

  test('onions, the worked example of thermal time: 4 days at 22.5 degC, 16 at 7.5', () => {
    expectNear(thermalDays(22.5, 2.5, 80), 4, 1e-12);
    expectNear(thermalDays(7.5, 2.5, 80), 16, 1e-12);
  });
});

describe('Van Henten’s equations', () => {
  test.each([
    [{ loose: 0.675, built: 2.025 }, 50, 20, 4.51899e-5, 2.53125e-6],
    [{ loose: 25, built: 75 }, 100, 23, 5.04772e-4, 1.07946e-4],
  ])('rates of %o at %s W/m2 and %s degC (equation)', (states, watts, airC, loose, built) => {
    const rates = growthRates(steady(watts * UMOL_PER_J, 24, airC, 1000), states);
    // Known to six digits [g m-2 s-1].
    expectNear(rates.loose / 86_400, loose, 1e-5);
    expectNear(rates.built / 86_400, built, 1e-5);
  });

  test.each([
    [10, 159.24],
    [20, 407.26],
    [30, 610.94],
  ])('after %s days of 50 W/m2 there are %s g/m2 (equation)', (days, known) => {
    const mass = total(growFor(steady(50 * UMOL_PER_J, 24, 20, 1000), { loose: 0.675, built: 2.025 }, days));
    // Known to 0.01 g.
    expectNear(mass, known, 0.005 / known);
  });

  test('a year of growth is followed, not more', () => {
    expect(growUntil(steady(50 * UMOL_PER_J, 24, 20, 1000), seedStates(1), 1e6)).toBeNull();
  });

  test('growth until a mass is growth for the days that it takes', () => {
    const pace = steady(200, 16, 22, 600);
    const reached = growUntil(pace, seedStates(0.1), 100)!;
    const states = growFor(pace, seedStates(0.1), reached.days);
    expectNear(total(reached.states), 100, 1e-12);
    expectNear(total(states), 100, 1e-12);
    expectNear(states.built, reached.states.built, 1e-12);
  });
});

/** The crop of the NASA abstract from day 3, at which 1 mg a plant is assumed. */
function nasaCrop(hours: number, co2: number): number {
  return total(growFor(steady(300, hours, 23, co2), seedStates(24 * 0.001), 25));
}

describe('the NASA chamber crop', () => {
  test('177.6 g/m2 dry after 28 days, within 25 % (outside; the start is assumed)', () => {
    const published = 24 * (6.8 + 0.6);
    expectNear(published, 177.6, 1e-12);
    // By tray; by the chamber's whole floor it is 142.
    expectNear(nasaCrop(16, 1000), published, 0.25);
  });

  test('a dry share of 5.27 % (outside)', () => {
    expectNear(wholeDryG(129, 0.0527) * SHOOT_OF_PLANT, 6.8, 1e-3);
  });

  test.each([
    [400, 2.12],
    [1000, 1.76],
  ])(
    'with %s ppm, 24 h of the same light make %s times the mass of 16 h; published 2, their CO2 not seen',
    (co2, times) => {
      const found = nasaCrop(24, co2) / nasaCrop(16, co2);
      expectNear(found, times, 0.005);
      expectNear(found, 2, 0.15);
    },
  );
});

describe('light use of lettuce by light level: 29 days, 16 h, 24 degC; 25 plants/m2, 0.05 g at the start and 1200 ppm are assumed', () => {
  const PPFD = [200, 400, 750];
  const dryShoot = PPFD.map((ppfd) => {
    const grown = total(growFor(steady(ppfd, 16, 24, 1200), seedStates(25 * 0.05), 29));
    return (grown * SHOOT_OF_PLANT) / (dailyLight(ppfd, 16) * 29);
  });
  const freshShoot = (dry: number): number[] => dryShoot.map((g) => freshShootG(g / SHOOT_OF_PLANT, dry));

  test('1.01, 0.87 and 0.76 g of dry shoot per mol within 25 %, falling with light (outside)', () => {
    for (const [i, published] of [1.01, 0.87, 0.76].entries()) expectNear(dryShoot[i]!, published, 0.25);
    expect(dryShoot[0]).toBeGreaterThan(dryShoot[1]!);
    expect(dryShoot[1]).toBeGreaterThan(dryShoot[2]!);
  });

  test('29, 27 and 21 g of fresh shoot per mol do NOT hold at a dry share of 5 %: 38 to 42 % too low', () => {
    const found = freshShoot(0.05);
    expect(found.map((g) => g.toFixed(1))).toEqual(['17.5', '15.8', '13.0']);
    for (const [i, published] of [29, 27, 21].entries()) {
      const off = found[i]! / published - 1;
      expect(off).toBeGreaterThan(-0.42);
      expect(off).toBeLessThan(-0.375);
    }
  });

  test('at 3.4 %, which that paper implies, they hold within 25 % (outside)', () => {
    const found = freshShoot(0.034);
    expect(found.map((g) => g.toFixed(1))).toEqual(['25.7', '23.2', '19.2']);
    for (const [i, published] of [29, 27, 21].entries()) expectNear(found[i]!, published, 0.25);
  });
});

describe('the best temperature is published as 24 degC; by the model’s own it is NOT', () => {
  const pace = (airC: number) => steady(400, 16, airC, 1200);
  const start = seedStates(25 * 0.05);

  test('its mass after 29 days falls from 20 degC on', () => {
    const masses = [20, 24, 28, 32].map((airC) => Math.round(total(growFor(pace(airC), start, 29))));
    expect(masses).toEqual([598, 567, 513, 436]);
  });

  test('its days to a head of 150 g fall beyond 24 degC', () => {
    const days = (airC: number): number => growUntil(pace(airC), start, 25 * wholeDryG(150, 0.05))!.days;
    expect(days(26)).toBeLessThan(days(24));
    expect(days(24)).toBeLessThan(days(20));
    expect(days(32)).toBeGreaterThan(days(26));
  });
});
