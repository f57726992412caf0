/**
 * Where to begin: for each visit at which holes were short, a moment by which as many plants are expected to have been
 * ready as went.
 *
 * It is a beginning only, from which stage-past.ts goes on; but with many plants it is a long way from a bad one.
 */

import { toGrid } from '../../engine/clock.js';
import { sumOf } from '../../engine/lists.js';
import type { GrowthLaw } from './growth-law.js';
import type { Growth } from './growths.js';
import type { ShortVisits } from './short-visits.js';

interface Waiting {
  readonly growth: Growth;
  readonly law: GrowthLaw;
}

/** Halvings of the time between two fronts: to a minute. */
const HALVINGS = 16;

/**
 * @param left tied plants that left, by the place of the visit
 * @param standing plants that stand
 * @returns one moment a visit [d, on the grid]; of use only where holes were short and somebody left
 */
export function initialCutoffs(
  left: readonly (readonly Waiting[])[],
  standing: readonly Waiting[],
  visits: readonly number[],
  short: ShortVisits,
  firstVisit: number,
): Float64Array {
  const cutoffs = new Float64Array(visits.length);
  let cutoff = -Infinity;
  for (let i = firstVisit; i < visits.length; i++) {
    const day = visits[i]!;
    const went = left[i]!.filter(({ growth }) => growth.end === 'on');
    const gone = sumOf(went.map(({ growth }) => growth.count));
    if (short[i] === 0) cutoff = day;
    else if (went.length > 0) {
      const rivals = alike([...left.slice(i).flat(), ...standing], day);
      let low = went.reduce(
        (least, { growth, law }) => Math.max(least, growth.from, day - law.keeps),
        cutoff,
      );
      let high = Math.max(low, Math.min(day, latest(left, visits, i)));
      for (let k = 0; k < HALVINGS && high > low; k++) {
        const middle = (low + high) / 2;
        if (expectedReady(rivals, cutoff, middle) < gone) low = middle;
        else high = middle;
      }
      cutoff = toGrid(high);
    }
    cutoffs[i] = cutoff;
  }
  return cutoffs;
}

/** Plants of one course that came in on one day: their number, those that stand counted with their chance of living. */
interface Alike {
  readonly law: GrowthLaw;
  readonly from: number;
  count: number;
}

function alike(plants: readonly Waiting[], day: number): Alike[] {
  const found = new Map<GrowthLaw, Map<number, Alike>>();
  for (const { growth, law } of plants) {
    const { from } = growth;
    if (from >= day) continue;
    const days = found.get(law) ?? new Map<number, Alike>();
    found.set(law, days);
    const one = days.get(from) ?? { law, from, count: 0 };
    days.set(from, one);
    one.count += growth.count * (growth.end === 'standing' ? law.germination * (1 - law.loss) : 1);
  }
  return [...found.values()].flatMap((days) => [...days.values()]);
}

function expectedReady(plants: readonly Alike[], since: number, by: number): number {
  let sum = 0;
  for (const { law, from, count } of plants) {
    const before = since === -Infinity ? 0 : law.readyBy(law.grown(from, since));
    if (before < 1) sum += (count * (law.readyBy(law.grown(from, by)) - before)) / (1 - before);
  }
  return sum;
}

/** Plants that are thrown away later were ready by then, and yet stayed. */
function latest(left: readonly (readonly Waiting[])[], visits: readonly number[], i: number): number {
  let least = Infinity;
  for (let k = i + 1; k < left.length; k++) {
    for (const { growth, law } of left[k]!) {
      if (growth.end === 'discarded') least = Math.min(least, visits[k]! - law.keeps);
    }
  }
  return least;
}
