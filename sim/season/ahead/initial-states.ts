/** States from which the line can go on from today: each drawn at random from all that agree with the log. */

import { TICK } from '../../engine/clock.js';
import { summedUp, sumOf } from '../../engine/lists.js';
import { openStream } from '../../engine/random.js';
import { type InitialState, NEXT, type StandingPlants } from '../../models/initial-state.js';
import { lineMatter } from '../../models/physical/line-matter.js';
import { holesOf } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { type GrowthLaw, growthLawsOf } from '../history/growth-law.js';
import { type Growth, growthsOf } from '../history/growths.js';
import { dailyVisits } from '../history/plan-days.js';
import { StagePast } from '../history/stage-past.js';
import type { Today } from './today.js';

/** Rounds of a past before the first opening, and from one to the next. */
const FIRST_ROUNDS = 60;
const ROUNDS = 2;

/**
 * Of so many plants (in all openings together) the fates are kept. Where more stand, futures share openings: of many plants
 * one opening says nearly what another says.
 */
const MOST_FATES = 10_000_000;
/** But there are at least so many. */
const FEWEST_OPENINGS = 12;

/** What all openings have in common. Plain data. */
export interface Stand extends Omit<InitialState, 'plants'> {
  /** In the order of sowing. */
  readonly plants: LoggedPlants;
}

/** What every opening says of the plants. */
export interface LoggedPlants extends Omit<StandingPlants, keyof Fates> {
  /** Places of their batches in the log. */
  readonly batch: Int32Array;
}

/** What one opening says of the plants: what happens to them next, when, and how far along they are. Plain data. */
export type Fates = Pick<StandingPlants, 'next' | 'at' | 'stays'>;

/** What stands, with what one opening says of it. */
export function initialStateOf(stand: Stand, fates: Fates): InitialState {
  return { ...stand, plants: { ...stand.plants, ...fates } };
}

/** A column with one entry a plant, in memory that all threads share: handed to one of them, it is not copied. */
function column<Column>(
  Numbers: { readonly BYTES_PER_ELEMENT: number; new (memory: SharedArrayBuffer): Column },
  plants: number,
): Column {
  return new Numbers(new SharedArrayBuffer(plants * Numbers.BYTES_PER_ELEMENT));
}

export class InitialStates {
  /** What stands; null if the season has not begun: futures begin with an empty line. */
  readonly stand: Stand | null;
  /**
   * Plants that stand longer than nearly all such plants would, by the places of their batches and stages: they are taken as failed,
   * and cleared at the next visit. Told by the first opening that is drawn; a batch may have several entries.
   */
  readonly overdue: { readonly batch: number; readonly stage: number; plants: number }[] = [];
  readonly #today: Today;
  readonly #pasts: readonly (StagePast | null)[];
  /** Of the growths that stand in each stage, in turn: their places among all plants. */
  readonly #places: readonly Int32Array[];
  /** All plants. */
  readonly #plants: number;
  readonly #drawn: Fates[] = [];
  /** Whether what the line takes depends on how far along they are. */
  readonly #tellsOfLeaves: boolean;

