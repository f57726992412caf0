/** Why holes stood empty, as data, and what that is read from. */

import type { Attendance } from '../history/attendance.js';
import type { CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { StageDays } from '../history/occupancy.js';
import type { FailedBatch } from './failed-batches.js';
import type { MeanFlow } from './mean-flow.js';

/** Why holes stood empty. */
export type Cause =
  | { readonly kind: 'end' | 'between_visits' | 'filling' | 'too_little_sown' | 'late' }
  /** Nobody came between two visits; `until` may be the end of what the log tells. */
  | { readonly kind: 'absent'; readonly since: number; readonly until: number; readonly planned: boolean }
  | { readonly kind: 'batch_failed'; readonly failed: FailedBatch }
  /** Plants thrown away on a day in a stage before. */
  | { readonly kind: 'thrown_away'; readonly day: number; readonly stage: number; readonly plants: number }
  | { readonly kind: 'stage_before_full'; readonly stage: number }
  /** Not empty but out of use, by a `clean` row. */
  | { readonly kind: 'cleaning'; readonly channel: string | null };

/** Puts down up to `n` of the empty holes of a day to a cause. */
export type AssignCause = (key: string, cause: () => Cause, n: number) => void;

/** Hears of the empty holes of one day that have one cause. Causes with the same key are one. */
export type CauseListener = (day: number, key: string, cause: () => Cause, holes: number) => void;

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
