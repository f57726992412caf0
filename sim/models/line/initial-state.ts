/** A season is taken up in the middle: what stands is put in place, and what was on the calendar by then passed over. */

import { type InitialState, NEXT, type StandingPlants } from '../initial-state.js';
import { CLEANED, DIE, FAIL, RIPEN } from './holes.js';
import { occupy } from './plants.js';
import type { Stage } from './stage.js';
import type { LineState } from './state.js';

/**
 * Take up the season where `initial` has it, in a line that is empty.
 * @throws RangeError if `initial` cannot be true of this line, or the plan has `visits: always`
 */
export function setInitialState(line: LineState, initial: InitialState): void {
  const { day, visitsFrom, plants, cleaning, reached } = initial;
  const { queue, holes, stages } = line;
  if (line.always) throw new RangeError('a season can be taken up only if its visits are on days');
  if (!(day >= 0 && visitsFrom > day)) {
    throw new RangeError(`the next visit must come after day ${day}, from day 0 on: ${visitsFrom}`);
  }
  queue.now = day;
  if (line.stays?.tellsOfLeaves === true && plants.stays === undefined && plants.next.length > 0) {
    throw new RangeError('what the season takes can be heard only where it is told how long plants stand');
  }
  const ready: number[] = [];
  let doomed = 0;
  for (let i = 0; i < plants.next.length; i++) {
    const hole = stand(line, plants, i);
    if (plants.next[i] === READY) ready.push(hole);
    if (line.stays === null || plants.stays === undefined) continue;
    const { since, doomedDays } = plants.stays;
    const fate = holes.fate[hole]!;
    line.stays.stand(hole, fate, since[i]!, fate === DIE ? doomedDays[doomed++]! : 0);
  }
  ready.sort((a, b) => holes.readyAt[a]! - holes.readyAt[b]!);
  for (const hole of ready) holes.queueReady(stages[holes.stageOf[hole]!]!.crops[holes.cropOf[hole]!]!, hole);
  for (const { stage, holes: count, until } of cleaning) {
    for (let i = 0; i < count; i++) clean(line, stages[stage]!, until);
  }
  for (const stage of stages) stage.reached = reached[stage.place]!;
  line.calendar.passOver(day, visitsFrom);
}

const READY = NEXT.indexOf('ready');
/** What the event of its hole means, by the place in NEXT: for what is ready none is pending. */
const FATES = [0, RIPEN, DIE, FAIL];

/** Put the i-th plant in a hole. One that is ready is in no chain yet. @returns the hole */
function stand(line: LineState, plants: StandingPlants, i: number): number {
  const { holes, queue } = line;
  const stage = line.stages[plants.stage[i]!]!;
  const next = plants.next[i]!;
  const at = plants.at[i]!;
  demandFree(line, stage);
  const plant = line.plants++;
  const hole = occupy(line, stage, plants.crop[i]!, plant);
  holes.cutsLeft[hole] = plants.cutsLeft[i]!;
  if (next === READY ? !(at <= queue.now) : !(at > queue.now)) {
    throw new RangeError(`plant ${plant}: ${NEXT[next]} at ${at}, and the visit was on day ${queue.now}`);
  }
  holes.fate[hole] = FATES[next]!;
  if (next === READY) {
    stage.ready++;
    holes.readyAt[hole] = at;
  } else {
    stage.growing++;
    queue.schedule(hole, at);
  }
  return hole;
}

function clean(line: LineState, stage: Stage, until: number): void {
  const { holes, queue } = line;
  demandFree(line, stage);
  const hole = holes.take(stage);
  stage.cleaning++;
  holes.fate[hole] = CLEANED;
  queue.schedule(hole, until);
}

function demandFree({ plan }: LineState, stage: Stage): void {
  if (stage.free > 0) return;
  throw new RangeError(`more stands or is cleaned in ${plan.stages[stage.place]!.name} than it has holes`);
}
