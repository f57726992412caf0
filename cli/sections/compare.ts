/** A comparison in a grower's words: what each plan gives, what it takes, and what is different about it. */

import type { Compared, CompareResult, PlanResult } from '../../sim/study/compare.js';
import type { Figure } from '../../sim/study/figures/figure.js';
import {
  type FigureName,
  figureNamed,
  figuresAHead,
  figuresASeason,
} from '../../sim/study/figures/figures.js';
import { formOf, gainFormOf, VERDICT_WORDS } from '../words/figures.js';
import { heldBackBy } from '../words/limits.js';
import { COUNT, counted, SHARE } from '../words/numbers.js';
import { stoppedEarly, weeksFrom } from './season.js';
import {
  type Block,
  bar,
  type Cell,
  estimateCells,
  figure,
  interval,
  key,
  MOST_NAME,
  name,
  type Rows,
  type Section,
  section,
  table,
  whole,
} from './section.js';

type Shown = FigureName<'whole'>;

/** The figures of the first two tables, and those whose differences are shown; a mark leads to what stands below. */
const GIVES: readonly Shown[] = [
  'usual_week',
  'bad_week',
  'weeks_without_pick',
  'first_pick_day',
  'heads_a_week',
];
const IF_THERE: readonly Shown[] = ['usual_week', 'bad_week', 'heads_a_week'];
const TAKES: readonly Shown[] = ['seeds_a_head', 'hole_days_a_head', 'thrown_away'];
const DIFFERENCES: readonly Shown[] = ['heads_a_week', 'bad_week', 'weeks_without_pick', 'seeds_a_head'];
const MARKS: Readonly<Partial<Record<Shown, string>>> = {
  bad_week: '*',
  weeks_without_pick: '**',
  thrown_away: '*',
};

/** What a plan is called in the tables: by a number where a name is too long for them. */
type Called = (plan: string) => string;

/** @param longest name of a plan for which there is room in a table */
export function compareSections(result: CompareResult, longest = MOST_NAME): Section[] {
  const { plans, notes = [] } = result;
  const numbered = plans.some((plan) => plan.name.length > longest);
  const called: Called = (of) => (numbered ? `plan ${plans.findIndex((plan) => plan.name === of) + 1}` : of);
  return [
    section(null, heading(result), ...notes),
    ...(numbered ? [section(null, ...plans.map((plan) => whole(`${called(plan.name)}: ${plan.name}`)))] : []),
    section('What you will pick, heads a week', ...gives(result, called)),
    section(
      'What it takes',
      figures(plans, TAKES, called),
      key(['*', 'plants a season that were ready for too long']),
      ...takesTold(result, called),
    ),
    section('Where holes stand empty (share of hole-days)', empty(plans, called)),
    section(
      'What holds it back (small changes tried with the same luck)',
      table(plans.map((plan) => [name(called(plan.name)), heldBackBy(plan.limits)])),
    ),
    section(
      `Against ${called(result.first)}: difference and its 95 % interval (same luck)`,
      ...differences(result, called),
    ),
  ];
}

function heading({ plans, seasons, partial, seed, by, first }: CompareResult): Block {
  const order = by === null ? '' : ` The best by ${by} stands first.`;
  return whole(
    `${counted(plans.length, 'plan')}, ${counted(seasons, 'season')} of each with the same luck (seed ${seed})${stoppedEarly(partial)}. The others are compared with: ${first}.${order}`,
  );
}

function gives({ plans, running }: CompareResult, called: Called): Block[] {
  if (running === null) return ['In no week was any of these lines running.'];
  const heads = plans.map((plan) => plan.figures.heads_a_week?.mean ?? 0);
  const most = Math.max(...heads) || 1;
  return [
    figures(
      plans,
      GIVES,
      called,
      heads.map((mean) => bar(mean / most)),
    ),
    key(['*', '1 week in 10 brings this or less'], ['**', 'share of weeks without a pick']),
    `(${weeksFrom(running)}, when the lines are running)`,
    ...ifNobodyWereAway(plans, called),
  ];
}

