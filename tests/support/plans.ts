/** Plans made by hand, for tests and benchmarks: a short description in, a whole plan out. */

import type {
  CropPlan,
  Growing,
  GrowthTime,
  Missed,
  Plan,
  StagePlan,
  Visits,
  Want,
} from '../../sim/models/plan.js';

/** A growth time; without `spread` every plant needs exactly `days`. */
export function time(days: number, spread = 0, shape: GrowthTime['shape'] = 'lognormal'): GrowthTime {
  return { shape: spread === 0 ? 'fixed' : shape, days, spread, times: [] };
}

export function exponential(days: number): GrowthTime {
  return { shape: 'exponential', days, spread: 1, times: [] };
}

/** The listed times, each equally likely. */
export function observed(...times: number[]): GrowthTime {
  const days = times.reduce((sum, t) => sum + t, 0) / times.length;
  return { shape: 'observed', days, spread: 0.1, times };
}

export function grow(growth: GrowthTime, rest: Partial<Omit<Growing, 'time'>> = {}): Growing {
  return { time: growth, loss: 0, keeps: Infinity, ...rest };
}

/** A stage of one channel. */
export function stage(name: string, holes: number, cleanDays = 0): StagePlan {
  return { name, channels: 1, holesPerChannel: holes, holeAreaCm2: null, cleanDays };
}

export function crop(
  stages: readonly Growing[],
  sowing: CropPlan['sowing'],
  rest: Partial<CropPlan> = {},
): CropPlan {
  return { name: 'leaf', germination: 1, cuts: 1, regrow: null, headG: null, stages, sowing, ...rest };
}

/** Due days 0, k, 2k, ... below `days`. */
export function every(
  k: number,
  days: number,
  seeds: number,
  missed: Missed = 'made_up',
): CropPlan['sowing'] {
  return { kind: 'due', days: Array.from({ length: Math.ceil(days / k) }, (_, i) => i * k), seeds, missed };
}

export const always: Visits = { kind: 'always' };

/** A visit on each day on which `pattern` has a 1; the pattern is repeated. */
export function visitDays(weeks: number, pattern: readonly number[] = [1]): Visits {
  const days = Array.from({ length: weeks * 7 }, (_, day) => day);
  return { kind: 'days', days: days.filter((day) => pattern[day % pattern.length] === 1) };
}

export function line(
  stages: readonly StagePlan[],
  crops: readonly CropPlan[],
  rest: Partial<Plan> & { weeks: number },
): Plan {
  const want: Want | null = null;
  return { title: 'test line', start: '2027-01-04', seed: 1, visits: always, want, stages, crops, ...rest };
}
