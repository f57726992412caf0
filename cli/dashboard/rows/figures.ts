/** The figures beside the chart: what would bring more, the first pick, what may go wrong. */

import type { Bottleneck, Effect } from '../../../sim/study/bottleneck.js';
import { type FigureName, figureNamed } from '../../../sim/study/figures/figures.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { widthOf } from '../../render/width.js';
import { wrapped } from '../../render/wrap.js';
import { dateText } from '../../words/dates.js';
import { formOf } from '../../words/figures.js';
import { effectsForm, heldBackAndMore, ranked, remedyWords } from '../../words/limits.js';
import { countText, figureText, intervalText, orFewer, percentText } from '../../words/numbers.js';
import type { Row, Signs } from '../theme.js';
import { cut, FAIR_NAME, fitted, fittedRight, fittedRow, named, rowWidth, span } from './rows.js';

/** A figure: what it is, and its value in words. */
export interface FigureWords {
  readonly label: string;
  readonly value: string;
}

/** Over the amounts of the remedies. */
export const REMEDIES_TITLE = 'more heads a week';
/** Behind the remedy that brings most. */
const MOST = ' most';
/** Columns of the labels of figures. */
const LABEL = 14;

/** The remedies and then the figures in the order of their weight, as many as `height` rows hold. */
export function figureRows(result: RunResult, width: number, height: number, signs: Signs): Row[] {
  const facts = factWords(result);
  const remedies = remedyRows(result.limits, width, Math.max(1, height - 1), signs);
  const room = Math.max(1, width - LABEL - 1);
  const told = facts.flatMap(({ label, value }) =>
    wrapped(value, room).map(
      (line, l): Row => [
        span(fitted(l === 0 ? label : '', LABEL, signs.more), 'faint'),
        span(' '),
        span(cut(line, room, signs.more), 'strong'),
      ],
    ),
  );
  const all = [...remedies, ...told];
  const [last] = all.slice(height - 1);
  if (all.length <= height || last === undefined) return all;
  const more = span(` ${signs.more}`, 'faint');
  const free = width - rowWidth([more]);
  return [...all.slice(0, height - 1), [...(rowWidth(last) <= free ? last : fittedRow(last, free)), more]];
}

/** What would bring more heads a week, the most first, with the interval where it has room; then what would not. */
function remedyRows(limits: Bottleneck | null, width: number, height: number, signs: Signs): Row[] {
  if (limits === null) return [[span('being tried: what would bring more', 'faint')]];
  const remedies = remediesOf(limits);
  const bring = remedies.filter(({ brings }) => brings);
  if (bring.length === 0) return [[span('nothing that was tried brings more', 'faint')]];
  const shown = bring.length <= height ? bring : bring.slice(0, height - 1);
  const amount = Math.max(...shown.map((one) => widthOf(one.amount)));
  const interval = Math.max(...shown.map((one) => widthOf(one.interval)));
  const label = (long: boolean): number =>
    Math.max(...shown.map((one) => widthOf(long ? one.label : one.short)));
  const takes = (long: boolean, wide: boolean): number =>
    label(long) + 1 + amount + MOST.length + (wide ? interval + 3 : 0);
  const forms = [
    [true, true],
    [false, true],
    [true, false],
  ] as const;
  const [isLong, isWide] = forms.find(([long, wide]) => takes(long, wide) <= width) ?? [false, false];
  const columns = Math.max(1, Math.min(label(isLong), width - 1 - amount - MOST.length));
  const called = remediesOf(withShortNames(limits, shown, label(isLong) - columns, signs.more));
  const rows = shown.map((one, i): Row => {
    const best = i === 0;
    const words = called.find(({ trial }) => trial === one.trial)!;
    return [
      span(fitted(isLong ? words.label : words.short, columns, signs.more), best ? 'strong' : 'plain'),
      span(fittedRight(one.amount, amount + 1), 'strong'),
      ...(isWide ? [span(fittedRight(`(${one.interval})`, interval + 3), 'faint')] : []),
      ...(best ? [span(MOST, 'strong')] : []),
    ];
  });
  const left = bring.length - shown.length;
  if (left > 0) rows.push([span(`and ${left} that bring less`, 'faint')]);
  const rest = remedies.filter(({ brings }) => !brings).map(({ short }) => short);
  if (rest.length > 0 && rows.length < height - 1) {
    const row: Row = [span(cut(`hardly anything: ${rest.join(', ')}`, width, signs.more), 'faint')];
    if (rowWidth(row) <= width) rows.push(row);
  }
  return rows;
}

