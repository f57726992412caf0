/**
 * Quantiles of whole numbers (heads in a usual week, in a bad one) with their intervals, and differences of them between plans
 * that met the same luck. The weeks of a season hang together; seasons, and so sections of seasons, do not.
 *
 * The quantile is the least whole number x that share p of the weeks do not exceed: F(x) >= p, and F(x - 1) < p. F(x) is a plain
 * average over seasons, of which sections tell the interval (see sections.ts), and the interval of the quantile holds every whole
 * number of which the intervals of F rule out neither: Woodruff, JASA 47 (1952) 635-646, with the variance between clusters; from
 * memory. Sectioning would take the quantile of each section, which of few weeks is another number than that of many.
 *
 * The interval of a share is taken on the scale of its arcsine, where it is less lopsided, as is usual for shares in surveys, and
 * never narrower than what so many weeks without a single one to the contrary leave open (Poisson): where all seasons are alike
 * up to now, the next need not be.
 *
 * A difference of at most d is possible if there is an x with F_ours(x + d) >= p and F_theirs(x - 1) < p: an x that the intervals
 * of both quantiles leave open, where the share of ours is not certainly at most that of theirs (paired, section by section). It
 * is ruled out if that is ruled out for every x, so it is ruled out wrongly no more often than a single one.
 */

import { CONFIDENCE } from '../engine/student.js';
import type { Histogram } from '../engine/tally.js';
import { type Estimate, estimate } from './sections.js';

/** Picks of the weeks of a plan: of all its seasons, and of each section. */
export interface WeekCounts {
  readonly all: Histogram;
  readonly sections: readonly Histogram[];
}

/** The quantile of a plan's weeks, and its interval where the seasons suffice for one. */
export function weekQuantile(p: number, weeks: WeekCounts): Estimate {
  const mean = weeks.all.least(p);
  return canTell(p, weeks) ? { mean, ...rangeOf(p, weeks) } : { mean, low: null, high: null };
}

/** How much more (or less) it is in `ours`. Both have the same sections. */
export function weekQuantileDifference(p: number, ours: WeekCounts, theirs: WeekCounts): Estimate {
  const mean = ours.all.least(p) - theirs.all.least(p);
  if (!canTell(p, ours) || !canTell(p, theirs)) return { mean, low: null, high: null };
  // Not minus 0.
  return { mean, low: leastPossible(p, ours, theirs), high: 0 - leastPossible(p, theirs, ours) };
}

/** Shares closer than this are equal: they are ratios of counts. */
const ROUNDING = 1e-12;

/** So many are expected at most, by `CONFIDENCE`, where none was seen (Poisson). */
const UNSEEN = -Math.log((1 - CONFIDENCE) / 2);

/** Of very few weeks that of which nothing was seen has no upper end. */
function canTell(p: number, { all, sections }: WeekCounts): boolean {
  return sections.length > 1 && p + UNSEEN / all.total <= 1;
}

interface Range {
  readonly low: number;
  readonly high: number;
}

function rangeOf(p: number, { all, sections }: WeekCounts): Range {
  const shares = sharesOf(sections);
  const upTo = (x: number): Range =>
    shareRange(
      average(shares, (section) => section.upTo(x)),
      all.total,
    );
  let low = all.least(p);
  while (low > 0 && upTo(low - 1).high >= p - ROUNDING) low--;
  let high = all.least(p);
  while (upTo(high).low < p - ROUNDING) high++;
  return { low, high };
}

/** The interval of a share of so many weeks. @param share with Student's interval */
function shareRange({ mean, high }: Estimate, weeks: number): Range {
  const unseen: Range = { low: mean - UNSEEN / weeks, high: mean + UNSEEN / weeks };
  if (mean <= 0 || mean >= 1) return unseen;
  const angle = Math.asin(Math.sqrt(mean));
  const half = (high! - mean) / (2 * Math.sqrt(mean * (1 - mean)));
  return {
    low: Math.min(unseen.low, Math.sin(Math.max(0, angle - half)) ** 2),
    high: Math.max(unseen.high, Math.sin(Math.min(Math.PI / 2, angle + half)) ** 2),
  };
}

/** The least difference of the quantiles that is possible, going down from the one that was seen. */
function leastPossible(p: number, ours: WeekCounts, theirs: WeekCounts): number {
  const { low } = rangeOf(p, ours);
  const { high } = rangeOf(p, theirs);
  const shares = sharesOf(ours.sections);
  const others = sharesOf(theirs.sections);
  const isPossible = (d: number): boolean => {
    for (let x = low - d; x <= high; x++) {
      const more = average(shares, (section, s) => section.upTo(x + d) - others[s]!.upTo(x - 1));
      if (more.high! > ROUNDING) return true;
    }
    return false;
  };
  let difference = ours.all.least(p) - theirs.all.least(p);
  while (isPossible(difference - 1)) difference--;
  return difference;
}

/** Weeks of a section, and which share of them bring a number or less. */
interface Shares {
  readonly weeks: number;
  upTo(x: number): number;
}

function sharesOf(sections: readonly Histogram[]): Shares[] {
  return sections.map((section) => {
    const [lowest = 0, ...times] = section.toData();
    let sum = 0;
    const sums = times.map((count) => {
      sum += count;
      return sum;
    });
    return {
      weeks: section.total,
      upTo: (x) => (x < lowest ? 0 : (sums[x - lowest] ?? section.total) / section.total),
    };
  });
}

/** The average of a share over the seasons, with its interval. @param figure of a section, by its place */
function average(sections: readonly Shares[], figure: (section: Shares, place: number) => number): Estimate {
  let sum = 0;
  let weeks = 0;
  const parts = sections.map((section, place) => {
    const share = figure(section, place);
    sum += share * section.weeks;
    weeks += section.weeks;
    return { figure: share, seasons: section.weeks };
  });
  return estimate(sum / weeks, parts);
}
