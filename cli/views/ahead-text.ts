/** What lies ahead in a grower's words. Figures come from the result; here they are only laid out. */

import type {
  AheadResult,
  NoRoom,
  Sowings,
  StageAhead,
  ThrownAway,
  WeekAhead,
} from '../../sim/season/ahead/ahead.js';
import type { Range } from '../../sim/season/ahead/range.js';
import { dateText, shortDate } from '../words/dates.js';
import { counted, countText, decimalsFor, gainText, percentText, thousands } from '../words/numbers.js';
import { assumedSentences } from './assumed-words.js';
import { fitting, indented, tableOfNames, WIDTH, wrap } from './format.js';
import { barUpTo } from './pictures.js';
import { meanText, spanText } from './range-text.js';
import { stageColumns } from './stage-table.js';

/** Places of the longest bar. */
const BAR = 24;
/** Batches without room that are told one by one. */
const MOST_BATCHES = 12;
/** A batch is told if at least so many of its plants are expected to wait or to be thrown away. */
const LEAST_PLANTS = 1;
/** Visits with refilled crops that are told. */
const MOST_REFILLS = 14;
/** Columns of a text that stands two further to the right. */
const INSIDE = WIDTH - 2;

export function aheadText(result: AheadResult): string {
  const parts = [
    heading(result),
    now(result),
    heads(result.weeks),
    emptyHoles(result),
    noRoom(result),
    toSow(result),
  ];
  return `${parts.join('\n\n')}\n`;
}

function heading(result: AheadResult): string {
  const { title, from, last_visit, weeks, futures, seed } = result;
  const since =
    last_visit === null ? 'nobody was there yet' : `the last visit was on ${dateText(last_visit)}`;
  return [
    `${title}: ${counted(weeks.length, 'week')} from ${dateText(from)}, ${counted(futures, 'future')} simulated (seed ${seed}). By the log ${since}.`,
    ...assumedSentences(result),
  ]
    .map((sentence) => wrap(sentence, WIDTH))
    .join('\n');
}

function now({ now: stages }: AheadResult): string {
  const table = tableOfNames(
    stages.map(({ name }) => name),
    (called) => [
      ['', 'plants', 'being cleaned', 'empty', 'holes'],
      ...stages.map(({ name, holes, plants, cleaning }) => [
        called(name),
        ...[plants, cleaning, holes - plants - cleaning, holes].map(thousands),
      ]),
    ],
    { width: INSIDE },
  );
  return ['What stands now', ...indented(table)].join('\n');
}

function heads(weeks: readonly WeekAhead[]): string {
  const most = Math.max(1, ...weeks.map(({ picked }) => picked.p90));
  const wanted = weeks.some((week) => week.wanted !== null);
  const rows = [
    ['week from', 'ready', '', 'picked', '', ...(wanted ? ['wanted'] : [])],
    ...weeks.map((week) => [
      dateText(week.start),
      countText(Math.round(week.ready.p50)),
      spanText(week.ready),
      countText(Math.round(week.picked.p50)),
      spanText(week.picked),
      ...(wanted ? [thousands(week.wanted ?? 0)] : []),
    ]),
  ];
  const table = fitting(rows, INSIDE);
  const bars = weeks.map(({ picked }) => barUpTo(picked.p10 / most, picked.p90 / most, BAR).trimEnd());
  const width = Math.max(...table.map((line) => line.length));
  return [
    'Heads in each week: the middle one of all futures, and what 8 of 10 stay within',
    ...indented(
      table.map((line, i) =>
        i === 0 || width + BAR + 4 > WIDTH ? line : `${line.padEnd(width)}  ${bars[i - 1]}`.trimEnd(),
      ),
    ),
    ...(width + BAR + 4 > WIDTH ? [] : ['  (= picks in 9 of 10 futures at least, - in 1 of 10 so many)']),
  ].join('\n');
}

function emptyHoles({ stages, weeks }: AheadResult): string {
  const tables = stageColumns(
    'week from',
    stages.map(({ name }) => name),
    weeks.map(({ start }, week) => [dateText(start), stages.map(({ empty }) => meanText(empty[week]!))]),
  );
  return [
    'Holes that will stand empty, mean of the week (8 of 10 futures)',
    ...tables.flat(),
    ...stages.flatMap(firstEmpty),
  ].join('\n');
}

/** Of a stage that is full now, or nearly. */
function firstEmpty({ name, holes, empty_now, first_empty }: StageAhead): string[] {
  if (first_empty === null || empty_now > holes / 20) return [];
  const { chance, p10, p50, p90 } = first_empty;
  const when = p10 === p90 ? '' : ` (${shortDate(p10)} to ${shortDate(p90)})`;
  const often = chance > 0.995 ? '' : `, in ${percentText(chance)} of futures`;
  return [
    wrap(
      `In ${name} ${empty_now === 0 ? 'no hole is' : counted(empty_now, 'hole is', 'holes are')} empty now; more will be from ${dateText(p50)} on${when}${often}.`,
      WIDTH,
      '  ',
    ),
  ];
}