/** The same trials in the same order, the longest name of a stage that is shown shorter by so many columns, and others alike. */
function withShortNames(
  limits: Bottleneck,
  shown: readonly Remedy[],
  over: number,
  more: string,
): Bottleneck {
  if (over <= 0) return limits;
  const longest = Math.max(...shown.map(({ trial }) => widthOf(stageOf(limits.trials[trial]!))));
  const stages = limits.trials.map(stageOf).filter((name) => name !== '');
  const room = Math.max(FAIR_NAME, longest - over);
  const trials = limits.trials.map((trial) => {
    const { change } = trial;
    if (change.kind !== 'channel') return trial;
    return { ...trial, change: { ...change, stage: named(change.stage, room, more, stages) } };
  });
  return { ...limits, trials };
}

/** Whose channels a trial changes; empty where it is about something else. */
function stageOf({ change }: Effect): string {
  return change.kind === 'channel' ? change.stage : '';
}

/** A remedy in words. */
export interface Remedy {
  /** Its place among those that were tried. */
  readonly trial: number;
  /** `one more nursery channel`, and shorter: `nursery +1 channel`. */
  readonly label: string;
  readonly short: string;
  /** Heads a week more, and the 95 % interval. */
  readonly amount: string;
  readonly interval: string;
  readonly brings: boolean;
}

/** What was tried, what brings most first. */
export function remediesOf({ trials }: Bottleneck): Remedy[] {
  // As in the text of run: one form for all of them.
  const form = effectsForm(trials);
  return ranked(trials.map((trial, place) => ({ ...trial, place }))).map(({ place, ...trial }) => ({
    trial: place,
    ...remedyWords(trial.change),
    amount: figureText(trial.gain, form),
    interval: intervalText(trial, form),
    brings: trial.brings,
  }));
}

/** What stands in the headline, for those who listen. */
export function answerWords(result: RunResult): FigureWords[] {
  const { running } = result;
  if (running === null) return [{ label: figureNamed('usual_week').short, value: 'none in this time' }];
  const { limits } = result;
  return [
    figureWords(result, 'usual_week', ' heads'),
    figureWords(result, 'bad_week', orFewer(result.figures.bad_week!.mean)),
    { label: 'held back by', value: limits === null ? 'being tried' : heldBackAndMore(limits) },
    ...(limits === null ? [] : remediesOf(limits)).map(({ label, amount, interval, brings }) => ({
      label,
      value: `${amount} heads a week (${interval})${brings ? '' : ', hardly anything'}`,
    })),
  ];
}

/** The figures that are not in the headline. */
export function factWords(result: RunResult): FigureWords[] {
  const { first_pick: first, running, limits } = result;
  const words: FigureWords[] = [
    {
      label: figureNamed('first_pick_day').short,
      value: first.p50 === null ? 'never, mostly' : dateText(first.p50),
    },
  ];
  if (running === null) return words;
  if (running.wanted) {
    words.push({ label: 'wanted, missed', value: percentText(running.missing! / running.wanted) });
  }
  words.push(figureWords(result, 'weeks_without_pick', ' of weeks'));
  const present = running.without_absence;
  if (present !== null) {
    words.push({ label: ' nobody away', value: `${countText(present.p10)} in a bad week` });
  }
  words.push(figureWords(result, 'heads_a_week', ' on average'));
  if (limits !== null) words.push(riskWords(limits));
  return words;
}

function figureWords(result: RunResult, name: FigureName<'whole'>, more: string): FigureWords {
  const figure = figureNamed(name);
  return { label: figure.short, value: `${figureText(result.figures[name]!.mean, formOf(figure))}${more}` };
}

function riskWords({ risk }: Bottleneck): FigureWords {
  return {
    label: remedyWords(risk.change).short,
    value: `${figureText(risk.gain, effectsForm([risk]))} a week`,
  };
}
