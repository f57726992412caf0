/** The work list: a section for each week, with boxes to tick; as rows; and as a calendar. */

import type { ChoresResult, VisitChores } from '../../sim/season/ahead/chores.js';
import { absenceMark, absenceSentences } from '../words/absence.js';
import { assumedSentences, BRIEF, type Telling } from '../words/assumed.js';
import { CAUTION } from '../words/cautions.js';
import { choreLines, choreText, expectedText, minutesText, summaryText } from '../words/chores.js';
import { dateText, mondayOf } from '../words/dates.js';
import { missedSowingSentences } from '../words/missed.js';
import { counted } from '../words/numbers.js';
import { mostText } from '../words/range.js';
import { assumedBlocks } from './assumed.js';
import { expected } from './range.js';
import { type Calendar, chapter, type Rows, type Section, section, table, task, words } from './section.js';
import { TIME_YOUR_OWN } from './takes/work.js';

export function choresSections(result: ChoresResult, telling: Telling = BRIEF): Section[] {
  return [
    section(null, heading(result), ...assumedBlocks(result, telling), ...sowingSentences(result)),
    ...(telling.all || entries(result) <= MOST_ENTRIES ? weeks(result) : summedUp(result)),
    ...(result.assumes === undefined ? [] : [section(null, TIME_YOUR_OWN)]),
    section(null, `Take care. ${CAUTION.join(' ')}`),
  ];
}

function sowingSentences({ missed_sowings, lost_to_absence }: ChoresResult): string[] {
  return [...missedSowingSentences(missed_sowings), ...absenceSentences(lost_to_absence)];
}

/**
 * One row a chore, and one for each batch of it; the words are those of a season log. Behind them the minutes of the visit,
 * where they are told.
 */
export function choresRows({ visits, assumes = [] }: ChoresResult): Rows {
  const nothing = (count: number): null[] => Array.from({ length: count }, () => null);
  const rows = visits.flatMap(({ date, chores, minutes }) => [
    ...chores.flatMap(({ action, stage, from, count, batches }) => {
      const cells = ({ mean, p10, p50, p90, low, high }: typeof count) => [
        ...[from, stage, mean],
        ...[p10, p50, p90],
        ...[low, high],
      ];
      return [
        // All batches together: the row has no crop and no batch.
        [date, action, null, null, ...cells(count)],
        ...batches.map((one) => [date, action, one.crop, one.batch, ...cells(one.count)]),
      ];
    }),
    ...(minutes === undefined ? [] : [minutesRow(date, minutes)]),
  ]);
  const head = ['date', 'action', 'crop', 'batch', 'from', 'stage', 'expected', 'p10', 'p50', 'p90'];
  return [
    [...head, 'low', 'high'],
    ...rows,
    // Cautions go wherever the figures go.
    ...assumes.map((sentence) => [null, `assumes: ${sentence}`, ...nothing(10)]),
  ];
}

/** Of no crop, batch or stage, and no range of whole numbers. */
function minutesRow(
  date: string,
  { mean, p10, p50, p90 }: NonNullable<VisitChores['minutes']>,
): Rows[number] {
  return [date, 'minutes', null, null, null, null, mean, p10, p50, p90, null, null];
}

/** An event for each visit. */
export function choresCalendar(result: ChoresResult): Calendar {
  const { title, id, from, revision, visits } = result;
  const timed = result.assumes === undefined ? [] : [TIME_YOUR_OWN];
  return {
    title,
    id,
    from,
    revision,
    days: visits.map((visit, i) => {
      const { date, chores, minutes } = visit;
      const list = [...choreLines(chores).map(choreText), ...absencesOn(visit, result.lost_to_absence)];
      if (list.length === 0) list.push('Nothing to be done, as far as can be told.');
      if (minutes !== undefined) list.push(`It takes ${minutesText(minutes)}.`);
      return {
        date,
        summary: `${title}: ${summaryText(chores) || 'visit'}`,
        // The first visit also carries what is taken to be so, and what there is to mind.
        lines:
          i === 0
            ? [...list, '', ...assumedSentences(result), ...sowingSentences(result), ...timed, ...CAUTION]
            : list,
      };
    }),
  };
}

function heading({ title, from, to, last_visit, futures, seed, visits }: ChoresResult): string {
  const most = mostText(visits.flatMap(({ chores }) => chores.map(({ count }) => count)));
  const since =
    last_visit === null
      ? 'from an empty line, by the plan'
      : `from what stands by the log after ${dateText(last_visit)}`;
  return `${title}: work from ${dateText(from)} to ${dateText(to)}, ${since}. The number to expect, and what ${most} stay within (${counted(futures, 'future')} simulated, seed ${seed}).`;
}

/** Of a longer list only the next visit is told in full. */
const MOST_ENTRIES = 150;
/** Batches that stand in about one line. */
const BATCHES_A_LINE = 3;

/** About how many lines the whole list would have. */
function entries({ visits }: ChoresResult): number {
  const chores = visits.flatMap((visit) => visit.chores);
  return chores.reduce((sum, { batches }) => sum + 1 + Math.floor(batches.length / BATCHES_A_LINE), 0);
}

/** The next visit in full, and each week in sums. */
function summedUp(result: ChoresResult): Section[] {
  const [next] = result.visits;
  return [
    chapter('The next visit', visitSection(next!, absencesOn(next!, result.lost_to_absence))),
    ...result.weeks.map(({ start, visits, chores, minutes }) =>
      section(
        `Week of ${dateText(start)}, ${counted(visits, 'visit')} in all${taking(minutes)}`,
        table(
          choreLines(chores).map((line) => [
            line.verb,
            line.count === null ? expectedText(line) : expected(line.count),
            words(...line.where),
          ]),
        ),
      ),
    ),
    section(null, 'Each visit, batch by batch: --all, or --csv.'),
  ];
}

/** From Monday to Sunday, each with a heading of its own. */
function weeks({ visits, lost_to_absence }: ChoresResult): Section[] {
  if (visits.length === 0) return [section(null, 'No visit falls on these days.')];
  const byWeek = new Map<string, Section[]>();
  for (const visit of visits) {
    const monday = mondayOf(visit.date);
    byWeek.set(monday, [
      ...(byWeek.get(monday) ?? []),
      visitSection(visit, absencesOn(visit, lost_to_absence)),
    ]);
  }
  return [...byWeek].map(([monday, days]) => chapter(`Week of ${dateText(monday)}`, ...days));
}

/** What is said of the sowings of a visit. */
function absencesOn({ date, chores }: VisitChores, lost: ChoresResult['lost_to_absence']): string[] {
  const sown = chores.find(({ action }) => action === 'sow')?.batches ?? [];
  return lost.filter((one) => one.date === date).map((one) => absenceMark(one, sown.length > 1));
}

/** What stands behind a date; nothing where it is not told. */
function taking(minutes: VisitChores['minutes']): string {
  return minutes === undefined ? '' : `, ${minutesText(minutes)}`;
}

function visitSection({ date, chores, minutes }: VisitChores, sentences: readonly string[]): Section {
  const rows = choreLines(chores).map((line) => [
    task(line.verb),
    line.count === null ? expectedText(line) : expected(line.count),
    words(...line.where),
  ]);
  return section(
    `${dateText(date)}${taking(minutes)}`,
    rows.length === 0 ? 'nothing to be done, as far as can be told' : table(rows),
    ...sentences,
  );
}
