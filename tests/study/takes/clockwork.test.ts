/** Two whole seasons without luck, as `run --json` tells them, against worked values (tests/support/worked-values.ts). */

import { describe, expect, test } from 'vitest';
import { Line } from '../../../sim/models/line/line.js';
import { Tallies } from '../../../sim/seasons/tallies.js';
import { type Takes, takesOf } from '../../../sim/study/takes/takes.js';
import { type Clockwork, oneCrop, twoCrops } from '../../support/clockwork.js';
import { expectAllNear, expectNear } from '../../support/near.js';
import { ONE_CROP, TWO_CROPS } from '../../support/worked-values.js';

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

/** A list as figures by name. */
function byPlace(values: readonly number[]): Record<string, number> {
  return Object.fromEntries(values.entries());
}

/** The worked litres by their names of JSON. */
function litresNamed(litres: object): Record<string, number> {
  const names: Readonly<Record<string, string>> = { thrownOut: 'thrown_out_l' };
  return Object.fromEntries(Object.entries(litres).map(([name, l]) => [names[name] ?? `${name}_l`, l]));
}

/** The worked tank by its names of JSON. */
function tankNamed({ tank, ecGoodDays }: typeof ONE_CROP | typeof TWO_CROPS): Record<string, number> {
  return {
    topped_up_l: tank.toppedUp,
    drained_l: tank.drained,
    lowest_l: tank.lowest,
    most_between_visits_l: tank.most,
    ec_good_days: ecGoodDays,
  };
}

describe('one crop', () => {
  const takes = told(oneCrop());
  const known = ONE_CROP;
  /** Of what leaves transpire the worked values are quadratures. */
  const [EXACT, WATER] = [1e-9, 1e-6];

  test('growth, light and mass', () => {
    const [growth] = takes.growth;
    expectNear(growth!.efficiency[0]!, known.efficiency, EXACT);
    expect(growth!.regrow_efficiency).toBeNull();
    expectNear(growth!.ready_g[0]!, known.readyG[0], EXACT);
    expect(growth!.ratio).toEqual([1, 1]);
    const [tray, channel] = takes.light.stages.map(({ mol }) => means(mol));
    expectAllNear(tray!, known.light[0], EXACT);
    expectAllNear(channel!, known.light[1], EXACT);
    expectAllNear(means(takes.light), { kwh: known.kwhAll, kwh_per_head: known.kwhAHead }, EXACT);
    expectNear(takes.mass.picked_kg.mean, known.pickedKg, EXACT);
  });

  test('water and tank', () => {
    expectAllNear(means(takes.water), litresNamed(known.litres), WATER);
    expectAllNear(means(takes.water), litresNamed(known.litresInPlants), EXACT);
    expectAllNear(means(takes.tank), tankNamed(known), WATER);
    expectNear(takes.tank.days_to_low!, known.daysToLow, WATER);
    const { on, off } = takes.tank.dry_hours!;
    expectAllNear({ ...on }, byPlace(known.dryHours.on), WATER);
    expectAllNear({ ...off }, byPlace(known.dryHours.off), WATER);
  });

  test('work and money', () => {
    expectAllNear(means(takes.work.minutes), known.minutes, EXACT);
    expectNear(takes.work.hours.mean, known.hours, EXACT);
    expectAllNear(means(takes.money.cost), known.costs, EXACT);
    expectAllNear(means(takes.money.cost), known.costsByLitres, WATER);
    const { revenue, margin, costAHead: cost_per_head } = known;
    expectAllNear(means(takes.money), { revenue, margin, cost_per_head }, WATER);
    expectAllNear({ ...takes.money.idle_hole_day }, byPlace(known.idleHoleDay), EXACT);
  });
});

describe('two crops', () => {
  const takes = told(twoCrops());
  const known = TWO_CROPS;
  /** Days are not whole ticks of the clock. */
  const NEAR = 1e-6;

  test('growth, light and mass', () => {
    const [lettuce, basil] = takes.growth;
    expectNear(lettuce!.efficiency[0]!, known.efficiencies[0], NEAR);
    expectNear(lettuce!.ready_g[0]!, known.readyG[0][0], NEAR);
    expectAllNear({ ...lettuce!.ratio }, byPlace(known.ratios[0]), NEAR);
    expectNear(basil!.efficiency[0]!, known.efficiencies[1], NEAR);
    expectNear(basil!.regrow_efficiency!, known.regrowEfficiency, NEAR);
    expectAllNear({ ...basil!.ready_g }, byPlace(known.readyG[1]), NEAR);
    expectAllNear({ ...basil!.ratio }, byPlace(known.ratios[1]), NEAR);
    const [tray, channel] = takes.light.stages.map(({ mol }) => means(mol));
    expectAllNear(tray!, known.light[0], NEAR);
    expectAllNear(channel!, known.light[1], NEAR);
    expectAllNear(means(takes.light.stages[0]), { kwh: known.kwh[0] }, NEAR);
    expectAllNear(means(takes.light.stages[1]), { kwh: known.kwh[1] }, NEAR);
    expectAllNear(means(takes.light), { kwh: known.kwhAll, kwh_per_head: known.kwhAHead }, NEAR);
    expectNear(takes.mass.picked_kg.mean, known.pickedKg, NEAR);
  });

  test('water and tank', () => {
    expectAllNear(means(takes.water), litresNamed(known.litres), NEAR);
    expectAllNear(means(takes.tank), tankNamed(known), NEAR);
    expectNear(takes.tank.days_to_low!, known.daysToLow, NEAR);
    expect(takes.tank.spill_l).toBe(0);
    const { on, off } = takes.tank.dry_hours!;
    expectAllNear({ ...on }, byPlace(known.dryHours.on), NEAR);
    expectAllNear({ ...off }, byPlace(known.dryHours.off), NEAR);
  });

  test('load, work and money', () => {
    const loads = (['top', 'seedlings'] as const).map((tier, t) => {
      const { kg, floodedKg: flooded_kg, ...margin } = known.load[tier];
      const margin_kg = 'marginKg' in margin ? { margin_kg: margin.marginKg } : {};
      return [takes.load[t]!, { kg, flooded_kg, ...margin_kg }] as const;
    });
    for (const [found, worked] of loads) expectAllNear(found, worked, NEAR);
    expect(takes.load.map(({ tier }) => tier)).toEqual(['top', 'seedlings']);
    expect(takes.load[1]!.margin_kg).toBeNull();
    expectAllNear(means(takes.work.minutes), known.minutes, NEAR);
    expectNear(takes.work.hours.mean, known.hours, NEAR);
    expectAllNear(means(takes.money.cost), known.costs, NEAR);
    const { revenue, margin, costAHead: cost_per_head } = known;
    expectAllNear(means(takes.money), { revenue, margin, cost_per_head }, NEAR);
    expectAllNear({ ...takes.money.idle_hole_day }, byPlace(known.idleHoleDay), NEAR);
  });
});
