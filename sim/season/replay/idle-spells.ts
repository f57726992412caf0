/**
 * Spells in which holes stood empty, with their causes, ranked by the heads that they cost.
 *
 * A spell is a maximal run of days on which holes of one stage stood empty for one cause. Days without such a hole
 * interrupt it only if they are more than the usual gap between two visits.
 *
 * What a spell cost is an estimate: its hole-days over the hole-days that a head takes in that stage (the plan's mean
 * stay and cleaning, over the picks to be expected of a plant that comes in). It is counted only in the stage that
 * holds the line back: an empty hole elsewhere costs nothing by itself, and the same missing plants would be counted
 * again. If not more heads are wanted than that stage can give, nothing is counted. Filling and the season's end cost nothing that could have been had.
 *
 * The ranking: spells that cost half a head or more, the most heads first; then the others, the most hole-days first;
 * then filling and the season's end.
 */

import { summedUp } from '../../engine/lists.js';
import { isoOfDay } from '../../models/dates.js';
import * as route from '../../models/route.js';
import { usualGap } from '../history/attendance.js';
import type { Cause, IdleEvidence } from './causes.js';
import type { FailedBatch } from './failed-batches.js';
import { IdleCauses } from './idle-causes.js';
import { type ShortSowings, SowingDates } from './short-sowings.js';

export type IdleCause =
  | { readonly kind: 'end' | 'between_visits' | 'filling' }
  | {
      readonly kind: 'absent';
      /** ISO dates of the visits before and after; `until` is null if nobody came any more. */
      readonly since: string;
      readonly until: string | null;
      /** Whether the plan has no visit in between. */
      readonly planned: boolean;
    }
  | ({ readonly kind: 'batch_failed'; readonly batch: string; readonly stage: string } & Pick<
      FailedBatch,
      'came' | 'lost' | 'expected'
    >)
  /** Plants that were thrown away in a stage before, ready for too long. */
  | {
      readonly kind: 'thrown_away';
      readonly date: string;
      readonly stage: string;
      readonly plants: number;
    }
  /** `sowings` is null if no single sowing was too small: then they were too few. */
  | { readonly kind: 'too_little_sown'; readonly sowings: ShortSowings | null }
  | { readonly kind: 'stage_before_full'; readonly stage: string }
  | {
      readonly kind: 'late';
      /** Mean stay in the stage before of those that came in the spell, and of the plan [d]; null in the first stage. */
      readonly stay: number | null;
      readonly planned_stay: number | null;
    }
  | { readonly kind: 'cleaning'; readonly channel: string | null };

export interface IdleSpell {
  readonly stage: string;
  /** ISO dates of the first and the last day. */
  readonly from: string;
  readonly to: string;
  /** Holes that stood empty for this cause at once, at most. */
  readonly holes: number;
  readonly hole_days: number;
  /** Heads that it cost, an estimate; null in a stage that does not hold the line back. */
  readonly heads: number | null;
  readonly cause: IdleCause;
}

/** A spell on its way. */
interface Run {
  readonly cause: Cause;
  readonly from: number;
  to: number;
  holes: number;
  holeDays: number;
}

/** Fewer heads than this are none [heads]. */
const WORTH_A_RANK = 0.5;

/** @returns all spells in the order of the ranking */
export function idleSpells(evidence: IdleEvidence): IdleSpell[] {
  const { season, meanFlow, stages, attendance } = evidence;
  const bridge = Math.max(1, usualGap(attendance.visits));
  const causes = new IdleCauses(evidence);
  const scarcest = meanFlow.scarcest();
  const told = new CauseTeller(evidence);
  const spells: IdleSpell[] = [];
  stages.forEach(({ rests }, s) => {
    const { picks, needs } = meanFlow.mean(s);
    const over = (run: Run): void => {
      const { cause, from, to, holes, holeDays } = run;
      const free = cause.kind === 'end' || cause.kind === 'filling';
      spells.push({
        stage: season.plan.stages[s]!.name,
        from: isoOfDay(season.plan.start, from),
        to: isoOfDay(season.plan.start, to),
        holes,
        hole_days: holeDays,
        heads: s !== scarcest ? null : free ? 0 : (holeDays * picks) / needs,
        cause: told.tell(s, run),
      });
    };
    for (const run of runsOf(causes, s, bridge)) over(run);
    for (const { channel, holes, from, to } of rests)
      over({ cause: { kind: 'cleaning', channel }, from, to: to - 1, holes, holeDays: holes * (to - from) });
  });
  return spells.sort((a, b) => cost(b) - cost(a) || b.hole_days - a.hole_days);
}

