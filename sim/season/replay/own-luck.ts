/**
 * A season's own luck: what its plants were seen to do, as draws for the simulator.
 *
 * The k-th plant of a crop to enter a stage gets the time and the fate of the k-th that was seen to enter it, whatever
 * the plan. Plants beyond the number seen get the fate of one of those, drawn anew (the same at every call for the same
 * seed). If no plant of a crop was ever seen in a stage, the plan's own distributions are drawn from.
 */

import { GrowingTime } from '../../models/growing-time.js';
import type { Draws } from '../../models/growth.js';
import { planLuck } from '../../models/line.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { Lots } from '../history/stays.js';
import type { Readiness } from './readiness.js';
import { regrowthLuck } from './regrowth-luck.js';
import { fillLot, plantsIn, SeenLuck } from './seen-luck.js';

export interface OwnLuck {
  /** For `Line`. */
  readonly luckOf: (crop: number, stage: number) => Draws;
  /** Share of the last season's draws that had not been seen. */
  beyond(): number;
}

/** @param readiness of each stage */
export function ownLuck(season: LoggedSeason, lots: Lots, readiness: readonly Readiness[]): OwnLuck {
  const { plan } = season;
  const stages = plan.stages.length;
  const fromPlan = planLuck(plan);
  const seen: (SeenLuck | null)[][] = plan.crops.map((crop, c) => {
    const likely = crop.stages.map(({ time }) => new GrowingTime(time));
    const luck = lots.slice(0, stages).map((list, s) => {
      const mine = list.filter((lot) => lot.crop === c);
      if (mine.length === 0) return null;
      const draws = new SeenLuck(plantsIn(mine), [crop.name, plan.stages[s]!.name]);
      let at = 0;
      for (const lot of mine) {
        fillLot(draws, at, lot, readiness[s]!, likely[s]!);
        at += lot.count;
      }
      return draws;
    });
    return [...luck, regrowthLuck(season, lots, readiness.at(-1)!, c, luck.at(-1)!)];
  });
  return {
    luckOf: (crop, stage) => seen[crop]![stage] ?? fromPlan(crop, stage),
    beyond: () => {
      const drawn = seen.flat().filter((luck) => luck !== null);
      const taken = drawn.reduce((sum, luck) => sum + luck.taken, 0);
      return taken === 0 ? 0 : drawn.reduce((sum, luck) => sum + luck.beyond, 0) / taken;
    },
  };
}
