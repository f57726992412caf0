/** What was seen of a stage, as plain data. */

/** Plants that left at a visit. */
export interface Departures {
  /** Place of the visit in the record. */
  readonly visit: number;
  readonly count: number;
}

/** Plants that were cleared at a visit. */
export interface Cleared extends Departures {
  /** As their row says, in the first stage: whether they died, or were seeds that failed. Left out if it says nothing. */
  readonly cause?: 'died' | 'failed';
}

/** Plants of all of a list. */
export function total(list: readonly { readonly count: number }[]): number {
  return list.reduce((sum, { count }) => sum + count, 0);
}

/** Plants that came into the stage on one day, or of which only a span of days is known. */
export interface Entry {
  /** [d]; of a span its middle, which serves where a guess will do. */
  readonly day: number;
  readonly count: number;
  /** Left out of plants whose day is known. */
  readonly stood?: Stood;
}

/**
 * Plants that were found standing and are followed from then on: only those were found that had neither left nor died, so what
 * is seen of them holds under that condition (left truncation).
 */
export interface Stood {
  /** First and last day on which each of them can have come in, all as likely [d]. */
  readonly from: number;
  readonly to: number;
  /** Day of the visit after which none of them was ready or dead [d]. */
  readonly seen: number;
}

/** Plants that came into the stage and cannot be told apart later. */
export interface Group {
  /**
   * Number of the kind of plant: a crop, or a crop's growth after a pick. All plants of a kind follow one
   * law.
   */
  readonly kind: number;
  /** When they came in, ascending, and how many. */
  readonly entries: readonly Entry[];
  /** Those that left ready: moved, picked, or thrown away after having been ready too long. */
  readonly ready: readonly Departures[];
  /** Those that were cleared dead or failed. */
  readonly dead: readonly Cleared[];
  /** Those that are left at the last visit. */
  readonly standing: number;
}

export interface Visit {
  /** [d] */
  readonly day: number;
  /**
   * Whether ready plants may have been left behind for want of holes (or, in the last stage, of wanted
   * heads).
   */
  readonly short: boolean;
}

export interface StageRecord {
  /** Ascending. */
  readonly visits: readonly Visit[];
  readonly groups: readonly Group[];
}
