/** A plant takes a hole, grows in it, and leaves it. */

// Time is read from the queue throughout: a fraction handed over may cost a number object at each call.

import { TICK, toGrid } from '../../engine/clock.js';
import type { Draws } from '../growth.js';
import { CLEANED, DIE, FAIL, RIPEN } from './holes.js';
import type { PlantEvent } from './observer.js';
import type { Stage } from './stage.js';
import type { LineState } from './state.js';

/** Let the observer know what has happened to the plant in `hole`. */
export function note(line: LineState, event: PlantEvent, stage: Stage, hole: number): void {
  const { observer, queue, holes } = line;
  observer?.onEvent(queue.now, event, holes.plantOf[hole]!, holes.cropOf[hole]!, stage.place, hole);
}

/** Put a plant into a free hole. @returns the hole */
export function occupy({ holes, cuts }: LineState, stage: Stage, c: number, plant: number): number {
  const hole = holes.take(stage);
  holes.cropOf[hole] = c;
  holes.plantOf[hole] = plant;
  holes.cutsLeft[hole] = cuts[c]!;
  stage.crops[c]!.standing++;
  return hole;
}

/** Let the plant in `hole` begin to grow, with the next of `draws`. @param kind of its stay (see stay-kinds.ts) */
export function grow(line: LineState, stage: Stage, hole: number, draws: Draws, kind: number): void {
  const { queue, holes, stays, clocks } = line;
  const k = draws.take();
  const days = draws.times[k]!;
  const moment = draws.moments[k]!;
  const fate = draws.sprouts[k] === 0 ? FAIL : moment < 1 ? DIE : RIPEN;
  stage.growing++;
  stage.touched = true;
  holes.fate[hole] = fate;
  const clock = clocks === null ? null : clocks[kind]!;
  if (clock === null) queue.schedule(hole, queue.now + (fate === DIE ? toGrid(moment * days) : days));
  else {
    const whole = clock.daysFor(queue.now, days);
    const stay = Math.max(TICK, toGrid(whole));
    // A share of the growth is another share of the days where these differ.
    const lived = fate === DIE ? toGrid((clock.daysFor(queue.now, moment * days) / whole) * stay) : stay;
    queue.schedule(hole, queue.now + lived);
  }
  if (stays !== null) {
    stays.begin(kind, hole, fate, draws, k, queue);
    if (fate === FAIL) stays.sowBarren(holes.cropOf[hole]!);
  }
}

/** A plant comes into a stage from the one before. */
export function enter(line: LineState, stage: Stage, c: number, plant: number): void {
  const hole = occupy(line, stage, c, plant);
  note(line, 'move', stage, hole);
  const { draws, kind } = stage.crops[c]!;
  grow(line, stage, hole, draws, kind);
}

/** The plant is gone from `hole`: it is cleaned, or free at once. */
export function vacate({ queue, holes }: LineState, stage: Stage, hole: number): void {
  stage.touched = true;
  if (stage.cleanDays > 0) {
    stage.cleaning++;
    holes.fate[hole] = CLEANED;
    queue.schedule(hole, queue.now + stage.cleanDays);
  } else holes.giveBack(stage, hole);
}
