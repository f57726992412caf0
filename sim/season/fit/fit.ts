/**
 * What a season's log tells about growing times, losses and germination, per crop and stage: plain data, as
 * it is printed with --json.
 *
 * The observations are made in observations.ts, the likelihood stands in survival/stage-likelihood.ts. Here
 * is decided which shape is fitted, what is too little, and what is told.
 *
 * A figure is `good` if enough plants were seen and its interval is narrow enough: days and spread after at
 * least 10 plants that left ready, with an interval of less than a factor of 2 (days) or 3 (spread) from end
 * to end; loss and germination after at least 20 plants that left or were cleared. Where many may have
 * waited, the spread is not good: of batches that came in on several dates its interval held the truth in 94 of 100 logs
 * with half of the plants leaving at short visits, in 91 with 69 %, in 87 with 72 %; of others in 88 with 94 %.
 * Where a crop is cut several times, nothing of its last stage is good: which of its plants were picked is not logged
 * (see observations.ts); intervals of the mean days held it in 20 to 68 of 100 logs. Nor is anything good that cannot be (see
 * contradictions.ts). What is not good is not to be written
 * into a scenario.
 */

import type { GrowthTime, Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { logFaults } from '../history/log-faults.js';
import type { LogRow } from '../log/rows.js';
import { type Contradiction, contradictionsOf } from './contradictions.js';
import type { FittedFigure } from './fitted-figure.js';
import type { Metered } from './meter/metered.js';
import { type Observations, type ObservedStage, observe } from './observations.js';
import { fifoStays } from './survival/fifo-stays.js';
import { kaplanMeier, type Median, medianOf } from './survival/kaplan-meier.js';
import type { Fitted, KindModel } from './survival/kind-search.js';
import { FITTED_SHAPES, type FittedShape, fittedLaw } from './survival/laws.js';
import type { ProfileEstimate } from './survival/profile.js';
import { type Group, type StageRecord, total } from './survival/record.js';
import { fitStage } from './survival/stage-fit.js';
import { survivorsOnly } from './survivors-only.js';
import { type Unmentioned, unmentioned } from './unmentioned.js';
import type { UnusedHoles } from './unused-holes.js';

/** Fewest plants that must have left ready for days and spread. */
export const FEWEST_READY = 10;
/** Fewest plants that must have left or been cleared for loss and germination. */
const FEWEST_ENDED = 20;
/** From the lower to the upper end of an interval, at most this factor. */
const WIDEST_DAYS = 2;
const WIDEST_SPREAD = 3;
/** Largest share of plants that left at short visits, for the spread. */
const MOST_WAITED = 0.9;
/** The same where batches came in on several dates: their likelihood is approximate (see survival/cutoff-paths.ts). */
const MOST_WAITED_MIXED = 0.6;
/** Largest share of plants that were thrown away at short visits: they left out of turn. */
const MOST_THROWN = 0.05;
/** Doubts about how many came in, so about losses too. */
const MISCOUNTED: ReadonlySet<FitDoubt['why']> = new Set(['begun_midway', 'survivors_only']);
/** What two fits may differ by to be alike, as a share of the interval. */
const LITTLE = 0.1;
/** Shapes whose AIC differ by less than this cannot be told apart (Burnham & Anderson 2002, from memory). */
const APART = 2;

/** Why figures are not sure although a time could be fitted. */
export type FitDoubt =
  /** From end to end the interval is so many times (`factor`) or more. */
  | { readonly why: 'wide'; readonly figure: 'days' | 'spread'; readonly factor: number }
  /** So many may have waited that the interval of the spread cannot be relied on. */
  | { readonly why: 'waited' }
  /** Fewer than `fewest` left or were cleared: too few for losses. */
  | { readonly why: 'few_ended'; readonly fewest: number }
  /** Batches stood in the stage when the log began, and were entered as if they had come then. */
  | { readonly why: 'begun_midway'; readonly batches: readonly string[] }
  /** The log's first batches lost nothing, far less than the others: only those of their plants were entered that had survived. */
  | { readonly why: 'survivors_only'; readonly batches: readonly string[] }
  /** Of the holes of the next stage never more than `most` were taken, at so many visits (`times`). */
  | ({ readonly why: 'unused_holes'; readonly stage: string } & UnusedHoles)
  /** Plants were thrown away when there was no room for all that were ready: they left out of turn. */
  | { readonly why: 'thrown_away'; readonly count: number }
  /** What was lost in the first stage was not cleared at every visit: then those that died cannot be told from failed seeds. */
  | { readonly why: 'died_or_failed' }
  /** Batches that are short of plants of which no row tells, far more than failed or died of others. */
  | { readonly why: 'unmentioned'; readonly batches: readonly string[] };

/** A shape, and how well it fits: the lower the AIC, the better. */
export interface ShapeFit {
  readonly shape: FittedShape;
  readonly aic: number;
}

/** One crop in one stage (or its growth after a pick). */
export interface StageFit {
  readonly stage: string;
  /** Growth after a pick; `stage` is the last one. */
  readonly regrowth: boolean;
  /** Whether plants were taken to be picked in turn, because the crop is cut several times (see observations.ts). */
  readonly in_turn: boolean;
  /** Plants (first stage: seeds) that came in; growths, with `regrowth`. */
  readonly entered: number;
  /** Of these, plants of `stand` rows, followed from when they were found standing. */
  readonly stood: number;
  /** Plants of `stand` rows that say since when to more than 2 days, or not at all; they are in no other figure here. */
  readonly undated: number;
  /** Those that were moved on or picked, or thrown away after having been ready too long. */
  readonly ready: number;
  /** Those that were cleared dead or failed. */
  readonly dead: number;
  /** First stage: of these, the ones whose rows do not say whether they died or failed; 0 in others. */
  readonly cause_unknown: number;
  readonly standing: number;
  /** Whether so many may have waited that the interval of the spread cannot be relied on. */
  readonly waited: boolean;
  /** Why figures are not good; none if nothing was fitted. */
  readonly doubts: readonly FitDoubt[];
  /**
   * Whether what is dead or failed is, by the log, not cleared at every visit, if at all: then nothing is made of when it was
   * cleared.
   */
  readonly cleared_rarely: boolean;
  /** Plants that should have left long ago and of which no row tells: taken for failed or dead. Names of their batches. */
  readonly unmentioned: number;
  readonly unmentioned_batches: readonly string[];
  /** Of those that left ready, the ones that left at a visit at which holes (or wanted heads) were short. */
  readonly short: number;
  /**
   * Days that half of the plants stood here, growing and waiting, those that died or still stand allowed for; null if none
   * whose entry was seen has left ready.
   */
  readonly stay: Median | null;
  /** Mean growth time [d]; null if too few plants left ready. */
  readonly days: FittedFigure | null;
  /** Standard deviation of it over its mean; null likewise. */
  readonly spread: FittedFigure | null;
  /**
   * Probability of dying; null likewise, and in the first stage if all that is cleared counts as failed
   * seeds: if the scenario has no loss there and no row tells of one.
   */
  readonly loss: FittedFigure | null;
  /** Probability of sprouting; null likewise, and in every stage but the first. */
  readonly germination: FittedFigure | null;
  /** Shape that was fitted. */
  readonly shape: FittedShape;
  /**
   * The shapes, the best first; empty if nothing was fitted, and where plants were taken to be picked in turn: there
   * the wrong one may look better.
   */
  readonly shapes: readonly ShapeFit[];
  /** Whether the best shape fits clearly better than the next. */
  readonly told_apart: boolean;
  /** What cannot be, so that nothing of this is good; none if the log bears it out. */
  readonly contradictions: readonly Contradiction[];
}

export interface CropFit {
  readonly crop: string;
  /** Whether the scenario has this crop; true without a scenario. */
  readonly known: boolean;
  readonly stages: readonly StageFit[];
}

/** What the log tells of growing, and what its rows of the tank tell. */
export interface FitResult extends Metered {
  /** ISO dates of the first and the last row of the log; empty if there are none. */
  readonly from: string;
  readonly to: string;
  /** Whether the holes of the stages are known, so that waiting for a hole can be told from growing. */
  readonly holes_known: boolean;
  readonly crops: readonly CropFit[];
}

/** A log, observed once for the fits of all its stages. Plain data. */
export interface FitGround {
  readonly seen: Observations;
  /** ISO dates of the first and the last row; empty if there are none. */
  readonly from: string;
  readonly to: string;
  readonly plan: Plan | null;
  /** Whether the log does not fit the plan. */
  readonly refused: boolean;
}

/** What a thread is asked for. Plain data. */
export interface FitErrand {
  readonly kind: 'fit';
  readonly ground: FitGround;
  /** Place of the stage. */
  readonly stage: number;
}

/**
 * @param rows of a log, as `readLog` hands them out
 * @param stages names of the line's stages in their order
 * @param plan of the line, with the same stages; null if there is none
 */
export function fitSeason(rows: readonly LogRow[], stages: readonly string[], plan: Plan | null): FitResult {
  const refused = plan !== null && logFaults(rows, plan).length > 0;
  const ground = fitGround(rows, stages, plan, refused);
  return fitStages(ground, [...ground.seen.stages.keys()]);
}

export function fitGround(
  rows: readonly LogRow[],
  stages: readonly string[],
  plan: Plan | null,
  refused: boolean,
): FitGround {
  const seen = observe(rows, stages, plan);
  return { seen, from: rows[0]?.date ?? '', to: rows.at(-1)?.date ?? '', plan, refused };
}

/** @param which places of the stages that are fitted: where many waited, one can take some seconds */
export function fitStages({ seen, from, to, plan, refused }: FitGround, which: readonly number[]): FitResult {
  const fits = which.flatMap((s) =>
    fitsOf(seen, s, plan).map(({ crop, told }) => ({ crop, told: borneOut(told, refused) })),
  );
  return {
    from,
    to,
    holes_known: plan !== null,
    crops: seen.crops.map((crop, c) => ({
      crop,
      known: plan === null || planned(plan, crop) !== undefined,
      stages: fits.filter((fit) => fit.crop === c).map((fit) => fit.told),
    })),
  };
}

/** What was fitted stage by stage, as one. @param parts of the same log, at least one */
export function joinedFits(parts: readonly FitResult[]): FitResult {
  const [first] = parts as [FitResult, ...FitResult[]];
  const crops = first.crops.map((crop, c) => ({
    ...crop,
    stages: parts.flatMap((part) => part.crops[c]!.stages),
  }));
  return { ...first, crops };
}

/** Nothing is good that the log itself speaks against. @param refused whether the log does not fit the plan */
function borneOut(told: StageFit, refused: boolean): StageFit {
  const contradictions = [...told.contradictions, ...(refused ? ['refused' as const] : [])];
  if (contradictions.length === 0) return told;
  const doubted = (figure: FittedFigure | null) => figure && { ...figure, good: false };
  const { days, spread, loss, germination } = told;
  return {
    ...told,
    contradictions,
    days: doubted(days),
    spread: doubted(spread),
    loss: doubted(loss),
    germination: doubted(germination),
  };
}

function planned(plan: Plan | null, crop: string) {
  return plan?.crops.find(({ name }) => name === crop);
}

/**
 * What is fitted for a shape of the plan: itself if it can be, the exponential law as a Weibull law, else the
 * lognormal.
 */
function fittedShape(time: GrowthTime | null): FittedShape {
  if (time?.shape === 'exponential') return 'weibull';
  return FITTED_SHAPES.find((shape) => shape === time?.shape) ?? 'lognormal';
}

/** The fits of a stage, one for each kind of plant that was there. */
function fitsOf(seen: Observations, s: number, plan: Plan | null): { crop: number; told: StageFit }[] {
  const stage = seen.stages[s]!;
  const { kinds, record } = stage;
  const groups = kinds.map((_, k) => record.groups.filter(({ kind }) => kind === k));
  const questions = kinds.map(({ crop, regrowth }, k): KindModel => {
    const known = planned(plan, seen.crops[crop]!);
    const time = (regrowth ? known?.regrow : known?.stages[s])?.time ?? null;
    const ready = total(groups[k]!.flatMap((group) => group.ready));
    // A line of one stage sows into the stage that it picks from, and there a plant may regrow.
    const seeds = s === route.first(seen) && !regrowth;
    const planLoss = known?.stages[route.first(seen)]?.loss ?? 0;
    const died = groups[k]!.some(({ dead }) => dead.some(({ cause }) => cause === 'died'));
    return {
      shape: fittedShape(time),
      seeds,
      losses: !seeds || planLoss > 0 || died,
      guess: { mean: time?.days ?? 14, cv: Math.min(1, Math.max(0.05, time?.spread ?? 0.15)) },
      fit: ready >= FEWEST_READY,
    };
  });
  const fitted = questions.some(({ fit }) => fit)
    ? fitStage(record, questions, true)
    : questions.map(() => null);
  const survivors = survivorsOnly(seen);
  const common = commonDoubts(stage, survivors, questions, fitted);
  return kinds.flatMap((kind, k) => {
    if (groups[k]!.length === 0 && stage.undated[k] === 0) return [];
    const missing = missingOf(stage, k, questions[k]!, fitted[k]!);
    const told = toldOf(stage, k, groups[k]!, questions[k]!, fitted[k]!, common, missing);
    return [{ crop: kind.crop, told }];
  });
}

/** What makes the figures of all kinds in a stage doubtful: they stand in one queue. */
function commonDoubts(
  { record, batches, midway, thrown, unused }: ObservedStage,
  survivors: ReadonlySet<string>,
  questions: readonly KindModel[],
  fitted: readonly (Fitted | null)[],
): FitDoubt[] {
  const doubts: FitDoubt[] = [];
  if (midway.length > 0) doubts.push({ why: 'begun_midway', batches: midway });
  const survived = batches.filter((batch) => survivors.has(batch));
  if (survived.length > 0) doubts.push({ why: 'survivors_only', batches: survived });
  const left = total(record.groups.flatMap(({ ready }) => ready));
  const count = thrown.reduce((sum, plants) => sum + plants, 0);
  if (count > MOST_THROWN * left) doubts.push({ why: 'thrown_away', count });
  if (unused !== null && fitted.some((one) => one !== null && narrowOf(one).length > 0)) {
    const { visits, stage, planned, most, times } = unused;
    const tight = fitStage({ ...record, visits }, questions, false);
    if (fitted.some((loose, k) => loose !== null && !agree(loose, tight[k]!))) {
      doubts.push({ why: 'unused_holes', stage, planned, most, times });
    }
  }
  return doubts;
}

/** Whether the figures that one fit tells hardly differ in the other. */
function agree(one: Fitted, other: Fitted): boolean {
  return narrowOf(one).every((figure) => {
    const [a, b] = [one[figure], other[figure]];
    return Math.abs(a.value - b.value) <= LITTLE * (a.high - a.low);
  });
}

function narrowOf({ days, spread }: Fitted): ('days' | 'spread')[] {
  return [
    ...(narrow(days, WIDEST_DAYS, true).good ? ['days' as const] : []),
    ...(narrow(spread, WIDEST_SPREAD, true).good ? ['spread' as const] : []),
  ];
}

function missingOf(
  { record, batches }: ObservedStage,
  kind: number,
  { shape }: KindModel,
  fitted: Fitted | null,
): Unmentioned {
  if (fitted === null) return { count: 0, batches: [], odd: [] };
  const { days, spread, loss, germination } = fitted;
  const groups = record.groups.flatMap((group, g) =>
    group.kind === kind ? [[group, batches[g]!] as const] : [],
  );
  const lost = 1 - (germination?.value ?? 1) * (1 - (loss?.value ?? 0));
  return unmentioned(groups, record, fittedLaw(shape, days.value, spread.value), lost);
}

function toldOf(
  { name, record, kinds, undated }: ObservedStage,
  k: number,
  groups: readonly Group[],
  question: KindModel,
  fitted: Fitted | null,
  common: readonly FitDoubt[],
  missing: Unmentioned,
): StageFit {
  const { crop, regrowth } = kinds[k]!;
  const entries = groups.flatMap((group) => group.entries);
  const left = groups.flatMap(({ ready }) => ready);
  const ready = total(left);
  const cleared = groups.flatMap((group) => group.dead);
  const dead = total(cleared);
  const inTurn = kinds.some((kind) => kind.crop === crop && kind.regrowth);
  const shapes = fitted === null || inTurn ? [] : shapesOf(fitted, question);
  const enough = ready + dead >= FEWEST_ENDED;
  const mixed = groups.some(({ entries }) => entries.length > 1);
  const mostWaited = mixed ? MOST_WAITED_MIXED : MOST_WAITED;
  const short = total(left.filter(({ visit }) => record.visits[visit]!.short));
  const odd: FitDoubt[] = [
    ...(missing.odd.length > 0 ? [{ why: 'unmentioned', batches: missing.odd } as const] : []),
    ...(fitted?.promptly === false && question.seeds && question.losses
      ? [{ why: 'died_or_failed' } as const]
      : []),
  ];
  const waited = short > mostWaited * ready;
  const timed = common.length === 0;
  const counted = odd.length === 0 && !common.some(({ why }) => MISCOUNTED.has(why));
  const stay = stayOf(groups, record);
  const { shape } = question;
  const days = fitted && narrow(fitted.days, WIDEST_DAYS, timed && !inTurn);
  const spread = fitted && narrow(fitted.spread, WIDEST_SPREAD, timed && !inTurn && !waited);
  return {
    stage: name,
    regrowth,
    in_turn: inTurn,
    entered: total(entries),
    stood: total(entries.filter(({ stood }) => stood !== undefined)),
    undated: undated[k]!,
    ready,
    dead,
    cause_unknown: question.seeds ? total(cleared.filter(({ cause }) => cause === undefined)) : 0,
    standing: groups.reduce((sum, { standing }) => sum + standing, 0),
    waited,
    doubts: [...common, ...odd, ...(fitted === null ? [] : littleSeen(fitted, enough, waited))],
    cleared_rarely: fitted?.promptly === false,
    unmentioned: missing.count,
    unmentioned_batches: missing.batches,
    short,
    stay,
    days,
    spread,
    loss: fitted?.loss ? { ...fitted.loss, good: enough && counted && !inTurn } : null,
    germination: fitted?.germination ? { ...fitted.germination, good: enough && counted } : null,
    shape,
    shapes,
    told_apart: shapes.length > 1 && shapes[1]!.aic - shapes[0]!.aic >= APART,
    contradictions: contradictionsOf({ days, spread, shape, stay, ready }, groups, record),
  };
}

function narrow(estimate: ProfileEstimate, factor: number, sure: boolean): FittedFigure {
  return { ...estimate, good: sure && !isWide(estimate, factor) };
}

function isWide({ low, high }: ProfileEstimate, factor: number): boolean {
  return high >= factor * low;
}

/** What too little was seen for. @param enough whether that is so many as losses take */
function littleSeen(
  { days, spread, loss, germination }: Fitted,
  enough: boolean,
  waited: boolean,
): FitDoubt[] {
  const wide = (figure: 'days' | 'spread', estimate: ProfileEstimate, factor: number): FitDoubt[] =>
    isWide(estimate, factor) ? [{ why: 'wide', figure, factor }] : [];
  return [
    ...wide('days', days, WIDEST_DAYS),
    ...(waited ? [{ why: 'waited' } as const] : wide('spread', spread, WIDEST_SPREAD)),
    ...(!enough && (loss ?? germination) !== null
      ? [{ why: 'few_ended', fewest: FEWEST_ENDED } as const]
      : []),
  ];
}

/** AIC = 2 parameters - 2 ln likelihood (Akaike 1974, from memory). */
function shapesOf({ likelihoods }: Fitted, { seeds, losses }: KindModel): ShapeFit[] {
  const parameters = 2 + Number(seeds) + Number(losses);
  return FITTED_SHAPES.map((shape) => ({ shape, aic: 2 * parameters - 2 * likelihoods![shape] })).sort(
    (a, b) => a.aic - b.aic,
  );
}

/** Of plants whose entry was seen; null if none of them left. */
function stayOf(groups: readonly Group[], record: StageRecord): Median | null {
  const seen = groups.filter(({ entries }) => entries.every(({ stood }) => stood === undefined));
  const stays = seen.flatMap((group) => fifoStays(group, record));
  if (!stays.some(({ end }) => end === 'ready')) return null;
  return medianOf(
    kaplanMeier(
      stays.map(({ day, count, end, visit }) => ({
        time: record.visits[visit]!.day - day,
        count,
        ended: end === 'ready',
      })),
    ),
  );
}
