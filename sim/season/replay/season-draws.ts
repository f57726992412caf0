/**
 * A season's own luck: what its plants were seen to do, as draws for the simulator.
 *
 * The k-th plant of a crop to enter a stage gets the time and the fate of the k-th that was seen to enter it, whatever
 * the plan. Plants beyond the number seen get the fate of one of those, drawn anew (the same at every call for the same
 * seed). If no plant of a crop was ever seen in a stage, the plan's own distributions are drawn from.
 */

import type { Draws } from '../../models/growth.js';
import { planDraws } from '../../models/line/line.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { Readiness } from '../history/readiness.js';
import { StageCompletion } from './completion.js';
import { drawsOfCohorts, type ObservedDraws } from './observed-draws.js';
import { regrowthDraws } from './regrowth-draws.js';
import type { SeenDraws } from './season-pasts.js';

export interface SeasonDraws {
  /** For `Line`. */
  readonly drawsOf: (crop: number, stage: number) => Draws;
  /** Share of the last season's draws that had not been seen. */
  beyond(): number;
  /** The same season with other fates of a crop in a stage. */
  changed(change: (draws: ObservedDraws, crop: number, stage: number) => ObservedDraws): SeasonDraws;
}

/** One way in which what was not seen can have been. */
export interface Way {
  readonly number: number;
  readonly seen: SeenDraws;
}

/**
 * @param readiness of each stage
 * @param way null: what was not seen is chosen evenly over what is likely
 */
export function seasonDraws(
  season: LoggedSeason,
  cohorts: CohortsByStage,
  readiness: readonly Readiness[],
  way: Way | null = null,
): SeasonDraws {
  const { plan } = season;
  const stages = plan.stages.length;
  const seen: (ObservedDraws | null)[][] = plan.crops.map((crop, c) => {
    const luck = cohorts.slice(0, stages).map((list, s) => {
      const past = way === null ? null : way.seen[c]![s];
      if (past) return past;
      const mine = list.filter((cohort) => cohort.crop === c && cohort.since === null);
      if (mine.length === 0) return null;
      const name = [crop.name, plan.stages[s]!.name];
      const own = way && new StageCompletion(way.number, plan, c, s);
      return drawsOfCohorts(mine, name, readiness[s]!, crop.stages[s]!, own);
    });
    const last = route.last(crop);
    return [...luck, regrowthDraws(season, cohorts, readiness[last]!, c, luck[last]!)];
  });
  return drawsFrom(seen, plan);
}

/** @param seen of each crop: its stages, and behind them growth after a pick */
function drawsFrom(seen: SeenDraws, plan: Plan): SeasonDraws {
  const fromPlan = planDraws(plan);
  return {
    drawsOf: (crop, stage) => seen[crop]![stage] ?? fromPlan(crop, stage),
    beyond: () => {
      const drawn = seen.flat().filter((luck) => luck !== null);
      const taken = drawn.reduce((sum, luck) => sum + luck.taken, 0);
      return taken === 0 ? 0 : drawn.reduce((sum, luck) => sum + luck.beyond, 0) / taken;
    },
    changed: (change) =>
      drawsFrom(
        seen.map((mine, c) =>
          mine.map((draws, s) => (draws !== null && s < plan.stages.length ? change(draws, c, s) : draws)),
        ),
        plan,
      ),
  };
}
