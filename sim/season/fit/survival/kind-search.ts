/**
 * The search for the parameters of one kind of plant in a stage: ln(mean), ln(CV), logit(loss) and, in the
 * first stage, logit(germination), all at once by maximum likelihood.
 *
 * Where holes were short the kinds stand in one queue. If holes were short nearly always, it is seen well how
 * much longer one kind needs than another, but hardly how long they need in all: moments at which they became
 * ready could all have been some days earlier. So a shift of all other kinds together, in days, is fitted
 * along with the parameters of one.
 *
 * To loss and germination half a plant with each outcome is added when their intervals are made: then these
 * behave also where nothing was lost, and cover what they should (that is Jeffreys' prior for a share; Brown,
 * L. D., Cai, T. T. and DasGupta, A. (2001), Statistical Science 16:101-133, from memory). The estimates
 * themselves are without it.
 */

import { FITTED_SHAPES, type FittedShape, fittedLaw } from './laws.js';
import type { GrowthParameters } from './life-table.js';
import { type MaximiseOptions, type Maximum, maximise } from './maximise.js';
import { fewPlantsRoot, type ProfileEstimate, profileEstimate, Z95 } from './profile.js';
import { LAW_BOUNDS } from './sample.js';
import type { StageLikelihood } from './stage-likelihood.js';

/** What is asked about a kind of plant in a stage. */
export interface KindModel {
  readonly shape: FittedShape;
  /** Whether seeds can fail here: the first stage. */
  readonly seeds: boolean;
  /**
   * Whether plants can be lost here. In the first stage, if not, all that is cleared counts as failed seeds.
   */
  readonly losses: boolean;
  /** Mean time [d] and CV to reckon with if nothing was seen. */
  readonly guess: { readonly mean: number; readonly cv: number };
  /** False if it is only to be reckoned with: there are too few plants for a fit. */
  readonly fit: boolean;
}

export interface Fitted {
  /** Mean growth time [d] */
  readonly days: ProfileEstimate;
  /** Standard deviation over mean */
  readonly spread: ProfileEstimate;
  /** null if not asked for */
  readonly loss: ProfileEstimate | null;
  readonly germination: ProfileEstimate | null;
  /** Whether what is dead was taken to be cleared at every visit. */
  readonly promptly: boolean;
  /**
   * ln of the likelihood at its maximum, for each shape, comparable among them only; null if not asked for.
   */
  readonly likelihoods: Readonly<Record<FittedShape, number>> | null;
}

/** Where a search begins. */
export interface Start {
  /** [d] */
  readonly mean: number;
  readonly cv: number;
  /** Share of plants that was lost. */
  readonly lost: number;
}

/** A parameter of loss or germination [logit] stays within these: a share of 0.000006 or more. */
const LOGIT_BOUND = 12;
/** So near the bound it would go beyond it. */
const AT_BOUND = 0.5;
/** Gain for which a search is not gone on with: a thousandth of what an interval turns on. */
const ENOUGH = 1e-4;
/** What is so near a bound is at it. */
const NEARLY = 1e-6;

/** How far the other kinds are moved at most [d]. */
const SHIFT_BOUND = 60;

export class KindSearch {
  readonly question: KindModel;
  readonly #questions: readonly KindModel[];
  readonly #kind: number;
  /** Of all kinds, by kind; shared with the searches for the others. */
  readonly #parameters: (readonly number[])[];
  /** Whether the others are moved along. */
  readonly #shifts: boolean;
  #likelihood: StageLikelihood;
  readonly #cleared: number;
  #bounds: Omit<MaximiseOptions, 'start'>;
  #top: Maximum | null = null;
  /** What was worked out on this grid, by shape and parameters: a search comes back to places where it was. */
  readonly #heights = new Map<string, number>();

