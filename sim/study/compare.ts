/** Several plans side by side, with the same luck: what each gives, and how they differ from the first. */

import { isoOfDay } from '../models/dates.js';
import { assumptions, litresFactor } from '../models/physical/assumes.js';
import type { Plan } from '../models/plan.js';
import { costsUntold } from '../models/untold-costs.js';
import type { Estimate } from '../seasons/sections.js';
import { firstCommonWeek, firstRunningWeek, type Tallies } from '../seasons/tallies.js';
import { sectionsFor } from '../seasons/workload.js';
import type { TrialSeason, WorkloadTallies } from '../seasons/workload-tallies.js';
import { type Bottleneck, findBottleneck, trialSeasons } from './bottleneck.js';
import { differenceOf, figureOf } from './figures/estimates.js';
import type { Figure, Samples } from './figures/figure.js';
import { FIGURES, type FigureName, figureNamed, ofFigures } from './figures/figures.js';
import { samplesFrom } from './figures/samples.js';
import { ofSeasons, type Study } from './study.js';
import { amountsOf } from './takes/amounts.js';
import { toldIn } from './takes/takes.js';
import { type PresentJobs, presentJobs, type WeekFigures, weekFigures } from './week-figures.js';

/** A plan to be compared and what it is called. */
export interface Contender {
  readonly name: string;
  readonly plan: Plan;
  /** What is to be known of how it was made of another plan, a sentence each; left out: nothing. */
  readonly notes?: readonly string[];
}

/** A figure of a plan, and how it differs from that of the first plan. */
export interface Compared extends Estimate {
  /** null for the first plan, and where one of the two has no such figure. */
  readonly difference: Difference | null;
}

/** How much more of a figure a plan has than another, and whether that is more than luck. */
export interface Difference extends Estimate {
  readonly verdict: Verdict;
}

/** What the interval of a difference says: none, if it holds 0; unknown, if there is no interval. */
export type Verdict = 'more' | 'less' | 'none' | 'unknown';

export interface PlanResult {
  readonly name: string;
  readonly title: string;
  /** Figures by name; null where there is none (no week of a running line, nothing picked). */
  readonly figures: Readonly<Record<FigureName<'whole'>, Compared | null>>;
  /** Share of hole-days in which holes stood empty. */
  readonly idle: readonly { readonly stage: string; readonly share: Compared | null }[];
  readonly limits: Bottleneck | null;
  /** The same weeks if nobody were away; null if nobody is, or if no week counts. */
  readonly without_absence: WeekFigures | null;
}

export interface CompareResult {
  readonly seed: number;
  /** Seasons of each plan. */
  readonly seasons: number;
  /** true if fewer seasons were run than asked for. */
  readonly partial: boolean;
  /** The weeks that count: those in which every line that ever runs is running. null if there are none. */
  readonly running: { readonly from: string; readonly weeks: number } | null;
  /** Name of the figure by which the plans are ordered, the best first; null: as asked for. */
  readonly by: string | null;
  /** Name of the plan that the others are compared with. */
  readonly first: string;
  readonly plans: readonly PlanResult[];
  /** What is to be known of how plans were made of others; absent where there is nothing. */
  readonly notes?: readonly string[];
  /** What was taken for granted in figures of what plans take; absent where no plan tells of more than holes. */
  readonly assumes?: readonly string[];
}

const IDLE = figureNamed('idle');

/** Names of the figures that plans can be ordered by. */
export const ORDERS: readonly string[] = FIGURES.filter(({ scope }) => scope === 'whole').map(
  ({ name }) => name,
);

/**
 * @param contenders at least 2, all with seasons of the same length
 * @param by one of ORDERS, or null
 */
export function compareStudy(
  contenders: readonly Contender[],
  seed: number,
  seasons: number,
  by: string | null,
): Study<WorkloadTallies, CompareResult> {
  const trials = trialSeasons(seasons);
  const jobs = contenders.map(({ plan }) => ({ plan, seasons, trials }));
  const present = presentJobs(
    contenders.map(({ plan }) => plan),
    seasons,
    jobs.length,
  );
  const workload = { seed, sections: sectionsFor(seasons), jobs: [...jobs, ...present.jobs] };
  return ofSeasons(workload, (gathered) =>
    conclude(contenders, gathered, { seed, seasons, by, trials, present }),
  );
}

interface Asked {
  readonly seed: number;
  readonly seasons: number;
  readonly by: string | null;
  readonly trials: number;
  readonly present: PresentJobs;
}

function conclude(
  contenders: readonly Contender[],
  gathered: WorkloadTallies,
  { seed, seasons, by, trials, present }: Asked,
): CompareResult | null {
  const run = gathered.whole(0).seasons;
  if (run === 0) return null;
  const ran = contenders.map((contender, job): Ran => {
    const tried = gathered.trials(job);
    return {
      ...contender,
      tallies: gathered.whole(job),
      sections: gathered.sectionsOf(job),
      tried: tried.length === trials ? tried : null,
      present: present.tallies(gathered, job),
    };
  });
  return comparison(ran, { seed, run, seasons, by });
}

