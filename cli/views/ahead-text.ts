/** What lies ahead in a grower's words. Figures come from the result; here they are only laid out. */

import type { AheadResult, NoRoom, Sowings, StageAhead, WeekAhead } from '../../sim/season/ahead/ahead.js';
import {
  columns,
  countText,
  dateText,
  gainText,
  indented,
  percentText,
  thousands,
  WIDTH,
  wrap,
} from './format.js';
import { barUpTo } from './pictures.js';
import { clipped, meanText, spanText } from './range-text.js';

/** Places of the longest bar. */
const BAR = 24;
/** Batches without room that are told one by one. */
const MOST_BATCHES = 12;
/** A batch is told if at least so many of its plants are expected to wait or to be thrown away. */
const LEAST_PLANTS = 1;
/** Longest name that fits into the tables. */
const NAME = 20;

export function aheadText(result: AheadResult): string {
  const parts = [
    heading(result),
    now(result),
    heads(result.weeks),
    ...emptyHoles(result),
    noRoom(result.no_room),
    toSow(result),
  ];
  return `${parts.join('\n\n')}\n`;
}

function heading({ title, from, last_visit, missed, overdue, weeks, futures, seed }: AheadResult): string {
  const since =
    last_visit === null ? 'nobody was there yet' : `the last visit was on ${dateText(last_visit)}`;
  const each = futures === 1 ? '1 future' : `${thousands(futures)} futures`;
  const ahead = weeks.length === 1 ? '1 week' : `${weeks.length} weeks`;
  const lines = [
    wrap(
      `${title}: ${ahead} from ${dateText(from)}, ${each} simulated (seed ${seed}). By the log ${since}.`,
      WIDTH,
    ),
  ];
  if (missed.length > 0) {
    const days = missed.map(dateText);
    lines.push(
      wrap(
        `No row tells of ${days.length > 3 ? `${days.slice(0, 2).join(', ')} and ${days.length - 2} more visits` : days.join(' and ')}, although sowings were due: taken as not made. If they were, log what was done.`,
        WIDTH,
      ),
    );
  }
  for (const { batch, stage, plants } of overdue) {
    lines.push(
      wrap(
        `${plants} of ${batch} stand in ${stage} for longer than the scenario's times allow; they are taken to be ready by the next visit. If they are dead, log them as lost.`,
        WIDTH,
      ),
    );
  }
  return lines.join('\n');
}

function now({ now: stages }: AheadResult): string {
  const rows = [
    ['', 'plants', 'being cleaned', 'empty', 'holes'],
    ...stages.map(({ name, holes, plants, cleaning }) => [
      clipped(name, NAME),
      ...[plants, cleaning, holes - plants - cleaning, holes].map(thousands),
    ]),
  ];
  return ['What stands now', ...indented(columns(rows))].join('\n');
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
  const table = columns(rows);
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

/** Stages side by side, as many as fit. */
function emptyHoles({ stages, weeks }: AheadResult): string[] {
  const cells = stages.map(({ name, empty }) => [clipped(name, NAME), ...empty.map(meanText)]);
  const width = Math.max(...cells.flat().map((cell) => cell.length)) + 2;
  const perTable = Math.max(1, Math.floor((WIDTH - 18) / width));
  const dates = ['week from', ...weeks.map(({ start }) => dateText(start))];
  const tables: string[] = [];
  for (let from = 0; from < stages.length; from += perTable) {
    const shown = cells.slice(from, from + perTable);
    tables.push(...indented(columns(dates.map((date, i) => [date, ...shown.map((stage) => stage[i]!)]))));
  }
  return [
    [
      'Holes that will stand empty, mean of the week (8 of 10 futures)',
      ...tables,
      ...stages.flatMap(firstEmpty),
    ].join('\n'),
  ];
}

/** Of a stage that is full now, or nearly. */
function firstEmpty({ name, holes, empty_now, first_empty }: StageAhead): string[] {
  if (first_empty === null || empty_now > holes / 20) return [];
  const { chance, p10, p50, p90 } = first_empty;
  const when = p10 === p90 ? '' : ` (${shortDate(p10)} to ${shortDate(p90)})`;
  const often = chance > 0.995 ? '' : `, in ${percentText(chance)} of futures`;
  return [
    wrap(
      `In ${name} ${empty_now === 0 ? 'no hole is' : `${countText(empty_now)} holes are`} empty now; more will be from ${dateText(p50)} on${when}${often}.`,
      WIDTH,
      '  ',
    ),
  ];
}

function noRoom(batches: readonly NoRoom[]): string {
  const title = 'Batches that will run out of room';
  const told = batches.filter(({ blocked, thrown_away }) => {
    return Math.max(blocked.mean, thrown_away.mean) >= LEAST_PLANTS;
  });
  if (told.length === 0) return `${title}\n  None, as far as can be told.`;
  const rows = [
    ['batch', 'in', 'from', 'to', 'blocked', 'thrown away', 'chance'],
    ...told
      .slice(0, MOST_BATCHES)
      .map((one) => [
        one.batch ?? `sown ${shortDate(one.sown)}`,
        clipped(one.stage, NAME),
        shortDate(one.from),
        shortDate(one.to),
        meanText(one.blocked),
        meanText(one.thrown_away),
        percentText(one.chance),
      ]),
  ];
  const rest = told.length - MOST_BATCHES;
  return [
    `${title}: ready plants that find no hole further on`,
    ...indented(columns(rows)),
    ...(rest > 0 ? [`  ... and ${rest} more.`] : []),
  ].join('\n');
}

function toSow({ sowings, refills, weeks }: AheadResult): string {
  const title = 'What to sow';
  const parts: string[] = [];
  if (sowings !== null) parts.push(...sowingTable(sowings));
  if (refills.length > 0) {
    const rows = [
      ['visit', 'crop', 'seeds', ''],
      ...refills
        .slice(0, 14)
        .map(({ date, crop, seeds }) => [
          dateText(date),
          clipped(crop, NAME),
          countText(Math.round(seeds.mean)),
          spanText(seeds),
        ]),
    ];
    parts.push('  Refilled, as the scenario says:', ...indented(columns(rows)));
  }
  if (parts.length === 0) {
    const span = weeks.length === 1 ? 'week' : `${weeks.length} weeks`;
    parts.push(`  No sowing is due in the next ${span}.`);
  }
  return [title, ...parts].join('\n');
}

function sowingTable(sowings: Sowings): string[] {
  const several = new Set(sowings.dates.map(({ crop }) => crop)).size > 1;
  const rows = [
    ['visit', ...(several ? ['crop'] : []), 'seeds by the plan', 'seeds that fill the gap'],
    ...sowings.dates.map(({ date, crop, planned_seeds, advised_seeds }) => [
      dateText(date),
      ...(several ? [clipped(crop, NAME)] : []),
      thousands(planned_seeds),
      thousands(advised_seeds),
    ]),
  ];
  return [wrap(verdict(sowings), WIDTH, '  '), ...indented(columns(rows))];
}

function verdict({ verdict: kind, planned, advised, difference, until, dates }: Sowings): string {
  const { low, high, mean } = difference;
  const interval =
    low === null || high === null ? '' : ` (95 %: ${gainText(low, 1)} to ${gainText(high, 1)})`;
  const change = `${countText(advised)} heads by ${dateText(until)} against ${countText(planned)} with the plan's seeds, ${gainText(mean, 1)}${interval}`;
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

/** `4 Jan`. */
function shortDate(iso: string): string {
  return dateText(iso).split(' ').slice(1, 3).join(' ');
}
