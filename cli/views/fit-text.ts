/** What a log tells in a grower's words. Figures come from the result; here they are only laid out. */

import {
  type CropFit,
  FEWEST_ENDED,
  FEWEST_READY,
  type Figure,
  type FitResult,
  type StageFit,
  WIDEST_DAYS,
  WIDEST_SPREAD,
} from '../../sim/season/fit/fit.js';
import type { FitChange, FitConflict } from '../../sim/season/fit/fit-changes.js';
import { shortNames } from '../render/short-names.js';
import { dateText } from '../words/dates.js';
import { counted, listed, percentText, thousands } from '../words/numbers.js';
import { fitting, WIDTH, wrap } from './format.js';

/** Longest name of a stage or crop that is told in full. */
const MOST_NAME = 12;

/**
 * @param scenario name of its file; null if none was given
 * @param changes that the log would make in it; null likewise
 * @param conflicts of the log with it; null likewise
 */
export function fitText(
  result: FitResult,
  scenario: string | null,
  changes: readonly FitChange[] | null,
  conflicts: readonly FitConflict[] | null,
): string {
  const names = shortNames(
    result.crops.flatMap(({ crop, stages }) => [crop, ...stages.map(({ stage }) => stage)]),
    MOST_NAME,
  );
  const short = <Named extends { readonly stage: string }>(named: Named): Named => ({
    ...named,
    stage: names.get(named.stage)!,
  });
  const shortBoth = <Named extends { readonly crop: string; readonly stage: string }>(
    named: Named,
  ): Named => ({
    ...short(named),
    crop: names.get(named.crop)!,
  });
  const parts = [
    heading(result),
    ...result.crops.map((crop) => cropText({ ...crop, stages: crop.stages.map(short) })),
  ];
  if (scenario !== null && changes !== null) {
    parts.push(changesText(scenario, changes.map(shortBoth), anythingGood(result)));
  }
  if (conflicts !== null && conflicts.length > 0) parts.push(conflictsText(conflicts.map(shortBoth)));
  return `${parts.join('\n\n')}\n`;
}

function heading({ from, to, holes_known }: FitResult): string {
  const sentences = [
    `What the log of ${dateText(from)} to ${dateText(to)} tells. Plants are seen on visits only, so a time lies between two visits; plants that still stand count with the time they have stood. Intervals hold the true value in 95 of 100 such logs.`,
  ];
  if (!holes_known) {
    sentences.push(
      'No scenario was given, so it is not known when holes were short: what a plant waited for a hole is taken for growing, and times may come out too long; nor is it known who came on days without a row, which may make them too short. Name the scenario too: evensow fit LOG FILE.',
    );
  }
  return sentences.map((sentence) => wrap(sentence, WIDTH)).join('\n');
}

function cropText({ crop, known, stages }: CropFit): string {
  const lines = [wrap(known ? crop : `${crop} (not in the scenario)`, WIDTH)];
  const fitted = stages.filter(({ days }) => days !== null);
  if (fitted.length > 0) lines.push(...table(fitted));
  const germination = stages[0]?.germination ?? null;
  const sentences = [
    ...(germination === null ? [] : [`Of the seeds ${shareText(germination)} sprout.`]),
    ...stages.flatMap(failedOnly),
    ...shapesText(fitted.filter(({ shapes }) => shapes.length > 0)),
    ...(fitted.some(doubtful) ? ['In brackets: not sure enough to be written.'] : []),
    ...stages.flatMap(tooLittle),
    ...inTurn(stages),
    ...waiting(fitted),
  ];
  return [...lines, ...sentences.map((sentence) => wrap(sentence, WIDTH, '  '))].join('\n');
}

function table(stages: readonly StageFit[]): string[] {
  const rows = stages.map((fit) => [
    `  ${nameText(fit)}`,
    thousands(fit.ready),
    fit.stay?.value == null ? '-' : String(fit.stay.value),
    ...cells(fit.days, (days) => days.toFixed(1)),
    ...cells(fit.spread, (spread) => (100 * spread).toFixed(0)),
    ...cells(fit.loss, (loss) => (100 * loss).toFixed(1)),
  ]);
  return fitting([
    ['  ', 'plants', 'days', 'days', '', 'spread', '', 'loss', ''],
    ['  stage', 'left', 'stood', 'grown', '95 %', '%', '95 %', '%', '95 %'],
    ...rows,
  ]);
}

/** A figure and its interval; in brackets if too little was seen for it. */
function cells(figure: Figure | null, text: (value: number) => string): [string, string] {
  if (figure === null) return ['-', ''];
  const { value, low, high, good } = figure;
  return [good ? text(value) : `(${text(value)})`, `${text(low)}..${text(high)}`];
}

function nameText({ stage, regrowth }: Pick<StageFit, 'stage' | 'regrowth'>): string {
  return regrowth ? 'regrowth' : stage;
}

function shareText({ value, low, high, good }: Figure): string {
  return `${good ? percentText(value) : `(${percentText(value)})`} (${percentText(low)} to ${percentText(high)})`;
}

function doubtful({ days, spread, loss, germination }: StageFit): boolean {
  return [days, spread, loss, germination].some((figure) => figure?.good === false);
}

/** What is taken for granted of what was cleared in the first stage. */
function failedOnly({ stage, cause_unknown, loss, germination }: StageFit): string[] {
  return loss !== null || germination === null || cause_unknown === 0
    ? []
    : [
        `What was cleared in ${stage} is taken for seeds that failed: the scenario has no loss there, and no note tells of one (died).`,
      ];
}

