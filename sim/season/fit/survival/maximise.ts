/**
 * The maximum of a smooth function of a few numbers: Newton's method with numerical derivatives.
 *
 * A likelihood of two to four parameters near its maximum is nearly a paraboloid, so a handful of steps do.
 * Where it bends the wrong way the Hessian is made negative definite by Levenberg's term; a step is halved
 * until it gains. Textbook method, from memory.
 */

import { solve } from './linear.js';

export interface Maximum {
  readonly at: readonly number[];
  readonly value: number;
  /** Second derivatives at the maximum, negative definite unless it lies at a bound. */
  readonly hessian: readonly (readonly number[])[];
}

export interface MaximiseOptions {
  readonly start: readonly number[];
  /** Parameters stay within these. */
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Gain that is no longer worth a step. */
  readonly enough?: number;
  /** Step of the numerical derivatives. */
  readonly step?: number;
  /**
   * Second derivatives nearby, if they are known: then only those by each parameter alone are looked at anew,
   * and the mixed ones are taken in proportion. Spares most of the work with many parameters.
   */
  readonly like?: readonly (readonly number[])[];
}

/**
 * Step of the numerical derivatives if none is given: a likelihood of a stage has small bends (see
 * cutoff-paths.ts).
 */
const STEP = 2e-3;
const MOST_ROUNDS = 60;
/** Longest step of one parameter in one round; the parameters are logarithms and logits. */
const LONGEST = 1;

export function maximise(f: (at: readonly number[]) => number, search: MaximiseOptions): Maximum {
  const { low, high, enough = 1e-9, step: h = STEP, like } = search;
  const clamp = (at: readonly number[]): number[] =>
    at.map((value, i) => Math.min(high[i]!, Math.max(low[i]!, value)));
  let at = clamp(search.start);
  let value = f(at);
  for (let round = 0; ; round++) {
    const { gradient, hessian } = derivatives(f, at, value, h, like);
    // A parameter at a bound that wants to go beyond it stays there.
    const free = at.map(
      (x, i) => !((x <= low[i]! && gradient[i]! < 0) || (x >= high[i]! && gradient[i]! > 0)),
    );
    const step = newtonStep(gradient, hessian, free);
    const gain = step.reduce((sum, s, i) => sum + s * gradient[i]!, 0);
    if (round === MOST_ROUNDS || !(gain >= 2 * enough)) return { at, value, hessian };
    let share = Math.min(1, LONGEST / Math.max(...step.map(Math.abs)));
    let next = clamp(at.map((x, i) => x + share * step[i]!));
    let nextValue = f(next);
    while (!(nextValue > value) && share > 1e-6) {
      share /= 4;
      next = clamp(at.map((x, i) => x + share * step[i]!));
      nextValue = f(next);
    }
    if (!(nextValue > value)) return { at, value, hessian };
    at = next;
    value = nextValue;
  }
}

function derivatives(
  f: (at: readonly number[]) => number,
  at: readonly number[],
  value: number,
  h: number,
  like: MaximiseOptions['like'],
): { gradient: number[]; hessian: number[][] } {
  const n = at.length;
  const moved = (...steps: readonly [number, number][]): number => {
    const place = [...at];
    for (const [i, step] of steps) place[i]! += step;
    return f(place);
  };
  const up = at.map((_, i) => moved([i, h]));
  const down = at.map((_, i) => moved([i, -h]));
  const gradient = at.map((_, i) => (up[i]! - down[i]!) / (2 * h));
  const hessian = at.map(() => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i++) {
    hessian[i]![i] = (up[i]! + down[i]! - 2 * value) / h ** 2;
    for (let j = 0; j < i; j++) {
      if (like !== undefined) {
        const scale = (hessian[i]![i]! * hessian[j]![j]!) / (like[i]![i]! * like[j]![j]!);
        hessian[i]![j] = scale > 0 && scale < Infinity ? like[i]![j]! * Math.sqrt(scale) : 0;
        hessian[j]![i] = hessian[i]![j]!;
        continue;
      }
      const both = moved([i, h], [j, h]) + moved([i, -h], [j, -h]);
      const mixed = (both - up[i]! - down[i]! - up[j]! - down[j]! + 2 * value) / (2 * h ** 2);
      hessian[i]![j] = mixed;
      hessian[j]![i] = mixed;
    }
  }
  return { gradient, hessian };
}

/**
 * The step that solves -H step = gradient for the free parameters, with Levenberg's term as large as it must
 * be.
 */
function newtonStep(
  gradient: readonly number[],
  hessian: readonly (readonly number[])[],
  free: readonly boolean[],
): number[] {
  const places = free.flatMap((isFree, i) => (isFree ? [i] : []));
  const step = gradient.map(() => 0);
  if (places.length === 0) return step;
  const scale = Math.max(1, ...places.map((i) => Math.abs(hessian[i]![i]!)));
  // Beyond the last one no step is left, or the function gives no numbers here.
  for (let levenberg = 0; levenberg < 1e9 * scale; levenberg = Math.max(1e-3 * scale, 4 * levenberg)) {
    const matrix = places.map((i) => places.map((j) => -hessian[i]![j]! + (i === j ? levenberg : 0)));
    const solved = solve(
      matrix,
      places.map((i) => gradient[i]!),
    );
    if (solved === null) continue;
    places.forEach((i, k) => {
      step[i] = solved[k]!;
    });
    break;
  }
  return step;
}
