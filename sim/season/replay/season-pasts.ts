/**
 * The ways in which what a log does not show can have been, stage by stage: drawn from all that agree with it, each as often as it
 * is likely (see history/stage-past.ts).
 */

import { openStream, type Uniform } from '../../engine/random.js';
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

/** One plant. */
interface Fate {
  readonly growth: Growth;
  /** Day on which it came in [d], and what it took to become ready, or until it was lost [d]. */
  readonly from: number;
  readonly days: number;
  readonly lives: boolean;
  /** Which of those that came in on a day is which nobody knows. */
  readonly order: number;
}

export class SeasonPasts {
  readonly #season: LoggedSeason;
  /** null for one with plants that are cut several times: of these the log does not tell which left */
  readonly #stages: readonly (StagePast | null)[];
  readonly #order: Uniform;

  /** @param visits at least one */
  constructor(
    season: LoggedSeason,
    cohorts: CohortsByStage,
    visits: readonly number[],
    short: readonly ShortVisits[],
  ) {
    const { plan } = season;
    this.#season = season;
    this.#order = openStream(plan.seed, 0, ['order']);
    this.#stages = plan.stages.map(({ name }, s) => {
      const here = stageCohorts(cohorts, s, plan);
      if (here.some(({ crop }) => plan.crops[crop]!.cuts > 1 && route.isLast(plan, s))) return null;
      const laws = plan.crops.map((crop) => growthLawsOf(crop, s)[0]!);
      const lawOf = ({ crop }: Growth): GrowthLaw => laws[crop]!;
      const growths = allGrowths(here, visits, short[s]!);
      const uniform = openStream(plan.seed, 0, ['past', name]);
      const past = new StagePast({ growths, firstVisit: 0 }, lawOf, visits, short[s]!, false, uniform);
      for (let i = 0; i < FIRST_ROUNDS; i++) past.round();
      return past;
    });
  }

  /** The next way. */
  next(): SeenDraws {
    const { plan } = this.#season;
    const fates = this.#stages.map((past) => (past === null ? [] : this.#fatesOf(past)));
    return plan.crops.map(({ name }, c) =>
      fates.map((all, s) => {
        const mine = all.filter(({ growth }) => growth.crop === c);
        return mine.length === 0 ? null : drawsOf(mine, [name, plan.stages[s]!.name]);
      }),
    );
  }

  #fatesOf(past: StagePast): Fate[] {
    const fates: Fate[] = [];
    const add = (growth: Growth, lives: boolean, at: number, from: number): void => {
      fates.push({ growth, from, days: at - from, lives, order: this.#order() });
    };
    for (let i = 0; i < ROUNDS; i++) past.round();
    past.tellLeft(add);
    past.tell((growth, fate, at, _, from) => add(growth, fate === 'ripen', at, from));
    return fates.sort((a, b) => a.from - b.from || a.order - b.order);
  }
}

function drawsOf(fates: readonly Fate[], name: readonly string[]): ObservedDraws {
  const draws = new ObservedDraws(fates.length, name);
  for (const [k, { growth, days, lives }] of fates.entries()) {
    draws.times[k] = days;
    if (lives) continue;
    // It is lost at half of a time that it does not live to see.
    draws.times[k]! *= 2;
    draws.moments[k] = 0.5;
    if (growth.end !== 'standing') draws.lostOf[k] = growth.batch + 1;
  }
  return draws;
}
