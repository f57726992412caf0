/** States from which the line can go on from today: each drawn at random from all that agree with the log. */

import { fillUniform, stream, type Uniform } from '../../engine/random.js';
import type { Opening, StandingPlant } from '../../models/opening.js';
import { holesOf } from '../../models/plan.js';
import { type Course, coursesOf } from './course.js';
import { type Growth, growthsOf } from './growths.js';
import { StagePast } from './stage-past.js';
import type { Today } from './today.js';

/** Rounds of a past before the first opening, and from one to the next. */
const FIRST_ROUNDS = 60;
const ROUNDS = 2;

/** What every opening says of a plant. */
export interface Standing {
  /** Place of its batch in the log. */
  readonly batch: number;
  readonly crop: number;
  readonly stage: number;
}

interface Fates {
  readonly next: StandingPlant['next'][];
  readonly at: Float64Array;
}

export class Openings {
  /** The plants that stand, in the order of sowing. */
  readonly plants: readonly Standing[];
  /** Plants that stand longer than the laws of the plan allow, by the place of their batch and stage. */
  readonly overdue = new Map<string, number>();
  readonly #today: Today;
  readonly #pasts: readonly (StagePast | null)[];
  /** For each stage the places of its plants among all. */
  readonly #places: readonly Int32Array[];
  readonly #drawn: Fates[] = [];
  /** Handed out again and again, with other fates. */
  readonly #handed: { -readonly [K in keyof StandingPlant]: StandingPlant[K] }[];

  /** @param seed of the random streams */
  constructor(today: Today, seed: number) {
    this.#today = today;
    const { plan } = today.season;
    const { visits, lots, limited } = today;
    const last = plan.stages.length - 1;
    const growths = plan.stages.map((_, s) =>
      visits.length === 0
        ? { growths: [], firstVisit: 0 }
        : growthsOf(lots, s, plan.stages.length, visits, limited[s]!, holesOf(plan.stages[s]!)),
    );
    this.#pasts = plan.stages.map((stage, s) => {
      if (growths[s]!.growths.length === 0) return null;
      const courses = plan.crops.map((crop) => coursesOf(plan, crop, s));
      const courseOf = ({ crop, phase }: Growth): Course => courses[crop]![phase]!;
      const uniform = open(stream(seed, 0, ['ahead', stage.name]));
      return new StagePast(growths[s]!, courseOf, visits, limited[s]!, uniform);
    });
    const all = growths.flatMap((one, s) =>
      one.growths.filter(({ end }) => end === 'standing').map((growth) => ({ growth, stage: s })),
    );
    const order = all.map((_, i) => i).sort((a, b) => all[a]!.growth.batch - all[b]!.growth.batch);
    this.plants = order.map((i) => {
      const { growth, stage } = all[i]!;
      return { batch: growth.batch, crop: growth.crop, stage };
    });
    const placeOf = new Int32Array(all.length);
    order.forEach((i, place) => {
      placeOf[i] = place;
    });
    let at = 0;
    this.#places = growths.map((one) => {
      const from = at;
      at += one.growths.filter(({ end }) => end === 'standing').length;
      return placeOf.subarray(from, at);
    });
    this.#handed = order.map((i) => {
      const { growth, stage } = all[i]!;
      const { cuts } = plan.crops[growth.crop]!;
      const cutsLeft = stage === last ? cuts - growth.phase : cuts;
      return { crop: growth.crop, stage, cutsLeft, next: 'ripen', at: 0 };
    });
  }

  /**
   * The k-th opening: the same at every call.
   * @returns good until the next call; null if the season has not begun
   */
  opening(k: number): Opening | null {
    const { season, visits, from, cleaning, reached } = this.#today;
    const day = visits.at(-1);
    if (day === undefined) {
      const planned = season.plan.visits.kind === 'days' ? season.plan.visits.days[0] : undefined;
      // If somebody was to come before, what was due then is not sown any more.
      if (planned === undefined || planned >= from) return null;
      return { day: from - 0.5, visitsFrom: from, plants: [], cleaning, reached };
    }
    while (this.#drawn.length <= k) this.#drawn.push(this.#draw(this.#drawn.length === 0));
    const { next, at } = this.#drawn[k]!;
    this.#handed.forEach((plant, i) => {
      plant.next = next[i]!;
      plant.at = at[i]!;
    });
    return { day, visitsFrom: from, plants: this.#handed, cleaning, reached };
  }

  #draw(first: boolean): Fates {
    const day = this.#today.visits.at(-1)!;
    const next = new Array<StandingPlant['next']>(this.plants.length).fill('ripen');
    const at = new Float64Array(this.plants.length);
    this.#pasts.forEach((past, s) => {
      if (past === null) return;
      const rounds = past.settles ? (first ? FIRST_ROUNDS : ROUNDS) : 1;
      for (let i = 0; i < rounds; i++) past.round();
      let j = 0;
      past.tell((growth, fate, when, overdue) => {
        const place = this.#places[s]![j++]!;
        next[place] = fate === 'ripen' && when <= day ? 'ready' : fate;
        at[place] = when;
        if (first && overdue) {
          const key = `${growth.batch} ${s}`;
          this.overdue.set(key, (this.overdue.get(key) ?? 0) + 1);
        }
      });
    });
    return { next, at };
  }
}

/** The numbers of a stream, never 0. */
function open(source: Uniform): Uniform {
  const one = new Float64Array(1);
  return () => {
    fillUniform(source, one, 1);
    return one[0]!;
  };
}
