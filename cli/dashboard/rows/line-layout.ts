/**
 * Which stage gets how much room, and whether it is drawn hole by hole or as shares. Depends on the stages and the size of the screen
 * only, so that nothing moves while a season runs, nor when its film comes or another one.
 */

import * as route from '../../../sim/models/route.js';
import { widthOf } from '../../render/width.js';
import { thousands } from '../../words/numbers.js';
import { FAIR_NAME } from './rows.js';
import { type Arrangement, arrangements, type Channels } from './stage.js';

/** What there is to draw: a film, or the line of which one is being made. */
export interface LineShape {
  readonly stages: readonly (Channels & { readonly name: string; readonly holes: number })[];
  /** null: only how many holes are in which state is known. */
  readonly holes: unknown;
}

export interface StagePlace {
  /** Place of the stage in the line. */
  readonly stage: number;
  readonly width: number;
  /** null: drawn as shares. */
  readonly arrangement: Arrangement | null;
}

/** Stages beside each other. */
export interface Band {
  readonly places: readonly StagePlace[];
  /** Rows below the names. */
  readonly body: number;
}

export interface LineLayout {
  readonly bands: readonly Band[];
  /** Rows for the name of a stage: 1, or 2 with a count below it. */
  readonly names: 1 | 2;
  readonly height: number;
}

/** Columns between two stages. */
export const GAP = 3;
/** Columns of a stage that is drawn as shares: at least, and where there is plenty of room. */
const SHARES = 14;
const WIDE_SHARES = 34;
/** Rows of a stage that is drawn as shares, at most: it seldom shows more states, and the last row has all that are left. */
const SHARE_ROWS = 6;
/** Columns behind a name, besides the digits: ` ─ ` before the number, ` →` behind it. */
export const STREAM = 5;
/** Columns of the sign behind the name of a stage that holds the line back. */
export const HOLDS = 2;
/** Columns of a name, at least. */
const NAME = 8;

/** @returns null if the stages do not find room: too many for so small a screen */
export function lineLayout(line: LineShape, width: number, height: number, names: 1 | 2): LineLayout | null {
  const least = leastWidth(line);
  const perBand = Math.max(1, Math.floor((width + GAP) / (least + GAP)));
  const bandCount = Math.ceil(line.stages.length / perBand);
  const room = Math.floor(height / bandCount) - names;
  if (room < 1 || least > width) return null;
  const perEven = Math.ceil(line.stages.length / bandCount);
  const bands: Band[] = [];
  for (let from = 0; from < line.stages.length; from += perEven) {
    const stages = line.stages.slice(from, from + perEven).map((_, i) => from + i);
    bands.push(bestBand(line, stages, width, room));
  }
  return { bands, names, height: bands.reduce((sum, { body }) => sum + body + names, 0) };
}

/** Columns of the largest number that stands between two stages: no more plants than holes. */
export function workDigits({ stages }: LineShape): number {
  return thousands(Math.max(...stages.map(({ holes }) => holes))).length;
}

/** Columns of the name of a stage, `most` of it, what was sown before the first, and what goes on behind it. */
function nameWidth(line: LineShape, stage: number, holds = 0, most = Number.POSITIVE_INFINITY): number {
  const digits = workDigits(line);
  const sown = stage === route.first(line) ? digits + 3 : 0;
  return sown + Math.min(most, widthOf(line.stages[stage]!.name)) + holds + digits + STREAM;
}

/** Columns that any stage takes: its shares, and its name with the number of plants that go on. */
function leastWidth(line: LineShape): number {
  return Math.max(SHARES, NAME + 2 * workDigits(line) + STREAM - GAP);
}

/** The lowest band that draws as well as `room` rows allow. */
function bestBand(line: LineShape, stages: readonly number[], width: number, room: number): Band {
  let best: { band: Band; merits: readonly number[] } | null = null;
  for (let body = 1; body <= room; body++) {
    const band = { places: placed(line, stages, width, body), body };
    const merits = meritsOf(band);
    if (best === null || isBetter(merits, best.merits)) best = { band, merits };
  }
  return best!.band;
}

/** What makes a band good, the most important first. */
function meritsOf({ places, body }: Band): number[] {
  const drawn = places.flatMap(({ arrangement }) => (arrangement === null ? [] : [arrangement]));
  const shares = places.filter(({ arrangement }) => arrangement === null);
  return [
    drawn.length,
    shares.length * Math.min(body, SHARE_ROWS),
    drawn.filter(({ rowsPerChannel }) => rowsPerChannel === 1).length,
    drawn.reduce((sum, { pitch }) => sum + pitch, 0),
    -drawn.reduce((sum, { blocks }) => sum + blocks, 0),
  ];
}

