/**
 * Laws that hold for every line on every path. Each takes a plan and throws if the law is broken; times lie on a
 * power-of-two grid, so sums of them are exact and nothing here has a tolerance.
 */

import { expect } from 'vitest';
import { TICKS_PER_DAY, toGrid } from '../../sim/engine/clock.js';
import {
  BLOCKED,
  DEAD,
  DISCARDED,
  FAILED,
  GROWING,
  HELD,
  LOST,
  PICKED,
  PICKED_OUT,
  type Season,
  SHORT,
  SOWN,
  STANDING,
  STATE_COUNT,
  STATES,
  UNATTENDED,
  UNSOWN,
  UNTENDED,
  WANTED,
} from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import { holesOf, type Plan, seasonDays } from '../../sim/models/plan.js';
import { type Note, Notes } from './logs.js';

/** `expect` for inner loops: a hundred times as fast. */
function demand(condition: boolean, message: string): void {
  if (!condition) throw new Error(message);
}

/** A season and all that happened in it. */
export interface Run {
  readonly plan: Plan;
  readonly season: Season;
  readonly notes: readonly Note[];
}

export function runOf(plan: Plan, seed = plan.seed, season = 0): Run {
  const notes = new Notes();
  return { plan, season: new Line(plan).run(seed, season, notes), notes: notes.rows };
}

export function copyOf(season: Season): Season {
  return {
    counts: season.counts.slice(),
    ledger: season.ledger.slice(),
    weekPicks: season.weekPicks.slice(),
    weekDiscards: season.weekDiscards.slice(),
    firstPick: season.firstPick,
    takes: season.takes && { row: season.takes.row.slice(), tank: season.takes.tank?.slice() ?? null },
  };
}

/** Beyond so many hole-days a sum of ticks is no whole number in a double (sim/engine/clock.ts) [d]. */
const EXACT_UP_TO = 2 ** 53 / TICKS_PER_DAY;
/** Then each of a million bookings, at most, is rounded to 1.1e-16 of what they come to. */
const ROUNDED = 1.1e-10;

/** Every hole-day is in exactly one state. */
export function ledgerAddsUp({ plan, season }: Run): void {
  plan.stages.forEach((stage, s) => {
    const states = season.ledger.subarray(s * STATE_COUNT, (s + 1) * STATE_COUNT);
    states.forEach((days, k) => {
      expect(days, `${stage.name}: ${STATES[k]}`).toBeGreaterThanOrEqual(0);
    });
    const all = holesOf(stage) * seasonDays(plan);
    const sum = states.reduce((days, more) => days + more, 0);
    if (all <= EXACT_UP_TO) expect(sum).toBe(all);
    else expect(Math.abs(sum - all)).toBeLessThanOrEqual(ROUNDED * all);
  });
}

/** No seed and no plant is lost sight of, and the counts are those of the record. */
export function seedsAddUp({ plan, season, notes }: Run): void {
  const { counts } = season;
  const ends = counts[FAILED]! + counts[LOST]! + counts[DISCARDED]! + counts[PICKED_OUT]!;
  expect(counts[SOWN]).toBe(ends + counts[STANDING]!);
  const count = (deed: Note['deed']): number => notes.filter((note) => note.deed === deed).length;
  expect(counts[SOWN]).toBe(count('sow'));
  expect(counts[FAILED]).toBe(count('fail'));
  expect(counts[LOST]).toBe(count('die'));
  expect(counts[DISCARDED]).toBe(count('discard'));
  expect(counts[PICKED]).toBe(count('pick'));
  expect(season.weekPicks.reduce((sum, picks) => sum + picks, 0)).toBe(counts[PICKED]);
  const discards = new Float64Array(plan.stages.length * plan.weeks);
  for (const { t, deed, stage } of notes)
    if (deed === 'discard') discards[stage * plan.weeks + Math.floor(t / 7)]!++;
  expect(season.weekDiscards).toEqual(discards);
  const first = notes.find(({ deed }) => deed === 'pick');
  expect(season.firstPick).toBe(first === undefined ? Number.NaN : first.t);

  const lastVisit = plan.visits.kind === 'days' ? (plan.visits.days.at(-1) ?? -1) : Infinity;
  let due = 0;
  for (const { sowing } of plan.crops) {
    if (sowing.kind === 'refill') return;
    due +=
      sowing.seeds * sowing.days.filter((t) => toGrid(t) < seasonDays(plan) && toGrid(t) <= lastVisit).length;
  }
  expect(counts[SOWN]! + counts[UNSOWN]!).toBe(due);
}

