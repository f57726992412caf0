/**
 * Two whole seasons without luck, as `run --json` tells them. The numbers are worked by an independent program, that shares no code with
 * this one, and were held against a third way of computing (adaptive solvers, leaf temperatures solved for, a tank of salt and litres).
 */

import { describe, expect, test } from 'vitest';
import { Line } from '../../../sim/models/line/line.js';
import { Tallies } from '../../../sim/seasons/tallies.js';
import { type Takes, takesOf } from '../../../sim/study/takes/takes.js';
import { type Clockwork, oneCrop, twoCrops } from '../../support/clockwork.js';
import { expectAllNear, expectNear } from '../../support/near.js';

/** Figures without their errors: there is one season, so there is none. */
function means(of: unknown): Record<string, number> {
  return Object.fromEntries(
    Object.entries(of as object).flatMap(([name, figure]) =>
      figure !== null && typeof figure === 'object' && 'mean' in figure ? [[name, figure.mean]] : [],
    ),
  );
}

function told({ plan, physical }: Clockwork): Required<Takes> {
  const full = { ...plan, physical };
  const tallies = new Tallies(full);
  tallies.add(new Line(full).run(1, 0));
  return takesOf({ plan: full, tallies, whole: tallies }, [
    { plan: full, tallies, whole: tallies },
  ]) as Required<Takes>;
}

describe('one crop', () => {
  const takes = told(oneCrop());
  /** Of what leaves transpire the worked values are quadratures. */
  const [EXACT, WATER] = [1e-9, 1e-6];

  test('growth, light and mass', () => {
    const [growth] = takes.growth;
    expectNear(growth!.efficiency[0]!, 1.89052765986, EXACT);
    expect(growth!.regrow_efficiency).toBeNull();
    expectNear(growth!.ready_g[0]!, 0.303904761929, EXACT);
    expect(growth!.ratio).toEqual([1, 1]);
    const [tray, channel] = takes.light.stages.map(({ mol }) => means(mol));
    expectAllNear(
      tray!,
      {
        dead: 0,
        unattended: 0.1728,
        blocked: 0.5184,
        held: 0,
        cleaning: 0,
        filling: 0,
        unsupplied: 1.6632,
        untended: 0,
        leaves: 0.133926457514,
        gaps: 4.76927354249,
      },
      EXACT,
    );
    expectAllNear(
      channel!,
      { unattended: 3.456, cleaning: 4.608, filling: 57.6, unsupplied: 20.16, untended: 2.304 },
      EXACT,
    );
    expectAllNear(
      channel!,
      { leaves: 30.6407345149, gaps: 74.7672654851, dead: 0, blocked: 0, held: 0 },
      EXACT,
    );
    expectAllNear(means(takes.light), { kwh: 27.6864, kwh_per_head: 3.4608 }, EXACT);
    expectNear(takes.mass.picked_kg.mean, 0.96, EXACT);
  });

  test('water and tank', () => {
    expectAllNear(means(takes.water), { transpired_l: 7.24336192108, used_l: 8.34878852911 }, WATER);
    expectAllNear(
      means(takes.water),
      { picked_l: 0.98064516129, standing_l: 0.125199446742, thrown_out_l: 0, seeds_l: 0.000418 },
      EXACT,
    );
    expectAllNear(
      means(takes.tank),
      {
        topped_up_l: 8.12575117002,
        drained_l: 0,
        lowest_l: 49.3181233409,
        most_between_visits_l: 0.681876659096,
        ec_good_days: 42,
      },
      WATER,
    );
    expectNear(takes.tank.days_to_low!, 94.498982, WATER);
    const { on, off } = takes.tank.dry_hours!;
    expectAllNear({ ...on }, { 0: 1.05830332, 1: 5.12082251 }, WATER);
    expectAllNear({ ...off }, { 0: 2.06644449, 1: 9.99892494 }, WATER);
  });

  test('work and money', () => {
    expectAllNear(
      means(takes.work.minutes),
      {
        sow: 1.46666666667,
        move: 2.66666666667,
        pick: 5.33333333333,
        clear: 0,
        clean: 2.66666666667,
        visit: 420,
        tank: 210,
      },
      EXACT,
    );
    expectNear(takes.work.hours.mean, 10.7022222222, EXACT);
    expectAllNear(
      means(takes.money.cost),
      { light: 8.30592, seed: 0.66, plug: 1.76, labour: 160.533333333, capital: 2.688, other: 8.4 },
      EXACT,
    );
    expectAllNear(
      means(takes.money.cost),
      { water: 0.0325030046801, nutrients: 0.0812575117002, total: 182.46101385 },
      WATER,
    );
    expectAllNear(
      means(takes.money),
      { revenue: 20, margin: -162.46101385, cost_per_head: 22.8076267312 },
      WATER,
    );
    expectAllNear({ ...takes.money.idle_hole_day }, { 0: 0.00472, 1: 0.028 }, EXACT);
  });
});

