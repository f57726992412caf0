/** What lies ahead in a grower's words. Figures come from the result; here they are only told. */

import type {
  AheadResult,
  NoRoom,
  StageAhead,
  ThrownAway,
  WeekAhead,
} from '../../../sim/season/ahead/ahead.js';
import type { Forecast } from '../../../sim/season/ahead/forecast.js';
import { assumedSentences } from '../../words/assumed.js';
import { dateText, shortDate } from '../../words/dates.js';
import { COUNT, counted, percentText, SHARE, thousands } from '../../words/numbers.js';
import { expected, span } from '../range.js';
import {
  type Block,
  bar,
  type Cell,
  day,
  figure,
  key,
  name,
  type Section,
  section,
  table,
} from '../section.js';
import { sowingSection } from './sowing.js';

/** Batches without room that are told one by one. */
const MOST_BATCHES = 12;
/** A batch is told if at least so many of its plants are expected to wait or to be thrown away. */
const LEAST_PLANTS = 1;

export function aheadSections(result: AheadResult): Section[] {
  return [
    section(null, heading(result), ...assumedSentences(result)),
    section('What stands now', now(result)),
    section(
      'Heads in each week: the middle one of all futures, and what 8 of 10 stay within',
      heads(result.weeks),
    ),
    section('Holes that will stand empty, mean of the week (8 of 10 futures)', ...emptyHoles(result)),
    noRoom(result),
    sowingSection(result),
  ];
}

function heading({ title, from, last_visit, weeks, futures, seed }: AheadResult): string {
  const since =
    last_visit === null ? 'nobody was there yet' : `the last visit was on ${dateText(last_visit)}`;
  return `${title}: ${counted(weeks.length, 'week')} from ${dateText(from)}, ${counted(futures, 'future')} simulated (seed ${seed}). By the log ${since}.`;
}

function now({ now: stages }: AheadResult): Block {
  return table(
    stages.map((stage) => {
      const { holes, plants, cleaning } = stage;
      return [
        name(stage.name),
        ...[plants, cleaning, holes - plants - cleaning, holes].map((count) => figure(count, COUNT)),
      ];
    }),
    { head: ['', 'plants', 'being cleaned', 'empty', 'holes'] },
  );
}

function heads(weeks: readonly WeekAhead[]): Block {
  const most = Math.max(1, ...weeks.map(({ picked }) => picked.p90));
  const wanted = weeks.some((week) => week.wanted !== null);
  const only = (cell: Cell): Cell[] => (wanted ? [cell] : []);
  const middle = ({ p50 }: Forecast): Cell => figure(Math.round(p50), COUNT);
  return table(
    weeks.map((week) => [
      day(week.start),
      middle(week.ready),
      span(week.ready),
      middle(week.picked),
      span(week.picked),
      ...only(figure(week.wanted ?? 0, COUNT)),
      bar(week.picked.p10 / most, { upTo: week.picked.p90 / most }),
    ]),
    {
      head: ['week from', 'ready', '', 'picked', '', ...only('wanted'), ''],
      bars: key(['=', 'picks in 9 of 10 futures at least'], ['-', 'in 1 of 10 so many']),
    },
  );
}

function emptyHoles({ stages, weeks }: AheadResult): Block[] {
  return [
    table(
      weeks.map(({ start }, week) => [day(start), ...stages.map(({ empty }) => expected(empty[week]!))]),
      { head: ['week from', ...stages.map((stage) => name(stage.name))] },
    ),
    ...stages.flatMap(firstEmpty),
  ];
}

/** Of a stage that is full now, or nearly. */
function firstEmpty({ name, holes, empty_now, first_empty }: StageAhead): string[] {
  if (first_empty === null || empty_now > holes / 20) return [];
  const { chance, p10, p50, p90 } = first_empty;
  const when = p10 === p90 ? '' : ` (${shortDate(p10)} to ${shortDate(p90)})`;
  const often = chance > 0.995 ? '' : `, in ${percentText(chance)} of futures`;
  return [
    `In ${name} ${empty_now === 0 ? 'no hole is' : counted(empty_now, 'hole is', 'holes are')} empty now; more will be from ${dateText(p50)} on${when}${often}.`,
  ];
}

function noRoom({ no_room, overgrown }: AheadResult): Section {
  const title = 'Batches that will run out of room';
  const blocked = no_room.filter((one) => Math.max(one.blocked.mean, one.thrown_away.mean) >= LEAST_PLANTS);
  const others = overgrown.filter(({ thrown_away }) => thrown_away.mean >= LEAST_PLANTS);
  const reason = 'Thrown away for another reason: not wanted, or nobody comes in time:';
  const rest =
    others.length === 0
      ? []
      : [section(reason, ...batchTable(others, ['thrown away'], (one) => [one.thrown_away]))];
  if (blocked.length === 0) return section(title, 'None, as far as can be told.', ...rest);
  return section(
    `${title}: ready plants that find no hole further on`,
    ...batchTable(blocked, ['blocked', 'thrown away'], (one) => [one.blocked, one.thrown_away]),
    ...rest,
  );
}

function batchTable<Told extends NoRoom | ThrownAway>(
  batches: readonly Told[],
  titles: readonly string[],
  figures: (batch: Told) => readonly Forecast[],
): Block[] {
  const rest = batches.length - MOST_BATCHES;
  return [
    table(
      batches
        .slice(0, MOST_BATCHES)
        .map((one) => [
          one.batch === null ? `sown ${shortDate(one.sown!)}` : name(one.batch),
          name(one.stage),
          day(one.from, true),
          day(one.to, true),
          ...figures(one).map(expected),
          figure(one.chance, SHARE),
        ]),
      { head: ['batch', 'in', 'from', 'to', ...titles, 'chance'] },
    ),
    ...(rest > 0 ? [`... and ${thousands(rest)} more.`] : []),
  ];
}
