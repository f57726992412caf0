/** Why holes stood empty, as data, and what that is read from. */

import type { Attendance } from '../history/attendance.js';
import type { CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { StageDays } from '../history/occupancy.js';
import type { FailedBatch } from './failed-batches.js';
import type { MeanFlow } from './mean-flow.js';

/** Sowings of fewer seeds than keep a stage full until the next sowing. */
export interface ShortSowings {
  /** ISO dates of the first and the last of them. */
  readonly from: string;
  readonly to: string;
  readonly count: number;
  /** Seeds sown in them, and seeds that would have been needed for the stage to be full. */
  readonly sown: number;
  readonly needed: number;
  /** ISO dates among them on which less was sown than planned although there were free cells. */
  readonly below_plan: readonly string[];
  /** On how many of these nobody came. */
  readonly nobody_came: number;
}

/** Why holes stood empty. Dates are ISO 8601, names those of the log and the plan. */
export type IdleCause =
  | { readonly kind: 'end' | 'between_visits' }
  /** What should have stood there would have had to be sown before the first day. `midway`: the log begins in the middle. */
  | { readonly kind: 'filling'; readonly midway: boolean }
  | {
      readonly kind: 'absent';
      /** Dates of the visits before and after; `until` is null if nobody came any more. */
      readonly since: string;
      readonly until: string | null;
      /** Whether the plan has no visit in between; null where no plan is known. */
      readonly planned: boolean | null;
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
  /** Not empty but out of use, by a `clean` row. */
  | { readonly kind: 'cleaning'; readonly channel: string | null };

/** Tells a cause, of a spell from one day to another. */
export type TellCause = (from: number, to: number) => IdleCause;

/** Puts down up to `n` of the empty holes of a day to a cause. Causes with the same key are one. */
export type AssignCause = (key: string, tell: TellCause, n: number) => void;

/** Hears of the empty holes of one day that have one cause. */
export type CauseListener = (day: number, key: string, tell: TellCause, holes: number) => void;

/** What the causes are read from. */
export interface IdleEvidence {
  readonly season: LoggedSeason;
  readonly attendance: Attendance;
  readonly stages: readonly StageDays[];
  readonly meanFlow: MeanFlow;
  readonly failed: readonly FailedBatch[];
  readonly cohorts: CohortsByStage;
  /** Ready plants that wait in each stage, one entry a day. */
  readonly waiting: readonly Float64Array[];
}
