/**
 * Batches whose ready plants find no hole further on; and, apart from them, those whose plants are thrown away as ready for too
 * long for another reason: nobody came in time, or (in the last stage) they were not wanted.
 */

import type { Deed } from '../../models/line.js';
import type { Opening } from '../../models/opening.js';
import type { Batches } from './batches.js';
import type { Watcher } from './futures.js';
import { dayBy, type Range, rangeOf } from './range.js';

/** Plants of one batch in one stage that run out of room, or of time. */
export interface Overgrown {
  /** Place among all batches. */
  readonly batch: number;
  /** Place of the stage. */
  readonly stage: number;
  /** Share of futures in which at least one does. */
  readonly chance: number;
  /** Plants thrown away as ready for too long. */
  readonly thrownAway: Range;
  /** When it begins and is over, the median of the futures in which it comes [d from the start]. */
  readonly from: number;
  readonly to: number;
}

/** Plants that run out of room; those thrown away are some of those blocked. */
export interface ShortOfRoom extends Overgrown {
  /** Ready plants that a visit could not move on. */
  readonly blocked: Range;
}

/** Of one batch in one stage, in the present future. */
interface Now {
  blocked: number;
  thrownAway: number;
  from: number;
  to: number;
}

interface Gathered {
  readonly room: boolean;
  readonly batch: number;
  readonly stage: number;
  readonly blocked: number[];
  readonly thrownAway: number[];
  readonly froms: number[];
  readonly tos: number[];
}

export class RoomWatch implements Watcher {
  readonly #batches: Batches;
  readonly #visits: readonly number[];
  readonly #end: number;
  readonly #last: number;
  /** By plant: first visit at which it was ready where it stands; NaN if it is not. And its stage. */
  #seen: number[] = [];
  #stage: number[] = [];
  #now = new Map<string, Now>();
  readonly #gathered = new Map<string, Gathered>();
  #futures = 0;
  #visit = 0;

  /**
   * @param visits of the plan, ascending [d]
   * @param end of what is looked at [d from the start]
   * @param last place of the last stage
   */
  constructor(batches: Batches, visits: readonly number[], end: number, last: number) {
    this.#batches = batches;
    this.#visits = visits;
    this.#end = end;
    this.#last = last;
  }

  begin(opening: Opening | null): void {
    this.#now = new Map();
    const plants = opening?.plants ?? [];
    // Who is ready already was left behind at the last visit.
    this.#seen = plants.map(({ next }) => (next === 'ready' ? opening!.day : Number.NaN));
    this.#stage = plants.map(({ stage }) => stage);
    this.#visit = 0;
    const from = opening?.visitsFrom ?? 0;
    while (this.#visit < this.#visits.length && this.#visits[this.#visit]! < from) this.#visit++;
  }

  note(t: number, deed: Deed, plant: number, _crop: number, stage: number): void {
    if (t >= this.#end) return;
    if (deed === 'ripen') {
      while (this.#visit < this.#visits.length && this.#visits[this.#visit]! < t) this.#visit++;
      this.#seen[plant] = this.#visits[this.#visit] ?? Infinity;
      this.#stage[plant] = stage;
    } else if (deed === 'move' || deed === 'discard') {
      this.#leave(plant, t, deed === 'discard');
      this.#seen[plant] = Number.NaN;
    } else if (deed === 'pick') this.#seen[plant] = Number.NaN;
  }

  end(): void {
    this.#seen.forEach((seen, plant) => {
      if (seen < this.#end) this.#leave(plant, this.#end, false);
    });
    for (const [key, { blocked, thrownAway, from, to }] of this.#now) {
      let gathered = this.#gathered.get(key);
      if (gathered === undefined) {
        const [room, batch, stage] = key.split(' ').map(Number) as [number, number, number];
        gathered = { room: room === 1, batch, stage, blocked: [], thrownAway: [], froms: [], tos: [] };
        this.#gathered.set(key, gathered);
      }
      gathered.blocked.push(blocked);
      gathered.thrownAway.push(thrownAway);
      gathered.froms.push(from);
      gathered.tos.push(to);
    }
    this.#futures++;
  }

  /** Once all futures are over; by the day on which it begins. */
  shortOfRoom(): ShortOfRoom[] {
    return this.#told(true);
  }

  /** Plants that are thrown away though none of them ever waited for a hole; once all futures are over, in the same order. */
  overgrown(): Overgrown[] {
    return this.#told(false);
  }

  #told(room: boolean): ShortOfRoom[] {
    const futures = this.#futures;
    const all = (values: readonly number[]): Range =>
      rangeOf([...values, ...new Array<number>(futures - values.length).fill(0)]);
    return [...this.#gathered.values()]
      .filter((one) => one.room === room)
      .map(({ batch, stage, blocked, thrownAway, froms, tos }) => ({
        batch,
        stage,
        chance: froms.length / futures,
        blocked: all(blocked),
        thrownAway: all(thrownAway),
        from: dayBy(froms, 0.5),
        to: dayBy(tos, 0.5),
      }))
      .sort((a, b) => a.from - b.from || a.batch - b.batch || a.stage - b.stage);
  }

  /** A plant that was ready leaves its hole, or the time that is looked at is over. */
  #leave(plant: number, t: number, thrownAway: boolean): void {
    const seen = this.#seen[plant]!;
    const stage = this.#stage[plant]!;
    // A head that is not picked yet has run out of nothing.
    const blocked = stage < this.#last && t > seen;
    if (!(blocked || thrownAway)) return;
    const key = `${blocked ? 1 : 0} ${this.#batches.of(plant)} ${stage}`;
    let now = this.#now.get(key);
    if (now === undefined) {
      now = { blocked: 0, thrownAway: 0, from: seen, to: t };
      this.#now.set(key, now);
    }
    if (blocked) now.blocked++;
    if (thrownAway) now.thrownAway++;
    now.from = Math.min(now.from, seen);
    now.to = Math.max(now.to, t);
  }
}
