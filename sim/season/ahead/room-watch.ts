/**
 * Batches whose ready plants find no hole further on; and, apart from them, those whose plants are thrown away as ready for too
 * long for another reason: nobody came in time, or (in the last stage) they were not wanted.
 */

import { groupedBy } from '../../engine/lists.js';
import { type InitialState, NEXT } from '../../models/initial-state.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { dailyVisits } from '../history/plan-days.js';
import type { Batches, BatchWatch } from './batches.js';
import { dayBy, type Forecast, forecastOf } from './forecast.js';
import { largeNumbers, type PlantColumn, smallNumbers } from './plant-column.js';
import type { Watch } from './watcher.js';

/** Plants of one batch in one stage that run out of room, or of time. */
export interface Overgrown {
  /** Place among all batches. */
  readonly batch: number;
  /** Place of the stage. */
  readonly stage: number;
  /** Share of futures in which at least one does. */
  readonly chance: number;
  /** Ready plants that a visit could not move on. */
  readonly blocked: Forecast;
  /** Plants thrown away as ready for too long; where plants are blocked, some of these. */
  readonly thrownAway: Forecast;
  /** When it begins and is over, the median of the futures in which it comes [d from the start]. */
  readonly from: number;
  readonly to: number;
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

const READY = NEXT.indexOf('ready');

/** What is kept of each plant. */
export interface RoomMemory {
  /** One more than the day of the first visit at which it was, or will be, ready where it stands; 0 if it is not, NEVER if none comes. */
  readonly since: PlantColumn<Int32Array>;
  /** The stage in which it is ready. */
  readonly stage: PlantColumn<Uint8Array>;
}

const NEVER = 2 ** 31 - 1;

export function roomMemory(): RoomMemory {
  return { since: largeNumbers(), stage: smallNumbers() };
}

/**
 * @param end of what is looked at [d from the start]
 * @param batches watches the same future, and hears of everything first
 * @param memory for its use
 */
export function watchRoom(
  plan: Plan,
  end: number,
  batches: BatchWatch,
  initial: InitialState | null,
  memory: RoomMemory,
): Watch<readonly RoomSeen[]> {
  const visits = dailyVisits(plan);
  const now = new Map<string, { -readonly [K in keyof RoomSeen]: RoomSeen[K] }>();
  const stood = initial?.plants.next.length ?? 0;
  memory.since.reset(stood);
  memory.stage.reset(stood);
  const ready = (plant: number, since: number, stage: number): void => {
    memory.since.set(plant, since === Infinity ? NEVER : since + 1);
    memory.stage.set(plant, stage);
  };
  initial?.plants.next.forEach((next, plant) => {
    if (next === READY) ready(plant, initial.day, initial.plants.stage[plant]!);
  });
  let visit = 0;
  const passTo = (t: number): void => {
    while (visit < visits.length && visits[visit]! < t) visit++;
  };
  passTo(initial?.visitsFrom ?? 0);
  /** A plant that was ready leaves its hole, or the time that is looked at is over. */
  const leave = (plant: number, t: number, thrownAway: boolean): void => {
    const told = memory.since.get(plant);
    if (told === 0) return;
    const since = told === NEVER ? Infinity : told - 1;
    const stage = memory.stage.get(plant);
    // A head that is not picked yet has run out of nothing.
    const blocked = !route.isLast(plan, stage) && t > since;
    if (!(blocked || thrownAway)) return;
    const batch = batches.of(plant);
    const key = `${blocked} ${batch} ${stage}`;
    const known = now.get(key) ?? {
      room: blocked,
      batch,
      stage,
      blocked: 0,
      thrownAway: 0,
      from: since,
      to: t,
    };
    now.set(key, known);
    if (blocked) known.blocked++;
    if (thrownAway) known.thrownAway++;
    known.from = Math.min(known.from, since);
    known.to = Math.max(known.to, t);
  };
  return {
    onEvent(t, event, plant, _crop, stage) {
      if (t >= end) return;
      if (event === 'ripen') {
        passTo(t);
        ready(plant, visits[visit] ?? Infinity, stage);
      } else if (event === 'move' || event === 'discard') {
        leave(plant, t, event === 'discard');
        memory.since.set(plant, 0);
      } else if (event === 'pick') memory.since.set(plant, 0);
    },
    end() {
      for (let plant = 0; plant < memory.since.length; plant++) leave(plant, end, false);
      return [...now.values()];
    },
  };
}

/**
 * Batches that run out of room, or of time, in some futures; by the day on which it begins.
 * @param seen one entry a future @param room whether those are asked for that find no hole, or the others
 */
export function overgrown(
  seen: readonly (readonly RoomSeen[])[],
  batches: Batches,
  room: boolean,
): Overgrown[] {
  const all = seen.flat().filter((one) => one.room === room);
  return [...groupedBy(all, ({ batch, stage }) => `${batch} ${stage}`).values()]
    .map((some) => {
      const range = (of: (one: RoomSeen) => number): Forecast => forecastOf(some.map(of), seen.length);
      const middle = (of: (one: RoomSeen) => number): number => dayBy(some.map(of), 0.5);
      return {
        batch: batches.placeOf(some[0].batch),
        stage: some[0].stage,
        chance: some.length / seen.length,
        blocked: range(({ blocked }) => blocked),
        thrownAway: range(({ thrownAway }) => thrownAway),
        from: middle(({ from }) => from),
        to: middle(({ to }) => to),
      };
    })
    .sort((a, b) => a.from - b.from || a.batch - b.batch || a.stage - b.stage);
}
