/**
 * The water of a stay as a table over its progress, for a line that asks for it at every visit.
 *
 * A stay drawn as T days has used T x S(u) + M(u) litres at progress u: what it gave off, and what stays in the plant. Both are smooth but
 * where the seedling shows and where leaf layers no longer count, so knots lie there; between knots they are cubics with the right
 * value and slope at both ends (Hermite). Their error falls with the fourth power of the knots' distance: see KNOTS.
 */

import { inverseSoftplus } from '../../engine/softplus.js';
import { type CoverCurve, coverPerG, LEAF_LAYERS } from './cover.js';
import { leafOf, plantWaterMl } from './tissue.js';
import type { WaterPace } from './transpiration.js';

/** Cells of each of the two stretches: an error below 1e-9 of the whole stay's water where L climbs by 20 (tested). */
export const KNOTS = 256;
/** Numbers of a cell: two cubics. */
export const PER_CELL = 8;
/** Numbers of a stay before its cells: the two bends, and cells per progress before and after the second. */
export const HEAD = 4;
/** Numbers of a stay. */
export const STAY_SIZE = HEAD + 2 * KNOTS * PER_CELL;

export interface StayWater {
  readonly curve: CoverCurve;
  /** Litres a day and m2, scaled. */
  readonly day: WaterPace;
  /** Dry share of fresh mass, and cm2 of a gram of dry leaf. */
  readonly dry: number;
  readonly slaCm2G: number;
}

/** Write the table of a stay at `at`; to be read by `tableLitres`. */
export function writeStayTable(table: Float64Array, at: number, stay: StayWater): void {
  const { curve } = stay;
  const shows = curve.showsAt;
  const full = Math.max(shows, fullLeafAt(curve));
  table[at] = shows;
  table[at + 1] = full;
  table[at + 2] = full > shows ? KNOTS / (full - shows) : 0;
  table[at + 3] = full < 1 ? KNOTS / (1 - full) : 0;
  if (full > shows) writeStretch(table, at + HEAD, stay, shows, full);
  if (full < 1) writeStretch(table, at + HEAD + KNOTS * PER_CELL, stay, full, 1);
}

/** What of a stay's water is used by progress `u` [L]. @param days drawn for it [d] @param u [0..1] */
export function tableLitres(table: Float64Array, at: number, days: number, u: number): number {
  if (u <= table[at]!) return 0;
  const late = u >= table[at + 1]! && table[at + 3]! > 0;
  const along = (u - (late ? table[at + 1]! : table[at]!)) * (late ? table[at + 3]! : table[at + 2]!);
  const cell = Math.min(KNOTS - 1, Math.floor(along));
  const x = along - cell;
  const i = at + HEAD + ((late ? KNOTS : 0) + cell) * PER_CELL;
  const off = table[i]! + x * (table[i + 1]! + x * (table[i + 2]! + x * table[i + 3]!));
  const kept = table[i + 4]! + x * (table[i + 5]! + x * (table[i + 6]! + x * table[i + 7]!));
  return days * off + kept;
}

function writeStretch(table: Float64Array, at: number, stay: StayWater, from: number, to: number): void {
  const { curve, day, dry, slaCm2G } = stay;
  const width = (to - from) / KNOTS;
  const area = curve.areaM2;
  const perG = coverPerG(leafOf(slaCm2G), area);
  const climb =
    (inverseSoftplus(perG * curve.toG) - inverseSoftplus(perG * curve.fromG)) / (1 - curve.showsAt);
  const litresAG = plantWaterMl(1, dry) / 1000;
  const off = (u: number): number => area * (day.cover * curve.coverTime(u) + day.leaf * curve.leafTime(u));
  const kept = (u: number): number => litresAG * (curve.massG(u) - curve.fromG);
  // Slopes: where the stretch begins the seedling shows already, though `cover` at the very instant tells of none yet.
  const coverAt = (u: number): number => curve.cover(u === curve.showsAt ? u + Number.EPSILON : u);
  const layersAt = (u: number): number => curve.leafLayers(u === curve.showsAt ? u + Number.EPSILON : u);
  const offSlope = (u: number): number => width * area * (day.cover * coverAt(u) + day.leaf * layersAt(u));
  const keptSlope = (u: number): number => (width * litresAG * coverAt(u) * climb) / perG;
  for (let cell = 0; cell < KNOTS; cell++) {
    const u = from + cell * width;
    const v = cell === KNOTS - 1 ? to : from + (cell + 1) * width;
    writeCubic(table, at + cell * PER_CELL, off(u), off(v), offSlope(u), offSlope(v));
    writeCubic(table, at + cell * PER_CELL + 4, kept(u), kept(v), keptSlope(u), keptSlope(v));
  }
}

/** The cubic over 0 to 1 with these values and slopes at the ends. */
function writeCubic(
  table: Float64Array,
  at: number,
  from: number,
  to: number,
  out: number,
  into: number,
): void {
  const rise = to - from;
  table[at] = from;
  table[at + 1] = out;
  table[at + 2] = 3 * rise - 2 * out - into;
  table[at + 3] = out + into - 2 * rise;
}

/** Progress at which no more leaf layers count [0..1]; 1 if some never do. Layers grow with progress, so it is shut in between two. */
function fullLeafAt(curve: CoverCurve): number {
  if (curve.leafLayers(1) < LEAF_LAYERS) return 1;
  let least = 0;
  let most = 1;
  for (;;) {
    const middle = (least + most) / 2;
    if (middle <= least || middle >= most) return most;
    if (curve.leafLayers(middle) < LEAF_LAYERS) least = middle;
    else most = middle;
  }
}