/** Heads as far as they count in the ranking; below 0 for what could not have been otherwise. */
function cost({ heads, cause }: IdleSpell): number {
  if (cause.kind === 'end' || cause.kind === 'filling') return -1;
  return heads !== null && heads >= WORTH_A_RANK ? heads : 0;
}

/** The runs of one stage. @param bridge most days without such a hole within one run */
function runsOf(causes: IdleCauses, s: number, bridge: number): Run[] {
  const runs: Run[] = [];
  const open = new Map<string, Run>();
  causes.each(s, (day, key, cause, holes) => {
    let run = open.get(key);
    if (run === undefined || day - run.to > bridge + 1) {
      run = { cause: cause(), from: day, to: day, holes: 0, holeDays: 0 };
      open.set(key, run);
      runs.push(run);
    }
    run.to = day;
    run.holes = Math.max(run.holes, holes);
    run.holeDays += holes;
  });
  return runs;
}

/** Puts a cause into names and dates. */
class CauseTeller {
  readonly #evidence: IdleEvidence;
  readonly #sowings: SowingDates;
  readonly #leftBefore: { plants: Float64Array; days: Float64Array }[] = [];

  constructor(evidence: IdleEvidence) {
    const { season, meanFlow, stages, attendance } = evidence;
    this.#evidence = evidence;
    const { empty } = stages[route.first(season.plan)]!;
    this.#sowings = new SowingDates(season, meanFlow, empty, attendance.missed);
  }

  tell(s: number, { cause, from, to }: Run): IdleCause {
    const { season, meanFlow } = this.#evidence;
    const { plan, days, batches } = season;
    const date = (day: number): string => isoOfDay(plan.start, day);
    switch (cause.kind) {
      case 'absent': {
        const { kind, since, until, planned } = cause;
        return { kind, since: date(since), until: until >= days ? null : date(until), planned };
      }
      case 'batch_failed': {
        const { batch, stage, came, lost, expected } = cause.failed;
        return {
          kind: 'batch_failed',
          batch: batches[batch]!.name,
          stage: plan.stages[stage]!.name,
          came,
          lost,
          expected,
        };
      }
      case 'thrown_away':
        return {
          kind: 'thrown_away',
          date: date(cause.day),
          stage: plan.stages[cause.stage]!.name,
          plants: cause.plants,
        };
      case 'too_little_sown':
        return { kind: 'too_little_sown', sowings: this.#sowings.short(s, from, to) };
      case 'stage_before_full':
        return { kind: 'stage_before_full', stage: plan.stages[cause.stage]!.name };
      case 'late': {
        const before = route.before(plan, s);
        return {
          kind: 'late',
          stay: before < 0 ? null : this.#meanStay(before, from, to),
          planned_stay: before < 0 ? null : meanFlow.mean(before).stay,
        };
      }
      case 'cleaning':
        return cause;
      default:
        return { kind: cause.kind };
    }
  }

  /** Mean stay in a stage of the plants that left it for the next one from one day to the other or a usual gap later. */
  #meanStay(s: number, from: number, to: number): number | null {
    const left = this.#left(s);
    const beyond = Math.min(left.plants.length - 1, to + 1 + usualGap(this.#evidence.attendance.visits));
    const plants = left.plants[beyond]! - left.plants[from]!;
    return plants === 0 ? null : (left.days[beyond]! - left.days[from]!) / plants;
  }

  /** Plants that left a stage for the next one before each day, and the days that they had stood in it. */
  #left(s: number): { plants: Float64Array; days: Float64Array } {
    const known = this.#leftBefore[s];
    if (known !== undefined) return known;
    const { cohorts, season } = this.#evidence;
    const left = { plants: new Float64Array(season.days + 1), days: new Float64Array(season.days + 1) };
    for (const cohort of cohorts[s]!) {
      for (const { to, count, end } of cohort.stays) {
        if (end !== 'on') continue;
        left.plants[to + 1]! += count;
        left.days[to + 1]! += count * (to - cohort.from);
      }
    }
    summedUp(left.plants);
    summedUp(left.days);
    this.#leftBefore[s] = left;
    return left;
  }
}
