/** Every stay of every plant of a season, as it was drawn and as it went. */

import type { Draws } from '../../sim/models/growth.js';
import { Line, type PlantEvent, planDraws } from '../../sim/models/line/line.js';
import { type Plan, seasonDays } from '../../sim/models/plan.js';

/** A plant in a hole, from when it comes (or is cut) until it goes (or is cut). */
export interface Stay {
  readonly plant: number;
  readonly crop: number;
  readonly stage: number;
  /** Cuts that it gave before. */
  readonly cuts: number;
  /** [d] */
  readonly from: number;
  /** Time that was drawn for it, whatever became of it [d]. */
  readonly days: number;
  /** Did the seed sprout? True of all but some in the first stage. */
  readonly sprouts: boolean;
  /** Is it to die before that time is over? */
  readonly dies: boolean;
  /** When its growth ended [d]: ready, dead or seen to have failed; the season's end if it went on. */
  grownUntil: number;
  /** What ended it; null if it went on to the end of the season. */
  grew: 'ready' | 'dead' | 'failed' | null;
  /** When the hole no longer held it as it was [d]; the season's end if it stood. */
  until: number;
  ended: 'moved' | 'cut' | 'picked' | 'discarded' | 'cleared' | 'standing';
}

export interface RecordedSeason {
  readonly plan: Plan;
  readonly stays: readonly Stay[];
  /** Days of the visits, in order [d]. */
  readonly visits: readonly number[];
  /** Counts, and hole-days by stage and state; see sim/models/ledger.ts. */
  readonly counts: Float64Array;
  readonly ledger: Float64Array;
}

/** What a stream of draws gave, in order. */
class RecordedDraws implements Draws {
  readonly #draws: Draws;
  readonly taken: { days: number; sprouts: boolean; dies: boolean }[] = [];

  constructor(draws: Draws) {
    this.#draws = draws;
  }

  get times(): Float64Array {
    return this.#draws.times;
  }

  get moments(): Float64Array {
    return this.#draws.moments;
  }

  get sprouts(): Uint8Array {
    return this.#draws.sprouts;
  }

  start(seed: number, season: number): void {
    this.#draws.start(seed, season);
  }

  take(): number {
    const k = this.#draws.take();
    this.taken.push({
      days: this.#draws.times[k]!,
      sprouts: this.#draws.sprouts[k] === 1,
      dies: this.#draws.moments[k]! < 1,
    });
    return k;
  }
}

/** Run a season and record every stay. */
export function recordSeason(plan: Plan, seed: number, season = 0): RecordedSeason {
  const drawsOf = planDraws(plan);
  const recorded = new Map<string, RecordedDraws>();
  const end = seasonDays(plan);
  const comings: Omit<Stay, 'days' | 'sprouts' | 'dies'>[] = [];
  const now = new Map<number, Omit<Stay, 'days' | 'sprouts' | 'dies'>>();
  const visits: number[] = [];
  const come = (t: number, plant: number, crop: number, stage: number, cuts: number): void => {
    const stay = {
      plant,
      crop,
      stage,
      cuts,
      from: t,
      grownUntil: end,
      grew: null,
      until: end,
      ended: 'standing',
    } as const;
    now.set(plant, stay);
    comings.push(stay);
  };
  const grew = (t: number, plant: number, how: Stay['grew']): void => {
    Object.assign(now.get(plant)!, { grownUntil: t, grew: how });
  };
  const go = (t: number, plant: number, ended: Stay['ended']): void => {
    Object.assign(now.get(plant)!, { until: t, ended });
  };
  const hear: Record<PlantEvent, (t: number, plant: number, crop: number, stage: number) => void> = {
    sow: (t, plant, crop, stage) => come(t, plant, crop, stage, 0),
    move: (t, plant, crop, stage) => {
      go(t, plant, 'moved');
      come(t, plant, crop, stage, 0);
    },
    ripen: (t, plant) => grew(t, plant, 'ready'),
    die: (t, plant) => grew(t, plant, 'dead'),
    fail: (t, plant) => grew(t, plant, 'failed'),
    pick: (t, plant, crop, stage) => {
      const cuts = now.get(plant)!.cuts + 1;
      const isLast = cuts === plan.crops[crop]!.cuts;
      go(t, plant, isLast ? 'picked' : 'cut');
      if (!isLast) come(t, plant, crop, stage, cuts);
    },
    discard: (t, plant) => go(t, plant, 'discarded'),
    clear: (t, plant) => go(t, plant, 'cleared'),
  };
  const line = new Line(plan, {
    drawsOf: (crop, stage) => {
      const draws = new RecordedDraws(drawsOf(crop, stage));
      recorded.set(`${crop} ${stage}`, draws);
      return draws;
    },
  });
  const { counts, ledger } = line.run(seed, season, {
    onEvent: (t, event, plant, crop, stage) => hear[event](t, plant, crop, stage),
    onVisitEnd: (t) => void visits.push(t),
  });
  // The k-th to come takes the k-th draws.
  const taken = new Map<string, number>();
  const stays = comings.map((stay): Stay => {
    const key = `${stay.crop} ${stay.cuts > 0 ? plan.stages.length : stay.stage}`;
    const k = taken.get(key) ?? 0;
    taken.set(key, k + 1);
    return { ...stay, ...recorded.get(key)!.taken[k]! };
  });
  return { plan, stays, visits, counts: Float64Array.from(counts), ledger: Float64Array.from(ledger) };
}
