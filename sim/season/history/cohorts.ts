/**
 * What became of the plants, lot by lot.
 *
 * A log tells how many plants of a batch came and went, not which. Of the plants of a batch in a stage, those that came
 * first are taken to go first, and those that came last to die: whoever has just come cannot be ready yet, but anybody can
 * be dead. So if there is any way in which the plants can have behaved as the log says, this is one.
 *
 * A plant of a crop with several cuts stays where it is picked. Which plants of a batch were picked is not logged either:
 * they are taken to be those that were overdue most, by their time since they came (or were last picked) as a multiple of
 * the plan's mean. Plants lost in the last stage are taken to be those that had given most picks: the others may still
 * have to give what the log shows later. So what stands in the last stage is then an estimate.
 */

import { type GrowthClock, growthClock } from '../../models/growth-clock.js';
import { type CropPlan, growingOf } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { LoggedEvent, LoggedSeason, Span } from './logged-season.js';
import type { LossKind } from './losses.js';

/** How a stay ended; `standing`: it did not. */
export type StayEnd = 'on' | 'picked' | 'standing' | LossKind;

/** Plants of one lot that left at the same visit in the same way. */
export interface Stay {
  /** Day on which they left [d]; Infinity for those that still stand. */
  readonly to: number;
  readonly count: number;
  readonly end: StayEnd;
  /** Whether the log says how they were lost; true for all that were not. */
  readonly told: boolean;
  /** Whether their holes became free: not after a pick that was not the last. */
  readonly vacates: boolean;
}

/** Plants of one batch that came into a stage (or were picked and regrow there) on the same day. */
export interface Cohort {
  readonly batch: number;
  readonly crop: number;
  /** Picks that each of them has given already. */
  readonly phase: number;
  /**
   * Day on which they came in [d from the start]. Where only a span is known, its middle; where nothing is, so long before
   * the log tells of them that half of the plan's mean time is over. Then it may lie before the start.
   */
  readonly from: number;
  /** Day from which on the log tells of them [d from the start]: the same, but for plants that stood there before. */
  readonly seen: number;
  /** When plants that stood there before can have come in; null for all others. */
  readonly since: Span | null;
  readonly count: number;
  /** In the order of leaving. */
  readonly stays: Stay[];
}

/** Lots in the order of entry: one list a stage, and behind them one of those that regrow after a pick. */
export type CohortsByStage = readonly (readonly Cohort[])[];

type OpenCohort = Cohort & { left: number };

/** @returns the lots of all stages, the last entry those that regrow in the last stage */
export function cohortsOf(season: LoggedSeason): CohortsByStage {
  const { plan, batches, events } = season;
  const cohorts: OpenCohort[][] = Array.from({ length: plan.stages.length + 1 }, () => []);
  const places: Places[] = batches.map(({ crop }) => new Places(plan.crops[crop]!));
  const enter = (
    batch: number,
    stage: number,
    phase: number,
    day: number,
    count: number,
    since: Span | null = null,
  ): void => {
    const { crop } = batches[batch]!;
    const from =
      since === null ? day : likelyEntry(since, growingOf(plan.crops[crop]!, stage, phase).time.days);
    const lot = { batch, crop, phase, from, seen: day, since, count, stays: [], left: count };
    cohorts[phase === 0 ? stage : plan.stages.length]!.push(lot);
    places[batch]!.add(stage, phase, lot);
  };
  for (const event of events) {
    const { action, batch, stage, day, count } = event;
    if (action === 'clean') continue;
    const crop = plan.crops[batches[batch]!.crop]!;
    if (action === 'sow') enter(batch, route.first(crop), 0, day, count);
    else if (action === 'stand') enter(batch, stage, 0, day, count, event.since);
    else if (action === 'move') {
      leave(places[batch]!, route.before(crop, stage), event, 'on');
      enter(batch, stage, 0, day, count);
    } else if (action === 'lose')
      leave(places[batch]!, stage, event, event.loss ?? (stage === route.first(crop) ? 'failed' : 'died'));
    else pick(places[batch]!, event, (phase, n) => enter(batch, route.last(crop), phase, day, n));
  }
  for (const list of cohorts) {
    for (const cohort of list) {
      if (cohort.left > 0)
        cohort.stays.push({ to: Infinity, count: cohort.left, end: 'standing', told: true, vacates: false });
    }
  }
  return cohorts;
}

/** Where between two days plants came in, if one day must stand for all. @param days that they grow in the mean */
function likelyEntry({ from, to }: Span, days: number): number {
  return Math.round(from === -Infinity ? to - days / 2 : (from + to) / 2);
}

