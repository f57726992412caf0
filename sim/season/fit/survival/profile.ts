/**
 * Estimate and 95 % interval of one parameter by its profile likelihood: the likelihood at each value of the
 * parameter with all others at their best. It may be adjusted for having fitted another one: half the
 * logarithm of the other's information is taken off. Without that a spread comes out too small, as a variance
 * does that is divided by n instead of n - 1. (Cox, D. R. and Reid, N. (1987), "Parameter orthogonality and
 * approximate conditional inference", Journal of the Royal Statistical Society B 49:1-39, from memory.)
 *
 * The interval holds all values at which it has fallen by no more than half the 95 % quantile of chi-squared
 * with one degree of freedom (Wilks, S. S. (1938), Annals of Mathematical Statistics 9:60-62, from memory).
 * Unlike estimate +- 1.96 standard errors, it follows a lopsided likelihood.
 *
 * Of few plants that is too narrow, because the spread is estimated too: the interval of a mean from n exact times
 * would hold it in 93.4 % for n = 12. So the law (mean and spread) may be allowed to fall a little further, as far as
 * makes that interval the one by Student's t (see `fewPlantsRoot`). For times seen on visits this is a rule of thumb,
 * checked by repeats.
 */

import { normalQuantile } from '../../../engine/normal.js';
import { CONFIDENCE, studentQuantile } from '../../../engine/student.js';
import { negated, solve } from './linear.js';
import { type MaximiseOptions, type Maximum, maximise } from './maximise.js';

/** 97.5 % quantile of the standard normal distribution; its square is that of chi-squared. */
export const Z95 = normalQuantile((1 + CONFIDENCE) / 2);
/**
 * How near to its end the root of twice the fall must come: 0.02 of it changes what an interval covers by 0.2 %.
 */
const NEAR = 0.02;
const MOST_TRIALS = 12;
/** Between two places whose roots differ by less the root is as good as straight. */
const STRAIGHT = 0.4;
/** Gain for which the others are not moved again: it shifts the root of the fall by 0.0015. */
const ENOUGH = 3e-3;
/** Fall beyond which a place is not gone on from. */
const FAR_DOWN = 8;
/** Fall beyond which a search is made again with second derivatives of its own. */
const DOWN = 0.5;

export interface ProfileEstimate {
  readonly value: number;
  /** The bound of the search if the likelihood does not fall far enough before it. */
  readonly low: number;
  readonly high: number;
}

/**
 * Root of twice the fall at the ends of the interval by Student's t for the mean of so many exact times, at least 2:
 * with t = mean / standard error, twice the fall is n ln(1 + t^2 / (n - 1)).
 */
export function fewPlantsRoot(plants: number): number {
  const t = studentQuantile((1 + CONFIDENCE) / 2, plants - 1);
  return Math.sqrt(plants * Math.log1p((t * t) / (plants - 1)));
}

/**
 * @param top the maximum of `f` within `bounds`
 * @param i which parameter
 * @param payFor which parameter to adjust for; null for none, then the estimate is that at `top`
 * @param root of twice the fall at the ends of the interval
 */
export function profileEstimate(
  f: (at: readonly number[]) => number,
  top: Maximum,
  bounds: Omit<MaximiseOptions, 'start'>,
  i: number,
  payFor: number | null,
  root = Z95,
): ProfileEstimate {
  const profile = new Profile(f, top, bounds, i, payFor);
  const [low, high] = [bounds.low[i]!, bounds.high[i]!];
  const { value, height } =
    payFor === null ? { value: top.at[i]!, height: top.value } : peak(profile, top.at[i]!, low, high);
  return {
    value,
    low: crossing(profile, root, { value, height, sign: -1, bound: low }),
    high: crossing(profile, root, { value, height, sign: 1, bound: high }),
  };
}

/** A value that was looked at, with the best values of the others there. */
interface Known {
  readonly value: number;
  readonly best: readonly number[];
}

function nearestOf(known: readonly Known[], value: number): Known {
  return known.reduce((a, b) => (Math.abs(b.value - value) < Math.abs(a.value - value) ? b : a));
}

class Profile {
  readonly #f: (at: readonly number[]) => number;
  readonly #top: Maximum;
  readonly #others: readonly number[];
  readonly #i: number;
  readonly #low: readonly number[];
  readonly #high: readonly number[];
  readonly #drift: readonly number[];
  readonly #like: readonly (readonly number[])[];
  /** Place among the others of the one to adjust for; -1 for none. */
  readonly #paid: number;
  /** Standard error of the parameter, the others fitted too; at most 1. */
  readonly error: number;
  /** Values that were looked at and not far down, with the best values of the others there. */
  readonly #known: Known[];