  /**
   * @param parameters of all kinds (see `parametersAt`); `climb` puts better ones in their place
   * @param narrowest least standard deviation that is tried [d]
   * @param cleared chance that what is dead is cleared at a visit (see clearings.ts)
   */
  constructor(
    likelihood: StageLikelihood,
    questions: readonly KindModel[],
    kind: number,
    parameters: (readonly number[])[],
    narrowest: number,
    cleared: number,
  ) {
    this.question = questions[kind]!;
    this.#questions = questions;
    this.#kind = kind;
    this.#parameters = parameters;
    this.#shifts = likelihood.kindsTogether && questions.length > 1;
    this.#likelihood = likelihood;
    this.#cleared = cleared;
    this.#bounds = this.#boundsFor(narrowest);
  }

  /** Parameters of this kind where the search is. */
  get #at(): readonly number[] {
    return this.#parameters[this.#kind]!;
  }

  /** Whether the search would go on to less spread than it may. */
  get atNarrowest(): boolean {
    return this.#at[1]! <= this.#bounds.low[1]! + NEARLY;
  }

  /** Standard deviation of the time where the search is [d] */
  get deviation(): number {
    return Math.exp(this.#at[0]! + this.#at[1]!);
  }

  /** Go on with the likelihood on another grid. */
  change(likelihood: StageLikelihood, narrowest: number): void {
    this.#likelihood = likelihood;
    this.#bounds = this.#boundsFor(narrowest);
    this.#heights.clear();
  }

  /** Go to the top. */
  climb(): void {
    const start = [...this.#at, ...(this.#shifts ? [0] : [])];
    const known = this.#top === null ? {} : { like: this.#top.hessian };
    const search = { start, ...this.#bounds, ...known, enough: ENOUGH };
    const { at, value, hessian } = maximise((trial) => this.#padded(trial), search);
    const own = this.#at.length;
    const shift = this.#shifts ? at[own]! : 0;
    for (const [kind, parameters] of this.#parameters.entries()) {
      this.#parameters[kind] = kind === this.#kind ? at.slice(0, own) : shifted(parameters, shift);
    }
    this.#top = { at: [...this.#at, ...(this.#shifts ? [0] : [])], value, hessian };
  }

  /** After `climb`. @param compare whether to fit the other shapes too */
  fitted(compare: boolean): Fitted {
    const { seeds, losses } = this.question;
    const raw = this.#withoutPadding();
    const heights = () => Object.fromEntries(FITTED_SHAPES.map((shape) => [shape, this.#height(shape)]));
    return {
      days: this.#lawEstimate(0),
      spread: this.#lawEstimate(1),
      loss: losses ? this.#shareEstimate(2, raw[0]!) : null,
      germination: seeds ? this.#shareEstimate(this.#at.length - 1, raw.at(-1)!) : null,
      promptly: this.#cleared === 1,
      likelihoods: compare ? (heights() as Record<FittedShape, number>) : null,
    };
  }

  #lawEstimate(i: number): ProfileEstimate {
    const { value, low, high } = this.#profile(i);
    // An interval that reaches the bound of the search has no lower end.
    return {
      value: Math.exp(value),
      low: low <= this.#bounds.low[i]! + NEARLY ? 0 : Math.exp(low),
      high: Math.exp(high),
    };
  }

  #shareEstimate(i: number, value: number): ProfileEstimate {
    const { low, high } = this.#profile(i);
    return {
      value,
      low: Math.min(value, value === 0 ? 0 : share(low)),
      high: Math.max(value, value === 1 ? 1 : share(high)),
    };
  }

  #profile(i: number): ProfileEstimate {
    const law = i < 2;
    const root = law ? fewPlantsRoot(Math.max(2, this.#likelihood.readyOf(this.#kind))) : Z95;
    // The spread is adjusted for having fitted the mean.
    return profileEstimate((at) => this.#padded(at), this.#top!, this.#bounds, i, i === 1 ? 0 : null, root);
  }

  /** With the half plants that are added for loss and germination. */
  #padded(at: readonly number[], question = this.question): number {
    let sum = this.#bare(at, question);
    for (const x of at.slice(2, this.#at.length)) sum += (Math.log(share(x)) + Math.log(share(-x))) / 2;
    return sum;
  }

  /** @param at own parameters, then the shift of the others if they are moved along */
  #bare(at: readonly number[], question = this.question): number {
    const own = this.#at.length;
    const all = this.#parameters.map((other, kind) =>
      kind === this.#kind ? at.slice(0, own) : shifted(other, at[own] ?? 0),
    );
    const place = `${question.shape} ${all.join(' ')}`;
    const known = this.#heights.get(place);
    if (known !== undefined) return known;
    const chances = this.#questions.map((other, kind) =>
      chancesAt(kind === this.#kind ? question : other, all[kind]!, this.#cleared),
    );
    const height = this.#likelihood.value(chances, this.#kind);
    this.#heights.set(place, height);
    return height;
  }

  /** Loss and germination without what was added; the law stays as it was fitted. */
  #withoutPadding(): number[] {
    const law = this.#at.slice(0, 2);
    const own = this.#at.length;
    const { at } = maximise((rest) => this.#bare([...law, ...rest]), {
      start: this.#at.slice(2),
      low: this.#bounds.low.slice(2, own),
      high: this.#bounds.high.slice(2, own),
    });
    // At the bound nothing was lost, or nothing sprouted at all.
    return at.map((x) => (Math.abs(x) < LOGIT_BOUND - AT_BOUND ? share(x) : x < 0 ? 0 : 1));
  }

  #height(shape: FittedShape): number {
    if (shape === this.question.shape) return this.#top!.value;
    const question = { ...this.question, shape };
    const { at: start, hessian: like } = this.#top!;
    const search = { start, ...this.#bounds, like, enough: ENOUGH };
    return maximise((at) => this.#padded(at, question), search).value;
  }

  #boundsFor(narrowest: number): Omit<MaximiseOptions, 'start'> {
    const shares = new Array<number>(this.#at.length - 2).fill(LOGIT_BOUND);
    const shift = this.#shifts ? [SHIFT_BOUND] : [];
    const leastCv = Math.max(LAW_BOUNDS.low[1]!, Math.log(narrowest) - this.#at[0]!);
    const highest = [...LAW_BOUNDS.high, ...shares, ...shift];
    return {
      low: [
        LAW_BOUNDS.low[0]!,
        Math.min(leastCv, LAW_BOUNDS.high[1]!),
        ...highest.slice(2).map((bound) => -bound),
      ],
      high: highest,
    };
  }
}

/** Parameters with a mean that is so many days longer, at least a tenth of what it is. */
function shifted(parameters: readonly number[], days: number): readonly number[] {
  if (days === 0) return parameters;
  const mean = Math.exp(parameters[0]!);
  return [Math.log(Math.max(mean / 10, mean + days)), ...parameters.slice(1)];
}

/**
 * The parameters of a kind: ln(mean), ln(CV), logits of loss and germination as far as they are asked for.
 */
export function parametersAt({ seeds, losses }: KindModel, { mean, cv, lost }: Start): number[] {
  // Of those that are lost, half are taken for dead and half for failed at first.
  const each = seeds && losses ? lost / 2 : lost;
  const odds = Math.log(each / (1 - each));
  return [Math.log(mean), Math.log(cv), ...(losses ? [odds] : []), ...(seeds ? [-odds] : [])];
}

/** @param cleared chance that what is dead is cleared at a visit */
export function chancesAt(
  { shape, seeds, losses }: KindModel,
  at: readonly number[],
  cleared: number,
): GrowthParameters {
  return {
    law: fittedLaw(shape, Math.exp(at[0]!), Math.exp(at[1]!)),
    loss: losses ? share(at[2]!) : 0,
    germination: seeds ? share(at.at(-1)!) : 1,
    cleared,
  };
}

function share(logit: number): number {
  return 1 / (1 + Math.exp(-logit));
}
