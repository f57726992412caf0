/** What a log tells in a grower's words. Figures come from the result; here they are only laid out. */

import * as route from '../../sim/models/route.js';
import type { Contradiction } from '../../sim/season/fit/contradictions.js';
import {
  type CropFit,
  FEWEST_READY,
  type FitDoubt,
  type FitResult,
  type StageFit,
} from '../../sim/season/fit/fit.js';
import type { FitChange, FitConflict } from '../../sim/season/fit/fit-changes.js';
import type { FittedFigure } from '../../sim/season/fit/fitted-figure.js';
import { WIDEST_SPAN } from '../../sim/season/fit/observations.js';
import { dateText, daysText } from '../words/dates.js';
import {
  COUNT,
  counted,
  type Form,
  fixed,
  intervalText,
  listed,
  percentText,
  SHARE,
  thousands,
} from '../words/numbers.js';
import { doubtSentences } from './fit-doubts.js';
import { meterSections } from './fit-meter.js';
import {
  type Block,
  type Cell,
  doubtful,
  figure,
  interval,
  name,
  type Rows,
  type Section,
  section,
  table,
  whole,
} from './section.js';

/** What was fitted, beside a scenario if one was given. */
interface Told {
  readonly result: FitResult;
  /** Name of its file; this and the others are null if none was given. */
  readonly scenario: string | null;
  /** What the log would change in it, and what its shapes leave no room for. */
  readonly changes: readonly FitChange[] | null;
  readonly conflicts: readonly FitConflict[] | null;
  /** Spells of the scenario with other days in the time of the log. */
  readonly spells?: readonly Span[];
}

interface Span {
  readonly from: string;
  readonly to: string;
}

export function fitSections({ result, scenario, changes, conflicts, spells = [] }: Told): Section[] {
  return [
    section(null, ...heading(result), ...asTheyWere(spells)),
    ...cropSections(result),
    ...meterSections(result),
    ...(scenario === null || changes === null
      ? []
      : [section(whole(`What it would change in ${scenario}`), ...changed(changes, anythingGood(result)))]),
    ...(conflicts === null || conflicts.length === 0
      ? []
      : [section('What its shapes leave no room for', ...conflicting(conflicts))]),
  ];
}

const FIGURES = ['days', 'spread', 'loss', 'germination'] as const;

/** One row a crop, stage and figure; behind them those of the tank, which are of no crop and no stage. */
export function fitRows({ crops, water, tank }: FitResult): Rows {
  const rows = crops.flatMap(({ crop, stages }) =>
    stages.flatMap((fit) =>
      FIGURES.flatMap((of) => {
        const told = fit[of];
        if (told === null) return [];
        const { value, low, high, good } = told;
        return [[crop, fit.stage, String(fit.regrowth), of, value, low, high, String(good)]];
      }),
    ),
  );
  const metered = [
    ['water.scale', water?.scale] as const,
    ['tank.uptake_ec', tank?.uptake_ec] as const,
  ].flatMap(([of, told]) =>
    told == null ? [] : [['', '', '', of, told.value, told.low, told.high, String(told.good)]],
  );
  return [['crop', 'stage', 'regrowth', 'figure', 'value', 'low', 'high', 'good'], ...rows, ...metered];
}

function heading({ from, to, holes_known }: FitResult): string[] {
  const sentences = [
    `What the log of ${dateText(from)} to ${dateText(to)} tells. Plants are seen on visits only, so a time lies between two visits; plants that still stand count with the time they have stood. Intervals hold the true value in 95 of 100 such logs.`,
  ];
  if (!holes_known) {
    sentences.push(
      'No scenario was given, so it is not known when holes were short: what a plant waited for a hole is taken for growing, and times may come out too long; nor is it known who came on days without a row, which may make them too short. Name the scenario too: evensow fit LOG FILE.',
    );
  }
  return sentences;
}

/** What of the air is in the days that are told. */
function asTheyWere(spells: readonly Span[]): string[] {
  if (spells.length === 0) return [];
  const when = listed(spells.map(({ from, to }) => daysText(from, to)));
  return [
    `Days are told as they were, whatever the air: the spells of climate.dated (${when}) are in them and not taken out. Days that are written into the scenario would be lengthened or shortened by its spells once more.`,
  ];
}