/** What was wanted was picked or is short; nothing is picked that nobody wants. */
export function shortIsWantedLessPicked({ plan, season, notes }: Run): void {
  const { counts } = season;
  const { want } = plan;
  if (want === null) {
    expect(counts[WANTED]).toBe(0);
    expect(counts[SHORT]).toBe(0);
    return;
  }
  expect(counts[WANTED]).toBe(want.heads * want.days.filter((day) => day < seasonDays(plan)).length);
  expect(counts[SHORT]).toBe(counts[WANTED]! - counts[PICKED]!);
  const picks = new Map<number, number>();
  for (const { t, deed } of notes) {
    if (deed === 'pick') picks.set(Math.floor(t), (picks.get(Math.floor(t)) ?? 0) + 1);
  }
  for (const [day, heads] of picks) {
    expect(want.days).toContain(day);
    expect(heads).toBeLessThanOrEqual(want.heads);
  }
}

/** A hole holds one plant at most, a plant stands in one hole, and a hole rests for its cleaning days. */
export function noHoleIsHeldTwice({ plan, notes }: Run): void {
  const heldBy = new Map<number, number>();
  const holeOf = new Map<number, number>();
  const freeAgain = new Map<number, number>();
  const firstHole = plan.stages.map((_, s) =>
    plan.stages.slice(0, s).reduce((sum, stage) => sum + holesOf(stage), 0),
  );
  const cutsLeft = new Map<number, number>();
  const leave = (hole: number, t: number, stage: number): void => {
    holeOf.delete(heldBy.get(hole)!);
    heldBy.delete(hole);
    freeAgain.set(hole, t + plan.stages[stage]!.cleanDays);
  };
  for (const { t, deed, plant, crop, stage, hole } of notes) {
    if (deed === 'sow' || deed === 'move') {
      const place = hole - firstHole[stage]!;
      demand(place >= 0 && place < holesOf(plan.stages[stage]!), `hole ${hole} is not in stage ${stage}`);
      if (deed === 'move') leave(holeOf.get(plant)!, t, stage - 1);
      else cutsLeft.set(plant, plan.crops[crop]!.cuts);
      demand(!heldBy.has(hole), `hole ${hole} is held already at ${t}`);
      demand(t >= (freeAgain.get(hole) ?? 0), `hole ${hole} is being cleaned at ${t}`);
      heldBy.set(hole, plant);
      holeOf.set(plant, hole);
      continue;
    }
    demand(holeOf.get(plant) === hole, `plant ${plant} is not in hole ${hole} at ${t}`);
    if (deed === 'discard' || deed === 'clear') leave(hole, t, stage);
    if (deed === 'pick') {
      cutsLeft.set(plant, cutsLeft.get(plant)! - 1);
      if (cutsLeft.get(plant) === 0) leave(hole, t, stage);
    }
  }
}

/** Time runs forward, and hands are laid on plants on visit days only. */
export function nothingIsDoneBetweenVisits({ plan, notes }: Run): void {
  const visits = plan.visits.kind === 'days' ? new Set(plan.visits.days) : null;
  let now = 0;
  for (const { t, deed } of notes) {
    demand(t >= now && t < seasonDays(plan), `${t} after ${now}`);
    now = t;
    const byItself = deed === 'ripen' || deed === 'die' || deed === 'fail';
    demand(byItself || visits === null || visits.has(t), `${deed} at ${t}, when nobody was there`);
  }
}

/** Of the ready plants of a stage, the one that has been ready longest goes first; ties: the lower number. */
export function longestReadyFirst({ notes }: Run): void {
  const readySince = new Map<number, Map<number, number>>();
  const readyIn = (stage: number): Map<number, number> => {
    if (!readySince.has(stage)) readySince.set(stage, new Map());
    return readySince.get(stage)!;
  };
  for (const { t, deed, plant, stage } of notes) {
    if (deed === 'ripen') readyIn(stage).set(plant, t);
    if (deed === 'discard') readyIn(stage).delete(plant);
    if (deed !== 'pick' && deed !== 'move') continue;
    const ready = readyIn(deed === 'move' ? stage - 1 : stage);
    const mine = ready.get(plant)!;
    for (const [other, since] of ready) {
      demand(since > mine || (since === mine && other >= plant), `${plant} before ${other} at ${t}`);
    }
    ready.delete(plant);
  }
}

