/**
 * Where to begin: for each visit at which holes were short, a moment by which as many plants are expected to have been
 * ready as went.
 *
 * It is a beginning only, from which stage-past.ts goes on; but with many plants it is a long way from a bad one.
 */

import { toGrid } from '../../engine/clock.js';
import type { Limited } from '../history/room.js';
import type { Course } from './course.js';
import type { Growth } from './growths.js';

interface Waiting {
  readonly growth: Growth;
  readonly course: Course;
  readonly from: number;
}

/** Halvings of the time between two fronts: to a minute. */
const HALVINGS = 16;

/**
 * @param left tied plants that left, by the place of the visit
 * @param standing plants that stand
 * @returns one moment a visit [d, on the grid]; of use only where holes were short and somebody left
 */
export function firstFronts(
  left: readonly (readonly Waiting[])[],
  standing: readonly Waiting[],
  visits: readonly number[],
  limited: Limited,
  firstVisit: number,
): Float64Array {
  const fronts = new Float64Array(visits.length);
  let front = -Infinity;
  for (let i = firstVisit; i < visits.length; i++) {
    const day = visits[i]!;
    const went = left[i]!.filter(({ growth }) => growth.end === 'on');
    if (limited[i] === 0) front = day;
    else if (went.length > 0) {
      const rivals = alike([...left.slice(i).flat(), ...standing], day);
      let low = went.reduce((least, { from, course }) => Math.max(least, from, day - course.keeps), front);
      let high = Math.max(low, Math.min(day, latest(left, visits, i)));
      for (let k = 0; k < HALVINGS && high > low; k++) {
        const middle = (low + high) / 2;
        if (expectedReady(rivals, front, middle) < went.length) low = middle;
        else high = middle;
      }
      front = toGrid(high);
    }
    fronts[i] = front;
  }
  return fronts;
}

/** Plants of one course that came in on one day: their number, those that stand counted with their chance of living. */
interface Alike {
  readonly course: Course;
  readonly from: number;
  count: number;
}

function alike(plants: readonly Waiting[], day: number): Alike[] {
  const found = new Map<Course, Map<number, Alike>>();
  for (const { growth, course, from } of plants) {
    if (from >= day) continue;
    const days = found.get(course) ?? new Map<number, Alike>();
    found.set(course, days);
    const one = days.get(from) ?? { course, from, count: 0 };
    days.set(from, one);
    one.count += growth.end === 'standing' ? course.germination * (1 - course.loss) : 1;
  }
  return [...found.values()].flatMap((days) => [...days.values()]);
}

function expectedReady(plants: readonly Alike[], since: number, by: number): number {
  let sum = 0;
  for (const { course, from, count } of plants) {
    const before = since === -Infinity ? 0 : course.readyBy(since - from);
    if (before < 1) sum += (count * (course.readyBy(by - from) - before)) / (1 - before);
  }
  return sum;
}

/** Plants that are thrown away later were ready by then, and yet stayed. */
function latest(left: readonly (readonly Waiting[])[], visits: readonly number[], i: number): number {
  let least = Infinity;
  for (let k = i + 1; k < left.length; k++) {
    for (const { growth, course } of left[k]!) {
      if (growth.end === 'discarded') least = Math.min(least, visits[k]! - course.keeps);
    }
  }
  return least;
}
