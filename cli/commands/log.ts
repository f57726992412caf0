/** `evensow log ACTION COUNT BATCH|CROP [STAGE]`, `evensow log tank`: add one row to the season log. */

import { dayFrom, isIsoDate } from '../../sim/models/dates.js';
import { holesOf, type Plan } from '../../sim/models/plan.js';
import { appendRow, type LoggedLine, type Refused } from '../../sim/season/log/append.js';
import { fieldText, type LogFault } from '../../sim/season/log/faults.js';
import { lastDate, readLog } from '../../sim/season/log/read.js';
import type { LogRow, TankRow } from '../../sim/season/log/rows.js';
import { loggedScenario, ownScenario } from '../inputs/own-log.js';
import { loadSource, readSource } from '../inputs/scenario-file.js';
import { appendToLog } from '../io/log-file.js';
import { EXIT_DONE, print, tell } from '../io/streams.js';
import type { Options } from '../options/options.js';
import { typedRow } from '../options/typed-row.js';
import { Problem } from '../problem.js';
import { messageOf } from '../render/text.js';
import { faultSections, rowFaultSections, warningLines } from '../sections/faults.js';
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
      instead: value.widened,
      text: value.text,
      result: { ...value, far: farText(file, text, stages, line, typed.date) },
    };
  });
  if (note !== null) tell(note);
  if (added.far !== null) tell(added.far);
  if (added.warnings.length > 0) tell(warningLines(file, added.warnings).join('\n'));
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
  const last = present.ok ? lastDate(present.value) : undefined;
  const [before, what] =
    last === undefined ? [line?.start, 'the first day of the line'] : [last, 'the last row before it'];
  if (before === undefined || dayFrom(before, date) <= FAR) return null;
  const years = Math.round(dayFrom(before, date) / 365.25);
  return `evensow: ${date} is about ${counted(years, 'year')} after ${what} (${before}), and no row of an earlier date can be added behind it. If it is a slip, remove the last line of ${file}.`;
}

async function lineOf(file: string | undefined): Promise<DatedLine> {
  return lineOfPlan(readSource(await loadSource(file)).plan);
}

/** A slip of the finger: no row can bring more into a stage than all its holes, nor take more of them out of use. */
function moreThanHoles(row: LogRow | TankRow, { stages, holes }: DatedLine): LogFault[] {
  if (row.action === 'tank') return [];
  const { action, count, stage } = row;
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
