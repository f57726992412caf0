/** A replayed season in a grower's words. Figures come from the result; here they are only told. */

import { isoOfDay } from '../../sim/models/dates.js';
import { TAKES_CAUTION } from '../../sim/models/physical/cautions.js';
import * as route from '../../sim/models/route.js';
import type { CostlyCause, Heads } from '../../sim/season/replay/costs.js';
import type { EmptyCost } from '../../sim/season/replay/empty-costs.js';
import { emptyFor } from '../../sim/season/replay/evidence.js';
import type { IdleSpell } from '../../sim/season/replay/idle-spells.js';
import type { ReplayedStage, ReplayResult } from '../../sim/season/replay/result.js';
import type { CadenceChange, WhatIf } from '../../sim/season/replay/what-if.js';
import { costText, seasonCauseText } from '../words/causes.js';
import { dateText, daysText } from '../words/dates.js';
import { causeText, emptyCostText } from '../words/idle.js';
import {
  COUNT,
  counted,
  figureText,
  firstOf,
  fixed,
  gainText,
  percentText,
  thousands,
} from '../words/numbers.js';
import { holeDayTable } from './season.js';
import {
  type Block,
  bar,
  type Cell,
  day,
  figure,
  type Rows,
  type Section,
  section,
  table,
} from './section.js';

/** Spells that are told one by one. */
const MOST_SPELLS = 8;

export function replaySections(result: ReplayResult): Section[] {
  const { what_if } = result;
  return [
    section(null, ...heading(result)),
    section('What held the season back', ...heldBack(result)),
    section('What was picked, week by week', ...picks(result)),
    ...(what_if === null
      ? []
      : [section(`The same season, sown ${cadenceText(what_if.change)}`, ...otherCadence(result, what_if))]),
    section('Where holes stood empty, and why', ...emptyHoles(result)),
    section('Where the hole-days went', holeDayTable(HOLE_DAYS, result.stages)),
    section('What the log does not tell', ...notTold(result)),
  ];
}

/** What stood on each day in each stage: one row for each, and behind them what costs take for granted, where they are told. */
export function replayRows({ start, days, stages, empty_cost }: ReplayResult): Rows {
  const costs = empty_cost?.stages;
  const times = (price: number | null, empty: number): number | null =>
    price === null ? null : price * empty;
  const dates = Array.from({ length: days }, (_, of) => isoOfDay(start, of));
  return [
    [
      ...['date', 'stage', 'holes', 'standing', 'cleaning', 'empty'],
      ...(costs === undefined ? [] : ['empty_kwh', 'empty_cost']),
    ],
    ...dates.flatMap((date, of) =>
      stages.map(({ name, holes, standing, cleaning }, s) => {
        const empty = Math.max(0, holes - standing[of]! - cleaning[of]!);
        const cost = costs === undefined ? [] : [times(costs[s]!.kwh, empty), times(costs[s]!.cost, empty)];
        return [date, name, holes, standing[of]!, cleaning[of]!, empty, ...cost];
      }),
    ),
    // Cautions go wherever the figures go.
    ...(empty_cost?.assumes ?? []).map((sentence): Rows[number] => [
      null,
      `assumes: ${sentence}`,
      ...Array.from({ length: 6 }, () => null),
    ]),
  ];
}

function heading({ title, start, end, rows, batches, crowded }: ReplayResult): string[] {
  return [
    `${title}: ${dateText(start)} to ${dateText(end)}, as the log tells (${counted(rows, 'row')}, ${counted(batches, 'batch', 'batches')}).`,
    ...crowded.map(
      ({ stage, holes, from, most }) =>
        `More plants stand in ${stage} than it has holes: from ${dateText(from)}, up to ${thousands(most)} in ${thousands(holes)}. So the scenario is not that of this line, and what is told of its holes is not true: set channels and holes of the stage.`,
    ),
  ];
}

function picks({ weeks, counts, unseen }: ReplayResult): Block[] {
  const weight = counts.grams === null ? '' : ` (${weightText(counts.grams)} weighed)`;
  const stood = counts.stood === 0 ? '' : ` and ${counted(counts.stood, 'plant')} that stood before`;
  const silent = unseen.reduce((sum, { plants }) => sum + plants, 0);
  const gone = silent === 0 ? '' : `, ${thousands(silent)} never mentioned again (see below)`;
  const most = Math.max(1, ...weeks.map(({ heads }) => heads));
  return [
    `${counted(counts.picked, 'head')}${weight} from ${counted(counts.sown, 'seed')}${stood}; ${thousands(counts.lost)} lost on the way${gone}, ${thousands(counts.standing)} still standing.`,
    table(weeks.map(({ start, heads }) => [day(start), figure(heads, COUNT), bar(heads / most)])),
  ];
}