/** With `visits: always`, a ready plant waits only if the next stage is full, and nothing is left unattended. */
export function nobodyWaitsBesideAFreeHole({ plan, notes, season }: Run): void {
  const stages = plan.stages.length;
  for (let s = 0; s < stages; s++) {
    expect(season.ledger[s * STATE_COUNT + UNATTENDED]).toBe(0);
    expect(season.ledger[s * STATE_COUNT + UNTENDED]).toBe(0);
  }
  const ready = new Array<number>(stages).fill(0);
  const held = new Array<number>(stages).fill(0);
  const cutsLeft = new Map<number, number>();
  let now = 0;
  const check = (): void => {
    for (let s = 0; s + 1 < stages; s++) {
      if (plan.stages[s + 1]!.cleanDays > 0) continue;
      demand(ready[s] === 0 || held[s + 1] === holesOf(plan.stages[s + 1]!), `waiting in ${s} at ${now}`);
    }
  };
  for (const { t, deed, plant, crop, stage } of notes) {
    if (t > now) check();
    now = t;
    if (deed === 'sow') {
      held[0]!++;
      cutsLeft.set(plant, plan.crops[crop]!.cuts);
    } else if (deed === 'ripen') ready[stage]!++;
    else if (deed === 'move') {
      ready[stage - 1]!--;
      held[stage - 1]!--;
      held[stage]!++;
    } else if (deed === 'discard') {
      ready[stage]!--;
      held[stage]!--;
    } else if (deed === 'clear') held[stage]!--;
    else if (deed === 'pick') {
      ready[stage]!--;
      cutsLeft.set(plant, cutsLeft.get(plant)! - 1);
      if (cutsLeft.get(plant) === 0) held[stage]!--;
    }
  }
  check();
  expect(held.reduce((sum, holes) => sum + holes, 0)).toBe(season.counts[STANDING]);
}

/**
 * Little's law as an identity: the hole-days of a stage in a state are the days that its plants spent in it, added
 * up plant by plant, each cut off at the end of the season.
 */
export function littlesLaw({ plan, season, notes }: Run): void {
  const end = seasonDays(plan);
  const last = plan.stages.length - 1;
  const booked = new Float64Array(plan.stages.length * STATE_COUNT);
  const book = (stage: number, state: number, days: number): void => {
    booked[stage * STATE_COUNT + state]! += days;
  };
  const seenFrom = (t: number): number => {
    if (plan.visits.kind === 'always') return t;
    return plan.visits.days.find((day) => day >= t) ?? end;
  };
  const state = new Map<number, { since: number; stage: number; ready: boolean; dead: boolean }>();
  const finish = (plant: number, t: number): void => {
    const { since, stage, ready, dead } = state.get(plant)!;
    if (dead) book(stage, DEAD, t - since);
    else if (!ready) book(stage, GROWING, t - since);
    else {
      const seen = Math.min(seenFrom(since), t);
      book(stage, UNATTENDED, seen - since);
      book(stage, stage === last ? HELD : BLOCKED, t - seen);
    }
    state.delete(plant);
  };
  const cutsLeft = new Map<number, number>();
  for (const { t, deed, plant, crop, stage } of notes) {
    if (state.has(plant)) finish(plant, t);
    if (deed === 'sow') cutsLeft.set(plant, plan.crops[crop]!.cuts);
    if (deed === 'discard' || deed === 'clear') continue;
    if (deed === 'pick') {
      cutsLeft.set(plant, cutsLeft.get(plant)! - 1);
      if (cutsLeft.get(plant) === 0) continue;
    }
    const dead = deed === 'die' || deed === 'fail';
    state.set(plant, { since: t, stage, ready: deed === 'ripen', dead });
  }
  for (const plant of [...state.keys()]) finish(plant, end);
  for (let s = 0; s <= last; s++) {
    for (const k of [GROWING, DEAD, UNATTENDED, BLOCKED, HELD]) {
      expect(season.ledger[s * STATE_COUNT + k], `${plan.stages[s]!.name}: ${STATES[k]}`).toBe(
        booked[s * STATE_COUNT + k],
      );
    }
  }
}

/** Days that the k-th plant of a crop to enter each stage grew there and how that ended, in order of entry. */
export function growthByEntry(notes: readonly Note[], crop: number, stage: number): string[] {
  const entered = notes.filter(
    (note) => note.crop === crop && note.stage === stage && (note.deed === 'sow' || note.deed === 'move'),
  );
  const ends = new Map<number, Note>();
  for (const note of notes) {
    const over = note.deed === 'ripen' || note.deed === 'die' || note.deed === 'fail';
    if (over && note.stage === stage && !ends.has(note.plant)) ends.set(note.plant, note);
  }
  return entered.map(({ plant, t }) => {
    const over = ends.get(plant);
    return over === undefined ? 'still growing' : `${over.deed} after ${over.t - t}`;
  });
}