function leave(places: Places, stage: number, event: LoggedEvent, end: StayEnd): void {
  const { action, day, count, loss, lot } = event;
  const told = action !== 'lose' || loss !== null;
  const dead = end === 'died' || end === 'failed';
  const next = (): OpenCohort | undefined => {
    if (lot !== undefined) return places.cameOn(stage, lot);
    return dead ? places.latest(stage, day) : places.earliest(stage);
  };
  places.take(next, count, (cohort, n) => {
    cohort.stays.push({ to: day, count: n, end, told, vacates: true });
  });
}

function pick(places: Places, { day, count }: LoggedEvent, regrow: (phase: number, n: number) => void): void {
  // Who is picked now is not picked a second time on that day.
  const regrown = new Array<number>(places.cuts).fill(0);
  const next = (): OpenCohort | undefined => places.mostOverdue(day);
  places.take(next, count, (cohort, n) => {
    const out = cohort.phase === places.cuts - 1;
    cohort.stays.push({ to: day, count: n, end: 'picked', told: true, vacates: out });
    if (!out) regrown[cohort.phase + 1]! += n;
  });
  regrown.forEach((n, phase) => {
    if (n > 0) regrow(phase, n);
  });
}

/** The plants of one batch that stand, by stage and picks given: lots, the earliest first, none of them used up. */
class Places {
  readonly cuts: number;
  readonly #last: number;
  /** Stage s at s; plants of the last stage that have given k picks at last + k. */
  readonly #cohorts: OpenCohort[][];
  /** Mean growing time before each pick [d], and how it goes by date. */
  readonly #means: readonly { readonly days: number; readonly clock: GrowthClock | null }[];

  constructor(crop: CropPlan) {
    const last = route.last(crop);
    this.cuts = crop.cuts;
    this.#last = last;
    this.#cohorts = Array.from({ length: last + crop.cuts }, () => []);
    this.#means = Array.from({ length: crop.cuts }, (_, k) => {
      const growing = growingOf(crop, last, k);
      return { days: growing.time.days, clock: growthClock(growing) };
    });
  }

  add(stage: number, phase: number, cohort: OpenCohort): void {
    const lots = this.#cohorts[stage + phase]!;
    lots.push(cohort);
    // What stood before may be told in any order.
    if (cohort.since !== null) lots.sort((a, b) => a.from - b.from);
  }

  /** Take plants out lot by lot. @param next says of which lot the next ones are */
  take(
    next: () => OpenCohort | undefined,
    count: number,
    taken: (cohort: OpenCohort, count: number) => void,
  ): void {
    for (let left = count; left > 0; ) {
      const cohort = next();
      // A log of several cuts can ask for more than this estimate of who was picked has left.
      if (cohort === undefined) return;
      const n = Math.min(left, cohort.left);
      cohort.left -= n;
      left -= n;
      if (cohort.left === 0) {
        for (const list of this.#cohorts) {
          const place = list.indexOf(cohort);
          if (place >= 0) list.splice(place, 1);
        }
      }
      taken(cohort, n);
    }
  }

  /** Of the plants in a stage (in the last one: of those that have given most picks) the lot that came first. */
  earliest(stage: number): OpenCohort | undefined {
    return this.#mostPicked(stage)[0];
  }

  /** The same, but the lot that came last, before `day` if there is one. */
  latest(stage: number, day: number): OpenCohort | undefined {
    const cohorts = this.#mostPicked(stage);
    for (let i = cohorts.length - 1; i >= 0; i--) if (cohorts[i]!.from < day) return cohorts[i];
    return cohorts[0];
  }

  /** A lot in a stage whose plants have given no pick, by the day on which they came. */
  cameOn(stage: number, day: number): OpenCohort | undefined {
    return this.#cohorts[stage]!.find(({ from }) => from === day);
  }

  /** Of the plants in the last stage, the lot that has waited longest by the plan's means. */
  mostOverdue(day: number): OpenCohort | undefined {
    let best: OpenCohort | undefined;
    let most = -1;
    for (let phase = 0; phase < this.cuts; phase++) {
      const cohort = this.#cohorts[this.#last + phase]![0];
      if (cohort === undefined) continue;
      const { days, clock } = this.#means[phase]!;
      const waited = (clock?.growth(cohort.from, day) ?? day - cohort.from) / days;
      if (waited > most) {
        most = waited;
        best = cohort;
      }
    }
    return best;
  }

  #mostPicked(stage: number): readonly OpenCohort[] {
    let place = stage < this.#last ? stage : this.#last + this.cuts - 1;
    while (place > stage && this.#cohorts[place]!.length === 0) place--;
    return this.#cohorts[place]!;
  }
}
