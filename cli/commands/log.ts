/** `evensow log ACTION COUNT BATCH|CROP [STAGE]`: add one row to the season log. */

import { dayFrom, isIsoDate } from '../../sim/models/dates.js';
import { holesOf, type Plan } from '../../sim/models/plan.js';
import { appendRow, type LoggedLine, type Refused, type Typed } from '../../sim/season/log/append.js';
import { fieldText, type LogFault } from '../../sim/season/log/faults.js';
import { readLog } from '../../sim/season/log/read.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { loggedScenario, ownScenario } from '../inputs/own-log.js';
import { loadSource, readSource } from '../inputs/scenario-file.js';
import { appendToLog } from '../io/log-file.js';
import { EXIT_DONE, print, tell, today } from '../io/streams.js';
import type { Options } from '../options/options.js';
import { Problem } from '../problem.js';
import { messageOf } from '../render/text.js';
import { faultSections, rowFaultSections } from '../sections/faults.js';
import { logExample, loggedText } from '../words/logged.js';
import { counted, thousands } from '../words/numbers.js';

/** A line with the date of its first day. */
interface DatedLine extends LoggedLine {
  /** ISO 8601. */
  readonly start: string;
  /** Of each stage. */
  readonly holes: readonly number[];
}

/**
 * @param what the crop of a sowing, the stage of a cleaning, else the batch
 * @param stage moved into, or lost in
 * @throws Problem if the row cannot be true, or the log is wrong; then nothing is written
 */
export async function log(
  action: string | undefined,
  count: string | undefined,
  what: string | undefined,
  stage: string | undefined,
  options: Options,
): Promise<number> {
  const typed = typedRow((action ?? '').toLowerCase(), count ?? '', what ?? '', stage ?? '', options);
  const { file, line, note } = await logOf(options['to'], options['line']);
  const usual = line?.stages ?? (await lineOf(undefined)).stages;
  const added = await appendToLog(file, (text) => {
    const appending = appendRow(text, typed, line, usual);
    const early = line === null ? [] : beforeStart(typed.date, line);
    if (!appending.ok) throw new Problem(refusal(file, text, typed.action, appending, early));
    const beyond = line === null ? early : [...early, ...moreThanHoles(appending.value.row, line)];
    if (beyond.length > 0) throw new Problem(messageOf(rowFaultSections(file, beyond)));
    const { value } = appending;
    const { stages } = value.standing;
    return {
      text: value.text,
      result: { ...value, far: farText(file, text, stages, line, typed.date) },
    };
  });
  if (note !== null) tell(note);
  if (added.far !== null) tell(added.far);
  try {
    await print(`${loggedText(added.row, added.batch, added.standing.stages)}\n`);
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    throw new Problem(`${error.message} The row was written to ${file} all the same; do not log it again.`);
  }
  return EXIT_DONE;
}

/** A row of a day before the line's first could not be read for that line any more. */
function beforeStart(date: string, { start }: DatedLine): LogFault[] {
  if (!isIsoDate(date) || date >= start) return [];
  const advice = 'Name the day with --date, or let start in the scenario be the day of the first sowing.';
  const expected = `${start} or later, for that is the first day of the line`;
  return [{ line: 0, column: 'date', found: fieldText(date), expected, nearest: null, advice, more: 0 }];
}

/** More days than this between two rows are more likely a slip of the year than a line that stood still. */
const FAR = 366;

/**
 * What to say of a row long after all that happened before.
 * @param text of the log without it
 * @returns null if it is not so far away, or there is nothing before
 */
function farText(
  file: string,
  text: string,
  stages: readonly string[],
  line: DatedLine | null,
  date: string,
): string | null {
  const present = readLog(text, stages, line?.crops ?? null);
  const last = present.ok ? present.value.rows.at(-1)?.date : undefined;
  const [before, what] =
    last === undefined ? [line?.start, 'the first day of the line'] : [last, 'the last row before it'];
  if (before === undefined || dayFrom(before, date) <= FAR) return null;
  const years = Math.round(dayFrom(before, date) / 365.25);
  return `evensow: ${date} is about ${counted(years, 'year')} after ${what} (${before}), and no row of an earlier date can be added behind it. If it is a slip, remove the last line of ${file}.`;
}

