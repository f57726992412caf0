/** Stages of other sizes, with the same luck: what each size gives, where the line is held back, and why it gives no more. */

import { isoOfDay } from '../../models/dates.js';
import { holesOfLine, type Plan } from '../../models/plan.js';
import { costIsTold } from '../../models/untold-costs.js';
import type { Estimate } from '../../seasons/sections.js';
import { firstCommonWeek, firstRunningWeek } from '../../seasons/tallies.js';
import { sectionsFor } from '../../seasons/workload.js';
import type { WorkloadTallies } from '../../seasons/workload-tallies.js';
import { differenceOf, figureOf } from '../figures/estimates.js';
import type { Figure, Samples } from '../figures/figure.js';
import { figureNamed } from '../figures/figures.js';
import { samplesOf } from '../figures/samples.js';
import { frontierOf } from '../frontier.js';
import { assumedOfMoney } from '../money.js';
import { ofSeasons, type Study } from '../study.js';
import { type FluidBound, fluidBound } from './bound.js';
import { explainGap, type Gap } from './gap.js';
import { type SizeJobs, sizeJobs } from './jobs.js';
import { type Knee, kneeOf } from './knee.js';
import { areaIn, holesIn, type SizeLayout, type Sizes } from './layout.js';
import { type Worths, worthsOf } from './worth.js';

/** A figure of a size, and how it differs from that of the present one (null for that itself). */
export interface SizeFigure extends Estimate {
  readonly difference: Estimate | null;
}

export interface SizeOfLine {
  /** Such as "2 x nursery, 8 x finishing". */
  readonly name: string;
  /** Channels of every stage. */
  readonly channels: Readonly<Record<string, number>>;
  /** Holes of the stages whose channels differ between the sizes. */
  readonly holes: number;
  /** Their area [m2]; null if one of them does not say. */
  readonly area_m2: number | null;
  /** false if it is here only because it is the present size. */
  readonly asked: boolean;
  /** null where there is none. */
  readonly figures: Readonly<Record<'heads_a_week' | 'bad_week', SizeFigure | null>>;
  /** Share of hole-days in which holes stood empty. */
  readonly idle: readonly { readonly stage: string; readonly share: SizeFigure | null }[];
  /** Heads a week that it has less than the best size, paired; null for the best itself. */
  readonly behind_best: Estimate | null;
  /** What a fluid could give (see bound.ts). */
  readonly bound: FluidBound;
  /** Why it gives no more than that. */
  readonly gap: Gap | null;
}

export interface SizeResult {
  readonly title: string;
  readonly seed: number;
  /** Seasons of each size. */
  readonly seasons: number;
  /** true if fewer seasons were run than asked for. */
  readonly partial: boolean;
  /** The weeks that count: those in which every line that ever runs is running. null if there are none. */
  readonly running: { readonly from: string; readonly weeks: number } | null;
  /** Names of the stages whose channels differ. */
  readonly varied: readonly string[];
  /** Name of the size as it is. */
  readonly present: string;
  /** Of the sizes that were asked for: the one with most heads a week, and those whose paired interval does not lie below it. */
  readonly best: { readonly size: string; readonly not_told_apart: readonly string[] } | null;
  /** The sizes that no other beats with as little, smallest first; null where all cost the same (a split, an area). */
  readonly frontier: { readonly cost: 'holes' | 'area_m2'; readonly sizes: readonly string[] } | null;
  /** From where on more room does not pay (see knee.ts); null if that is none of these sizes. */
  readonly knee: (Omit<Knee, 'at'> & { readonly size: string }) | null;
  readonly worth: Worths;
  readonly sizes: readonly SizeOfLine[];
  /** What was taken for granted in figures of money; absent without prices. */
  readonly assumes?: readonly string[];
}

/** How a year comes of a season. */
const A_YEAR =
  'A year is the difference of two seasons, taken to 365 days. Of a channel counts what its lamps draw and prices.hole_day, not what it costs to buy.';

const HEADS = figureNamed('heads_a_week');
const BAD_WEEK = figureNamed('bad_week');
const IDLE = figureNamed('idle');

interface Asked {
  readonly plan: Plan;
  readonly sizes: Sizes;
  readonly seed: number;
  readonly seasons: number;
  /** false if all sizes cost the same, so that only the best one is of interest. */
  readonly costsDiffer: boolean;
}

/**
 * @param sizes those of `sizesOf(plan, layout)`
 * @param layout what was asked for: sizes of a split or an area have no frontier
 */
export function sizeStudy(
  plan: Plan,
  sizes: Sizes,
  layout: SizeLayout['kind'],
  seed: number,
  seasons: number,
): Study<WorkloadTallies, SizeResult> {
  const lines = sizeJobs(plan, sizes, seasons);
  const workload = { seed, sections: sectionsFor(seasons), jobs: lines.jobs };
  const costsDiffer = layout === 'around' || layout === 'channels';
  return ofSeasons(workload, (gathered) =>
    conclude(gathered, lines, { plan, sizes, seed, seasons, costsDiffer }),
  );
}

