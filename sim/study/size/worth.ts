/** What more channels are worth in each stage, and so which stage holds the line back: judged as in bottleneck.ts. */

import { type Plan, seasonDays } from '../../models/plan.js';
import { channelsMore } from '../../seasons/changes.js';
import { type Estimate, estimate } from '../../seasons/sections.js';
import { isWorth } from '../bottleneck.js';
import { differenceOf } from '../figures/estimates.js';
import type { Figure, Sample, Samples } from '../figures/figure.js';
import { FIGURES } from '../figures/figures.js';

/** More channels of a stage, all else as it is. */
export interface Worth {
  readonly stage: string;
  readonly channels: number;
  /** Holes of these channels. */
  readonly holes: number;
  /** Share of the channels of the stage that they are. */
  readonly added: number;
  /** More heads a week, with the same luck; null if no week counts. */
  readonly heads_a_week: Estimate | null;
  /** Share of the heads that they bring more, over the share that they add; null where there is none. */
  readonly elasticity: Estimate | null;
  /** What they cost and bring in a year; absent without prices. */
  readonly money_a_year?: MoneyAYear;
  /** true if the interval of the heads lies above 0 and they are worth what was added (see `isWorth`). */
  readonly brings: boolean;
}

/** What a plan costs and leaves more than another in a year, in the grower's own money: the differences of a season, taken to 365 days. */
export interface MoneyAYear {
  readonly cost: Estimate;
  /** What it earns more, less what it costs more; null where no price of a head or kilogram is told. */
  readonly margin: Estimate | null;
}

export interface Worths {
  readonly stages: readonly Worth[];
  /**
   * The stage of the largest elasticity, and those that cannot be told from it; none if more channels bring nothing anywhere;
   * null if there are too few seasons, or no weeks, to tell.
   */
  readonly hold_back: readonly string[] | null;
}

/** A sample of some samples: all of them, or a section. */
type Pick = (samples: Samples) => Sample;

/**
 * @param present the plan as it is
 * @param more the plan with more channels, one for each stage
 */
export function worthsOf(present: Samples, more: readonly Samples[], heads: Figure): Worths {
  const { plan } = present.all;
  const addedTo = (s: number): number => channelsMore(plan.stages[s]!) / plan.stages[s]!.channels;
  const elasticity = (s: number, pick: Pick): number =>
    (heads.of(pick(more[s]!)) / heads.of(pick(present)) - 1) / addedTo(s);
  const stages = plan.stages.map((stage, s): Worth => {
    const channels = channelsMore(stage);
    const gain = differenceOf(more[s]!, present, heads);
    const share = (gain?.mean ?? 0) / heads.of(present.all);
    return {
      stage: stage.name,
      channels,
      holes: channels * stage.holesPerChannel,
      added: addedTo(s),
      heads_a_week: gain,
      elasticity: estimateOf(present, (pick) => elasticity(s, pick)),
      ...moneyAYear(more[s]!, present),
      brings: (gain?.low ?? 0) > 0 && isWorth(share, addedTo(s)),
    };
  });
  if (stages.some(({ heads_a_week: gain }) => gain === null || gain.low === null))
    return { stages, hold_back: null };
  const [best, ...others] = stages
    .map((_, s) => s)
    .filter((s) => stages[s]!.brings)
    .sort((a, b) => stages[b]!.elasticity!.mean - stages[a]!.elasticity!.mean);
  if (best === undefined) return { stages, hold_back: [] };
  const equal = others.filter((s) => {
    const less = estimateOf(present, (pick) => elasticity(best, pick) - elasticity(s, pick));
    return !((less?.low ?? Number.NaN) > 0);
  });
  return { stages, hold_back: [best, ...equal].map((s) => stages[s]!.stage) };
}

const [COST, MARGIN] = ['cost_a_season', 'margin_a_season'].map(
  (name) => FIGURES.find((figure) => figure.name === name)!,
) as [Figure, Figure];
const DAYS_A_YEAR = 365;

function moneyAYear(ours: Samples, theirs: Samples): { readonly money_a_year?: MoneyAYear } {
  const { plan } = theirs.all;
  const aYear = (figure: Figure): Estimate | null => {
    const aSeason = figure.isToldOf!(plan) ? differenceOf(ours, theirs, figure) : null;
    return aSeason && toAYear(aSeason, plan);
  };
  const cost = aYear(COST);
  return cost === null ? {} : { money_a_year: { cost, margin: aYear(MARGIN) } };
}

function toAYear({ mean, low, high }: Estimate, plan: Plan): Estimate {
  const times = (value: number): number => (value * DAYS_A_YEAR) / seasonDays(plan);
  return {
    mean: times(mean),
    low: low === null ? null : times(low),
    high: high === null ? null : times(high),
  };
}

/** A figure of several plans that met the same luck, with its interval; null if there is none. */
function estimateOf(present: Samples, of: (pick: Pick) => number): Estimate | null {
  const all = of((samples) => samples.all);
  if (!Number.isFinite(all)) return null;
  const parts = present.sections.flatMap((section, s) =>
    section === null
      ? []
      : [{ figure: of((samples) => samples.sections[s]!), seasons: section.tallies.seasons }],
  );
  return estimate(all, parts.every(({ figure }) => Number.isFinite(figure)) ? parts : []);
}