  /** @param seed of the random streams */
  constructor(today: Today, seed: number) {
    this.#today = today;
    const { plan } = today.season;
    this.#tellsOfLeaves = lineMatter(plan)?.grows ?? false;
    const { visits, cohorts, short, unseen } = today;
    const growths = plan.stages.map((_, s) =>
      visits.length === 0
        ? { growths: [], firstVisit: 0 }
        : growthsOf(cohorts, s, plan, visits, short[s]!, holesOf(plan.stages[s]!)),
    );
    this.#pasts = plan.stages.map((stage, s) => {
      if (growths[s]!.growths.length === 0) return null;
      const courses = plan.crops.map((crop) => growthLawsOf(crop, s));
      const lawOf = ({ crop, phase }: Growth): GrowthLaw => courses[crop]![phase]!;
      const uniform = openStream(seed, 0, ['ahead', stage.name]);
      const unlogged = unseen.some((loss) => loss.stage === s);
      return new StagePast(growths[s]!, lawOf, visits, short[s]!, unlogged, uniform);
    });
    const standing = growths.map((one) => one.growths.filter(({ end }) => end === 'standing'));
    // Of each batch the place of its next plant: they stand batch by batch.
    const next = new Int32Array(today.season.batches.length + 1);
    for (const some of standing) for (const { batch, count } of some) next[batch + 1]! += count;
    this.#plants = summedUp(next).at(-1)!;
    const plants: LoggedPlants = {
      batch: column(Int32Array, this.#plants),
      crop: column(Uint8Array, this.#plants),
      stage: column(Uint8Array, this.#plants),
      cutsLeft: column(Uint8Array, this.#plants),
    };
    this.#places = standing.map((some, stage) => {
      const places = new Int32Array(sumOf(some.map(({ count }) => count)));
      let told = 0;
      for (const { batch, crop, phase, count } of some) {
        const { cuts } = plan.crops[crop]!;
        const first = next[batch]!;
        const beyond = first + count;
        for (let place = first; place < beyond; place++) places[told++] = place;
        next[batch] = beyond;
        plants.batch.fill(batch, first, beyond);
        plants.crop.fill(crop, first, beyond);
        plants.stage.fill(stage, first, beyond);
        plants.cutsLeft.fill(route.isLast(plan, stage) ? cuts - phase : cuts, first, beyond);
      }
      return places;
    });
    this.stand = standOf(today, plants);
  }

  /** What the opening of the k-th future says of the plants: the same at every call. */
  fates(k: number): Fates {
    const opening = k % Math.max(FEWEST_OPENINGS, Math.floor(MOST_FATES / this.#plants));
    while (this.#drawn.length <= opening) this.#drawn.push(this.#draw(this.#drawn.length === 0));
    return this.#drawn[opening]!;
  }

  #draw(first: boolean): Fates {
    const day = this.#today.visits.at(-1)!;
    const next = column(Uint8Array, this.#plants);
    const at = column(Float64Array, this.#plants);
    const since = this.#tellsOfLeaves ? column(Int32Array, this.#plants) : null;
    const doomed: { readonly place: number; readonly needs: number }[] = [];
    this.#pasts.forEach((past, s) => {
      if (past === null) return;
      const rounds = past.settles ? (first ? FIRST_ROUNDS : ROUNDS) : 1;
      for (let i = 0; i < rounds; i++) past.round();
      let told = 0;
      past.tell(({ batch }, fate, when, overdue, from, needs) => {
        const place = this.#places[s]![told++]!;
        const end = fate === 'ripen' && when <= day ? 'ready' : fate;
        next[place] = NEXT.indexOf(overdue ? 'fail' : end);
        at[place] = overdue ? day + TICK : when;
        if (since !== null) {
          since[place] = from;
          if (fate === 'die' && !overdue) doomed.push({ place, needs });
        }
        if (first && overdue) this.#countOverdue(batch, s);
      });
    });
    if (since === null) return { next, at };
    doomed.sort((a, b) => a.place - b.place);
    return { next, at, stays: { since, doomedDays: Float64Array.from(doomed, ({ needs }) => needs) } };
  }

  #countOverdue(batch: number, stage: number): void {
    const before = this.overdue.at(-1);
    if (before?.batch === batch && before.stage === stage) before.plants++;
    else this.overdue.push({ batch, stage, plants: 1 });
  }
}

/** @param plants none before the first visit */
function standOf({ season, visits, from, cleaning, reached }: Today, plants: LoggedPlants): Stand | null {
  const last = visits.at(-1);
  if (last !== undefined) return { day: last, visitsFrom: from, plants, cleaning, reached };
  const planned = dailyVisits(season.plan)[0];
  // If somebody was to come before, what was due then is not sown any more.
  if (planned === undefined || planned >= from) return null;
  return { day: from - 0.5, visitsFrom: from, plants, cleaning, reached };
}