function conclude(gathered: WorkloadTallies, lines: SizeJobs, asked: Asked): SizeResult | null {
  const { plan, seed, seasons } = asked;
  const run = gathered.whole(lines.sizes[0]!.job).seasons;
  if (run === 0) return null;
  const from = firstWeek(gathered, lines, plan.weeks);
  const samples = lines.jobs.map((job, j) =>
    gathered.whole(j).seasons === 0 ? null : samplesOf(gathered, j, job.plan, from),
  );
  const present = samples[lines.sizes[lines.present]!.job]!;
  const candidates = lines.sizes.filter((size) => size.asked).map(({ job }) => samples[job]!);
  const best = from < plan.weeks ? largest(candidates) : null;
  const sizes = lines.sizes.map(({ job, asked: wasAsked, ideal, ladder }): SizeOfLine => {
    const ours = samples[job]!;
    const sized = (figure: Figure, stage?: number): SizeFigure | null => {
      const value = figureOf(ours, figure, stage);
      const difference = ours === present ? null : differenceOf(ours, present, figure, stage);
      return value && { ...value, difference };
    };
    const { varied } = asked.sizes;
    return {
      name: varied.map((s) => `${ours.all.plan.stages[s]!.channels} x ${plan.stages[s]!.name}`).join(', '),
      channels: Object.fromEntries(ours.all.plan.stages.map(({ name, channels }) => [name, channels])),
      holes: holesIn(ours.all.plan, varied),
      area_m2: areaIn(ours.all.plan, varied),
      asked: wasAsked,
      figures: { heads_a_week: sized(HEADS), bad_week: sized(BAD_WEEK) },
      idle: plan.stages.map(({ name }, s) => ({ stage: name, share: sized(IDLE, s) })),
      behind_best: best === null || ours === best ? null : differenceOf(best, ours, HEADS),
      bound: fluidBound(ours.all.plan),
      gap: explainGap(
        ideal,
        ladder.map((rung) => samples[rung]!),
        HEADS,
      ),
    };
  });
  return {
    title: plan.title,
    seed,
    seasons: run,
    partial: run < seasons,
    running: from < plan.weeks ? { from: isoOfDay(plan.start, from * 7), weeks: plan.weeks - from } : null,
    varied: asked.sizes.varied.map((s) => plan.stages[s]!.name),
    present: sizes[lines.present]!.name,
    best: bestOf(sizes, best),
    ...(asked.costsDiffer ? frontier(sizes) : { frontier: null, knee: null }),
    worth: worthsOf(
      present,
      lines.more.map((job) => samples[job]!),
      HEADS,
    ),
    sizes,
    ...(costIsTold(plan) && { assumes: [A_YEAR, ...assumedOfMoney(plan)] }),
  };
}

/** The first week in which all lines that ever run are running, those of the ladders included. */
function firstWeek(gathered: WorkloadTallies, { jobs }: SizeJobs, weeks: number): number {
  return firstCommonWeek(
    jobs.map((_, j) => firstRunningWeek(gathered.whole(j))),
    weeks,
  );
}

/** The one with most heads a week, of equal ones the one with fewest holes. */
function largest(candidates: readonly Samples[]): Samples {
  const holes = ({ all }: Samples): number => holesOfLine(all.plan);
  return candidates.reduce((best, one) => {
    const more = HEADS.of(one.all) - HEADS.of(best.all);
    return more > 0 || (more === 0 && holes(one) < holes(best)) ? one : best;
  });
}

function bestOf(sizes: readonly SizeOfLine[], best: Samples | null): SizeResult['best'] {
  if (best === null) return null;
  const candidates = sizes.filter(({ asked }) => asked);
  const isBest = ({ behind_best }: SizeOfLine): boolean => behind_best === null;
  return {
    size: candidates.find(isBest)!.name,
    not_told_apart: candidates
      .filter((size) => !isBest(size) && !((size.behind_best!.low ?? 0) > 0))
      .map(({ name }) => name),
  };
}

function frontier(sizes: readonly SizeOfLine[]): Pick<SizeResult, 'frontier' | 'knee'> {
  const there = sizes.filter(({ asked, figures }) => asked && figures.heads_a_week);
  const cost = there.every(({ area_m2 }) => area_m2 !== null) ? 'area_m2' : 'holes';
  const offers = there.map((size) => ({ cost: size[cost]!, gain: size.figures.heads_a_week!.mean }));
  const places = frontierOf(offers);
  const most = (stage: string): number => Math.max(...there.map(({ channels }) => channels[stage]!));
  const varies = (stage: string): boolean => there.some(({ channels }) => channels[stage]! < most(stage));
  const knee = kneeOf(offers, places, (at) =>
    Object.entries(there[at]!.channels).every(
      ([stage, channels]) => !varies(stage) || channels < most(stage),
    ),
  );
  return {
    frontier: { cost, sizes: places.map((i) => there[i]!.name) },
    knee: knee && named(there[knee.at]!, knee),
  };
}

function named({ name }: SizeOfLine, { at: _, ...knee }: Knee): SizeResult['knee'] {
  return { size: name, ...knee };
}