/**
 * @param ran at least one plan, the first one that which the others are compared with
 * @param of what was asked: `run` seasons of each of the `seasons` that were asked for are there
 */
export function comparison(
  ran: readonly Ran[],
  of: Pick<CompareResult, 'seed' | 'seasons' | 'by'> & { readonly run: number },
): CompareResult {
  const { seed, run, seasons, by } = of;
  const { weeks, start } = ran[0]!.plan;
  const { from, plans } = sideBySide(ran);
  const notes = [...new Set(ran.flatMap((one) => one.notes ?? []))];
  const assumes = [...new Set(ran.flatMap(assumedOf))];
  return {
    seed,
    seasons: run,
    partial: run < seasons,
    running: from < weeks ? { from: isoOfDay(start, from * 7), weeks: weeks - from } : null,
    by,
    first: ran[0]!.name,
    plans: by === null ? plans : ordered(plans, FIGURES.find(({ name }) => name === by)!),
    ...(notes.length > 0 && { notes }),
    ...(assumes.length > 0 && { assumes }),
  };
}

function assumedOf({ plan, tallies }: Ran): string[] {
  const amounts = amountsOf({ plan, tallies, whole: tallies });
  if (amounts === null) return [];
  // Of light on leaves, kilograms and the tank a comparison tells nothing.
  const told = { ...toldIn(amounts), leaves: false, mass: false, tank: false };
  return assumptions(told, litresFactor(plan), costsUntold(plan));
}

/** A plan of a comparison and what its seasons gave. */
export interface Ran extends Contender {
  readonly tallies: Tallies;
  /** Sections of `tallies`; without them figures have no intervals. */
  readonly sections: readonly (Tallies | null)[];
  /** The seasons in which changes were tried; null as long as not all of them are there. */
  readonly tried: readonly TrialSeason[] | null;
  /** The same seasons if nobody were away; null if nobody is, or if that was not run. */
  readonly present: Tallies | null;
}

/**
 * What plans give in the weeks in which all of them run, and how they differ from the first.
 *
 * @param ran at least one plan, all with seasons of the same length and at least one season
 * @returns also the first of these weeks; the number of weeks of a season if there is none
 */
export function sideBySide(ran: readonly Ran[]): {
  readonly from: number;
  readonly plans: readonly PlanResult[];
} {
  const { weeks } = ran[0]!.plan;
  const firstWeeks = ran.map(({ tallies }) => firstRunningWeek(tallies));
  const from = firstCommonWeek(firstWeeks, weeks);
  const samples = ran.map(({ plan, tallies, sections }) => samplesFrom(plan, from, tallies, sections));
  const base = samples[0]!;

  /** @param baseStage the same stage of the first plan; -1 if it has none of that name */
  const compared = (ours: Samples, figure: Figure, stage?: number, baseStage?: number): Compared | null => {
    const value = figureOf(ours, figure, stage);
    if (value === null) return null;
    const difference =
      ours === base || baseStage === -1 ? null : judgedDifference(ours, base, figure, stage, baseStage);
    return { ...value, difference };
  };

  const plans = ran.map(({ name, plan, tried, present }, job): PlanResult => {
    const ours = samples[job]!;
    return {
      name,
      title: plan.title,
      figures: ofFigures('whole', (figure) => compared(ours, figure), plan),
      idle: plan.stages.map((stage, s) => {
        const other = base.all.plan.stages.findIndex((baseStage) => baseStage.name === stage.name);
        return { stage: stage.name, share: compared(ours, IDLE, s, other) };
      }),
      limits: tried && findBottleneck(plan, tried, firstWeeks[job]!),
      without_absence: from < weeks ? present && weekFigures(plan, from, present) : null,
    };
  });
  return { from, plans };
}

/** The difference of a figure (see `differenceOf`), with what its interval says; null where one of the two has no such figure. */
export function judgedDifference(...of: Parameters<typeof differenceOf>): Difference | null {
  const difference = differenceOf(...of);
  return difference && { ...difference, verdict: verdictOf(difference) };
}

/** What the interval of a difference says. */
export function verdictOf({ mean, low, high }: Estimate): Verdict {
  if (mean === 0 && low === 0 && high === 0) return 'none';
  if (low === null || high === null) return 'unknown';
  if (low > 0) return 'more';
  return high < 0 ? 'less' : 'none';
}

/** The best first; plans that lack the figure last; equal ones as they were. */
function ordered(plans: readonly PlanResult[], { name, better }: Figure): PlanResult[] {
  const rank = ({ figures }: PlanResult): number => {
    const value = figures[name as FigureName<'whole'>]?.mean;
    if (value === undefined) return Number.POSITIVE_INFINITY;
    return better === 'more' ? -value : value;
  };
  // Not by subtraction: two plans without the figure would give NaN.
  return [...plans].sort((a, b) => (rank(a) < rank(b) ? -1 : rank(a) > rank(b) ? 1 : 0));
}