function isBetter(merits: readonly number[], before: readonly number[]): boolean {
  for (const [i, merit] of merits.entries()) if (merit !== before[i]) return merit > before[i]!;
  return false;
}

/** The stages of a band beside each other, as good as `width` columns and `body` rows allow. */
function placed(line: LineShape, stages: readonly number[], width: number, body: number): StagePlace[] {
  const choices = stages.map((s) =>
    line.holes === null ? [] : arrangements(line.stages[s]!, body, pitchOf(line, s)),
  );
  const smallest = choices.map(narrowest);
  const room = width - (stages.length - 1) * GAP;
  // Whole names where that leaves every stage hole by hole; else names may be cut.
  const [wanted, bare] = [HOLDS, 0].map((holds) =>
    stages.map((s) => Math.max(leastWidth(line), nameWidth(line, s, holds))),
  ) as [number[], number[]];
  const cut = stages.map((s) => Math.max(leastWidth(line), nameWidth(line, s, HOLDS, FAIR_NAME)));
  const least =
    [wanted, bare, cut].find((widths) => sum(widthsOf(smallest, widths)) <= room) ??
    stages.map(() => leastWidth(line));
  const chosen = loosened(fitting(smallest, least, room), choices, least, room);
  const widths = widthsOf(chosen, least);
  spread(widths, [cut, wanted], chosen, room - sum(widths));
  return stages.map((stage, i) => ({ stage, arrangement: chosen[i]!, width: widths[i]! }));
}

type Chosen = readonly (Arrangement | null)[];

/** Columns of each stage: its arrangement, or what its name and its shares need. */
function widthsOf(chosen: Chosen, least: readonly number[]): number[] {
  return chosen.map((one, i) => Math.max(least[i]!, one?.width ?? 0));
}

/** As shares where they do not fit hole by hole, the widest first. */
function fitting(chosen: Chosen, least: readonly number[], room: number): Chosen {
  const widths = widthsOf(chosen, least);
  if (sum(widths) <= room || chosen.every((one) => one === null)) return chosen;
  const drawn = widths.map((one, i) => (chosen[i] === null ? 0 : one));
  const widest = drawn.indexOf(Math.max(...drawn));
  return fitting(
    chosen.map((one, i) => (i === widest ? null : one)),
    least,
    room,
  );
}

/** The room that is left goes to wider spacing, a step for every stage before the next step. */
function loosened(
  fitted: Chosen,
  choices: readonly (readonly Arrangement[])[],
  least: readonly number[],
  room: number,
): Chosen {
  const chosen = [...fitted];
  for (const pitch of [1, 2, 3]) {
    for (const [i, now] of chosen.entries()) {
      if (now === null) continue;
      const others = sum(widthsOf(chosen, least)) - Math.max(least[i]!, now.width);
      const fits = (one: Arrangement): boolean => others + Math.max(least[i]!, one.width) <= room;
      chosen[i] = choices[i]!.find((one) => one.pitch <= pitch && fits(one)) ?? now;
    }
  }
  return chosen;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0);
}

/**
 * What is still left goes to names that are cut, those of which hardly anything is left first, then to the shares, whose bars get longer, then to all
 * stages alike.
 */
function spread(
  widths: number[],
  wanted: readonly (readonly number[])[],
  chosen: Chosen,
  spare: number,
): void {
  let left = spare;
  for (const isPoor of [
    ...wanted.map((some) => (i: number) => widths[i]! < some[i]!),
    (i: number) => chosen[i] === null && widths[i]! < WIDE_SHARES,
    () => true,
  ]) {
    for (;;) {
      const poor = widths.flatMap((_, i) => (isPoor(i) ? [i] : []));
      if (poor.length === 0 || left < poor.length) break;
      for (const i of poor) widths[i]!++;
      left -= poor.length;
    }
  }
}

function narrowest(choices: readonly Arrangement[]): Arrangement | null {
  return [...choices].sort((a, b) => a.width - b.width)[0] ?? null;
}

/** Plants stand close together where they begin and get wider holes on their way: so do the signs. */
function pitchOf(line: LineShape, stage: number): 1 | 2 | 3 {
  if (route.isLast(line, stage)) return 3;
  return stage === route.first(line) ? 1 : 2;
}
