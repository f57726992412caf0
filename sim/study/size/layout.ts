/** Which sizes of a line are tried: plans that differ in the channels of some stages, and in nothing else. */

import { nearest } from '../../models/nearest.js';
import { holesOf, type Plan, type StagePlan } from '../../models/plan.js';
import { failure, type Result, success } from '../../models/result.js';
import * as route from '../../models/route.js';

/** What is to be tried. */
export type SizeLayout =
  /** About five counts around the present ones, in the last two stages (or the only one). */
  | { readonly kind: 'around' }
  /** Each count of a stage with each count of the others; stages that are not named stay as they are. */
  | { readonly kind: 'channels'; readonly stages: readonly StageCounts[] }
  /** So many channels, dealt to stages in every way; to the last two if none is named. */
  | { readonly kind: 'split'; readonly channels: number; readonly between: readonly string[] }
  /** A floor or shelf area, dealt to stages until it takes no further channel; to the last two if none is named. */
  | { readonly kind: 'area'; readonly m2: number; readonly between: readonly string[] };

export interface StageCounts {
  readonly stage: string;
  readonly counts: readonly number[];
}

/** The sizes that are tried. */
export interface Sizes {
  /** Places of the stages whose channels differ. */
  readonly varied: readonly number[];
  /** Channels of every stage of the line, one list a plan. */
  readonly counts: readonly (readonly number[])[];
}

/** Most plans of a study of sizes. */
export const MOST_SIZES = 400;

/** Shares of the present channels that are tried when nobody says which counts. */
const AROUND = [0.5, 0.75, 1, 1.25, 1.5];

const CM2_PER_M2 = 10_000;

/**
 * The sizes that a layout stands for.
 * @returns faults, a sentence each, if the layout does not fit the line
 */
export function sizesOf(plan: Plan, layout: SizeLayout): Result<Sizes, string> {
  switch (layout.kind) {
    case 'around':
      return grid(plan, aroundPresent(plan));
    case 'channels':
      return grid(plan, layout.stages);
    case 'split':
    case 'area':
      return dealt(plan, layout);
  }
}

/** Floor or shelf area of a channel [cm2]; null if the stage does not say. */
function channelArea({ holesPerChannel, holeAreaCm2 }: StagePlan): number | null {
  return holeAreaCm2 === null ? null : holesPerChannel * holeAreaCm2;
}

/** Holes of some stages together. */
export function holesIn({ stages }: Plan, places: readonly number[]): number {
  return places.reduce((sum, s) => sum + holesOf(stages[s]!), 0);
}

/** Area of some stages together [m2]; null if one does not say. */
export function areaIn({ stages }: Plan, places: readonly number[]): number | null {
  let area = 0;
  for (const s of places) {
    const each = channelArea(stages[s]!);
    if (each === null) return null;
    area += each * stages[s]!.channels;
  }
  return area / CM2_PER_M2;
}

/** The places of the last two stages, or of the only one. */
function lastTwo(plan: Plan): number[] {
  const last = route.last(plan);
  return [route.before(plan, last), last].filter((s) => s >= 0);
}

function aroundPresent(plan: Plan): StageCounts[] {
  return lastTwo(plan).map((s) => {
    const { name, channels } = plan.stages[s]!;
    return { stage: name, counts: AROUND.map((share) => Math.max(1, Math.round(channels * share))) };
  });
}

function grid(plan: Plan, stages: readonly StageCounts[]): Result<Sizes, string> {
  const faults: string[] = [];
  const named = placesOf(
    plan,
    stages.map(({ stage }) => stage),
    faults,
  );
  if (faults.length > 0) return failure(faults);
  const countsOf = plan.stages.map(({ channels }) => [channels]);
  named.forEach((place, i) => {
    countsOf[place] = [...new Set(stages[i]!.counts)].sort((a, b) => a - b);
  });
  const plans = countsOf.reduce((product, counts) => product * counts.length, 1);
  if (plans > MOST_SIZES) {
    return failure([
      `The lists of channels must not make ${plans} plans. At most ${MOST_SIZES} are tried. Shorten a list.`,
    ]);
  }
  let counts: number[][] = [[]];
  for (const next of countsOf) counts = counts.flatMap((before) => next.map((count) => [...before, count]));
  return success({ varied: named.sort((a, b) => a - b), counts });
}