function weightText(grams: number): string {
  return grams < 1000 ? `${Math.round(grams)} g` : `${(grams / 1000).toFixed(1)} kg`;
}

/** `every 3 days, 8 seeds each time`. */
function cadenceText({ every, on, seeds }: CadenceChange): string {
  return [
    ...(every === null ? [] : [`every ${counted(every, 'day')}`]),
    ...(on === null ? [] : [`on ${on.join(', ')}`]),
    ...(seeds === null ? [] : [`${counted(seeds, 'seed')} each time`]),
  ].join(', ');
}

function otherCadence({ planned, idle }: ReplayResult, what: WhatIf): Block[] {
  const both = (of: Cell, { was, would }: { readonly was: number; readonly would: number }): Cell[] => [
    of,
    figure(was, COUNT),
    figure(would, COUNT),
  ];
  const { was, would } = what.picked;
  const blocks: Block[] = [
    table(
      [
        ...what.weeks.map((week) => both(day(week.start), week)),
        both('in all', what.picked),
        both('seeds sown', what.sown),
      ],
      { head: ['week of', 'as it was', 'as it would have been'] },
    ),
    `Difference: ${gainText(would - was, 0)} heads.`,
  ];
  if (!what.faithful) {
    blocks.push(
      `With the sowings as they were the simulator gives ${thousands(what.again)} heads, not ${thousands(was)}: the line was not run quite as the rules say. From there the difference is ${gainText(would - what.again, 0)} heads.`,
    );
  }
  blocks.push(
    `This is one season with its own luck: growing times and losses as the log shows them, and the visits as they were. Of the fates of plants, ${percentText(what.resampled)} were never seen and are taken from those that were. A few heads more or less say nothing; evensow compare tries cadences over many seasons.`,
  );
  if (idle.some(({ cause }) => cause.kind === 'cleaning'))
    blocks.push('Channels that were out for cleaning by a row of the log are not out of use in it.');
  if (!planned)
    blocks.push(
      'No scenario was given, so each stage has only the holes that were ever taken at once: more seeds may have found more room than is counted here.',
    );
  return blocks;
}

function heldBack(result: ReplayResult): Block[] {
  const { planned, causes, all_together, as_it_was, counts, idle } = result;
  if (as_it_was === null)
    return [
      'What a cause cost is not told of a log that begins in the middle: the season is not simulated from what stood then.',
    ];
  const { faithful, heads, departs } = as_it_was;
  // Without a scenario plants keep for ever and nothing is due meanwhile, so it cannot be told that nobody was missed.
  const without_cost = result.without_cost.filter(({ kind }) => planned || kind !== 'absent');
  const free =
    without_cost.length === 0
      ? []
      : [`Cost no heads that can be told: ${without_cost.map(seasonCauseText).join('; ')}.`];
  if (all_together === null) return ['Nothing that was tried would have given more heads.', ...free];
  const cost = (of: Heads): string => (faithful ? costText(of) : `[${costText(of)}]`);
  const empty = (cause: CostlyCause): string[][] => {
    const text = emptyText(emptyFor(cause, causes, idle));
    return text === '' ? [] : [['', text]];
  };
  return [
    'Heads that the same season would have given more without it, with the same luck (and how far that is sure: it is tried in several ways to fill in what the log does not show).',
    ...(faithful
      ? []
      : [
          `The line was not run quite as the rules say: simulated as it was, the season gives ${counted(Math.round(heads), 'head')}, not ${thousands(counts.picked)}, and the weeks differ by ${thousands(Math.round(departs))}. So what things cost stands in brackets.`,
        ]),
    table(
      causes.flatMap((cause, i) => [
        [`${i + 1}.`, `${cost(cause.heads)}: ${seasonCauseText(cause)}`],
        ...empty(cause),
      ]),
    ),
    ...(causes.length > 1
      ? [`All of them together: ${cost(all_together)}. The single ones need not add up to that.`]
      : []),
    ...free,
  ];
}

/** `stood empty for it: nursery 225 hole-days, 1 Apr to 25 Apr; ...`; nothing if none did. */
function emptyText(stages: ReturnType<typeof emptyFor>): string {
  const told = stages.map(
    ({ stage, from, to, hole_days }) => `${stage} ${counted(hole_days, 'hole-day')}, ${daysText(from, to)}`,
  );
  return told.length === 0 ? '' : `stood empty for it: ${told.join('; ')}`;
}

