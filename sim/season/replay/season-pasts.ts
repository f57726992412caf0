/**
 * The ways in which what a log does not show can have been, stage by stage: drawn from all that agree with it, each as often as it
 * is likely (see history/stage-past.ts).
 */

import { sumOf } from '../../engine/lists.js';
import { openStream, type Uniform } from '../../engine/random.js';
import { placesInOrder, sortStably } from '../../engine/stable-sort.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from '../history/cohorts.js';
import { type GrowthLaw, growthLawsOf } from '../history/growth-law.js';
import { allGrowths, type Growth } from '../history/growths.js';
import type { LoggedSeason } from '../history/logged-season.js';
import { stageCohorts } from '../history/occupancy.js';
import type { ShortVisits } from '../history/short-visits.js';
import { StagePast } from '../history/stage-past.js';
import { ObservedDraws } from './observed-draws.js';

/** Rounds of a past before the first way, and from one to the next. */
const FIRST_ROUNDS = 30;
const ROUNDS = 3;

/** Of each crop in each stage what its plants did; null where none was seen, or the log does not tell which left. */
export type SeenDraws = readonly (readonly (ObservedDraws | null)[])[];

export class SeasonPasts {
  readonly #season: LoggedSeason;
  /** null for one with plants that are cut several times: of these the log does not tell which left */
  readonly #stages: readonly (StagePast | null)[];
  /** Plants of each crop in each stage. */
  readonly #plants: number[][] = [];
  /** Tells those apart that came in on one day. */
  readonly #order: Uniform;

  /** @param visits at least one @param luck number of the luck with which it is drawn */
  constructor(
    season: LoggedSeason,
    cohorts: CohortsByStage,
    visits: readonly number[],
    short: readonly ShortVisits[],
    luck = 0,
  ) {
    const { plan } = season;
    this.#season = season;
    this.#order = openStream(plan.seed, luck, ['order']);
    this.#stages = plan.stages.map(({ name }, s) => {
      const here = stageCohorts(cohorts, s, plan);
      if (here.some(({ crop }) => plan.crops[crop]!.cuts > 1 && route.isLast(plan, s))) return null;
      const laws = plan.crops.map((crop) => growthLawsOf(crop, s)[0]!);
      const lawOf = ({ crop }: Growth): GrowthLaw => laws[crop]!;
      const growths = allGrowths(here, visits, short[s]!);
      this.#plants[s] = plan.crops.map((_, c) =>
        sumOf(growths.map(({ crop, count }) => (crop === c ? count : 0))),
      );
      const uniform = openStream(plan.seed, luck, ['past', name]);
      const past = new StagePast({ growths, firstVisit: 0 }, lawOf, visits, short[s]!, false, uniform);
      for (let i = 0; i < FIRST_ROUNDS; i++) past.round();
      return past;
    });
  }

  /** The next way. */
  next(): SeenDraws {
    const { plan } = this.#season;
    const stages = this.#stages.map((past, s) => (past === null ? null : this.#drawn(past, s)));
    return plan.crops.map((_, c) => stages.map((draws) => draws?.[c] ?? null));
  }

  /** What the plants of each crop did in a stage, in the order in which they came in; which came first on a day nobody knows. */
  #drawn(past: StagePast, s: number): (ObservedDraws | null)[] {
    const { plan } = this.#season;
    const told = plan.crops.map((_, c) => new Told(this.#plants[s]![c]!));
    for (let i = 0; i < ROUNDS; i++) past.round();
    past.tellLeft((growth, lives, at, from) =>
      told[growth.crop]!.add(growth, lives, at, from, this.#order()),
    );
    past.tell((growth, fate, at, _, from) =>
      told[growth.crop]!.add(growth, fate === 'ripen', at, from, this.#order()),
    );
    return told.map((some, c) => some.inOrder([plan.crops[c]!.name, plan.stages[s]!.name]));
  }
}

/** Plants of one crop in one stage as they are told, one by one: a large line has millions, so there is no object of each. */
class Told {
  #plants = 0;
  /** Day on which each came in [d], and what tells those of one day apart. */
  readonly #from: Float64Array;
  readonly #order: Float64Array;
  /** What it took to become ready, or until it was lost [d]. */
  readonly #days: Float64Array;
  readonly #lost: Uint8Array;
  readonly #lostOf: Int32Array;

  constructor(plants: number) {
    this.#from = new Float64Array(plants);
    this.#order = new Float64Array(plants);
    this.#days = new Float64Array(plants);
    this.#lost = new Uint8Array(plants);
    this.#lostOf = new Int32Array(plants);
  }

  add({ batch, end }: Growth, lives: boolean, at: number, from: number, order: number): void {
    const i = this.#plants++;
    this.#from[i] = from;
    this.#order[i] = order;
    this.#days[i] = at - from;
    if (lives) return;
    this.#lost[i] = 1;
    if (end !== 'standing') this.#lostOf[i] = batch + 1;
  }

  /** @param name of the crop and the stage @returns null if there are none */
  inOrder(name: readonly string[]): ObservedDraws | null {
    const plants = this.#plants;
    if (plants === 0) return null;
    const places = placesInOrder(this.#order);
    sortStably(places, new Int32Array(plants), this.#from, plants);
    const draws = new ObservedDraws(plants, name);
    for (let k = 0; k < plants; k++) {
      const i = places[k]!;
      draws.times[k] = this.#days[i]!;
      if (this.#lost[i] === 0) continue;
      // It is lost at half of a time that it does not live to see.
      draws.times[k]! *= 2;
      draws.moments[k] = 0.5;
      draws.lostOf[k] = this.#lostOf[i]!;
    }
    return draws;
  }
}