/** What a usual and a bad week would be; nothing where nobody is away in any plan. */
function ifNobodyWereAway(plans: readonly PlanResult[], called: Called): Block[] {
  if (plans.every((plan) => plan.without_absence === null)) return [];
  const rows = plans.map(({ name: plan, figures: as, without_absence: present }) => [
    name(called(plan)),
    figure(present?.p50 ?? as.usual_week?.mean, COUNT),
    figure(present?.p10 ?? as.bad_week?.mean, COUNT),
    figure(present?.mean ?? as.heads_a_week?.mean, COUNT),
  ]);
  return [
    section(
      'The same, if nobody were away',
      table(rows, { head: ['', ...IF_THERE.map((one) => figureNamed(one).column + (MARKS[one] ?? ''))] }),
    ),
  ];
}

/** Light, water, work and money of a head, and money of a season, where any of the plans tells of them. */
function takesTold({ plans, assumes = [] }: CompareResult, called: Called): Block[] {
  const aHead = figuresAHead(isToldBy(plans));
  const aSeason = figuresASeason(isToldBy(plans));
  if (aHead.length + aSeason.length === 0) return [];
  return [
    ...(aHead.length === 0 ? [] : [section('For each head that is picked', figures(plans, aHead, called))]),
    ...(aSeason.length === 0 ? [] : [section('For the whole season', figures(plans, aSeason, called))]),
    ...assumes,
  ];
}

/** Whether any of the plans tells of a figure. */
function isToldBy(plans: readonly PlanResult[]): (figure: Figure) => boolean {
  return ({ name: of }) => plans.some(({ figures: as }) => as[of as Shown] !== undefined);
}

/** @param bars one for each plan, in a column of their own */
function figures(
  plans: readonly PlanResult[],
  shown: readonly Shown[],
  called: Called,
  bars: readonly Cell[] = [],
): Block {
  return table(
    plans.map((plan, i) => [
      name(called(plan.name)),
      ...shown.map((one) => figure(plan.figures[one]?.mean, formOf(figureNamed(one)))),
      ...bars.slice(i, i + 1),
    ]),
    {
      head: [
        '',
        ...shown.map((one) => figureNamed(one).column + (MARKS[one] ?? '')),
        ...bars.slice(0, 1).map(() => ''),
      ],
    },
  );
}

function empty(plans: readonly PlanResult[], called: Called): Block {
  const stages = [...new Set(plans.flatMap(({ idle }) => idle.map(({ stage }) => stage)))];
  return table(
    plans.map((plan) => [
      name(called(plan.name)),
      ...stages.map((stage) => figure(plan.idle.find((one) => one.stage === stage)?.share?.mean, SHARE)),
    ]),
    { head: ['', ...stages.map(name)] },
  );
}

function differences({ plans, first }: CompareResult, called: Called): Block[] {
  const others = plans.filter((plan) => plan.name !== first);
  const told = isToldBy(plans);
  const tables = [...DIFFERENCES, ...figuresAHead(told), ...figuresASeason(told)].flatMap((shown) => {
    const rows = others.flatMap((plan) => {
      const difference = plan.figures[shown]?.difference;
      if (!difference) return [];
      const form = gainFormOf(difference, figureNamed(shown));
      return [
        [
          name(called(plan.name)),
          figure(difference.mean, form),
          interval(difference, form),
          VERDICT_WORDS[difference.verdict],
        ],
      ];
    });
    return rows.length === 0 ? [] : [section(figureNamed(shown).label, table(rows))];
  });
  return tables.length === 0 ? ['There is nothing to tell.'] : tables;
}

const HEADER = 'plan,figure,mean,low,high,difference,difference_low,difference_high,verdict';

/** One row a plan and figure. */
export function compareRows({ plans, notes = [], assumes = [] }: CompareResult): Rows {
  const cells = (compared: Compared | null): Rows[number] => {
    const difference = compared?.difference;
    return [...estimateCells(compared), ...estimateCells(difference), difference?.verdict ?? null];
  };
  return [
    HEADER.split(','),
    ...plans.flatMap((plan) => [
      ...Object.entries(plan.figures).map(([of, compared]) => [plan.name, of, ...cells(compared)]),
      ...plan.idle.map(({ stage, share }) => [plan.name, `idle ${stage}`, ...cells(share)]),
      ...(plan.without_absence === null
        ? []
        : [[plan.name, 'bad_week_without_absence', plan.without_absence.p10, ...cells(null).slice(1)]]),
    ]),
    // Cautions go wherever the figures go.
    ...notes.map((sentence) => ['', `notes: ${sentence}`, ...cells(null)]),
    ...assumes.map((sentence) => ['', `assumes: ${sentence}`, ...cells(null)]),
  ];
}