function emptyHoles({ idle, stages, empty_cost }: ReplayResult): Block[] {
  if (idle.length === 0) return ['Nowhere.'];
  const cost = empty_cost === undefined ? [] : [emptyCostText(empty_cost), TAKES_CAUTION];
  const spells = idle.slice(0, MOST_SPELLS).flatMap((spell, i) => [
    [`${i + 1}.`, `${spellText(spell)}${spellCost(empty_cost?.spells[i])}:`],
    ['', causeText(spell.cause, spell.stage === stages[route.first({ stages })]!.name)],
  ]);
  const rest = idle.slice(MOST_SPELLS);
  if (rest.length === 0) return [...cost, table(spells)];
  const days = rest.reduce((sum, spell) => sum + spell.hole_days, 0);
  return [...cost, table(spells), `and ${thousands(rest.length)} more: ${counted(days, 'hole-day')}.`];
}

/** What stands behind the hole-days of a spell; nothing where it is not told. */
function spellCost(of: EmptyCost | undefined): string {
  const { kwh = null, cost = null } = of ?? {};
  return [
    ...(kwh === null ? [] : [`, ${figureText(kwh, fixed(1))} kWh`]),
    ...(cost === null ? [] : [`, cost ${figureText(cost, fixed(2))}`]),
  ].join('');
}

function spellText({ stage, from, to, holes, hole_days }: IdleSpell): string {
  return `${stage}, ${daysText(from, to)}: up to ${counted(holes, 'hole')}, ${counted(hole_days, 'hole-day')}`;
}

/** Rows of the table of hole-days. */
const HOLE_DAYS: readonly { readonly what: string; readonly of: (stage: ReplayedStage) => number | null }[] =
  [
    { what: 'taken', of: ({ ledger }) => ledger.occupied },
    { what: 'of these growing for certain', of: ({ ledger }) => ledger.growing_at_least },
    { what: 'being cleaned', of: ({ ledger }) => ledger.cleaning },
    { what: 'empty: before the first plant came', of: ({ ledger }) => ledger.filling },
    { what: 'empty: later', of: ({ ledger }) => ledger.empty - ledger.filling },
  ];

function notTold(result: ReplayResult): string[] {
  const { planned, whole, end, stages, missed_visits, counts, unseen, plants_for_each } = result;
  const sentences = [
    'When plants became ready or died. So of the holes that were taken only those count as growing for certain whose plants still stood after a visit that left holes free further on.',
  ];
  if (planned) {
    if (stages.some(({ cleaning }) => cleaning.some((holes) => holes > 0)))
      sentences.push('Cleaning: it is taken to last as long as the scenario says (clean_days).');
  } else {
    sentences.push(
      'The holes: no scenario was given, so of each stage only the most that ever stood there at once is known, a lower bound. Nor is anything known of cleaning after plants, of visits without a row, of the cadence and of how long ready plants keep, so what it cost that nobody came is told too low or not at all. Name the scenario behind the log to have it all.',
    );
  }
  if (unseen.length > 0) {
    const lost = unseen.map(({ stage, plants, batches }) => {
      return `${thousands(plants)} in ${stage} (${firstOf(batches, 3)})`;
    });
    sentences.push(
      `What became of plants that are never mentioned again, though fewer than 1 in 100 would still grow: ${lost.join(', ')}. They are taken to have been lost and cleared without a row.`,
    );
  }
  if (plants_for_each !== undefined)
    sentences.push(
      `What each of so many plants did: where the season is simulated, one in ${thousands(plants_for_each)} is followed, in a line with as many holes fewer, and its heads stand for ${thousands(plants_for_each)}. What was sown, picked and lost, and where holes stood empty, is counted of all.`,
    );
  if (counts.stood > 0)
    sentences.push(
      'What was before the plants stood there that stand rows tell of: they count from these rows on.',
    );
  for (const { name, exact } of stages) {
    if (!exact)
      sentences.push(
        `Which picks were a plant's last: what stood in ${name} is an estimate (several cuts, those overdue most first).`,
      );
  }
  if (missed_visits.length > 0) {
    sentences.push(
      `Whether somebody came on ${counted(missed_visits.length, 'planned visit')} without a row, from ${dateText(missed_visits[0]!)} to ${dateText(missed_visits.at(-1)!)}: there was something to do then, so it is taken that nobody came.`,
    );
  }
  for (const { name, holes, exact, standing } of stages) {
    const most = Math.max(...standing);
    if (!exact && most > holes)
      sentences.push(
        `Where up to ${thousands(most)} plants stood in ${name}, by that estimate: the scenario has ${thousands(holes)} holes there. Check its channels and holes.`,
      );
  }
  if (stages.some(({ channels }) => channels.some(({ told_until }) => told_until !== null)))
    sentences.push('Which channels plants left, where a batch stood in several: those that came first.');
  if (!whole)
    sentences.push(`What came after ${dateText(end)}: the log ends before the season of the scenario.`);
  return sentences;
}
