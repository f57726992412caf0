/** The rules of a visit, one function a rule, in their order. */

import { TICK } from '../../engine/clock.js';
import { DISCARDED, PICKED, PICKED_OUT, SHORT, SOWN, UNSOWN } from '../ledger.js';
import { seedsToRefill } from '../refill.js';
import { enter, grow, note, occupy, vacate } from './plants.js';
import type { CropInStage, Stage } from './stage.js';
import type { LineState } from './state.js';

/** Somebody is there, and does all that can be done. */
export function visit(line: LineState): void {
  takeBack(line);
  clear(line);
  discard(line);
  pick(line);
  moveOn(line);
  if (line.calendar.sowingDue) sowDue(line);
  if (line.calendar.refillDue) sowRefills(line);
  see(line);
  if (line.always) watchKeeps(line);
}

/** Holes whose cleaning is over come back into use. */
function takeBack({ holes, stages }: LineState): void {
  for (let s = 0; s < stages.length; s++) {
    const stage = stages[s]!;
    for (let hole = stage.cleanedHead; hole >= 0; hole = holes.after[hole]!) {
      stage.cleaning--;
      stage.touched = true;
      holes.giveBack(stage, hole);
    }
    stage.cleanedHead = -1;
  }
}

/** Dead plants and failed seeds are cleared. */
function clear(line: LineState): void {
  const { holes, stages } = line;
  for (let s = 0; s < stages.length; s++) {
    const stage = stages[s]!;
    let hole = stage.deadHead;
    stage.deadHead = -1;
    while (hole >= 0) {
      const next = holes.after[hole]!;
      stage.dead--;
      note(line, 'clear', stage, hole);
      vacate(line, stage, hole);
      hole = next;
    }
  }
}

/** What has been ready for more than `keeps` is thrown away; with `always`, at the instant at which that is over. */
function discard(line: LineState): void {
  const { always, crops, holes, queue, books, stays } = line;
  const limit = always ? queue.now + TICK : queue.now;
  for (let i = 0; i < crops.length; i++) {
    const crop = crops[i]!;
    if (always && !crop.keepsOver) continue;
    crop.keepsOver = false;
    while (crop.readyHead >= 0 && holes.readyAt[crop.readyHead]! + crop.keeps < limit) {
      const hole = takeReady(line, crop);
      crop.standing--;
      if (stays !== null) stays.discard(crop);
      books.counts[DISCARDED]!++;
      books.season.weekDiscards[crop.stage.place * line.plan.weeks + Math.floor(queue.now / 7)]!++;
      note(line, 'discard', crop.stage, hole);
      vacate(line, crop.stage, hole);
    }
  }
}

/** In the last stage what is ready is picked, longest ready first; with `want`, at most what is wanted that day. */
function pick(line: LineState): void {
  const { holes, last: stage, calendar, books } = line;
  const limited = calendar.quota !== Infinity;
  while (stage.ready > 0 && calendar.quota > 0) {
    const crop = holes.longestReady(stage);
    const hole = takeReady(line, crop);
    countPick(line, stage, hole);
    if (limited) {
      calendar.quota--;
      books.counts[SHORT]!--;
    }
    if (--holes.cutsLeft[hole]! > 0) grow(line, stage, hole, line.regrowDraws[crop.c]!, crop.cutKind);
    else {
      books.counts[PICKED_OUT]!++;
      crop.standing--;
      vacate(line, stage, hole);
    }
  }
}

/** Count a pick. */
export function countPick(line: LineState, stage: Stage, hole: number): void {
  const t = line.queue.now;
  const { counts, season } = line.books;
  counts[PICKED]!++;
  if (line.stays !== null) line.stays.pick(line.holes.cropOf[hole]!);
  season.weekPicks[Math.floor(t / 7)]!++;
  if (Number.isNaN(season.firstPick)) season.firstPick = t;
  note(line, 'pick', stage, hole);
}

/** From the last stage but one back to the first, ready plants move on while the next stage has a free hole. */
function moveOn(line: LineState): void {
  let to = line.last;
  for (let stage = to.before; stage !== null; stage = to.before) {
    while (stage.ready > 0 && to.free > 0) {
      const crop = line.holes.longestReady(stage);
      const hole = takeReady(line, crop);
      crop.standing--;
      vacate(line, stage, hole);
      enter(line, to, crop.c, line.holes.plantOf[hole]!);
    }
    to = stage;
  }
}

/** What fell due since the last visit is sown, as far as there are free cells; of what is dropped, nothing. */
function sowDue(line: LineState): void {
  const { calendar, books } = line;
  for (let c = 0; c < calendar.due.length; c++) {
    const due = calendar.due[c]!;
    calendar.due[c] = 0;
    books.counts[UNSOWN]! += due - sow(line, c, due) + calendar.dropped[c]!;
    calendar.dropped[c] = 0;
  }
  calendar.sowingDue = false;
}

/** Of crops that are sown to refill: what the line will miss until the next visit, as far as there are free cells. */
function sowRefills(line: LineState): void {
  const { calendar, stages, queue } = line;
  for (const [c, refill] of line.refills.entries()) {
    if (refill === null) continue;
    const standing = (s: number): number => stages[s]!.crops[c]!.standing;
    sow(line, c, seedsToRefill(refill, queue.now, calendar.gapAfter(queue), standing));
  }
  calendar.refillDue = false;
}

/** @returns how many of the seeds found a free cell */
function sow(line: LineState, c: number, seeds: number): number {
  const { first: stage, books } = line;
  const { draws, kind } = stage.crops[c]!;
  const sown = Math.min(seeds, stage.free);
  if (sown > 0) stage.reached = true;
  books.counts[SOWN]! += sown;
  for (let i = 0; i < sown; i++) {
    const hole = occupy(line, stage, c, line.plants++);
    note(line, 'sow', stage, hole);
    grow(line, stage, hole, draws, kind);
  }
  return sown;
}

/** What is left ready has been seen. */
function see({ stages }: LineState): void {
  for (let s = 0; s < stages.length; s++) {
    const stage = stages[s]!;
    if (stage.unseen === 0) continue;
    stage.unseen = 0;
    stage.touched = true;
    if (stage.next !== null) stage.next.touched = true;
  }
}

/** With `always`, make sure that the end of keeping is noticed: one event for each crop in each stage. */
function watchKeeps({ crops, holes, calendar, queue }: LineState): void {
  for (let i = 0; i < crops.length; i++) {
    const crop = crops[i]!;
    if (crop.readyHead < 0 || crop.keepsPending || crop.keeps === Infinity) continue;
    crop.keepsPending = true;
    queue.schedule(calendar.keepsId + i, holes.readyAt[crop.readyHead]! + crop.keeps);
  }
}

/** Take the plant of a crop that has been ready longest out of the crop's chain. @returns its hole */
function takeReady({ holes, queue, stays }: LineState, crop: CropInStage): number {
  crop.stage.ready--;
  crop.stage.touched = true;
  if (stays !== null) stays.leave(crop, queue);
  return holes.unqueueReady(crop);
}
