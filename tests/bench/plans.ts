/** The two lines that the benchmark runs: invented numbers, chosen so that nothing is ever held up for long. */

import type { Plan } from '../../sim/models/plan.js';
import { crop, every, grow, line, stage, time } from '../support/plans.js';

const WEEKS = 52;

function benchLine(seeds: number, days: number, holes: readonly [number, number, number]): Plan {
  const stages = [stage('germination', holes[0]), stage('nursery', holes[1]), stage('finishing', holes[2])];
  const growing = [grow(time(7, 0.1)), grow(time(14, 0.12)), grow(time(24, 0.15))];
  const sowing = every(days, WEEKS * 7, seeds);
  return line(stages, [crop(growing, sowing, { germination: 0.9 })], { weeks: WEEKS });
}

/** 1 100 holes, 30 seeds every 3 days. */
export const small = benchLine(30, 3, [200, 300, 600]);

/** 155 000 holes, 3 000 seeds a day. */
export const large = benchLine(3000, 1, [25_000, 50_000, 80_000]);

/** A line like the others that sows about `plants` seeds in a year, with holes to match. */
export function lineOf(plants: number): Plan {
  const perDay = plants / (WEEKS * 7);
  const room = (days: number): number => Math.ceil(perDay * days * 1.2) + 10;
  return benchLine(Math.max(1, Math.round(perDay * 2)), 2, [room(8), room(16), room(28)]);
}
