/** What one who listens to a season hears. */

/** What happened to a plant, for an `EventObserver`. */
export type PlantEvent = 'sow' | 'move' | 'ripen' | 'die' | 'fail' | 'pick' | 'discard' | 'clear';

/** Hears of everything that happens, in order. Costs time; for logs, pictures and tests. */
export interface EventObserver {
  /**
   * @param t days from the start
   * @param event what happened
   * @param plant number of the plant, in the order of sowing
   * @param crop its crop
   * @param stage the stage in which it stands now (moved: into which)
   * @param hole its hole now, counted through all stages (moved: into which)
   */
  onEvent(t: number, event: PlantEvent, plant: number, crop: number, stage: number, hole: number): void;
  /**
   * A visit is over.
   * @param free free holes of each stage
   */
  onVisitEnd?(t: number, free: Int32Array): void;
  /** Moments at which it wants to hear what the season has taken by then, ascending [d]; left out: none. */
  readonly takesAt?: readonly number[];
  /**
   * What the season has taken by one of these moments, before anything happens at it.
   * @param taken one figure for each of TakesColumns (models/takes.ts), as its description says, in no unit; the same array at every call.
   * Of a season that is taken up in the middle only what is between two moments means anything.
   */
  onTakes?(t: number, taken: Float64Array): void;
}
