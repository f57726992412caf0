/** `evensow chores FILE [LOG]`: what to do on each visit of the next days. */

import { choresFrom } from '../../sim/calls/look.js';
import { futuresOptions, loadLine, lookInto } from '../inputs/futures-inputs.js';
import { CHORES } from '../inputs/line-files.js';
import { EXIT_DONE, EXIT_INTERRUPTED } from '../io/streams.js';
import { formOf, type Options, wholeNumber } from '../options/options.js';
import { Problem } from '../problem.js';
import { calendarText } from '../render/calendar.js';
import { toldAs } from '../render/told.js';
import { choresCalendar, choresRows, choresSections } from '../sections/chores.js';
import { writeResult } from '../studies/perform.js';

const MOST_DAYS = 366;
const USUAL_DAYS = 14;

/** As typed; `ics` asks for a calendar file. */
export type ChoresCliOptions = Options & { readonly ics?: boolean };

/**
 * @param file path of the scenario or the log, or `-` for standard input
 * @param other path of the other one; if there is no log, nor does the scenario name one, the list begins with an empty
 * line on the scenario's first day
 * @throws Problem if an option, the scenario or the log is wrong
 */
export async function chores(
  file: string | undefined,
  other: string | undefined,
  options: ChoresCliOptions,
): Promise<number> {
  const faults: string[] = [];
  const asked = futuresOptions(options, faults);
  const days = wholeNumber('--days', options['days'], 1, MOST_DAYS, USUAL_DAYS, faults) ?? USUAL_DAYS;
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const out = options['out'] ?? null;
  const going = await loadLine(CHORES, [file, other], out);
  if (asked.today !== null && going.rows.length === 0) {
    throw new Problem(
      '--today must not be given without a log. Without one the list begins on the first day of the scenario. Example: evensow chores my-line.yaml season.csv --today 2027-03-15',
    );
  }
  const look = choresFrom(going.scenario.scenario, going.rows, asked.today, days);
  const result = await lookInto(going, asked, look);
  if (result === null) return EXIT_INTERRUPTED;
  const text = options.ics
    ? calendarText(choresCalendar(result))
    : toldAs(formOf(options), result, choresSections, choresRows);
  await writeResult(text, out);
  return EXIT_DONE;
}
