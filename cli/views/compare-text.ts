/** A comparison in a grower's words: what each plan gives, what it takes, and what is different about it. */

import type { Compared, CompareResult, PlanResult } from '../../sim/study/compare.js';
import type { FigureName } from '../../sim/study/figures.js';
import type { Limits } from '../../sim/study/limits.js';
import { dateText } from '../words/dates.js';
import { counted, countText, decimalsFor, gainText, listed, percentText } from '../words/numbers.js';
import { fitting, indented, WIDTH, wrap } from './format.js';
import { bar } from './pictures.js';
import { stageColumns } from './stage-table.js';

/** Places of the bar of heads a week. */
const BAR = 12;
/** Longest name that fits into the tables; if one is longer, the plans are numbered. */
const NAME = 24;

export function compareText(result: CompareResult): string {
  const label = labels(result);
  const parts = [
    heading(result),
    ...legend(result, label),
    gives(result, label),
    takes(result, label),
    ...empty(result, label),
    heldBack(result, label),
    differences(result, label),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** What a plan is called in the tables, by its name. */
type Labels = ReadonlyMap<string, string>;

function labels({ plans }: CompareResult): Labels {
  const numbered = plans.some(({ name }) => name.length > NAME);
  return new Map(plans.map(({ name }, i) => [name, numbered ? `plan ${i + 1}` : name]));
}

function legend({ plans }: CompareResult, label: Labels): string[] {
  const named = plans.filter(({ name }) => label.get(name) !== name);
  return named.length === 0
    ? []
    : [named.map(({ name }) => wrap(`${label.get(name)}: ${name}`, WIDTH, '  ', true)).join('\n')];
}

function heading({ plans, seasons, partial, seed, by, first }: CompareResult): string {
  const stopped = partial ? ', stopped early: what follows is from these seasons only' : '';
  const order = by === null ? '' : ` The best by ${by} stands first.`;
  return wrap(
    `${counted(plans.length, 'plan')}, ${counted(seasons, 'season')} of each with the same luck (seed ${seed})${stopped}. The others are compared with: ${first}.${order}`,
    WIDTH,
    '',
    true,
  );
}

function gives({ plans, running }: CompareResult, label: Labels): string {
  const title = 'What you will pick, heads a week';
  if (running === null) return `${title}\n  In no week was any of these lines running.`;
  const most = Math.max(...plans.map((plan) => plan.figures['heads_a_week']?.mean ?? 0));
  const rows = [
    ['', 'usual', 'bad*', 'none**', 'first pick', 'mean', ''],
    ...plans.map(({ name, figures }) => [
      label.get(name)!,
      count(figures['usual_week']),
      count(figures['bad_week']),
      percent(figures['weeks_without_pick']),
      day(figures['first_pick_day']),
      count(figures['heads_a_week']),
      bar((figures['heads_a_week']?.mean ?? 0) / (most || 1), BAR),
    ]),
  ];
  return [
    title,
    ...indented(fitting(rows, WIDTH - 2)),
    `  * 1 week in 10 brings this or less  ** share of weeks without a pick`,
    `  (${running.weeks === 1 ? 'the last week' : `the ${running.weeks} weeks from ${dateText(running.from)} on`}, when the lines are running)`,
  ].join('\n');
}

function takes({ plans }: CompareResult, label: Labels): string {
  const rows = [
    ['', 'seeds a head', 'hole-days a head', 'thrown away*'],
    ...plans.map(({ name, figures }) => [
      label.get(name)!,
      decimal(figures['seeds_a_head']),
      count(figures['hole_days_a_head']),
      count(figures['thrown_away']),
    ]),
  ];
  return [
    'What it takes',
    ...indented(fitting(rows, WIDTH - 2)),
    '  * plants a season that were ready for too long',
  ].join('\n');
}

function empty({ plans }: CompareResult, label: Labels): string[] {
  const stages = [...new Set(plans.flatMap(({ idle }) => idle.map(({ stage }) => stage)))];
  const title = 'Where holes stand empty (share of hole-days)';
  const share = (plan: PlanResult, stage: string): string =>
    percent(plan.idle.find((one) => one.stage === stage)?.share ?? null);
  return stageColumns(
    '',
    stages,
    plans.map((plan) => [label.get(plan.name)!, stages.map((stage) => share(plan, stage))]),
  ).map((table) => [title, ...table].join('\n'));
}

function heldBack({ plans }: CompareResult, label: Labels): string {
  const rows = plans.map(({ name, limits }) => [label.get(name)!, heldBackBy(limits)]);
  const width = Math.max(...rows.map(([name]) => name!.length));
  return [
    'What holds it back (small changes tried with the same luck)',
    ...rows.map(([name, words]) => {
      const front = `  ${name!.padEnd(width)}  `;
      return `${front}${wrap(words!, WIDTH, ' '.repeat(front.length)).trimStart()}`;
    }),
  ].join('\n');
}

function heldBackBy(limits: Limits | null): string {
  if (limits === null) return 'not tried';
  switch (limits.by) {
    case 'stage':
      return listed(limits.stages);
    case 'sowing':
      return 'what is sown';
    case 'visits':
      return 'the visits';
    case 'want':
      return 'nothing: what is wanted is picked';
    case 'nothing':
      return 'nothing that was tried';
  }
}

/** The figures whose differences are shown, with what to call them. */
const SHOWN: readonly (readonly [FigureName<'whole'>, string])[] = [
  ['heads_a_week', 'heads a week'],
  ['bad_week', 'heads in a bad week'],
  ['weeks_without_pick', 'weeks without a pick'],
  ['seeds_a_head', 'seeds a head'],
];

function differences({ plans, first }: CompareResult, label: Labels): string {
  const lines = [
    wrap(`Against ${label.get(first)}: difference and its 95 % interval (paired seasons)`, WIDTH),
  ];
  for (const [figure, words] of SHOWN) {
    const others = plans.filter(({ name }) => name !== first);
    const differing = others.filter((plan) => plan.figures[figure]?.difference);
    if (differing.length === 0) continue;
    lines.push(
      `  ${words}`,
      ...indented(
        fitting(
          differing.map((plan) => row(plan, figure, label)),
          WIDTH - 4,
        ),
        4,
      ),
    );
  }
  if (lines.length === 1) lines.push('  There is nothing to tell.');
  return lines.join('\n');
}

function row({ name, figures }: PlanResult, figure: FigureName<'whole'>, label: Labels): string[] {
  const { mean, low, high, verdict } = figures[figure]!.difference!;
  const share = figure === 'weeks_without_pick';
  const scale = share ? 100 : 1;
  const decimals = decimalsFor(Math.max(Math.abs(mean), Math.abs(low ?? 0), Math.abs(high ?? 0)) * scale);
  const text = (value: number): string => gainText(value * scale, Math.max(1, decimals));
  const unit = share ? ' %' : '';
  const interval = low === null || high === null ? '' : `${text(low)} to ${text(high)}${unit}`;
  const words = { more: 'more', less: 'less', none: 'no difference', unknown: 'too few seasons to tell' }[
    verdict
  ];
  return [label.get(name)!, `${text(mean)}${unit}`, interval, words];
}

function count(value: Compared | null | undefined): string {
  return value ? countText(value.mean) : '-';
}

function decimal(value: Compared | null | undefined): string {
  return value ? value.mean.toFixed(2) : '-';
}

function percent(value: Compared | null | undefined): string {
  return value ? percentText(value.mean) : '-';
}

function day(value: Compared | null | undefined): string {
  return value ? `day ${Math.round(value.mean)}` : '-';
}
