/** The result of a search, from what is known of its candidates: plain data, as it is printed with --json. */

import { largest } from '../../engine/lists.js';
import { Histogram } from '../../engine/tally.js';
import { isoOfDay } from '../../models/dates.js';
import type { Plan } from '../../models/plan.js';
import type { Estimate } from '../../seasons/sections.js';
import { figureNamed } from '../figures/figures.js';
import { ASSUMED_OF_KWH, assumedOfMoney } from '../money.js';
import type { CandidateResult } from './candidate-test.js';
import type { Cost, CostKind, Settings } from './candidates.js';
import { paretoFrontier } from './frontier.js';
import { shareEstimate } from './interval.js';
import type { Obstacles } from './obstacles.js';
import { toJudge } from './order.js';
import { fullSampleSize } from './sample-size.js';
import { type CountedSeasons, shareMet } from './season-counter.js';
import type { GoalVerdict } from './sequential-test.js';
import { type SettingValues, settingValuesOf } from './setting-values.js';
import type { Search } from './setup.js';

const HEADS = figureNamed('heads_a_week');
const BAD_WEEK = figureNamed('bad_week');

/** What the weeks that count bring. */
export interface WeekOfPlan {
  readonly heads_a_week: number;
  /** 1 week in 10 brings this or less. */
  readonly bad_week: number;
}

/** A plan and what its seasons gave, in the weeks that count. */
export interface SearchedPlan extends WeekOfPlan {
  /** Its place in the order of costs, from 1. */
  readonly place: number;
  readonly name: string;
  readonly settings: Settings;
  readonly cost: Cost;
  /** Whether it meets the goal; null if it did not have to be judged (or was not yet). */
  readonly verdict: GoalVerdict | null;
  /** Seasons that were run to find that out. */
  readonly seasons: number;
  /** Share of the weeks with at least the heads of the goal. */
  readonly weeks_met: number;
  /** A bad week as a share of the mean week; 0 if nothing is picked. */
  readonly steadiness: number;
}

/** A plan that meets the goal (or came near). */
export interface FoundPlan extends Omit<SearchedPlan, 'weeks_met'> {
  /** With a 95 % interval that allows for having looked after every season. */
  readonly weeks_met: Estimate;
  /**
   * What a head costs with luck, over whole seasons that the search did not choose by, with its interval; null if nothing is picked, or the
   * search was stopped. Only there if the cost is to be least.
   */
  readonly cost_a_head?: Estimate | null;
  /** The same weeks if nobody were away; null if nobody is, and of runners-up. */
  readonly without_absence: WeekOfPlan | null;
}

export interface SearchResult {
  readonly title: string;
  readonly seed: number;
  readonly goal: { readonly heads: number; readonly weeks_met: number };
  readonly least: CostKind;
  /** Probability, at least, that the plan is the right one. */
  readonly confidence: number;
  /** Plans whose share of weeks is within this of the goal may go either way. */
  readonly near: number;
  /** true if the search was stopped before it was done. */
  readonly partial: boolean;
  /** The weeks that count: those in which every candidate has settled. */
  readonly counted: { readonly from: string; readonly weeks: number };
  readonly candidates: number;
  readonly within: SettingValues;
  /** First seasons, of every candidate. */
  readonly first: number;
  readonly seasons: {
    readonly used: number;
    /** What judging every candidate without looking before the end would take, for the same probability. */
    readonly full_grid: number;
    /** The second over the first. */
    readonly ratio: number;
  };
  /** The cheapest plan that meets the goal; null if none was found. */
  readonly best: FoundPlan | null;
  /** Plans that cost exactly the same and meet the goal too, the best one included; it was held against the others. */
  readonly same_cost: number;
  /** The next plans that meet the goal, in the order of costs. */
  readonly runners_up: readonly FoundPlan[];
  /** If none meets the goal: the plan that came nearest. */
  readonly nearest: FoundPlan | null;
  /** What stands in the way of the nearest; null if a plan was found, or the search was stopped. */
  readonly obstacles: Obstacles | null;
  /**
   * Places of the plans that no other beats in both heads a week and steadiness, the most heads first. From the first seasons, so
   * roughly: differences of less than a hundredth (of the most heads) count as none.
   */
  readonly frontier: readonly number[];
  /** Every candidate of which the first seasons were run, in the order of costs; figures from its first seasons. */
  readonly plans: readonly SearchedPlan[];
  /** What was taken for granted; only there if kWh or the cost are to be least. */
  readonly assumes?: readonly string[];
}

/**
 * @param trials of any candidates, in any order; those that the verdicts make superfluous are counted with their first seasons only
 * @returns null if not even one candidate had its first seasons
 */
