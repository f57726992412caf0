/** States from which the line can go on from today: each drawn at random from all that agree with the log. */

import { TICK } from '../../engine/clock.js';
import { openStream } from '../../engine/random.js';
import type { InitialState, StandingPlant } from '../../models/initial-state.js';
import { holesOf } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { PauseAfterRuns } from '../../seasons/worker-pool.js';
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
const MOST_FATES = 20_000_000;
/** But there are at least so many. */
const FEWEST_OPENINGS = 12;

/** What all openings have in common. Plain data. */
export interface Stand extends Omit<InitialState, 'plants'> {
  /** In the order of sowing. */
  readonly plants: readonly LoggedPlant[];
}

/** What every opening says of a plant. */
export interface LoggedPlant extends Pick<StandingPlant, 'crop' | 'stage' | 'cutsLeft'> {
  /** Place of its batch in the log. */
  readonly batch: number;
}

/** What one opening says of each plant: what happens to it next, by its place in NEXT, and when [d]. Plain data. */
export interface Fates {
  readonly next: Uint8Array;
  readonly at: Float64Array;
}

const NEXT: readonly StandingPlant['next'][] = ['ripen', 'ready', 'die', 'fail'];

/** What stands, with what one opening says of it. */
export function initialStateOf(stand: Stand, { next, at }: Fates): InitialState {
  const plants = stand.plants.map(({ crop, stage, cutsLeft }, i) => ({
    crop,
    stage,
    cutsLeft,
    next: NEXT[next[i]!]!,
    at: at[i]!,
  }));
  return { ...stand, plants };
}

export class InitialStates {
  /** What stands; null if the season has not begun: futures begin with an empty line. */
  readonly stand: Stand | null;
  /**
   * Plants that stand longer than nearly all such plants would, by the places of their batches and stages: they are taken as failed,
   * and cleared at the next visit. Told by the first opening that is drawn; one entry a plant.
   */
  readonly overdue: { readonly batch: number; readonly stage: number; readonly plants: 1 }[] = [];
  readonly #today: Today;
  readonly #pasts: readonly (StagePast | null)[];
  /** Of the growths that stand: their places among all plants. */
  readonly #places: ReadonlyMap<Growth, number>;
  readonly #drawn: Fates[] = [];
  /** Rounds that were done before the first opening. */
  #settled = 0;

  /** @param seed of the random streams */
  constructor(today: Today, seed: number) {
    this.#today = today;
    const { plan } = today.season;
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
    const standing = growths
      .flatMap((one, stage) => one.growths.map((growth) => ({ growth, stage })))
      .filter(({ growth }) => growth.end === 'standing')
      .sort((a, b) => a.growth.batch - b.growth.batch);
    this.#places = new Map(standing.map(({ growth }, place) => [growth, place]));
    this.stand = standOf(
      today,
      standing.map(({ growth: { batch, crop, phase }, stage }): LoggedPlant => {
        const { cuts } = plan.crops[crop]!;
        return { batch, crop, stage, cutsLeft: route.isLast(plan, stage) ? cuts - phase : cuts };
      }),
    );
  }

  /**
   * Do the rounds before the first opening, which take a while where thousands stand.
   * @param pause asked after each @returns whether all were done
   */
  async settle(pause: PauseAfterRuns | undefined): Promise<boolean> {
    for (; this.#settled < FIRST_ROUNDS - 1; this.#settled++) {
      for (const past of this.#pasts) if (past?.settles === true) past.round();
      if ((await pause?.(0)) === false) return false;
    }
    return true;
  }

  /** What the opening of the k-th future says of the plants: the same at every call. */
  fates(k: number): Fates {
    const plants = this.stand?.plants.length ?? 0;
    const opening = k % Math.max(FEWEST_OPENINGS, Math.floor(MOST_FATES / plants));
    while (this.#drawn.length <= opening) this.#drawn.push(this.#draw(this.#drawn.length === 0));
    return this.#drawn[opening]!;
  }

  #draw(first: boolean): Fates {
    const day = this.#today.visits.at(-1)!;
    const plants = this.stand?.plants.length ?? 0;
    const next = new Uint8Array(plants);
    const at = new Float64Array(plants);
    this.#pasts.forEach((past, s) => {
      if (past === null) return;
      const rounds = past.settles ? (first ? FIRST_ROUNDS - this.#settled : ROUNDS) : 1;
      for (let i = 0; i < rounds; i++) past.round();
      past.tell((growth, fate, when, overdue) => {
        const place = this.#places.get(growth)!;
        const end = fate === 'ripen' && when <= day ? 'ready' : fate;
        next[place] = NEXT.indexOf(overdue ? 'fail' : end);
        at[place] = overdue ? day + TICK : when;
        if (first && overdue) this.overdue.push({ batch: growth.batch, stage: s, plants: 1 });
      });
    });
    return { next, at };
  }
}

function standOf(
  { season, visits, from, cleaning, reached }: Today,
  plants: readonly LoggedPlant[],
): Stand | null {
  const last = visits.at(-1);
  if (last !== undefined) return { day: last, visitsFrom: from, plants, cleaning, reached };
  const planned = dailyVisits(season.plan)[0];
  // If somebody was to come before, what was due then is not sown any more.
  if (planned === undefined || planned >= from) return null;
  return { day: from - 0.5, visitsFrom: from, plants: [], cleaning, reached };
}
