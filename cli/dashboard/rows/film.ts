/**
 * What is true of a whole film, whatever the day: worked out once for each, so that a picture of it does not
 * jump about.
 */

import { emptyIn, STATE_COUNT } from '../../../sim/models/ledger.js';
import type { Film } from '../../../sim/study/film/film.js';

export interface FilmFacts {
  /** Holes of each stage and state, summed over all pictures: stage s, state k at s x STATE_COUNT + k. */
  readonly totals: Float64Array;
  /** The most that is picked in any 7 days from the start of a week of the film. */
  readonly mostPicked: number;
}

const known = new WeakMap<Film, FilmFacts>();

export function factsOf(film: Film): FilmFacts {
  let facts = known.get(film);
  if (facts === undefined) {
    facts = workedOut(film);
    known.set(film, facts);
  }
  return facts;
}

function workedOut(film: Film): FilmFacts {
  const totals = new Float64Array(film.stages.length * STATE_COUNT);
  for (let day = 0; day < film.frames; day++) {
    film.stages.forEach((_, s) => {
      const counts = film.countsAt(day, s);
      for (let k = 0; k < STATE_COUNT; k++) totals[s * STATE_COUNT + k]! += counts[k]!;
    });
  }
  const mostPicked = Math.max(
    0,
    ...weeklyPicks(film, film.days, false),
    ...weeklyPicks(film, film.days, true),
  );
  return { totals, mostPicked };
}

/** Places of the states that any hole of a stage ever has. */
export function statesSeen(film: Film, stage: number): number[] {
  const { totals } = factsOf(film);
  return Array.from({ length: STATE_COUNT }, (_, k) => k).filter((k) => totals[stage * STATE_COUNT + k]! > 0);
}

/** Holes of a stage that stand empty in a picture. */
export function emptyAt(film: Film, day: number, stage: number): number {
  return emptyIn(film.countsAt(day, stage));
}

/** The picture of a day; the last one for days beyond the film. */
export function frameOf(film: Film, day: number): number {
  return Math.min(day, film.days);
}

/**
 * Picks of each week of a film, up to a day: the last of these weeks as far as it has come.
 * @param always somebody is always there: what was done in the course of a day is counted to the next picture
 */
export function weeklyPicks(film: Film, day: number, always: boolean): number[] {
  const shift = always ? 0 : 1;
  const upTo = (end: number): number => (end < 0 ? 0 : film.picksUpTo(frameOf(film, end)));
  const last = frameOf(film, day);
  const weeks: number[] = [];
  for (let from = 0; from < film.days && from <= last; from += 7) {
    weeks.push(upTo(Math.min(last, from + 7 - shift)) - upTo(from - shift));
  }
  return weeks;
}

/** How many of these weeks are over by that day; the last of a season that ends within a week never is. */
export function weeksOver(film: Film, day: number, always: boolean): number {
  return Math.floor((frameOf(film, day) + (always ? 0 : 1)) / 7);
}

/** Days after the first pick among which the first picture is looked for. */
const FORTNIGHT = 14;

/**
 * The day that is shown first. Of a log its last one: what stands now. Of a simulated season the liveliest day of a fortnight from
 * the week after the first pick on: that on which most kinds of work were done, and of those the one with most plants; of the whole
 * season where nothing is picked.
 */
export function openingDay(film: Film, real: boolean): number {
  if (real) return Math.max(0, film.days - 1);
  const days = [...Array(film.days).keys()];
  const first = days.find((day) => film.workAt(day).picked > 0);
  const from = first === undefined ? 0 : Math.min(film.days - 1, (Math.floor(first / 7) + 1) * 7);
  const to = first === undefined ? film.days : from + FORTNIGHT;
  const work = days.slice(from, to).map((day) => {
    const { sown, picked, moved } = film.workAt(day);
    const deeds = [sown, picked, ...moved];
    return {
      day,
      kinds: deeds.filter((plants) => plants > 0).length,
      plants: deeds.reduce((sum, plants) => sum + plants, 0),
    };
  });
  return work.sort((a, b) => b.kinds - a.kinds || b.plants - a.plants || a.day - b.day)[0]?.day ?? 0;
}
