/** What a replay gives: plain data, as it is printed with --json. Dates are ISO 8601, times are days. */

import type { ChannelDays } from './channel-days.js';
import type { Costs } from './costs.js';
import type { EmptyCosts } from './empty-costs.js';
import type { HoleDays } from './hole-days.js';
import type { IdleSpell } from './idle-spells.js';
import type { WhatIf } from './what-if.js';

/** Picks of one week, as they were. */
export interface WeekPicks {
  /** Its first day. */
  readonly start: string;
  readonly heads: number;
  /** Fresh mass of the picks that were weighed [g]; null if none was. */
  readonly grams: number | null;
}

export interface ReplayedStage {
  readonly name: string;
  /** Without a scenario the most that ever stood there at once, a lower bound. */
  readonly holes: number;
  /** Holes x days [d]. */
  readonly hole_days: number;
  /** Where they went: occupied + cleaning + empty = hole_days + beyond. */
  readonly ledger: HoleDays;
  /** Whether `occupied` and `empty` are exact: false with several cuts, of which a log does not tell the last one. */
  readonly exact: boolean;
  /** Plants (in the first stage: seeds) that stood there, one figure a day. */
  readonly standing: readonly number[];
  /** Holes out of use, one figure a day. */
  readonly cleaning: readonly number[];
  /** Where channels were logged. */
  readonly channels: readonly ChannelDays[];
}

/** A stage in which more plants stood than it has holes. */
export interface Crowded {
  readonly stage: string;
  readonly holes: number;
  /** ISO date of the first day on which more stood there. */
  readonly from: string;
  /** The most that stood there at once. */
  readonly most: number;
}

export interface ReplayResult extends Costs {
  readonly title: string;
  /** First day. */
  readonly start: string;
  /** Last day that the log tells of. */
  readonly end: string;
  readonly days: number;
  /** false if the log ends before the season of the scenario. */
  readonly whole: boolean;
  /** Whether a scenario was given; if not, the line is inferred from the log (see infer-plan.ts). */
  readonly planned: boolean;
  readonly rows: number;
  readonly batches: number;
  /** Seeds and plants, in all. */
  readonly counts: {
    readonly sown: number;
    /** Plants that stood when the log began to tell of them (`stand` rows). */
    readonly stood: number;
    readonly picked: number;
    /** Fresh mass of the picks that were weighed [g]; null if none was. */
    readonly grams: number | null;
    /** Failed, dead and discarded. */
    readonly lost: number;
    readonly standing: number;
  };
  /** If there is any, the scenario is not that of this line. Stages whose plants cannot be counted (`exact`) are left out. */
  readonly crowded: readonly Crowded[];
  readonly weeks: readonly WeekPicks[];
  /**
   * Where a log tells of very many plants: for how many each one stands that is followed in what is simulated (`causes`,
   * `all_together`, `without_cost`, `as_it_was`, `what_if`). Left out where all are followed.
   */
  readonly plants_for_each?: number;
  /** Planned visits on which nobody can have come. */
  readonly missed_visits: readonly string[];
  /** The stage that holds the line back, by holes and mean times; null if not more heads are wanted than it can give. */
  readonly scarcest: string | null;
  /** Plants that the log never mentions again, though they cannot still grow: taken as lost unseen (see history/unseen-losses.ts). */
  readonly unseen: readonly {
    readonly stage: string;
    readonly plants: number;
    readonly batches: readonly string[];
  }[];
  /** Spells of empty holes: where and when (see idle-spells.ts). What they cost as causes of the season, `causes` tells. */
  readonly idle: readonly IdleSpell[];
  /** What these hole-days cost in light and money; left out where the scenario tells neither lamps nor prices. */
  readonly empty_cost?: EmptyCosts;
  readonly stages: readonly ReplayedStage[];
  /** The same season under another cadence; null if none was asked for, or if it cannot be told: plants stood before. */
  readonly what_if: WhatIf | null;
}
