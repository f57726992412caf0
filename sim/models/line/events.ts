/** What happens by itself: in a hole a plant ripens, dies or proves a failed seed, or the cleaning ends. */

import { CLEANING, FAILED, GROWING, LOST, PICKED_OUT, UNATTENDED, UNSUPPLIED } from '../ledger.js';
import { CLEANED, DIE, RIPEN } from './holes.js';
import { enter, note, vacate } from './plants.js';
import type { Stage } from './stage.js';
import type { LineState } from './state.js';
import { countPick } from './visit.js';

/** A pending event comes. */
export function handleEvent(line: LineState, id: number): void {
  const { holes, stages, calendar, queue, books } = line;
  if (id >= calendar.visitId) {
    calendar.handleEvent(id, queue, books.counts);
    return;
  }
  const stage = stages[holes.stageOf[id]!]!;
  const fate = holes.fate[id]!;
  if (fate === RIPEN) ripen(line, stage, id);
  else if (fate === CLEANED) {
    holes.after[id] = stage.cleanedHead;
    stage.cleanedHead = id;
  } else die(line, stage, id, fate === DIE);
}

function ripen(line: LineState, stage: Stage, hole: number): void {
  const { holes, books, queue, stays } = line;
  const crop = stage.crops[holes.cropOf[hole]!]!;
  stage.growing--;
  stage.ready++;
  stage.unseen++;
  books.shift(stage, GROWING, UNATTENDED, queue);
  holes.readyAt[hole] = queue.now;
  holes.queueReady(crop, hole);
  if (stays !== null) stays.ripen(crop, queue);
  if (crop.next !== null) {
    crop.next.reached = true;
    crop.next.touched = true;
  }
  note(line, 'ripen', stage, hole);
}

/** A plant dies, or a seed proves to have failed. It stands until it is cleared. */
function die(line: LineState, stage: Stage, hole: number, died: boolean): void {
  const { holes, books, stays } = line;
  stage.growing--;
  stage.dead++;
  stage.touched = true;
  stage.crops[holes.cropOf[hole]!]!.standing--;
  books.counts[died ? LOST : FAILED]!++;
  if (stays !== null) stays.die(holes, line.queue, stage, hole, died);
  holes.after[hole] = stage.deadHead;
  stage.deadHead = hole;
  note(line, died ? 'die' : 'fail', stage, hole);
}

/**
 * With `always`, the usual case cut short: one plant ripens, nobody waits, and it goes straight on or is picked.
 * What it does is what the visit would do; the tests hold both against an independent version of the rules.
 * @returns false if it is another case; then nothing has been done
 */
export function passOn(line: LineState, hole: number): boolean {
  const { queue, holes, books, calendar } = line;
  const stage = line.stages[holes.stageOf[hole]!]!;
  if (holes.fate[hole] !== RIPEN || stage.ready > 0 || queue.hasMoreNow()) return false;
  // The hole that it leaves may be what somebody upstream waits for.
  if (stage.before !== null && stage.before.ready > 0) return false;
  const crop = stage.crops[holes.cropOf[hole]!]!;
  const to = crop.next;
  if (to !== null) {
    if (to.free === 0 || !to.reached) return false;
  } else if (calendar.quota !== Infinity || holes.cutsLeft[hole] !== 1) return false;

  note(line, 'ripen', stage, hole);
  stage.growing--;
  crop.standing--;
  if (to !== null) {
    vacate(line, stage, hole);
    enter(line, to, crop.c, holes.plantOf[hole]!);
    books.shift(to, UNSUPPLIED, GROWING, queue);
  } else {
    countPick(line, stage, hole);
    books.counts[PICKED_OUT]!++;
    vacate(line, stage, hole);
  }
  books.shift(stage, GROWING, stage.cleanDays > 0 ? CLEANING : UNSUPPLIED, queue);
  return true;
}