function typedRow(action: string, count: string, what: string, stage: string, options: Options): Typed {
  const { batch, date = today(), channel = '', grams = '', note = '' } = options;
  const { crop, since } = options;
  const row = { action, count, date, channel, grams, note, stage };
  if (action === 'clean' && stage !== '') {
    throw new Problem(
      `log clean must not have ${JSON.stringify(stage)} behind the stage. It takes a count and a stage. Example: evensow log clean 9 finishing --channel F3`,
    );
  }
  if (action !== 'sow' && batch !== undefined) {
    throw new Problem(
      `--batch must not stand with log ${action}. It names the batch of a sowing. Example: evensow log sow 6 butterhead --batch B7`,
    );
  }
  for (const [option, value] of Object.entries({ '--crop': crop, '--since': since })) {
    if (action === 'stand' || value === undefined) continue;
    throw new Problem(
      `${option} must not stand with log ${action}. It tells of plants that stood before the log began. Example: ${STAND}`,
    );
  }
  switch (action) {
    case 'stand':
      return { ...row, crop: crop ?? '', batch: what, note: sinceNote(since, note) };
    case 'sow':
      return { ...row, crop: what, batch: batch ?? '' };
    case 'clean':
      return { ...row, crop: '', batch: '', stage: what };
    default:
      return { ...row, crop: '', batch: what };
  }
}

const STAND = 'evensow log stand 12 B3 nursery --crop butterhead --since 2027-02-01..2027-02-10';

/** The note of a `stand` row, which keeps since when the plants stand there. */
function sinceNote(since: string | undefined, note: string): string {
  return [...(since === undefined ? [] : [`since ${since.trim()}`]), ...(note === '' ? [] : [note])].join(
    '; ',
  );
}

async function lineOf(file: string | undefined): Promise<DatedLine> {
  return lineOfPlan(readSource(await loadSource(file)).plan);
}

/** A slip of the finger: no row can bring more into a stage than all its holes, nor take more of them out of use. */
function moreThanHoles({ action, count, stage }: LogRow, { stages, holes }: DatedLine): LogFault[] {
  const most = holes[stages.indexOf(stage)]!;
  if (count <= most || action === 'pick' || action === 'lose') return [];
  const expected = `at most ${most}, for ${stage} has so many holes`;
  return [
    { line: 0, column: 'count', found: thousands(count), expected, nearest: null, advice: '', more: 0 },
  ];
}

function lineOfPlan({ stages, crops, start }: Plan): DatedLine {
  return { stages: stages.map(({ name }) => name), crops, start, holes: stages.map(holesOf) };
}

/** The log if neither it nor a scenario that names one is named, nor is there one. */
const USUAL_LOG = 'season.csv';

/**
 * Where the row goes, and the line that it is of; null if that is not known.
 * @param to the log @param named the scenario
 */
async function logOf(
  to: string | undefined,
  named: string | undefined,
): Promise<{ file: string; line: DatedLine | null; note: string | null }> {
  if (to !== undefined)
    return { file: to, line: named === undefined ? null : await lineOf(named), note: null };
  const own = named === undefined ? await ownScenario() : await loggedScenario(named);
  if (own === null) return { file: USUAL_LOG, line: null, note: null };
  const line = lineOfPlan(own.plan);
  if (own.log === null) return { file: USUAL_LOG, line, note: null };
  return { file: own.log, line, note: `Note: written into ${own.log}, the log that ${own.name} names.` };
}

function refusal(
  file: string,
  text: string,
  action: string,
  appending: Refused,
  early: readonly LogFault[],
): string {
  if (appending.wrong === 'file') {
    return `nothing was written. ${messageOf(faultSections(file, appending.faults))}`;
  }
  // Of a date that is wrong in two ways, the log's word counts: it is the later one.
  const dated = appending.faults.some(({ column }) => column === 'date');
  const faults = dated ? appending.faults : [...early, ...appending.faults];
  return [
    messageOf(rowFaultSections(file, faults)),
    logExample(action),
    ...hints(file, text, appending),
  ].join('\n');
}

/** What may be behind a row that cannot be: another log or another line was meant. */
function hints(file: string, text: string, { faults, stages, stagesFrom }: Refused): string[] {
  const about = (column: string) => faults.some((fault) => fault.column === column);
  const unknown = faults.some(({ column, found }) => column === 'stage' && found !== 'nothing');
  const others = stagesFrom !== 'line' && (unknown || (stagesFrom === 'guess' && about('count')));
  return [
    ...(text === '' && about('batch') ? [`${file} is a new log. Name another with --to FILE.`] : []),
    ...(others
      ? [`The stages are ${stages.join(', ')}. If your line has others, name its scenario: --line FILE.`]
      : []),
  ];
}
