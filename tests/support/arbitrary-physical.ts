/** Anything that may be told of a small line beyond its holes, so that all of its figures are there. */

import fc from 'fast-check';
import { withGrowings } from '../../sim/models/growings.js';
import type { CropMatter, LampPlan, PhysicalPlan, TankPlan } from '../../sim/models/physical/plan.js';
import type { Growing, Plan } from '../../sim/models/plan.js';
import { arbitraryPlan, type Limits } from './arbitrary-plan.js';
import { pricesWith, WORK } from './told.js';

const share = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 100 }).map((n) => least + ((most - least) * n) / 100);

function arbitraryLamps(dark: boolean): fc.Arbitrary<LampPlan> {
  const power = fc.oneof(
    share(5, 60).map((watts) => ({ kind: 'metered', watts }) as const),
    fc.record({ kind: fc.constant('made' as const), efficacy: share(1, 4), reaches: share(0.5, 1) }),
  );
  const ppfd = dark ? fc.constantFrom(0, 100, 220) : fc.constantFrom(80, 150, 260);
  return fc.record({ ppfd, hours: fc.constantFrom(8, 16, 24), power });
}

function arbitraryMatter(plan: Plan, c: number): fc.Arbitrary<CropMatter> {
  const { stages, regrow } = plan.crops[c]!;
  return fc.record({
    dry: share(0.035, 0.1),
    slaCm2G: share(200, 450),
    seedMg: share(0.3, 3),
    emergeDays: fc.constantFrom(null, 0, 2, 5),
    left: share(0.05, 0.6),
    regrowDays: fc.constant(regrow?.time.days ?? null),
    stages: fc.constant(stages.map(({ time }) => ({ days: time.days, readyG: null, daysAt: null }))),
  });
}

const arbitraryTank: fc.Arbitrary<TankPlan> = fc.record({
  litres: fc.constant(60),
  fullL: share(20, 50),
  lowL: share(1, 10),
  ec: fc.constantFrom(null, 1.5),
  topUpEc: fc.constantFrom(0, 1.5, 2.4),
  uptakeEc: fc.constantFrom(null, 1.8),
  pipesL: fc.constant(1),
  heldMl: fc.constant(20),
  changeDays: fc.constantFrom(null, 7, 16),
});

function arbitraryPhysical(plan: Plan): fc.Arbitrary<PhysicalPlan> {
  const last = plan.stages.length - 1;
  return fc.record({
    stages: fc.tuple(
      ...plan.stages.map((_, s) => arbitraryLamps(s < last).map((lamps) => ({ lamps, channelSize: null }))),
    ),
    crops: fc.tuple(...plan.crops.map((_, c) => arbitraryMatter(plan, c))),
    climate: fc.record({
      airC: share(18, 26),
      nightC: share(15, 22),
      humidity: share(40, 90),
      nightHumidity: share(40, 95),
      co2: fc.constant(400),
      germinationC: share(15, 28),
      altitudeM: fc.constantFrom(0, 600),
      dated: fc.constant([]),
    }),
    waterScale: fc.constantFrom(1, 1.3),
    waterMetered: fc.boolean(),
    tank: arbitraryTank,
    tiers: fc.constant([]),
    work: fc.constant(WORK),
    prices: fc.constant(
      pricesWith(
        plan.crops.map((_, c) => ({
          seed: 0.03,
          sale: { per: c === 0 ? ('head' as const) : ('kg' as const), price: 2.5 + 10 * c },
        })),
      ),
    ),
  });
}

/** A plan that tells of everything; with `visits: always` neither a tank nor work has a meaning. */
export function arbitraryFullPlan(limits: Limits = {}): fc.Arbitrary<Plan> {
  return arbitraryPlan(limits)
    .chain((plan) =>
      fc.record({
        areas: fc.tuple(...plan.stages.map(() => fc.constantFrom(12, 25, 100, 400))),
        heads: fc.tuple(...plan.crops.map(() => fc.constantFrom(20, 90, 250))),
        physical: arbitraryPhysical(plan),
        plan: fc.constant(plan),
      }),
    )
    .map(({ areas, heads, physical, plan }) => ({
      ...plan,
      stages: plan.stages.map((stage, s) => ({ ...stage, holeAreaCm2: areas[s]! })),
      crops: plan.crops.map((crop, c) => ({ ...crop, headG: heads[c]! })),
      physical: plan.visits.kind === 'always' ? { ...physical, tank: null, work: null } : physical,
    }));
}

/** The same where the air changes by date, and growth with it: up to three spells, each with its own pace of every growth. */
export function arbitraryDatedPlan(limits: Limits = {}): fc.Arbitrary<Plan> {
  const spell = fc.record({
    gap: fc.integer({ min: 0, max: 12 }),
    days: fc.integer({ min: 1, max: 15 }),
    airC: share(16, 28),
    humidity: share(40, 90),
    times: fc.array(fc.constantFrom(0.5, 0.8, 1, 1.3, 2), { minLength: 12, maxLength: 12 }),
  });
  return fc
    .tuple(arbitraryFullPlan(limits), fc.array(spell, { minLength: 1, maxLength: 3 }))
    .map(([plan, told]): Plan => {
      const { climate } = plan.physical!;
      let day = -5;
      const spells = told.map(({ gap, days, airC, humidity, times }) => {
        const from = day + gap;
        day = from + days;
        return { from, beyond: day, times, air: { ...climate!, airC, humidity } };
      });
      let n = 0;
      const paced = (growing: Growing): Growing => {
        const place = n++;
        return {
          ...growing,
          spells: spells.map(({ from, beyond, times }) => ({ from, beyond, times: times[place % 12]! })),
        };
      };
      return {
        ...plan,
        crops: plan.crops.map((crop) => withGrowings(crop, paced)),
        physical: {
          ...plan.physical!,
          climate: { ...climate!, dated: spells.map(({ from, beyond, air }) => ({ from, beyond, air })) },
        },
      };
    });
}
