/** `evensow log ACTION COUNT BATCH|CROP [STAGE]`: add one row to the season log. */

import { type Appending, appendRow, type LoggedLine, type Typed } from '../../sim/season/append.js';
import { appendToLog } from '../log-file.js';
import { Problem } from '../problem.js';
import { loadSource, readSource } from '../scenario-file.js';
import { DONE, print, today } from '../streams.js';
import { logFaultsText, rowFaultsText } from '../views/log-faults-text.js';
import { logText } from '../views/log-text.js';

/** As typed; what was left out is undefined. */
export interface LogOptions {
  /** The log. */
  readonly to: string;
  readonly line?: string;
  readonly date?: string;
  readonly batch?: string;
  readonly channel?: string;
  readonly grams?: string;
  readonly note?: string;
}

type Refused = Extract<Appending, { ok: false }>;

/**
 * @param what the crop of a sowing, the stage of a cleaning, else the batch
 * @param stage moved into, or lost in
 * @throws Problem if the row cannot be true, or the log is wrong; then nothing is written
 */
export async function log(
  action: string,
  count: string,
  what: string | undefined,
  stage: string | undefined,
  options: LogOptions,
): Promise<number> {
  const file = options.to;
  const typed = typedRow(action.toLowerCase(), count, what ?? '', stage ?? '', options);
  const line = options.line === undefined ? null : await lineOf(options.line);
  const usual = line?.stages ?? (await lineOf(undefined)).stages;
  const added = await appendToLog(file, (text) => {
    const appending = appendRow(text, typed, line, usual);
    if (!appending.ok) throw new Problem(refusal(file, text, appending));
    return { text: appending.text, result: appending };
  });
  await print(logText(added.row, added.batch, added.standing.stages));
  return DONE;
}

function typedRow(action: string, count: string, what: string, stage: string, options: LogOptions): Typed {
  const { batch, date = today(), channel = '', grams = '', note = '' } = options;
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
  switch (action) {
    case 'sow':
      return { ...row, crop: what, batch: batch ?? '' };
    case 'clean':
      return { ...row, crop: '', batch: '', stage: what };
    default:
      return { ...row, crop: '', batch: what };
  }
}

async function lineOf(file: string | undefined): Promise<LoggedLine> {
  const { plan } = readSource(await loadSource(file));
  return { stages: plan.stages.map(({ name }) => name), crops: plan.crops };
}

function refusal(file: string, text: string, appending: Refused): string {
  if (appending.wrong === 'file') {
    return `nothing was written. ${logFaultsText(file, appending.faults)}`;
  }
  return [
    `nothing was written to ${file}.`,
    rowFaultsText(appending.faults),
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
