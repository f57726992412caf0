/**
 * Batches whose ready plants find no hole further on; and, apart from them, those whose plants are thrown away as ready for too
 * long for another reason: nobody came in time, or (in the last stage) they were not wanted.
 */

import { groupedBy } from '../../engine/lists.js';
import type { InitialState } from '../../models/initial-state.js';
import type { PlantEvent } from '../../models/line/line.js';
import type { Batches, BatchWatch } from './batches.js';
import { dayBy, type Forecast, forecastOf } from './forecast.js';
import type { Watcher } from './watcher.js';

/** Plants of one batch in one stage that run out of room, or of time. */
export interface Overgrown {
  /** Place among all batches. */
  readonly batch: number;
  /** Place of the stage. */
  readonly stage: number;
  /** Share of futures in which at least one does. */
  readonly chance: number;
  /** Plants thrown away as ready for too long. */
  readonly thrownAway: Forecast;
  /** When it begins and is over, the median of the futures in which it comes [d from the start]. */
  readonly from: number;
  readonly to: number;
}

/** Plants that run out of room; those thrown away are some of those blocked. */
export interface ShortOfRoom extends Overgrown {
  /** Ready plants that a visit could not move on. */
  readonly blocked: Forecast;
}

/** Of one batch in one stage, in one future. */
export interface RoomSeen {
  /** Whether plants found no hole; if not, some were thrown away though none of them ever waited for one. */
  readonly room: boolean;
  /** Number of the batch (see batches.ts). */
  readonly batch: number;
  readonly stage: number;
  readonly blocked: number;
  readonly thrownAway: number;
  readonly from: number;
  readonly to: number;
}

type Now = { -readonly [K in keyof RoomSeen]: RoomSeen[K] };

export class RoomWatch implements Watcher<readonly RoomSeen[]> {
  readonly #batches: BatchWatch;
  readonly #visits: readonly number[];
  readonly #end: number;
  readonly #last: number;
  /** By plant: first visit at which it was ready where it stands; NaN if it is not. And its stage. */
  #seen: number[] = [];
  #stage: number[] = [];
  #now = new Map<string, Now>();
  #visit = 0;

  /**
   * @param batches watches the same futures, and hears of everything first
   * @param visits of the plan, ascending [d]
   * @param end of what is looked at [d from the start]
   * @param last place of the last stage
   */
  constructor(batches: BatchWatch, visits: readonly number[], end: number, last: number) {
    this.#batches = batches;
    this.#visits = visits;
    this.#end = end;
    this.#last = last;
  }

  begin(initial: InitialState | null): void {
    this.#now = new Map();
    const plants = initial?.plants ?? [];
    // Who is ready already was left behind at the last visit.
    this.#seen = plants.map(({ next }) => (next === 'ready' ? initial!.day : Number.NaN));
    this.#stage = plants.map(({ stage }) => stage);
    this.#visit = 0;
    const from = initial?.visitsFrom ?? 0;
    while (this.#visit < this.#visits.length && this.#visits[this.#visit]! < from) this.#visit++;
  }

  onEvent(t: number, event: PlantEvent, plant: number, _crop: number, stage: number): void {
    if (t >= this.#end) return;
    if (event === 'ripen') {
      while (this.#visit < this.#visits.length && this.#visits[this.#visit]! < t) this.#visit++;
      this.#seen[plant] = this.#visits[this.#visit] ?? Infinity;
      this.#stage[plant] = stage;
    } else if (event === 'move' || event === 'discard') {
      this.#leave(plant, t, event === 'discard');
      this.#seen[plant] = Number.NaN;
    } else if (event === 'pick') this.#seen[plant] = Number.NaN;
  }

  end(): readonly RoomSeen[] {
    this.#seen.forEach((seen, plant) => {
      if (seen < this.#end) this.#leave(plant, this.#end, false);
    });
    return [...this.#now.values()];
  }

  /** A plant that was ready leaves its hole, or the time that is looked at is over. */
  #leave(plant: number, t: number, thrownAway: boolean): void {
    const seen = this.#seen[plant]!;
    const stage = this.#stage[plant]!;
    // A head that is not picked yet has run out of nothing.
    const blocked = stage < this.#last && t > seen;
    if (!(blocked || thrownAway)) return;
    const batch = this.#batches.of(plant);
    const key = `${blocked} ${batch} ${stage}`;
    let now = this.#now.get(key);
    if (now === undefined) {
      now = { room: blocked, batch, stage, blocked: 0, thrownAway: 0, from: seen, to: t };
      this.#now.set(key, now);
    }
    if (blocked) now.blocked++;
    if (thrownAway) now.thrownAway++;
    now.from = Math.min(now.from, seen);
    now.to = Math.max(now.to, t);
  }
}

/**
 * Batches that run out of room, or of time, in some futures; by the day on which it begins.
 * @param seen one entry a future @param room whether those are asked for that find no hole, or the others
 */
export function overgrown(
  seen: readonly (readonly RoomSeen[])[],
  batches: Batches,
  room: boolean,
): ShortOfRoom[] {
  const futures = seen.length;
  const all = seen.flat().filter((one) => one.room === room);
  return [...groupedBy(all, ({ batch, stage }) => `${batch} ${stage}`).values()]
    .map((some) => {
      const range = (of: (one: RoomSeen) => number): Forecast =>
        forecastOf([...some.map(of), ...new Array<number>(futures - some.length).fill(0)]);
      const middle = (of: (one: RoomSeen) => number): number => dayBy(some.map(of), 0.5);
      return {
        batch: batches.placeOf(some[0].batch),
        stage: some[0].stage,
        chance: some.length / futures,
        blocked: range(({ blocked }) => blocked),
        thrownAway: range(({ thrownAway }) => thrownAway),
        from: middle(({ from }) => from),
        to: middle(({ to }) => to),
      };
    })
    .sort((a, b) => a.from - b.from || a.batch - b.batch || a.stage - b.stage);
}