describe('two crops', () => {
  const takes = told(twoCrops());
  /** Days are not whole ticks of the clock. */
  const NEAR = 1e-6;

  test('growth, light and mass', () => {
    const [lettuce, basil] = takes.growth;
    expectNear(lettuce!.efficiency[0]!, 1.88500752562, NEAR);
    expectNear(lettuce!.ready_g[0]!, 0.318160494946, NEAR);
    expectAllNear({ ...lettuce!.ratio }, { 0: 0.892762122, 1: 0.908768569 }, NEAR);
    expectNear(basil!.efficiency[0]!, 1.79099972716, NEAR);
    expectNear(basil!.regrow_efficiency!, 0.716637687485, NEAR);
    expectAllNear({ ...basil!.ready_g }, { 0: 0.31516033073, 1: 50 }, NEAR);
    expectAllNear({ ...basil!.ratio }, { 0: 1, 1: 0.907118246 }, NEAR);
    const [tray, channel] = takes.light.stages.map(({ mol }) => means(mol));
    expectAllNear(
      tray!,
      {
        unattended: 2.61520231829,
        blocked: 4.7952,
        unsupplied: 5.28768,
        leaves: 0.407784964428,
        gaps: 13.0214927173,
      },
      NEAR,
    );
    expectAllNear(
      channel!,
      {
        unattended: 43.1695919162,
        cleaning: 39.26016,
        filling: 74.0492614537,
        unsupplied: 50.1929646366,
        untended: 16.2096139097,
        leaves: 117.640132849,
        gaps: 216.861955235,
      },
      NEAR,
    );
    expectAllNear(means(takes.light.stages[0]), { kwh: 18.144 }, NEAR);
    expectAllNear(means(takes.light.stages[1]), { kwh: 70.058280543 }, NEAR);
    expectAllNear(means(takes.light), { kwh: 88.202280543, kwh_per_head: 3.26675113122 }, NEAR);
    expectNear(takes.mass.picked_kg.mean, 2.34, NEAR);
  });

  test('water and tank', () => {
    expectAllNear(
      means(takes.water),
      {
        transpired_l: 48.3227678414,
        picked_l: 2.38064516129,
        standing_l: 0.666946431408,
        thrown_out_l: 0.0791397849462,
        seeds_l: 0.00082025,
        used_l: 51.448678969,
      },
      NEAR,
    );
    expectAllNear(
      means(takes.tank),
      {
        topped_up_l: 221.206893199,
        drained_l: 174.457557367,
        lowest_l: 41.3006568626,
        most_between_visits_l: 4.69934313737,
        ec_good_days: 49,
      },
      NEAR,
    );
    expectNear(takes.tank.days_to_low!, 23.1789209, NEAR);
    expect(takes.tank.spill_l).toBe(0);
    const { on, off } = takes.tank.dry_hours!;
    expectAllNear({ ...on }, { 0: 0.743315522, 1: 3.59668801 }, NEAR);
    expectAllNear({ ...off }, { 0: 1.86892412, 1: 9.04318122 }, NEAR);
  });

  test('load, work and money', () => {
    const [top, seedlings] = takes.load;
    expectAllNear(top!, { kg: 10.7522580645, flooded_kg: 22.2722580645, margin_kg: 17.7277419355 }, NEAR);
    expectAllNear(seedlings!, { kg: 3.83410529671, flooded_kg: 12.3841052967 }, NEAR);
    expect([top!.tier, seedlings!.tier, seedlings!.margin_kg]).toEqual(['top', 'seedlings', null]);
    expectAllNear(
      means(takes.work.minutes),
      { sow: 2.93333333333, move: 5.5, pick: 18, clear: 0, clean: 7, visit: 240, tank: 120 },
      NEAR,
    );
    expectNear(takes.work.hours.mean, 6.55722222222, NEAR);
    expectAllNear(
      means(takes.money.cost),
      {
        light: 26.4606841629,
        water: 0.884827572794,
        nutrients: 2.21206893199,
        seed: 1.23,
        plug: 3.52,
        labour: 98.3583333333,
        capital: 8.064,
        other: 16.8,
        total: 157.529914001,
      },
      NEAR,
    );
    expectAllNear(
      means(takes.money),
      { revenue: 51.5, margin: -106.029914001, cost_per_head: 5.8344412593 },
      NEAR,
    );
    expectAllNear({ ...takes.money.idle_hole_day }, { 0: 0.0094, 1: 0.024850678733 }, NEAR);
  });
});