/** Which shapes fit, one sentence for stages that are alike in that. */
function shapesText(stages: readonly StageFit[]): string[] {
  if (stages.length === 0) return [];
  const byWords = new Map<string, string[]>();
  for (const fit of stages) {
    const words = shapeWords(fit);
    byWords.set(words, [...(byWords.get(words) ?? []), nameText(fit)]);
  }
  const sentences = [...byWords].map(([words, names]) => `${listed(names)}: ${words}`);
  return [`Shape: ${sentences.join('; ')}.`];
}

function shapeWords({ shapes, shape, told_apart }: StageFit): string {
  const best = shapes[0]!;
  if (best.shape === shape) {
    return told_apart
      ? `${shape} fits best`
      : `${shape} fits best, but ${shapes[1]!.shape} cannot be told from it`;
  }
  const gap = shapes.find((other) => other.shape === shape)!.aic - best.aic;
  return gap < 2
    ? `${shape} was fitted; it cannot be told from ${best.shape}`
    : `${shape} was fitted, but ${best.shape} fits better (AIC lower by ${gap.toFixed(1)})`;
}

/** What too little was seen for. */
function tooLittle(fit: StageFit): string[] {
  const { ready, dead, standing, days, spread, loss, germination } = fit;
  const name = fit.regrowth ? `regrowth in ${fit.stage}` : fit.stage;
  if (days === null) {
    const seen = counted(ready, 'plant was', 'plants were');
    const rest = `${counted(standing, 'still stands', 'still stand')}, ${thousands(dead)} died or failed`;
    return [
      `Too little for ${name}: ${seen} seen to leave it ready (${rest}); a time takes at least ${FEWEST_READY}.`,
    ];
  }
  if (fit.in_turn) return [];
  const what = [
    ...(days.good ? [] : [`days (from end to end of the interval is a factor of ${WIDEST_DAYS} or more)`]),
    ...(spread?.good === false ? [`spread (${spreadDoubt(fit)})`] : []),
    ...(loss?.good === false || germination?.good === false
      ? [`losses (fewer than ${FEWEST_ENDED} plants left or died)`]
      : []),
  ];
  return what.length === 0 ? [] : [`Too little for ${name}: ${listed(what)}.`];
}

function spreadDoubt({ waited }: StageFit): string {
  return waited
    ? 'so many of the plants may have waited that its interval is too narrow'
    : `from end to end of the interval is a factor of ${WIDEST_SPREAD} or more`;
}

/** What is not known of plants that are cut several times. */
function inTurn(stages: readonly StageFit[]): string[] {
  const stage = stages.find((fit) => fit.in_turn)?.stage;
  return stage === undefined
    ? []
    : [
        `${stage} and regrowth: the log does not say which plants gave their first pick and which a later one. They are taken to be picked in turn, which is rough: nothing of this is written.`,
      ];
}

/** Where plants waited. */
function waiting(stages: readonly StageFit[]): string[] {
  const waited = stages.filter(({ short }) => short > 0);
  if (waited.length === 0) return [];
  const counts = waited.map((fit) => `${nameText(fit)} ${thousands(fit.short)} of ${thousands(fit.ready)}`);
  return [
    `Left at a visit when there was no room or no want for all that were ready, so that they may have waited: ${listed(counts)}. That is allowed for.`,
  ];
}

function anythingGood({ crops }: FitResult): boolean {
  return crops.some(({ stages }) =>
    stages.some(({ days, spread, loss, germination }) =>
      [days, spread, loss, germination].some((figure) => figure?.good === true),
    ),
  );
}

/** @param known whether any figure is sure enough */
function changesText(scenario: string, changes: readonly FitChange[], known: boolean): string {
  const title = `What it would change in ${scenario}`;
  if (changes.length === 0) {
    return `${title}\n  ${known ? 'Nothing: no figure that is sure enough differs.' : 'Nothing yet: the log does not tell any figure for sure.'}`;
  }
  const rows = changes.map(({ crop, stage, regrowth, key, present, value, low, high, outside }) => [
    `  ${crop}`,
    key === 'germination' ? '' : nameText({ stage, regrowth }),
    key,
    plainText(present),
    plainText(value),
    `${roundText(low)}..${roundText(high)}`,
    outside ? 'differs' : '',
  ]);
  const lines = fitting([['  crop', 'stage', 'key', 'now', 'log', '95 %', ''], ...rows]);
  const sentence =
    'Where nothing stands behind, the scenario lies within the interval: the log gives no reason to doubt it.';
  return [title, ...lines, wrap(sentence, WIDTH, '  ')].join('\n');
}

function conflictsText(conflicts: readonly FitConflict[]): string {
  const rows = conflicts.map(({ crop, stage, regrowth, key, shape, present, value, low, high }) => [
    `  ${crop}`,
    nameText({ stage, regrowth }),
    key,
    shape,
    plainText(present),
    plainText(value),
    `${roundText(low)}..${roundText(high)}`,
  ]);
  const lines = fitting([['  crop', 'stage', 'key', 'shape', 'now', 'log', '95 %'], ...rows]);
  const sentence =
    'These are not written, because the shape has no key for them. Give the stage another shape: lognormal, gamma and weibull take days and spread.';
  return ['What its shapes leave no room for', ...lines, wrap(sentence, WIDTH, '  ')].join('\n');
}

function plainText(value: number): string {
  return String(Number(value.toPrecision(4)));
}

function roundText(value: number): string {
  return String(Number(value.toPrecision(3)));
}
