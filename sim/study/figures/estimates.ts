/**
 * A figure with its interval, and how much more of it one plan has than another.
 *
 * Intervals come from the sections of the seasons (seasons/sections.ts). Only quantiles of the picks of a week have theirs from elsewhere
 * (week-quantiles.ts).
 */

import { type Estimate, estimate, estimateFrom, type Parts } from '../../seasons/sections.js';
import { type WeekCounts, weekQuantile, weekQuantileDifference } from '../../seasons/week-quantiles.js';
import { drainedAs, drains, isLookedAt } from '../takes/drained.js';
import type { Figure, Sample, Samples } from './figure.js';

/**
 * A figure of a plan with its interval; null where there is no such figure.
 * @param at of which stage or crop
 */
export function figureOf(samples: Samples, figure: Figure, at?: number): Estimate | null {
  if (figure.quantile !== undefined) {
    return Number.isNaN(figure.of(samples.all, at))
      ? null
      : weekQuantile(figure.quantile, weekCountsOf(samples));
  }
  return estimated(figure, samples, at);
}

/**
 * How much more (or less) of a figure `ours` has than `theirs`: same luck, section by section.
 * @param at of which stage or crop
 * @param theirAt its place in `theirs`
 */
export function differenceOf(
  ours: Samples,
  theirs: Samples,
  figure: Figure,
  at?: number,
  theirAt = at,
): Estimate | null {
  if (figure.quantile !== undefined) {
    if (Number.isNaN(figure.of(ours.all, at) - figure.of(theirs.all, theirAt))) return null;
    return weekQuantileDifference(figure.quantile, weekCountsOf(ours), weekCountsOf(theirs));
  }
  return estimated(figure, ours, at, theirs, theirAt);
}

function weekCountsOf({ all, sections }: Samples): WeekCounts {
  return { all: all.picks, sections: sections.flatMap((section) => section?.picks ?? []) };
}

/**
 * @param theirs what is taken off, if anything
 * @returns null if there is no figure; no interval if a section lacks it
 */
function estimated(
  figure: Figure,
  ours: Samples,
  at: number | undefined,
  theirs: Samples | null = null,
  theirAt?: number,
): Estimate | null {
  /** The figure of what is picked of ours, less that of theirs; none where one of them has no such sample. */
  const parts = (
    s: number,
    pick: (samples: Samples, s: number) => Sample | null | undefined,
    seasons = 1,
  ): Parts => {
    const [mine, other] = [pick(ours, s), theirs && pick(theirs, s)];
    if (!mine || (theirs && !other)) return [];
    return [{ figure: figure.of(mine, at) - (other ? figure.of(other, theirAt) : 0), seasons }];
  };
  const [value] = parts(0, ({ all }) => all);
  if (!Number.isFinite(value!.figure)) return null;
  const ofSections = ours.sections.flatMap((section, s) =>
    parts(s, figure.ofDrained ? drainedAsInAll : sectionOf, section?.tallies.seasons),
  );
  if (!ofSections.every((one) => Number.isFinite(one.figure))) return estimate(value!.figure, []);
  if (!figure.ofDrained || ![ours, theirs].some((samples) => samples && isMovedByDrained(figure, samples)))
    return estimate(value!.figure, ofSections);
  const ofLooks = ours.sections.flatMap((section, s) =>
    parts(s, drainedAsSeen, section?.tallies.takes?.tankSeasons),
  );
  return estimateFrom(value!.figure, [ofSections, ofLooks]);
}

function sectionOf({ sections }: Samples, s: number): Sample | null | undefined {
  return sections[s];
}

function drainedAsInAll({ all, sections }: Samples, s: number): Sample | null | undefined {
  return sections[s] && drainedAs(sections[s], all);
}

/** All seasons as if as much were drained in them as in a section that was looked at. */
function drainedAsSeen({ all, sections }: Samples, s: number): Sample | null {
  const section = sections[s];
  return section && isLookedAt(section) ? drainedAs(all, section) : null;
}

/** Does a litre that is drained change a figure? */
function isMovedByDrained({ of }: Figure, { all }: Samples): boolean {
  return drains(all.plan) && of({ ...all, drainedMoreL: 1 }) !== of(all);
}