/** A section for each crop, and one for what is to be said of several in the same words. */
function cropSections({ crops, holes_known }: FitResult): Section[] {
  const told = crops.map((crop) => ({ crop, blocks: cropBlocks(crop, holes_known) }));
  const cropsOf = (block: Block): string =>
    listed(told.filter(({ blocks }) => blocks.includes(block)).map(({ crop }) => crop.crop));
  const shared = (block: Block): boolean =>
    typeof block === 'string' && told.filter(({ blocks }) => blocks.includes(block)).length > 1;
  const common = [...new Set(told.flatMap(({ blocks }) => blocks.filter(shared)))];
  return [
    ...told.map(({ crop: { crop, known }, blocks }) =>
      section(known ? crop : `${crop} (not in the scenario)`, ...blocks.filter((block) => !shared(block))),
    ),
    ...[...new Set(common.map(cropsOf))].map((title) =>
      section(title, ...common.filter((block) => cropsOf(block) === title)),
    ),
  ];
}

function cropBlocks({ stages }: CropFit, planned: boolean): Block[] {
  const fitted = stages.filter(({ days }) => days !== null);
  const germination = stages[route.first({ stages })]?.germination ?? null;
  return [
    table(fitted.map(row), {
      head: [
        'stage',
        'plants\nleft',
        'days\nstood',
        'days\ngrown',
        '95 %',
        'spread\n%',
        '95 %',
        'loss\n%',
        '95 %',
      ],
    }),
    ...(germination === null ? [] : [`Of the seeds ${shareText(germination)} sprout.`]),
    ...stages.flatMap((fit) => failedOnly(fit, planned)),
    ...shapesText(fitted.filter(({ shapes }) => shapes.length > 0)),
    ...(fitted.some(isDoubtful) ? ['In brackets: not sure enough to be written.'] : []),
    ...stages.flatMap(tooLittle),
    ...doubtSentences(stages),
    ...inTurn(stages),
    ...undated(stages),
    ...waiting(fitted),
  ];
}

function row(fit: StageFit): Cell[] {
  return [
    nameCell(fit),
    figure(fit.ready, COUNT),
    figure(fit.stay?.value, COUNT),
    ...cells(fit.days, fixed(1)),
    ...cells(inPercent(fit.spread), fixed(0)),
    ...cells(inPercent(fit.loss), fixed(1)),
  ];
}

/** A figure, which may be doubtful, and its interval. */
function cells(told: FittedFigure | null, form: Form): Cell[] {
  if (told === null) return [null, ''];
  const { value, good } = told;
  return [good ? figure(value, form) : doubtful(value, form), interval(told, form)];
}

/** The head of its column says that it is in percent. */
function inPercent(told: FittedFigure | null): FittedFigure | null {
  return told && { ...told, value: 100 * told.value, low: 100 * told.low, high: 100 * told.high };
}

function nameCell({ stage, regrowth }: Pick<StageFit, 'stage' | 'regrowth'>): Cell {
  return regrowth ? 'regrowth' : name(stage);
}

function nameText({ stage, regrowth }: Pick<StageFit, 'stage' | 'regrowth'>): string {
  return regrowth ? 'regrowth' : stage;
}

function shareText({ value, low, high, good }: FittedFigure): string {
  return `${good ? percentText(value) : `(${percentText(value)})`} (${intervalText({ low, high }, SHARE)})`;
}

function isDoubtful(fit: StageFit): boolean {
  return FIGURES.some((of) => fit[of]?.good === false);
}