  constructor(
    f: (at: readonly number[]) => number,
    top: Maximum,
    { low, high }: Omit<MaximiseOptions, 'start'>,
    i: number,
    payFor: number | null,
  ) {
    this.#f = f;
    this.#top = top;
    this.#i = i;
    this.#others = top.at.flatMap((_, j) => (j === i ? [] : [j]));
    this.#low = this.#others.map((j) => low[j]!);
    this.#high = this.#others.map((j) => high[j]!);
    this.#like = this.#others.map((j) => this.#others.map((k) => top.hessian[j]![k]!));
    // How the best values of the others move with the parameter, near the top.
    this.#drift =
      solve(
        negated(this.#like),
        this.#others.map((j) => top.hessian[j]![i]!),
      ) ?? this.#others.map(() => 0);
    this.#known = [{ value: top.at[i]!, best: this.#others.map((j) => top.at[j]!) }];
    this.#paid = payFor === null ? -1 : this.#others.indexOf(payFor);
    const column = solve(
      negated(top.hessian),
      top.at.map((_, j) => (j === i ? 1 : 0)),
    );
    // Where the likelihood is no proper hill, at least the fall along the parameter itself; where nothing that was tried can have
    // been seen there is not even that.
    const error = 1 / Math.sqrt(Math.max(1, column === null ? -top.hessian[i]![i]! : 1 / column[i]!));
    this.error = Number.isNaN(error) ? 1 : Math.min(1, error);
  }

  /**
   * Where the best values of the others may be: on by the drift, as they were at the nearest known place, or on along the
   * line through the two nearest, for they run along a curve.
   */
  #starts(value: number, near: Known): number[][] {
    const gone = value - near.value;
    const starts = [near.best.map((x, k) => x + this.#drift[k]! * gone), [...near.best]];
    const others = this.#known.filter((one) => one.value !== near.value);
    if (others.length > 0) {
      const next = nearestOf(others, value);
      starts.push(near.best.map((x, k) => x + ((x - next.best[k]!) / (near.value - next.value)) * gone));
    }
    return starts.map((start) => start.map((x, k) => Math.min(this.#high[k]!, Math.max(this.#low[k]!, x))));
  }

  /** The profile likelihood, adjusted if so asked. */
  at(value: number): number {
    const whole = (rest: readonly number[]): number[] => {
      const at = [...this.#top.at];
      this.#others.forEach((j, k) => {
        at[j] = rest[k]!;
      });
      at[this.#i] = value;
      return at;
    };
    // From the nearest place that is known: far down a search may have lost its way.
    const near = nearestOf(this.#known, value);
    const height = (rest: readonly number[]): number => this.#f(whole(rest));
    const bounds = { low: this.#low, high: this.#high, enough: ENOUGH };
    const { start } = this.#starts(value, near)
      .map((one) => ({ start: one, height: height(one) }))
      .reduce((best, other) => (other.height > best.height ? other : best));
    let found = maximise(height, { ...bounds, start, like: this.#like });
    if (this.#top.value - found.value > DOWN) {
      // Away from the top the others may hang together in another way than there.
      const again = maximise(height, { ...bounds, start: found.at });
      if (again.value > found.value) found = again;
    }
    if (this.#top.value - found.value < FAR_DOWN) this.#known.push({ value, best: found.at });
    if (this.#paid < 0) return found.value;
    const information = -found.hessian[this.#paid]![this.#paid]!;
    return found.value - Math.log(Math.max(1e-9, information)) / 2;
  }
}

/** The highest point, by parabolas through three points. */
function peak(profile: Profile, start: number, low: number, high: number): { value: number; height: number } {
  const { error } = profile;
  let value = start;
  let height = profile.at(start);
  for (let round = 0; round < 3; round++) {
    const step = 0.3 * error;
    const [left, right] = [Math.max(low, value - step), Math.min(high, value + step)];
    if (left === value || right === value) break;
    const [before, after] = [profile.at(left), profile.at(right)];
    const bend = before + after - 2 * height;
    // Beside a place at which nothing could have been seen there is no parabola.
    if (!Number.isFinite(bend)) break;
    const shift = bend < 0 ? (step * (before - after)) / (2 * bend) : step * Math.sign(after - before);
    const next = Math.min(high, Math.max(low, value + Math.min(2 * error, Math.max(-2 * error, shift))));
    const nextHeight = profile.at(next);
    if (!(nextHeight > height)) break;
    const done = Math.abs(next - value) < 0.2 * error;
    value = next;
    height = nextHeight;
    if (done) break;
  }
  return { value, height };
}

/** One side of the peak. */
interface Side {
  readonly value: number;
  readonly height: number;
  readonly sign: -1 | 1;
  readonly bound: number;
}

/** Where the root of twice the fall of the profile is `end` on one side; the bound if nowhere before it. */
function crossing(profile: Profile, end: number, { value: from, height, sign, bound }: Side): number {
  // The root of twice the fall is nearly a straight line through the peak.
  const rootAt = (value: number): number => {
    const root = Math.sqrt(2 * Math.max(0, height - profile.at(value)));
    return Number.isNaN(root) ? Infinity : root;
  };
  let inside = { value: from, root: 0 };
  let outside: typeof inside | null = null;
  let trial = from + sign * end * profile.error;
  for (let k = 0; k < MOST_TRIALS; k++) {
    if (sign * (trial - bound) >= 0) trial = bound;
    const now = { value: trial, root: rootAt(trial) };
    if (Math.abs(now.root - end) < NEAR) return trial;
    if (now.root < end) {
      if (trial === bound) return bound;
      inside = now;
    } else outside = now;
    if (outside === null) {
      // On along the line from the peak; where it hardly falls, three times as far from the peak at most.
      const gone = Math.abs(inside.value - from);
      trial += sign * Math.min(2 * gone, ((end - inside.root) * gone) / Math.max(inside.root, 1e-3));
      continue;
    }
    const share = outside.root === Infinity ? 0.5 : (end - inside.root) / (outside.root - inside.root);
    const sure = outside.root - inside.root < STRAIGHT;
    trial =
      inside.value + (sure ? share : Math.min(0.95, Math.max(0.05, share))) * (outside.value - inside.value);
    if (sure) return trial;
  }
  // Not found: then nothing is known of this end.
  return bound;
}