/** The places of stages by their names. @param faults takes a sentence for each name that does not fit */
function placesOf({ stages }: Plan, names: readonly string[], faults: string[]): number[] {
  const known = stages.map(({ name }) => name);
  for (const [i, name] of names.entries()) {
    if (!known.includes(name)) {
      const near = nearest(name, known);
      const meant = near === null ? 'Name one of them.' : `Did you mean ${near}?`;
      faults.push(`There is no stage ${JSON.stringify(name)}. The stages are ${known.join(', ')}. ${meant}`);
    } else if (names.indexOf(name) < i) {
      faults.push(`Stage ${name} must not be named twice. Each stage is named once. Leave one out.`);
    }
  }
  return names.map((name) => known.indexOf(name));
}

function dealt(
  plan: Plan,
  layout: Extract<SizeLayout, { between: readonly string[] }>,
): Result<Sizes, string> {
  const faults: string[] = [];
  const { between } = layout;
  const places = between.length === 0 ? lastTwo(plan) : placesOf(plan, between, faults);
  if (faults.length > 0) return failure(faults);
  const names = places.map((s) => plan.stages[s]!.name);
  const what = layout.kind === 'split' ? `${layout.channels} channels` : `${layout.m2} m2`;
  if (places.length < 2) {
    return failure([
      `${what} must not be dealt to ${names[0]} alone: there is nothing to choose. They are dealt to at least two stages. ${
        plan.stages.length === 1 ? 'This line has only one: give counts of channels instead.' : 'Name two.'
      }`,
    ]);
  }
  const prices = places.map((s) => {
    const area = channelArea(plan.stages[s]!);
    if (layout.kind === 'area' && area === null) {
      faults.push(
        `Stage ${plan.stages[s]!.name} must not lack hole_area_cm2 where an area is dealt to it. It must say how much one of its holes takes. Example: hole_area_cm2: 400`,
      );
    }
    return layout.kind === 'split' ? 1 : (area ?? 0);
  });
  if (faults.length > 0) return failure(faults);
  const budget = layout.kind === 'split' ? layout.channels : layout.m2 * CM2_PER_M2;
  const least = prices.reduce((sum, price) => sum + price, 0);
  if (budget < least * (1 - ROUNDING)) {
    const needed = layout.kind === 'split' ? least : Number((least / CM2_PER_M2).toPrecision(6));
    return failure([
      `${what} must not be dealt to ${names.join(', ')}: a channel in each takes ${needed}${layout.kind === 'split' ? '' : ' m2'}. Give at least ${needed}, or name fewer stages.`,
    ]);
  }
  const counts: number[][] = [];
  for (const deal of deals(prices, budget)) {
    if (counts.length === MOST_SIZES) {
      return failure([
        `${what} must not be dealt to ${names.join(', ')} in more than ${MOST_SIZES} ways. So many plans are tried at most. Give less, or name fewer stages.`,
      ]);
    }
    const all = plan.stages.map(({ channels }) => channels);
    places.forEach((place, i) => {
      all[place] = deal[i]!;
    });
    counts.push(all);
  }
  const varied = [...places].sort((a, b) => a - b);
  return success({ varied, counts: counts.sort((a, b) => byPlaces(a, b, varied)) });
}

/** Sums of areas such as 0.1 + 0.2 must not miss a budget by a hair. */
const ROUNDING = 1e-9;

/**
 * All ways to spend a budget on at least one of each, until it buys no more of anything.
 *
 * The cheapest takes what the others leave; then less than its price is left over, and each choice for the others is one way.
 * @param prices of one, all above 0
 */
function* deals(prices: readonly number[], budget: number): Generator<number[]> {
  const order = prices.map((_, i) => i).sort((a, b) => prices[b]! - prices[a]!);
  const deal = new Array<number>(prices.length);
  function* choose(k: number, left: number): Generator<number[]> {
    const i = order[k]!;
    const others = order.slice(k + 1).reduce((sum, j) => sum + prices[j]!, 0);
    const most = Math.floor((left - others) / prices[i]! + ROUNDING);
    if (k === order.length - 1) {
      deal[i] = most;
      yield [...deal];
      return;
    }
    for (let count = 1; count <= most; count++) {
      deal[i] = count;
      yield* choose(k + 1, left - count * prices[i]!);
    }
  }
  yield* choose(0, budget);
}

function byPlaces(a: readonly number[], b: readonly number[], places: readonly number[]): number {
  const place = places.find((s) => a[s] !== b[s]);
  return place === undefined ? 0 : a[place]! - b[place]!;
}