/** What is taken for granted of what was cleared in the first stage. @param planned whether a scenario was given */
function failedOnly({ stage, cause_unknown, loss, germination }: StageFit, planned: boolean): string[] {
  if (loss !== null || germination === null || cause_unknown === 0) return [];
  const scenario = planned ? 'the scenario has no loss there, and ' : '';
  return [
    `What was cleared in ${stage} is taken for seeds that failed: ${scenario}no note tells of plants that died.`,
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
  if (gap < 2) return `${shape} was fitted; it cannot be told from ${best.shape}`;
  // Akaike's relative likelihood (Burnham & Anderson 2002, section 2.8).
  const times = Math.exp(gap / 2);
  const often = times > 1000 ? 'more than 1000' : `${Math.round(times)}`;
  return `${shape} was fitted, but ${best.shape} is ${often} times as likely by this log (AIC lower by ${gap.toFixed(1)})`;
}

/** What too little was seen for. */
function tooLittle(fit: StageFit): string[] {
  const { ready, dead, standing, days } = fit;
  const name = fit.regrowth ? `regrowth in ${fit.stage}` : fit.stage;
  if (days === null) {
    const seen = counted(ready, 'plant was', 'plants were');
    const rest = `${counted(standing, 'still stands', 'still stand')}, ${thousands(dead)} died or failed`;
    return [
      `Too little for ${name}: ${seen} seen to leave it ready (${rest}); a time takes at least ${FEWEST_READY}.`,
    ];
  }
  if (fit.in_turn) return [];
  if (fit.contradictions.length > 0)
    return [`${name}: ${fit.contradictions.map((one) => CANNOT_BE[one]).join(' ')}`];
  const what = fit.doubts.flatMap(littleText);
  return what.length === 0 ? [] : [`Too little for ${name}: ${listed(what)}.`];
}

/** What else makes figures doubtful has sentences of its own. */
function littleText(doubt: FitDoubt): string[] {
  switch (doubt.why) {
    case 'wide':
      return [`${doubt.figure} (the upper end of the interval is ${doubt.factor} times the lower or more)`];
    case 'waited':
      return ['spread (so many of the plants may have waited that its interval is too narrow)'];
    case 'few_ended':
      return [`losses (fewer than ${doubt.fewest} plants left or died)`];
    default:
      return [];
  }
}

/** Why a fit is not to be believed. */
const CANNOT_BE: Readonly<Record<Contradiction, string>> = {
  grown_exceeds_stood:
    'the days grown are more than the days stood, which cannot be: look for plants that failed or were lost and are not logged.',
  overdue:
    'more plants stand longer than those that left ever did than have left: log what became of them, or since when they stand (evensow log stand).',
  refused: 'the log does not fit the scenario.',
};

/** Plants of `stand` rows that tell nothing of a time. */
function undated(stages: readonly StageFit[]): string[] {
  const some = stages.filter((fit) => fit.undated > 0);
  if (some.length === 0) return [];
  const counts = some.map((fit) => `${thousands(fit.undated)} in ${nameText(fit)}`);
  return [
    `Stood there before the log began, since when is not known to ${WIDEST_SPAN} days: ${listed(counts)}. They tell nothing of a time.`,
  ];
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

function anythingGood({ crops, water, tank }: FitResult): boolean {
  if (water?.scale?.good || tank?.uptake_ec?.good) return true;
  return crops.some(({ stages }) => stages.some((fit) => FIGURES.some((of) => fit[of]?.good === true)));
}

/** @param known whether any figure is sure enough */
function changed(changes: readonly FitChange[], known: boolean): Block[] {
  if (changes.length === 0) {
    return [
      known
        ? 'Nothing: no figure that is sure enough differs.'
        : 'Nothing yet: the log does not tell any figure for sure.',
    ];
  }
  return [
    table(
      changes.map((change) => [...placeOf(change), ...against(change), change.outside ? 'differs' : '']),
      { head: ['crop', 'stage', 'key', ...AGAINST, ''] },
    ),
    'Where nothing stands behind, the scenario lies within the interval: the log gives no reason to change it, and --write does so only with --all.',
  ];
}

/** Crop, stage and key. */
function placeOf({ crop, stage, regrowth, key, path }: FitChange): Cell[] {
  if (crop === null || stage === null) return ['', '', path.join('.')];
  return [name(crop), key === 'germination' ? '' : nameCell({ stage, regrowth }), key];
}

function conflicting(conflicts: readonly FitConflict[]): Block[] {
  return [
    table(
      conflicts.map((conflict) => [
        name(conflict.crop),
        nameCell(conflict),
        conflict.key,
        conflict.shape,
        ...against(conflict),
      ]),
      { head: ['crop', 'stage', 'key', 'shape', ...AGAINST] },
    ),
    'These are not written, because the shape has no key for them. Give the stage another shape: lognormal, gamma and weibull take days and spread.',
  ];
}

/** What the scenario says, and what the log. */
const AGAINST = ['now', 'log', '95 %'];

function against(told: Pick<FitChange, 'present' | 'value' | 'low' | 'high'>): Cell[] {
  return [figure(told.present, VALUE), figure(told.value, VALUE), interval(told, ENDS)];
}

/** Of values for a scenario. */
const VALUE: Form = { as: 'digits', digits: 4 };
const ENDS: Form = { as: 'digits', digits: 3 };
