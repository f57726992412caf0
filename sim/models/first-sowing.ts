/**
 * A first cadence for a line of which nothing is known but its holes, its times, who comes when and what is wished for.
 *
 * The rule. What the line can take in, for ever, is that of `sow: {refill: true}` (refill.ts): the scarcest stage's holes over the days
 * that a plant needs there, waits for visits included. Seeds a week are as many as bring that, or the wish if it is less. They
 * are dealt to weekdays on which somebody comes, three at most, as far apart as they lie; of three, two or one that number
 * whose whole seeds come nearest to it, and of equals the most, for small sowings bring even weeks. No more are sown at a time
 * than the first stage has holes for, beside the sowings that still stand there.
 */

import { WEEKDAYS, type Weekday } from './dates.js';
import { SEEDS } from './limits.js';
import { holesOf, type Plan } from './plan.js';
import { meanStay, refills } from './refill.js';
import * as route from './route.js';

/** Most sowings a week: more are more work, and seldom worth it before anything is known. */
const MOST_SOWINGS = 3;

export interface FirstSowing {
  readonly on: readonly Weekday[];
  /** At each of these. */
  readonly seeds: number;
  /** Heads a week that the line takes in for ever if nothing varies [1/week]. */
  readonly most: number;
}

/**
 * @param plan of one crop that is refilled, without want
 * @param visited weekdays on which somebody comes, in the order of the week; at least one
 * @param heads wished for a week
 */
export function firstSowing(plan: Plan, visited: readonly Weekday[], heads: number): FirstSowing {
  const { rate, chances } = refills(plan)[0]!;
  const crop = plan.crops[0]!;
  const first = route.first(plan);
  const most = 7 * rate * crop.cuts;
  const aWeek = Math.min(7 * rate, heads / crop.cuts) / chances[first]!;
  const stay = meanStay(plan, crop, first);
  const ways = upTo(Math.min(MOST_SOWINGS, visited.length)).map((times) => {
    const standing = Math.ceil((stay * times) / 7);
    const room = Math.min(SEEDS.most, Math.floor(holesOf(plan.stages[first]!) / standing));
    const seeds = Math.max(1, Math.min(room, Math.round(aWeek / times)));
    return { times, seeds, off: Math.abs(times * seeds - aWeek) };
  });
  const { times, seeds } = ways.reduce((best, way) => (way.off <= best.off ? way : best));
  return { on: farApart(visited, times), seeds, most };
}

/** 1, 2, ... up to a number. */
function upTo(last: number): number[] {
  return Array.from({ length: last }, (_, i) => i + 1);
}

/** So many of some weekdays, as evenly over the week as may be: of equals those that come first. */
function farApart(days: readonly Weekday[], count: number): Weekday[] {
  return choices(days, count).reduce((best, choice) =>
    unevenness(choice) < unevenness(best) ? choice : best,
  );
}

/** Sum of the squared gaps between these weekdays, round the week [d2]. */
function unevenness(days: readonly Weekday[]): number {
  const places = days.map((day) => WEEKDAYS.indexOf(day));
  return places.reduce((sum, place, i) => {
    const next = places[i + 1] ?? places[0]! + 7;
    return sum + (next - place) ** 2;
  }, 0);
}

/** Every way to choose so many, in their order. */
function choices<Item>(items: readonly Item[], count: number): Item[][] {
  if (count === 0) return [[]];
  return items.flatMap((item, i) => choices(items.slice(i + 1), count - 1).map((rest) => [item, ...rest]));
}
