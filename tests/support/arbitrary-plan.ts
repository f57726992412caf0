/** Any small line: few holes, short times and crowded stages, so that everything that can happen does. */

import fc from 'fast-check';
import type { CropPlan, Growing, GrowthTime, Plan, StagePlan, Visits, Want } from '../../sim/models/plan.js';
import { always, crop, line, visitDays } from './plans.js';

export interface Limits {
  /** Growth times are multiples of a quarter of a day that no draw changes: fixed or observed. */
  readonly onGrid?: boolean;
  readonly crops?: number;
  readonly losses?: boolean;
  readonly keeps?: boolean;
  readonly want?: boolean;
  readonly cuts?: boolean;
  readonly refill?: boolean;
  /** Only `always`. */
  readonly always?: boolean;
}

const quarters = (most: number): fc.Arbitrary<number> =>
  fc.integer({ min: 1, max: 4 * most }).map((n) => n / 4);

function arbitraryTime(limits: Limits): fc.Arbitrary<GrowthTime> {
  const fixed = quarters(12).map((days): GrowthTime => ({ shape: 'fixed', days, spread: 0, times: [] }));
  const observed = fc.array(quarters(12), { minLength: 1, maxLength: 5 }).map((times): GrowthTime => {
    const days = times.reduce((sum, t) => sum + t, 0) / times.length;
    const variance = times.reduce((sum, t) => sum + (t - days) ** 2, 0) / times.length;
    return { shape: 'observed', days, spread: Math.sqrt(variance) / days, times };
  });
  if (limits.onGrid === true) return fc.oneof(fixed, observed);
  const drawn = fc.record({
    shape: fc.constantFrom('lognormal', 'gamma', 'weibull', 'triangular'),
    days: quarters(12),
    spread: fc.constantFrom(0, 0.05, 0.2, 0.35),
    times: fc.constant([]),
  }) as fc.Arbitrary<GrowthTime>;
  const memoryless = quarters(8).map(
    (days): GrowthTime => ({ shape: 'exponential', days, spread: 1, times: [] }),
  );
  return fc.oneof(fixed, observed, drawn, drawn, memoryless);
}

function arbitraryGrowing(limits: Limits): fc.Arbitrary<Growing> {
  return fc.record({
    time: arbitraryTime(limits),
    loss: limits.losses === false ? fc.constant(0) : fc.constantFrom(0, 0, 0.1, 0.4, 1),
    keeps: limits.keeps === false ? fc.constant(Infinity) : fc.constantFrom(Infinity, Infinity, 0, 0.5, 2, 7),
  });
}

function arbitrarySowing(days: number, limits: Limits): fc.Arbitrary<CropPlan['sowing']> {
  const due = fc
    .record({
      times: fc.array(fc.integer({ min: 0, max: 4 * days + 8 }), { minLength: 1, maxLength: 20 }),
      seeds: fc.integer({ min: 1, max: 8 }),
      missed: fc.constantFrom('made_up', 'made_up', 'dropped'),
    })
    .map(({ times, seeds, missed }): CropPlan['sowing'] => ({
      kind: 'due',
      days: [...new Set(times)].sort((a, b) => a - b).map((t) => t / 4),
      seeds,
      missed,
    }));
  if (limits.refill === false) return due;
  return fc.oneof(due, due, due, fc.constant<CropPlan['sowing']>({ kind: 'refill' }));
}

function arbitraryCrop(name: string, stages: number, days: number, limits: Limits): fc.Arbitrary<CropPlan> {
  return fc
    .record({
      growing: fc.array(arbitraryGrowing(limits), { minLength: stages, maxLength: stages }),
      regrow: arbitraryGrowing(limits),
      cuts: limits.cuts === false ? fc.constant(1) : fc.constantFrom(1, 1, 2, 3),
      germination: limits.losses === false ? fc.constant(1) : fc.constantFrom(1, 0.9, 0.5),
      sowing: arbitrarySowing(days, limits),
    })
    .map(({ growing, regrow, cuts, germination, sowing }) => {
      const keeps = growing.at(-1)!.keeps;
      return crop(growing, sowing, {
        name,
        cuts,
        germination,
        regrow: cuts > 1 ? { ...regrow, keeps } : null,
      });
    });
}

function arbitraryVisits(weeks: number, limits: Limits): fc.Arbitrary<Visits> {
  const pattern = fc.array(fc.constantFrom(0, 1), { minLength: 7, maxLength: 7 });
  const some = pattern.map((days) => visitDays(weeks, days));
  if (limits.always === true) return fc.constant(always);
  return fc.oneof(fc.constant(always), fc.constant(visitDays(weeks)), some);
}

function arbitraryWant(days: number, limits: Limits): fc.Arbitrary<Want | null> {
  const want = fc.record({
    heads: fc.integer({ min: 1, max: 4 }),
    days: fc
      .array(fc.integer({ min: 0, max: days - 1 }), { minLength: 1, maxLength: 20 })
      .map((list) => [...new Set(list)].sort((a, b) => a - b)),
  });
  return limits.want === false ? fc.constant(null) : fc.oneof(fc.constant(null), want);
}

export function arbitraryPlan(limits: Limits = {}): fc.Arbitrary<Plan> {
  return fc
    .record({
      weeks: fc.integer({ min: 4, max: 12 }),
      stages: fc.integer({ min: 1, max: 4 }),
      crops: limits.crops === undefined ? fc.integer({ min: 1, max: 3 }) : fc.constant(limits.crops),
    })
    .chain(({ weeks, stages, crops }) => {
      const cleaning = fc.constantFrom(0, 0, 0.5, 2);
      const stagePlans = Array.from(
        { length: stages },
        (_, s): fc.Arbitrary<StagePlan> =>
          fc.record({
            name: fc.constant(`stage ${s + 1}`),
            channels: fc.integer({ min: 1, max: 3 }),
            holesPerChannel: fc.integer({ min: 1, max: 4 }),
            holeAreaCm2: fc.constant(null),
            cleanDays: cleaning,
          }),
      );
      const cropPlans = Array.from({ length: crops }, (_, c) =>
        arbitraryCrop(`crop ${c + 1}`, stages, 7 * weeks, limits),
      );
      return fc.record({
        weeks: fc.constant(weeks),
        seed: fc.nat(1000),
        stages: fc.tuple(...stagePlans),
        crops: fc.tuple(...cropPlans),
        visits: arbitraryVisits(weeks, limits),
        want: arbitraryWant(7 * weeks, limits),
      });
    })
    .map(({ stages, crops, ...rest }) => line(stages, crops, rest));
}
