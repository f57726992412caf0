/**
 * What each cause cost: what the same season gives without it, all else as it was, less what it gives as it was.
 *
 * Both are simulated, with the same luck: growing times and fates as the log shows them. What the log leaves open (when within
 * its limits a plant became ready, what becomes of plants that would have come in beyond those seen) is drawn several times, so
 * that a cost comes with an interval. Causes overlap, so what all of them cost together is simulated too.
 */

import { meanOf } from '../../engine/lists.js';
import { studentQuantile } from '../../engine/student.js';
import { Moments } from '../../engine/tally.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { Readiness } from '../history/readiness.js';
import type { ShortVisits } from '../history/short-visits.js';
import type { IdleEvidence } from './causes.js';
import { followed } from './followed.js';
import { type SowingVisit, sowingVisits } from './intended-sowings.js';
import { otherFates } from './other-fates.js';
import { changesFates, planWithout, type Removal, together } from './removals.js';
import { channelsMore, type SeasonCause, type Suspect, suspects } from './season-causes.js';
import { type SeasonDraws, seasonDraws } from './season-draws.js';
import { SeasonPasts } from './season-pasts.js';
import { departure, FAITHFUL, headsIn, simulated } from './simulated.js';

/** Heads, with an interval that holds 95 in 100 of the ways in which what was not seen can have been. */
export interface Heads {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** A cause and what it cost. */
export type CostlyCause = SeasonCause & { readonly heads: Heads };

export interface Costs {
  /** Those that cost heads in 95 of 100 such ways, the dearest first. */
  readonly causes: readonly CostlyCause[];
  /** What all of them taken away together give; null if there is none. */
  readonly all_together: Heads | null;
  /** What happened and cost nothing that can be told. */
  readonly without_cost: readonly CostlyCause[];
  /** The season simulated as it was, without anything taken away; null where nothing could be tried. */
  readonly as_it_was: {
    readonly heads: number;
    /** Heads that it gives in another week than the log has them, or not at all. */
    readonly departs: number;
    /** Whether these are few enough for the costs to be those of this season. */
    readonly faithful: boolean;
  } | null;
}

/** Of a log that begins in the middle nothing is told: a season is simulated from an empty line on. */
export const NO_COSTS: Costs = { causes: [], all_together: null, without_cost: [], as_it_was: null };

/** Ways in which what was not seen can have been that are tried; fewer where a season has very many plants, which even out. */
const MOST_WAYS = 40;
const FEWEST_WAYS = 8;
/** Of these, those that are tried to find how many channels are enough. */
const WAYS_OF_A_SEARCH = 4;
/** Seeds of all of them together. */
const SEEDS = 100_000;
/**
 * Seeds of all ways together up to which they are kept. Where there are more, a way is drawn when it is needed, each time anew
 * (and always the same): kept, the eight ways of a million plants would take half a gigabyte.
 */
const MOST_KEPT = 1_000_000;
/** In so many of the ways at most a cause may have cost nothing to be told as one. */
const FREE = 0.05;

/** Share of what room for all would give at which a few channels are as good. */
const AS_GOOD = 0.9;

/** A plan that is tried, and what is taken away in it. */
interface Trial {
  readonly plan: Plan;
  readonly removal: Removal;
}

/** @param weeks heads of each week as they were @param each for how many plants one stands that is followed */
export function costs(
  evidence: IdleEvidence,
  readiness: readonly Readiness[],
  short: readonly ShortVisits[],
  weeks: readonly { readonly heads: number }[],
  each: number,
): Costs {
  const { season, attendance, stages, cohorts } = evidence;
  const { visits } = attendance;
  const sowings = sowingVisits(season, visits, stages[route.first(season.plan)]!.empty);
  const tried = suspects(
    evidence,
    sowings,
    seasonDraws(season, followed(cohorts, season.plan, each, 0), readiness),
  );
  const seeds = season.batches.reduce((sum, batch) => sum + batch.seeds, 0);
  const ways = Math.max(FEWEST_WAYS, Math.min(MOST_WAYS, Math.floor(SEEDS / Math.max(1, seeds))));
  function* drawn(of: number): Generator<SeasonDraws> {
    let lots = cohorts;
    let pasts: SeasonPasts | null = null;
    for (let number = 0; number < of; number++) {
      // Each way has a sample of its own, so that the interval tells what following but some leaves open.
      if (each > 1) lots = followed(cohorts, season.plan, each, number);
      if (each > 1 || pasts === null) pasts = new SeasonPasts(season, lots, visits, short, number);
      yield seasonDraws(season, lots, readiness, { number, seen: pasts.next() });
    }
  }
  const kept = each === 1 && ways * seeds > MOST_KEPT ? null : [...drawn(ways)];
  const byLog = (removal: Removal): Plan => planWithout(season, attendance, sowings, removal);
  const byRule = (removal: Removal): Plan =>
    planWithout(season, attendance, refilled(season, sowings), removal);
  /** Week picks of each trial, way by way: all trials of one way before the next, which may have to be drawn. */
  const run = (trials: readonly Trial[], of = ways): (readonly number[])[][] => {
    const picks = trials.map((): (readonly number[])[] => []);
    if (trials.length === 0) return picks;
    let way = 0;
    for (const own of kept?.slice(0, of) ?? drawn(of)) {
      for (const [i, { plan, removal }] of trials.entries()) {
        const luck = changesFates(removal) ? own.changed(otherFates(season.plan, removal, way)) : own;
        picks[i]!.push(simulated(plan, luck, each, way).weekPicks);
      }
      way++;
    }
    return picks;
  };
  const was = weeks.map(({ heads }) => heads);
  const departsFrom = (runs: readonly (readonly number[])[]): number =>
    meanOf(runs.map((picks) => departure(was, picks)));
  const asOneRun = (plan: Plan): (readonly number[])[] => run([{ plan, removal: {} }])[0]!;
  const logged = asOneRun(byLog({}));
  // Only of crops that are refilled the rule has other sowings than the log.
  const byOwnRule = refilled(season, sowings).includes(null);
  const ruled = byOwnRule ? asOneRun(byRule({})) : logged;
  // Where the plan's rule gives the season itself, it also says what would have been sown otherwise.
  const planOf = departsFrom(ruled) <= departsFrom(logged) ? byRule : byLog;
  const asItWas = planOf === byRule ? ruled : logged;
  const costsOf = (removals: readonly Removal[], of = ways): number[][] =>
    run(
      removals.map((removal) => ({ plan: planOf(removal), removal })),
      of,
    ).map((runs) => runs.map((picks, way) => headsIn(picks) - headsIn(asItWas[way]!)));
  const enough = ({ cause, removal }: Suspect): Suspect => {
    const [room] = removal.channels ?? [];
    if (cause.kind !== 'stage_before_full' || room === undefined) return { cause, removal };
    const gain = (more: number): number =>
      meanOf(costsOf([{ channels: [{ stage: room.stage, more }] }], WAYS_OF_A_SEARCH)[0]!);
    const most = gain(Infinity);
    return channelsMore(season.plan, room.stage, most > 0 ? leastWith(gain, AS_GOOD * most) : 1);
  };
  const enoughOf = tried.map(enough);
  const heads = costsOf(enoughOf.map(({ removal }) => removal));
  const told = enoughOf.map(({ cause, removal }, i) => {
    const costs = heads[i]!;
    const free = costs.filter((cost) => cost <= 0).length;
    return { removal, cause: { ...cause, heads: headsOf(costs) }, sure: free <= FREE * ways };
  });
  const dear = told.filter(({ sure }) => sure).sort((a, b) => b.cause.heads.mean - a.cause.heads.mean);
  const departs = departsFrom(asItWas);
  return {
    causes: dear.map(({ cause }) => cause),
    all_together:
      dear.length === 0 ? null : headsOf(costsOf([together(dear.map(({ removal }) => removal))])[0]!),
    without_cost: told
      .filter(({ cause }) => !dear.some((one) => one.cause === cause) && happened(cause))
      .map(({ cause }) => cause),
    as_it_was: {
      heads: meanOf(asItWas.map(headsIn)),
      departs,
      faithful: departs <= FAITHFUL * headsIn(was),
    },
  };
}

/** The sowings of crops that the plan does not refill; null for those that it does. */
function refilled(
  { plan, planned }: LoggedSeason,
  sowings: readonly (readonly SowingVisit[])[],
): (readonly SowingVisit[] | null)[] {
  return sowings.map((mine, c) => (planned && plan.crops[c]!.sowing.kind === 'refill' ? null : mine));
}

/** The least whole number of at least 1 that gains so much, where more never gains less. */
function leastWith(gain: (more: number) => number, want: number): number {
  let most = 1;
  while (gain(most) < want) most *= 2;
  let least = Math.floor(most / 2) + 1;
  while (least < most) {
    const middle = Math.floor((least + most) / 2);
    if (gain(middle) < want) least = middle + 1;
    else most = middle;
  }
  return most;
}

/** Whether it went wrong in this season, and is not how the line is run anyway. */
function happened({ kind }: Suspect['cause']): boolean {
  return kind !== 'between_visits' && kind !== 'few_seeds' && kind !== 'stage_before_full';
}

/**
 * What was is one way more. Beside 40 that are drawn it lies from the least to the most in 39 of 41 cases; beside fewer more
 * rarely, so there the interval is that of Student's t for one more (seasons of so many plants are nearly normal).
 */
function headsOf(costs: readonly number[]): Heads {
  const mean = meanOf(costs);
  const ways = costs.length;
  if (ways >= MOST_WAYS) return { mean, low: Math.min(...costs), high: Math.max(...costs) };
  const moments = new Moments();
  for (const cost of costs) moments.add(cost);
  const off = studentQuantile(0.975, ways - 1) * Math.sqrt(moments.variance * (1 + 1 / ways));
  return { mean, low: mean - off, high: mean + off };
}
