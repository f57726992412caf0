/**
 * `water.scale` by the grower's meter: litres topped up, less those that stay in plants, over the litres that the model tells of the
 * plants that stood there (models/physical/transpiration.ts). Sums of all spells: what one has too much of because the tank was not
 * quite full, the next has too little of.
 *
 * Its interval counts two things. How spells depart from it, in batches of spells that follow each other and have about as much to
 * tell (batch means; the error of a ratio after Cochran 1977, Sampling Techniques, chapter 6, from memory). And how pasts that agree
 * with the log differ: in part that shows in the departures already, so only what departures of single batches do not show is added.
 */

import { meanOf, sumOf } from '../../../engine/lists.js';
import { studentInterval } from '../../../engine/student.js';
import { Moments } from '../../../engine/tally.js';
import { meterScale } from '../../../models/physical/transpiration.js';
import type { PastLitres } from './litres-past.js';

/** Most batches of spells: with as many the interval is hardly wider than with more. */
const MOST_BATCHES = 20;

/** A spell by the meter, and by each past. */
export interface MeteredSpell {
  /** Topped up at its end [L]. */
  readonly litres: number;
  /** Given off at scale 1, and taken up to stay in plants, by past [L]. */
  readonly givenOff: readonly number[];
  readonly inPlants: readonly number[];
}

export interface ScaleEstimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Means over the pasts [L]. */
  readonly givenOff: number;
  readonly inPlants: number;
}

/** @param at place of the spell between two marks @param pasts at least one */
export function meteredSpell(litres: number, at: number, pasts: readonly PastLitres[]): MeteredSpell {
  return {
    litres,
    givenOff: pasts.map(({ givenOff }) => givenOff[at]!),
    inPlants: pasts.map(({ inPlants }) => inPlants[at]!),
  };
}

/** @param spells in their order, with something given off in each @returns null with fewer than two */
export function waterScale(spells: readonly MeteredSpell[]): ScaleEstimate | null {
  if (spells.length < 2) return null;
  const litres = sumOf(spells.map((spell) => spell.litres));
  const givenOff = sumOf(spells.map((spell) => meanOf(spell.givenOff)));
  const inPlants = sumOf(spells.map((spell) => meanOf(spell.inPlants)));
  const value = meterScale(litres, inPlants, givenOff);
  const batches = batchesOf(spells, givenOff);
  /** What is used by each past, at this scale [L]: of each batch, by past. */
  const used = batches.map((batch) =>
    batch[0]!.givenOff.map((_, k) =>
      sumOf(batch.map((spell) => value * spell.givenOff[k]! + spell.inPlants[k]!)),
    ),
  );
  const departures = batches.map((batch, b) => sumOf(batch.map((spell) => spell.litres)) - meanOf(used[b]!));
  const seen = (batches.length / (batches.length - 1)) * sumOf(departures.map((litres) => litres * litres));
  const pasts = used[0]!.length;
  const ofAll = variance(used[0]!.map((_, k) => sumOf(used.map((batch) => batch[k]!))));
  const ofEach = sumOf(used.map(variance));
  // The mean of the pasts is itself known to so many of them only.
  const squared = Math.max(ofAll, seen + ofAll - ofEach) + ofAll / pasts;
  const { low, high } = studentInterval(value, Math.sqrt(squared) / givenOff, batches.length - 1);
  return { value, low, high, givenOff, inPlants };
}

function variance(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const moments = new Moments();
  for (const value of values) moments.add(value);
  return moments.variance;
}

/** Spells that follow each other together, so that of each batch about as much is given off. @param all given off in all spells [L] */
function batchesOf(spells: readonly MeteredSpell[], all: number): MeteredSpell[][] {
  const count = Math.min(MOST_BATCHES, spells.length);
  const batches: MeteredSpell[][] = [];
  let before = 0;
  let last = -1;
  for (const spell of spells) {
    const litres = meanOf(spell.givenOff);
    const place = Math.min(count - 1, Math.floor((count * (before + litres / 2)) / all));
    if (place > last) batches.push([]);
    last = Math.max(last, place);
    batches.at(-1)!.push(spell);
    before += litres;
  }
  return batches;
}
