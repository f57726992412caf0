/** The figures by which plans are compared, each computed from tallies: of all seasons, or of a section of them. */

import type { Counts } from '../engine/tally.js';
import { DISCARDED, FILLING, PICKED, SOWN, STATE_COUNT, UNSUPPLIED, UNTENDED } from '../models/ledger.js';
import { holesOf, type Plan, seasonDays } from '../models/plan.js';
import type { Gathered } from '../seasons/gathered.js';
import { type Estimate, estimate } from '../seasons/sections.js';
import { firstPickDay, picksFrom, type Tallies } from '../seasons/tallies.js';

/** The tallies of a plan that figures are computed from: of all its seasons, or of a section of them. */
export interface Sample {
  readonly plan: Plan;
  readonly tallies: Tallies;
  /** Picks of all weeks that count. */
  readonly picks: Counts;
}

/** A plan in a study: all its seasons, and each section (null where none was run). */
export interface Samples {
  readonly all: Sample;
  readonly sections: readonly (Sample | null)[];
}

/** A figure: what it is called in JSON, CSV and in `--by`, and which way is better. */
export interface Figure {
  readonly name: string;
  readonly better: 'more' | 'less';
  /** @returns NaN where there is no such figure */
  of(sample: Sample): number;
}

/** Figures of the whole line. */
export const FIGURES: readonly Figure[] = [
  { name: 'heads_a_week', better: 'more', of: ({ picks }) => picks.mean },
  { name: 'usual_week', better: 'more', of: ({ picks }) => picks.quantile(0.5) },
  /** 1 week in 10 brings this or less. */
  { name: 'bad_week', better: 'more', of: ({ picks }) => picks.quantile(0.1) },
  { name: 'weeks_without_pick', better: 'less', of: ({ picks }) => picks.shareUpTo(0) },
  { name: 'seeds_a_head', better: 'less', of: ({ tallies }) => perHead(tallies, tallies.counts.mean(SOWN)) },
  { name: 'thrown_away', better: 'less', of: ({ tallies }) => tallies.counts.mean(DISCARDED) },
  /** Hole-days that are there, used or not, for each head. */
  { name: 'hole_days_a_head', better: 'less', of: ({ plan, tallies }) => perHead(tallies, holeDaysOf(plan)) },
  { name: 'first_pick_day', better: 'less', of: ({ tallies }) => firstPickDay(tallies, 0.5) ?? Number.NaN },
];

/** Share of the hole-days of stage `s` in which a hole stood empty and was not being cleaned. */
export function idleShare(s: number): Figure {
  return {
    name: 'idle',
    better: 'less',
    of: ({ plan, tallies: { ledger } }) => {
      const at = s * STATE_COUNT;
      const empty = ledger.mean(at + FILLING) + ledger.mean(at + UNTENDED) + ledger.mean(at + UNSUPPLIED);
      return empty / (holesOf(plan.stages[s]!) * seasonDays(plan));
    },
  };
}

/** Holes x days of a season, all stages together [d]. */
export function holeDaysOf(plan: Plan): number {
  return plan.stages.reduce((sum, stage) => sum + holesOf(stage), 0) * seasonDays(plan);
}

function perHead({ counts }: Tallies, amount: number): number {
  return amount / counts.mean(PICKED);
}

/**
 * The samples of a job.
 * @param from first week that counts
 */
export function samplesOf(gathered: Gathered, job: number, plan: Plan, from: number): Samples {
  const sample = (tallies: Tallies): Sample => ({ plan, tallies, picks: picksFrom(tallies, from) });
  return {
    all: sample(gathered.whole(job)),
    sections: gathered.sectionsOf(job).map((tallies) => tallies && sample(tallies)),
  };
}

/** A figure of a plan with its interval; null where there is no such figure. */
export function figureOf({ all, sections }: Samples, figure: Figure): Estimate | null {
  return estimated(
    figure.of(all),
    sections.map((section) => section && part(section, figure.of(section))),
  );
}

/**
 * How much more (or less) of a figure `ours` has than `theirs`: same luck, section by section.
 * @param theirFigure the figure of `theirs`, where it has another place there
 */
export function differenceOf(
  ours: Samples,
  theirs: Samples,
  figure: Figure,
  theirFigure = figure,
): Estimate | null {
  return estimated(
    figure.of(ours.all) - theirFigure.of(theirs.all),
    ours.sections.map((section, s) => {
      const other = theirs.sections[s];
      return section && other ? part(section, figure.of(section) - theirFigure.of(other)) : null;
    }),
  );
}

interface Part {
  readonly figure: number;
  readonly seasons: number;
}

function part({ tallies }: Sample, figure: number): Part {
  return { figure, seasons: tallies.seasons };
}

/** @returns null if there is no figure; no interval if a section lacks it */
function estimated(all: number, parts: readonly (Part | null)[]): Estimate | null {
  if (!Number.isFinite(all)) return null;
  const there = parts.filter((one) => one !== null);
  return estimate(all, there.every(({ figure }) => Number.isFinite(figure)) ? there : []);
}
