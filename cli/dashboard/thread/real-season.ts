/**
 * The season of a log as the dashboard shows it: a film of what stood, and why holes stood empty.
 *
 * A log tells how many plants stood in a stage, not in which hole. Plants are given holes as they came, the lowest free one
 * first, and leave in the order in which they came; so counts are real and places are made up.
 */

import { dayFrom } from '../../../sim/models/dates.js';
import { CLEANING, FILLING, GROWING, STATE_COUNT, UNSUPPLIED } from '../../../sim/models/ledger.js';
import { holesOf, holesOfLine, type Plan } from '../../../sim/models/plan.js';
import * as route from '../../../sim/models/route.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { causeOfSpell } from '../../../sim/season/replay/evidence.js';
import type { IdleSpell } from '../../../sim/season/replay/idle-spells.js';
import type { ReplayedStage, ReplayResult } from '../../../sim/season/replay/result.js';
import {
  blankFilm,
  Film,
  type FilmData,
  MOST_HOLES,
  WORK_CLEARED,
  WORK_MOVED,
  WORK_PICKED,
  WORK_SOWN,
  workWidth,
} from '../../../sim/study/film/film-data.js';
import { costText } from '../../words/causes.js';
import { causeText } from '../../words/idle.js';

/** Holes of a stage that stood empty for a while, and why. */
export interface Spell {
  readonly stage: string;
  /** First day and day after the last [d from the start]. */
  readonly from: number;
  readonly to: number;
  readonly holes: number;
  readonly cause: string;
}

export interface RealSeason {
  readonly film: Film;
  readonly spells: readonly Spell[];
  /** Picks of each week. */
  readonly picks: readonly number[];
}

export function realSeason(result: ReplayResult, plan: Plan, rows: readonly LogRow[]): RealSeason {
  return {
    film: new Film(filmed(result, plan, rows)),
    spells: result.idle.map((spell) => ({
      stage: spell.stage,
      from: dayFrom(plan.start, spell.from),
      to: dayFrom(plan.start, spell.to) + 1,
      holes: spell.holes,
      cause: `${causeText(spell.cause, spell.stage === plan.stages[route.first(plan)]!.name)}${costOf(spell, result)}`,
    })),
    picks: weekPicks(result, plan, rows),
  };
}

/** `, which cost 58 heads (52 to 63) in all`; nothing where no cost is told. */
function costOf(spell: IdleSpell, { causes, as_it_was }: ReplayResult): string {
  const cause = causeOfSpell(spell, causes);
  if (cause === null) return '';
  return as_it_was?.faithful
    ? `, which cost ${costText(cause.heads)} in all`
    : `, which cost perhaps [${costText(cause.heads)}] in all`;
}

/** By the weeks of the plan: a log that begins in the middle of the season counts its own. */
function weekPicks(result: ReplayResult, plan: Plan, rows: readonly LogRow[]): number[] {
  const weeks = Math.ceil((daysBefore(result, plan) + result.days) / 7);
  const picks = new Array<number>(weeks).fill(0);
  for (const { action, date, count } of rows) {
    if (action === 'pick') picks[Math.floor(dayFrom(plan.start, date) / 7)]! += count;
  }
  return picks;
}

/** Days of the plan before the log begins. */
function daysBefore(result: ReplayResult, plan: Plan): number {
  return dayFrom(plan.start, result.start);
}

function filmed(result: ReplayResult, plan: Plan, rows: readonly LogRow[]): FilmData {
  const holeCount = holesOfLine(plan);
  const before = daysBefore(result, plan);
  const data = blankFilm(plan.stages, before + result.days, holeCount <= MOST_HOLES);
  let firstHole = 0;
  plan.stages.forEach((stage, s) => {
    const holes = holesOf(stage);
    placed(result.stages[s]!, holes, before, (day, states) => {
      data.holes?.set(states, day * holeCount + firstHole);
      for (const state of states) data.counts[(day * plan.stages.length + s) * STATE_COUNT + state]!++;
    });
    firstHole += holes;
  });
  deal(data, plan, rows);
  return data;
}

/**
 * Show the states of the holes of a stage after the work of each day, one hole an entry.
 * @param before days of which the log does not tell
 */
function placed(
  stage: ReplayedStage,
  holes: number,
  before: number,
  show: (day: number, states: Uint8Array) => void,
): void {
  const states = new Uint8Array(holes);
  /** Holes that hold a plant, the one that came first in front. */
  const held: number[] = [];
  const taken = new Uint8Array(holes);
  let seen = false;
  for (let day = 0; day < before; day++) show(day, states.fill(FILLING));
  for (let day = 0; day <= stage.standing.length; day++) {
    // The last picture is the end of the last day.
    const at = Math.min(day, stage.standing.length - 1);
    const standing = Math.min(holes, stage.standing[at]!);
    seen ||= standing > 0;
    while (held.length > standing) taken[held.shift()!] = 0;
    for (let hole = 0; held.length < standing; hole++) {
      if (taken[hole] === 1) continue;
      taken[hole] = 1;
      held.push(hole);
    }
    let cleaning = stage.cleaning[at]!;
    for (let hole = holes - 1; hole >= 0; hole--) {
      if (taken[hole] === 1) states[hole] = GROWING;
      else if (cleaning-- > 0) states[hole] = CLEANING;
      else states[hole] = seen ? UNSUPPLIED : FILLING;
    }
    show(before + day, states);
  }
}

/** Put what was done on each date into the film. */
function deal(data: FilmData, plan: Plan, rows: readonly LogRow[]): void {
  const width = workWidth(plan.stages.length);
  const names = plan.stages.map(({ name }) => name);
  for (const { date, action, stage, count } of rows) {
    const day = dayFrom(plan.start, date);
    if (day < 0 || day > data.days) continue;
    data.visits[day] = 1;
    const at = day * width;
    if (action === 'sow') data.work[at + WORK_SOWN]! += count;
    if (action === 'pick') data.work[at + WORK_PICKED]! += count;
    if (action === 'lose') data.work[at + WORK_CLEARED]! += count;
    if (action === 'move') data.work[at + WORK_MOVED + names.indexOf(stage)]! += count;
  }
}
