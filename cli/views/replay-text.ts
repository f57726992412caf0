/** A replayed season in a grower's words. Figures come from the result; here they are only laid out. */

import type { IdleSpell } from '../../sim/season/replay/idle-spells.js';
import type { ReplayedStage, ReplayResult } from '../../sim/season/replay/result.js';
import type { WhatIf } from '../../sim/season/replay/what-if.js';
import { dateText } from '../words/dates.js';
import { counted, gainText, percentText, thousands } from '../words/numbers.js';
import { columns, WIDTH, wrap } from './format.js';
import { bar } from './pictures.js';
import { causeText, changeText } from './replay-words.js';
import { type StageRow, stageTable } from './stage-table.js';

/** Places of the longest bar. */
const BAR = 44;
/** Spells that are told one by one. */
const MOST_SPELLS = 8;

export function replayText(result: ReplayResult): string {
  const parts = [
    heading(result),
    picks(result),
    ...(result.what_if === null ? [] : [otherCadence(result, result.what_if)]),
    emptyHoles(result),
    holeDays(result.stages),
    notTold(result),
  ];
  return `${parts.join('\n\n')}\n`;
}

function heading({ title, start, end, rows, batches, crowded }: ReplayResult): string {
  return [
    `${title}: ${dateText(start)} to ${dateText(end)}, as the log tells (${counted(rows, 'row')}, ${counted(batches, 'batch', 'batches')}).`,
    ...crowded.map(
      ({ stage, holes, from, most }) =>
        `More plants stand in ${stage} than it has holes: from ${dateText(from)}, up to ${thousands(most)} in ${thousands(holes)}. So the scenario is not that of this line, and what is told of its holes is not true: set channels and holes of the stage.`,
    ),
  ]
    .map((sentence) => wrap(sentence, WIDTH))
    .join('\n');
}

function picks({ weeks, counts }: ReplayResult): string {
  const weight = counts.grams === null ? '' : ` (${weightText(counts.grams)} weighed)`;
  const sum = wrap(
    `${counted(counts.picked, 'head')}${weight} from ${counted(counts.sown, 'seed')}; ${thousands(counts.lost)} lost on the way, ${thousands(counts.standing)} still standing.`,
    WIDTH,
    '  ',
  );
  const most = Math.max(1, ...weeks.map(({ heads }) => heads));
  const dates = weeks.map(({ start }) => dateText(start));
  const width = Math.max(...weeks.map(({ heads }) => thousands(heads).length));
  const lines = weeks.map(({ heads }, week) =>
    `  ${dates[week]!.padEnd(15)}  ${thousands(heads).padStart(width)}  ${bar(heads / most, BAR)}`.trimEnd(),
  );
  return ['What was picked, week by week', sum, ...lines].join('\n');
}

function otherCadence({ planned, idle }: ReplayResult, what: WhatIf): string {
  const rows = [
    ['  week of', 'as it was', 'as it would have been'],
    ...what.weeks.map(({ start, was, would }) => [`  ${dateText(start)}`, thousands(was), thousands(would)]),
    ['  in all', thousands(what.picked.was), thousands(what.picked.would)],
    ['  seeds sown', thousands(what.sown.was), thousands(what.sown.would)],
  ];
  const { was, would } = what.picked;
  const sentences = [`Difference: ${gainText(would - was, 0)} heads.`];
  if (!what.faithful) {
    sentences.push(
      `With the sowings as they were the simulator gives ${thousands(what.again)} heads, not ${thousands(was)}: the line was not run quite as the rules say. From there the difference is ${gainText(would - what.again, 0)} heads.`,
    );
  }
  sentences.push(
    `This is one season with its own luck: growing times and losses as the log shows them, and the visits as they were. Of the fates of plants, ${percentText(what.resampled)} were never seen and are taken from those that were. A few heads more or less say nothing; evensow compare tries cadences over many seasons.`,
  );
  if (idle.some(({ cause }) => cause.kind === 'cleaning'))
    sentences.push('Channels that were out for cleaning by a row of the log are not out of use in it.');
  if (!planned)
    sentences.push(
      'No scenario was given, so each stage has only the holes that were ever taken at once: more seeds may have found more room than is counted here.',
    );
  return [
    `The same season, sown ${changeText(what.change)}`,
    ...columns(rows),
    ...sentences.map((sentence) => wrap(sentence, WIDTH, '  ')),
  ].join('\n');
}