function noRoom({ no_room, overgrown }: AheadResult): string {
  const title = 'Batches that will run out of room';
  const blocked = no_room.filter((one) => Math.max(one.blocked.mean, one.thrown_away.mean) >= LEAST_PLANTS);
  const others = overgrown.filter(({ thrown_away }) => thrown_away.mean >= LEAST_PLANTS);
  return [
    ...(blocked.length === 0
      ? [title, '  None, as far as can be told.']
      : [
          `${title}: ready plants that find no hole further on`,
          ...batchTable(blocked, ['blocked', 'thrown away'], (one) => [one.blocked, one.thrown_away]),
        ]),
    ...(others.length === 0
      ? []
      : [
          '  Thrown away for another reason: not wanted, or nobody comes in time:',
          ...batchTable(others, ['thrown away'], (one) => [one.thrown_away]),
        ]),
  ].join('\n');
}

function batchTable<Told extends NoRoom | ThrownAway>(
  batches: readonly Told[],
  titles: readonly string[],
  figures: (batch: Told) => readonly Range[],
): string[] {
  const told = batches.slice(0, MOST_BATCHES);
  const rest = batches.length - told.length;
  const table = tableOfNames(
    told.flatMap(({ batch, stage }) => (batch === null ? [stage] : [batch, stage])),
    (called) => [
      ['batch', 'in', 'from', 'to', ...titles, 'chance'],
      ...told.map((one) => [
        one.batch === null ? `sown ${shortDate(one.sown)}` : called(one.batch),
        called(one.stage),
        shortDate(one.from),
        shortDate(one.to),
        ...figures(one).map(meanText),
        percentText(one.chance),
      ]),
    ],
    { width: INSIDE },
  );
  return [...indented(table), ...(rest > 0 ? [`  ... and ${thousands(rest)} more.`] : [])];
}

function toSow(result: AheadResult): string {
  const { sowings, refills } = result;
  return [
    'What to sow',
    ...(sowings === null ? [] : sowingTable(sowings)),
    ...(refills.length === 0 ? [] : ['  Refilled, as the scenario says:', ...refillTable(refills)]),
    ...notSown(result).map((sentence) => wrap(sentence, WIDTH, '  ')),
  ].join('\n');
}

function refillTable(refills: AheadResult['refills']): string[] {
  const told = refills.slice(0, MOST_REFILLS);
  const table = tableOfNames(
    told.map(({ crop }) => crop),
    (called) => [
      ['visit', 'crop', 'seeds', ''],
      ...told.map(({ date, crop, seeds }) => [
        dateText(date),
        called(crop),
        countText(Math.round(seeds.mean)),
        spanText(seeds),
      ]),
    ],
    { width: INSIDE },
  );
  return indented(table);
}

/** Why nothing is sown, or nothing any more. */
function notSown({ sowings, refills, weeks, visits, not_sown }: AheadResult): string[] {
  const span = weeks.length === 1 ? 'week' : `${weeks.length} weeks`;
  const seeds = not_sown.reduce((sum, one) => sum + one.seeds, 0);
  const due = `${counted(not_sown.length, 'sowing falls', 'sowings fall')} due (${counted(seeds, 'seed')})`;
  if (visits === 0) {
    const missed = not_sown.length === 0 ? '' : `, though ${due}`;
    return [
      `Nobody comes in the next ${span} (see visits and away in the scenario), so nothing is sown${missed}.`,
    ];
  }
  // What falls due in the last days is often sown at the first visit behind them.
  if (not_sown.some((one) => one.due <= weeks.at(-1)!.start)) {
    return [
      `From ${dateText(not_sown[0]!.due)} on ${due} in these weeks that nobody comes to sow (see visits and away in the scenario).`,
    ];
  }
  if (sowings !== null || refills.length > 0) return [];
  return [
    not_sown.length === 0
      ? `No sowing is due in the next ${span}.`
      : `No sowing is made in the next ${span}: ${due} after the last visit.`,
  ];
}

function sowingTable(sowings: Sowings): string[] {
  const crops = [...new Set(sowings.dates.map(({ crop }) => crop))];
  const several = crops.length > 1;
  const table = tableOfNames(
    crops,
    (called) => [
      ['visit', ...(several ? ['crop'] : []), 'seeds by the plan', 'seeds that fill the gap'],
      ...sowings.dates.map(({ date, crop, planned_seeds, advised_seeds }) => [
        dateText(date),
        ...(several ? [called(crop)] : []),
        thousands(planned_seeds),
        thousands(advised_seeds),
      ]),
    ],
    { width: INSIDE },
  );
  return [wrap(verdict(sowings), WIDTH, '  '), ...indented(table)];
}

function verdict({ verdict: kind, planned, advised, difference, until, dates }: Sowings): string {
  const { low, high, mean } = difference;
  const decimals = decimalsFor(Math.max(1, ...[mean, low ?? 0, high ?? 0].map(Math.abs)));
  const interval =
    low === null || high === null ? '' : ` (95 %: ${gainText(low, decimals)} to ${gainText(high, decimals)})`;
  const change = `${counted(advised, 'head')} by ${dateText(until)} against ${countText(planned)} with the plan's seeds, ${gainText(mean, decimals)}${interval}`;
  const seeds = (of: 'planned_seeds' | 'advised_seeds'): string =>
    thousands(dates.reduce((sum, date) => sum + date[of], 0));
  const fewer = `${seeds('advised_seeds')} seeds in place of ${seeds('planned_seeds')}`;
  switch (kind) {
    case 'more':
      return `Seeds that fill what would stand empty bring more: ${change}.`;
    case 'fewer seeds':
      return `Fewer seeds bring as many heads (${fewer}): ${change}.`;
    case 'keep':
      return `Keep to the plan: seeds that fill what would stand empty are not worth a change. ${change}.`;
  }
}