export function concludeSearch(search: Search, trials: readonly CandidateResult[]): SearchResult | null {
  if (trials.length === 0) return null;
  const { goal, ranked, counting } = search;
  const { seed } = search.workload;
  const known = new Map(trials.map((trial) => [trial.place, trial]));
  const places = [...ranked.keys()];
  const priceOf = (place: number): number => ranked[place]!.price;
  const verdictOf = (place: number): GoalVerdict | null => known.get(place)?.verdict ?? null;
  const judged = new Set(toJudge(places, priceOf, verdictOf, 1 + goal.runners));

  const meeting = [...judged].filter((place) => verdictOf(place) === 'meets');
  const bestPrice = meeting.length === 0 ? null : priceOf(meeting[0]!);
  const equals = meeting.filter((place) => priceOf(place) === bestPrice);
  const told = equals.some((place) => known.get(place)!.tie !== null);

  /** All seasons of a plan that count. */
  const seasonsOf = (trial: CandidateResult): CountedSeasons => {
    if (!judged.has(trial.place)) return trial.first;
    return (equals.includes(trial.place) ? trial.tie : null) ?? trial.judged ?? trial.first;
  };
  const shareOf = (seasons: CountedSeasons): number => shareMet(seasons, counting);
  const rowOf = (trial: CandidateResult, seasons: CountedSeasons): SearchedPlan => {
    const { candidate, cost } = ranked[trial.place]!;
    const week = weekOf(seasons);
    const { heads_a_week: heads, bad_week: bad } = week;
    return {
      place: trial.place + 1,
      name: candidate.name,
      settings: candidate.settings,
      cost,
      // What the first seasons say is known whether it was asked for or not.
      verdict: judged.has(trial.place) || trial.judged === null ? trial.verdict : null,
      seasons: seasonsOf(trial).good.length,
      weeks_met: shareOf(seasons),
      ...week,
      steadiness: heads > 0 ? bad / heads : 0,
    };
  };
  const foundPlan = (place: number): FoundPlan => {
    const trial = known.get(place)!;
    const seasons = seasonsOf(trial);
    return {
      ...rowOf(trial, seasons),
      weeks_met: shareEstimate(sharesOf(search, seasons)),
      ...(goal.least === 'cost' && { cost_a_head: trial.cost_a_head ?? null }),
      without_absence: null,
    };
  };

  /** The plan that is named: each shard has looked at its own. */
  const namedPlan = (place: number): FoundPlan => {
    const { present } = known.get(place)!;
    return { ...foundPlan(place), without_absence: present && weekOf(present) };
  };

  const inOrder = places.flatMap((place) => known.get(place) ?? []);
  const plans = inOrder.map((trial) => rowOf(trial, trial.first));
  const byShare = [...equals].sort(
    (a, b) => shareOf(seasonsOf(known.get(b)!)) - shareOf(seasonsOf(known.get(a)!)) || a - b,
  );
  const best = equals.find((place) => known.get(place)!.tie?.picked) ?? byShare[0] ?? null;
  const others = [...byShare, ...meeting.filter((place) => !equals.includes(place))].filter(
    (place) => place !== best,
  );
  const nearest = best === null ? nearestOf(search, inOrder) : null;
  const used = inOrder.reduce((sum, trial) => sum + seasonsOf(trial).good.length, 0);
  const grid = inOrder.reduce(
    (sum, trial) => sum + fullSampleSize(sharesOf(search, trial.first), search.budget.design),
    0,
  );
  const most = largest(plans.map(({ heads_a_week: heads }) => heads));
  const { plan } = ranked[0]!.candidate;
  return {
    title: plan.title,
    seed,
    goal: { heads: goal.heads, weeks_met: goal.weeksMet },
    least: goal.least,
    confidence: goal.confidence,
    near: goal.near,
    partial:
      trials.length < ranked.length ||
      [...judged].some((place) => verdictOf(place) === null) ||
      (equals.length > 1 && !told),
    counted: { from: isoOfDay(plan.start, counting.from * 7), weeks: counting.weeks - counting.from },
    candidates: ranked.length,
    within: settingValuesOf(ranked.map(({ candidate }) => candidate.settings)),
    first: goal.first,
    seasons: { used, full_grid: grid, ratio: grid / used },
    best: best === null ? null : namedPlan(best),
    same_cost: equals.length,
    runners_up: others.slice(0, goal.runners).map(foundPlan),
    nearest: nearest && namedPlan(nearest.place),
    obstacles: nearest?.obstacles ?? null,
    frontier: paretoFrontier(
      plans.map(({ heads_a_week: heads, steadiness }) => [heads / (most || 1), steadiness]),
    ).map((i) => plans[i]!.place),
    plans,
    ...assumedFor(goal.least, search.ranked[0]!.candidate.plan),
  };
}

/** How plans were ordered by their cost. */
const BY_LUCKLESS_SEASONS =
  'Plans are ordered by what a season without luck would cost: every plant takes its mean time, and seeds and plants are lost by their shares.';

/** @param plan any that was searched: all have the same prices */
function assumedFor(least: CostKind, plan: Plan): Pick<SearchResult, 'assumes'> {
  if (least === 'cost') return { assumes: [BY_LUCKLESS_SEASONS, ...assumedOfMoney(plan)] };
  return least === 'kwh' ? { assumes: ASSUMED_OF_KWH } : {};
}

function weekOf(seasons: CountedSeasons): WeekOfPlan {
  const picks = Histogram.from(seasons.picks);
  return { heads_a_week: HEADS.of({ picks }), bad_week: BAD_WEEK.of({ picks }) };
}

function sharesOf({ counting }: Search, { good }: CountedSeasons): number[] {
  return good.map((weeks) => weeks / (counting.weeks - counting.from));
}

/**
 * The plan with the largest share of good weeks; of equal ones (there may be none with a good week) the one with most heads, of
 * these the cheapest.
 * @param trials at least one, in the order of costs
 */
function nearestOf({ counting }: Search, trials: readonly CandidateResult[]): CandidateResult {
  const near = trials.map((trial) => {
    const seasons = trial.judged ?? trial.first;
    const heads = HEADS.of({ picks: Histogram.from(seasons.picks) });
    return { trial, share: shareMet(seasons, counting), heads };
  });
  return near.reduce((best, one) =>
    one.share > best.share || (one.share === best.share && one.heads > best.heads) ? one : best,
  ).trial;
}