function emptyHoles({ idle, scarcest, stages }: ReplayResult): string {
  const title = 'Where holes stood empty, and why';
  if (idle.length === 0) return `${title}\n  Nowhere.`;
  const known =
    scarcest === null
      ? 'By holes and mean times the line can give all that is wanted, so empty holes cost no heads by themselves.'
      : `By holes and mean times ${scarcest} holds the line back, so heads are counted there: an estimate. Empty holes elsewhere cost none by themselves.`;
  const lines = [title, wrap(known, WIDTH, '  ')];
  idle.slice(0, MOST_SPELLS).forEach((spell, i) => {
    lines.push(wrap(`${spellText(spell)}:`, WIDTH, `  ${i + 1}. `).replace(/\n {2}\d+\. /g, '\n     '));
    lines.push(wrap(causeText(spell.cause, spell.stage === stages[0]!.name), WIDTH, '     '));
  });
  const rest = idle.slice(MOST_SPELLS);
  if (rest.length > 0) {
    const days = rest.reduce((sum, spell) => sum + spell.hole_days, 0);
    const heads = rest.reduce((sum, spell) => sum + (spell.heads ?? 0), 0);
    lines.push(
      wrap(
        `and ${thousands(rest.length)} more: ${thousands(days)} hole-days${headsText(heads)}.`,
        WIDTH,
        '  ',
      ),
    );
  }
  return lines.join('\n');
}

function spellText({ stage, from, to, holes, hole_days, heads }: IdleSpell): string {
  const when = from === to ? `on ${dateText(from)}` : `${dateText(from)} to ${dateText(to)}`;
  return `${stage}, ${when}: up to ${counted(holes, 'hole')}, ${counted(hole_days, 'hole-day')}${headsText(heads)}`;
}

/** `, about 3 heads`; nothing if it is none or not known. */
function headsText(heads: number | null): string {
  return heads !== null && heads >= 0.5 ? `, about ${counted(Math.round(heads), 'head')}` : '';
}

/** Rows of the table of hole-days: what they are called, and the hole-days (null if they cannot be told). */
const HOLE_DAYS: readonly (readonly [string, (stage: ReplayedStage) => number | null])[] = [
  ['taken', ({ ledger }) => ledger.occupied],
  ['  growing for certain in', ({ ledger }) => ledger.growing_at_least],
  ['being cleaned', ({ ledger }) => ledger.cleaning],
  ['empty: before the first plant came', ({ ledger }) => ledger.filling],
  ['empty: later', ({ ledger }) => ledger.empty - ledger.filling],
];

function holeDays(stages: readonly ReplayedStage[]): string {
  const share = (stage: ReplayedStage, days: number | null): string =>
    days === null ? '?' : percentText(days / stage.hole_days);
  return [
    'Where the hole-days went',
    ...stageTable(
      stages.map(({ name }) => name),
      [
        ...HOLE_DAYS.map(
          ([name, days]): StageRow => [name, stages.map((stage) => share(stage, days(stage)))],
        ),
        ['holes', stages.map(({ holes }) => thousands(holes))],
        ['hole-days in all', stages.map(({ hole_days }) => thousands(hole_days))],
      ],
    ),
  ].join('\n');
}

function notTold(result: ReplayResult): string {
  const { planned, whole, end, stages, missed_visits } = result;
  const sentences = [
    'When plants became ready or died. So of the holes that were taken only those count as growing for certain whose plants still stood after a visit that left holes free further on.',
  ];
  if (planned) {
    if (stages.some(({ cleaning }) => cleaning.some((holes) => holes > 0)))
      sentences.push('Cleaning: it is taken to last as long as the scenario says (clean_days).');
  } else {
    sentences.push(
      'The holes: no scenario was given, so of each stage only the most that ever stood there at once is known, a lower bound. Nor is anything known of cleaning after plants, of visits without a row and of the cadence. Name the scenario behind the log to have it all.',
    );
  }
  for (const { name, exact } of stages) {
    if (!exact)
      sentences.push(
        `Which picks were a plant's last: what stood in ${name} is an estimate (several cuts, those overdue most first).`,
      );
  }
  if (missed_visits.length > 0) {
    sentences.push(
      `Whether somebody came on ${counted(missed_visits.length, 'planned visit')} without a row, from ${dateText(missed_visits[0]!)} to ${dateText(missed_visits.at(-1)!)}: a sowing was due then and cells were free, so it is taken that nobody came.`,
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
  return ['What the log does not tell', ...sentences.map((sentence) => wrap(sentence, WIDTH, '  '))].join(
    '\n',
  );
}

function weightText(grams: number): string {
  return grams < 1000 ? `${Math.round(grams)} g` : `${(grams / 1000).toFixed(1)} kg`;
}
