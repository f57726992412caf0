/** What lies ahead in a grower's words. Figures come from the result; here they are only told. */

import type {
  AheadResult,
  NoRoom,
  StageAhead,
  ThrownAway,
  WeekAhead,
} from '../../../sim/season/ahead/ahead.js';
import type { Forecast } from '../../../sim/season/ahead/forecast.js';
import { BRIEF, type Telling } from '../../words/assumed.js';
import { dateText, shortDate } from '../../words/dates.js';
import {
  COUNT,
  counted,
  decimalsFor,
  gainText,
  intervalText,
  percentText,
  SHARE,
  signed,
  thousands,
} from '../../words/numbers.js';
import { mostText } from '../../words/range.js';
import { assumedBlocks } from '../assumed.js';
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
import { takesSections } from './takes.js';

/** Batches without room that are told one by one. */
const MOST_BATCHES = 12;
/** A batch is told if at least so many of its plants are expected to wait or to be thrown away. */
const LEAST_PLANTS = 1;

export function aheadSections(result: AheadResult, telling: Telling = BRIEF): Section[] {
  const { weeks, stages } = result;
  return [
    section(null, heading(result), ...assumedBlocks(result, telling)),
    section('What stands now', now(result)),
    section(
      `Heads in each week: the middle one of all futures, and what ${mostText(weeks.flatMap(({ ready, picked }) => [ready, picked]))} stay within`,
      heads(weeks),
    ),
    section(
      `Holes that will stand empty, mean of the week (${mostText(stages.flatMap(({ empty }) => empty))})`,
      ...emptyHoles(result),
    ),
    ...takesSections(result.takes),
    noRoom(result, telling),
    sowingSection(result, telling),
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
  const most = Math.max(1, ...weeks.map(({ picked }) => picked.high));
  const wanted = weeks.some((week) => week.wanted !== null);
  const only = (cell: Cell): Cell[] => (wanted ? [cell] : []);
  const told = (range: Forecast): Cell[] => {
    const middle = Math.round(range.p50);
    return [figure(middle, COUNT), span(range, middle)];
  };
  return table(
    weeks.map((week) => [
      day(week.start),
      ...told(week.ready),
      ...told(week.picked),
      ...only(figure(week.wanted ?? 0, COUNT)),
      bar(week.picked.low / most, { upTo: week.picked.high / most }),
    ]),
    {
      head: ['week from', 'ready', '', 'picked', '', ...only('wanted'), ''],
      bars: key(['=', 'picks that most futures have at least'], ['-', 'up to the end of the range']),
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

/** What room without limit would bring. */
function costOfRoom({ blocked_cost: cost, sowings, weeks }: AheadResult): string[] {
  if (cost === null) return [];
  const { mean, low, high } = cost;
  const decimals = decimalsFor(Math.max(1, ...[mean, low ?? 0, high ?? 0].map(Math.abs)));
  const interval =
    low === null || high === null ? '' : ` (95 %: ${intervalText({ low, high }, signed(decimals))})`;
  const until = sowings === null ? '' : ` by ${dateText(sowings.until)}`;
  const found = `room without limit would bring ${gainText(mean, decimals)} heads${until}${interval}, with the same luck, of all that is sown in ${weeks.length === 1 ? 'this week' : `these ${weeks.length} weeks`}`;
  return [
    (low ?? mean) > 0
      ? `They cost ${counted(Number(mean.toFixed(decimals)), 'head')}: ${found}.`
      : `They cost no heads${(high ?? mean) < 0 ? '' : ' that could be told'}: ${found}.`,
  ];
}

function noRoom(result: AheadResult, telling: Telling): Section {
  const { no_room, overgrown } = result;
  const title = 'Batches that will run out of room';
  const blocked = no_room.filter((one) => Math.max(one.blocked.mean, one.thrown_away.mean) >= LEAST_PLANTS);
  const others = overgrown.filter(({ thrown_away }) => thrown_away.mean >= LEAST_PLANTS);
  const reason = 'Thrown away for another reason: not wanted, or nobody comes in time:';
  const rest =
    others.length === 0
      ? []
      : [section(reason, ...batchTable(others, telling, ['thrown away'], (one) => [one.thrown_away]))];
  if (blocked.length === 0) return section(title, 'None, as far as can be told.', ...rest);
  return section(
    `${title}: ready plants that find no hole further on`,
    ...batchTable(blocked, telling, ['blocked', 'thrown away'], (one) => [one.blocked, one.thrown_away]),
    ...costOfRoom(result),
    ...rest,
  );
}

function batchTable<Told extends NoRoom | ThrownAway>(
  batches: readonly Told[],
  { all }: Telling,
  titles: readonly string[],
  figures: (batch: Told) => readonly Forecast[],
): Block[] {
  const most = all ? batches.length : MOST_BATCHES;
  const rest = batches.length - most;
  return [
    table(
      batches
        .slice(0, most)
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
    ...(rest > 0 ? [`... and ${thousands(rest)} more: --all, or --csv.`] : []),
  ];
}
