/** At the end of a season: what its stays come to, as a row of figures (see takes.ts). */

import { DISCARDED, FAILED, LOST } from '../ledger.js';
import { pickL, plantL } from '../physical/line-matter.js';
import { seasonDays } from '../plan.js';
import { inUnits } from '../takes.js';
import type { Holes } from './holes.js';
import { readyOf, type Stage } from './stage.js';
import type { StayPlan } from './stay-kinds.js';
import type { StaySums } from './stay-sums.js';

/** @param row to be filled @param counts of the season @returns litres used; 0 where it is not told */
export function tellTakes(
  row: Float64Array,
  by: StayPlan,
  sums: StaySums,
  stages: readonly Stage[],
  holes: Holes,
  counts: Float64Array,
): number {
  tellDeeds(row, by, sums, stages, counts);
  return by.kinds.length > 0 ? tellStays(row, by, sums, stages, holes) : 0;
}

function tellDeeds(
  row: Float64Array,
  { plan, columns }: StayPlan,
  { begun, picked }: StaySums,
  stages: readonly Stage[],
  counts: Float64Array,
): void {
  const crops = plan.crops.length;
  for (let c = 0; c < crops; c++) {
    row[columns.sown(c)] = begun[stages[0]!.place * crops + c]!;
    row[columns.picked(c)] = picked[c]!;
  }
  let moved = 0;
  let cleaned = 0;
  let cleared = counts[FAILED]! + counts[LOST]! + counts[DISCARDED]!;
  for (const stage of stages) {
    let come = 0;
    for (let c = 0; c < crops; c++) come += begun[stage.place * crops + c]!;
    if (stage.before !== null) moved += come;
    // Whoever came and is not here has left the hole.
    if (stage.cleanDays > 0) cleaned += come - stage.growing - stage.ready - stage.dead;
    cleared -= stage.dead;
  }
  row[columns.moved] = moved;
  row[columns.cleared] = cleared;
  row[columns.cleaned] = cleaned;
}

function tellStays(
  row: Float64Array,
  { plan, matter, columns, kinds }: StayPlan,
  sums: StaySums,
  stages: readonly Stage[],
  holes: Holes,
): number {
  const { begun, days, deadCover, deadLayers, thrownL, picked, failing, spans } = sums;
  const crops = plan.crops.length;
  const end = seasonDays(plan);
  const { waterScale } = matter.physical;
  let standing = 0;
  let thrown = 0;
  let off = 0;
  for (const stage of stages) {
    const s = stage.place;
    let cover = deadCover[s]!;
    let layers = deadLayers[s]!;
    let waiting = 0;
    for (const crop of stage.crops) {
      const kind = kinds[s * crops + crop.c];
      if (kind == null) continue;
      const ready = readyOf(crop, holes);
      cover += days[s * crops + crop.c]! * kind.cover;
      layers += days[s * crops + crop.c]! * kind.layers;
      waiting += sums.waitedBy(s * crops + crop.c, ready, end) * kind.readyL;
      standing += ready * kind.toL;
      const again = stages.length * crops + crop.c;
      const cut = kinds[again] ?? null;
      if (stage.next !== null || cut === null) continue;
      cover += days[again]! * cut.cover;
      layers += days[again]! * cut.layers;
      // What is left of a plant after its last cut.
      thrown += (picked[crop.c]! - begun[again]!) * cut.fromL;
    }
    for (let hole = stage.first; hole < stage.beyond; hole++) {
      const drawn = Math.abs(spans[2 * hole]!);
      const since = spans[2 * hole + 1]!;
      if (since + drawn <= end || drawn === 0) continue;
      // It grows still. Unless it is to die, it was booked as if it were to end ripe.
      const u = (end - since) / drawn;
      const { curve, cover: f, layers: g } = kinds[sums.kindOf(holes, stage, hole)]!;
      const booked = spans[2 * hole]! > 0 ? 1 : 0;
      cover += drawn * (curve.coverTime(u) - booked * f);
      layers += drawn * (curve.leafTime(u) - booked * g);
      standing += plantL(matter, holes.cropOf[hole]!, curve.massG(u));
    }
    thrown += thrownL[s]!;
    const { water, areaM2 } = matter.stages[s]!;
    row[columns.leafDays(s)] = inUnits(Math.max(0, cover), columns.units[columns.leafDays(s)]!);
    if (water === null) continue;
    const here = waterScale * areaM2! * (water.day.cover * cover + water.day.leaf * layers) + waiting;
    row[columns.transpired(s)] = inUnits(Math.max(0, here), columns.units[columns.transpired(s)]!);
    off += here;
  }
  let kept = standing + thrown;
  for (let c = 0; c < crops; c++) {
    const { fromL } = kinds[stages[0]!.place * crops + c]!;
    standing += failing[c]! * fromL;
    kept +=
      failing[c]! * fromL - begun[stages[0]!.place * crops + c]! * fromL + picked[c]! * pickL(matter, c);
  }
  row[columns.standing] = inUnits(standing, columns.units[columns.standing]!);
  row[columns.thrownOut] = inUnits(thrown, columns.units[columns.thrownOut]!);
  return off + kept;
}
