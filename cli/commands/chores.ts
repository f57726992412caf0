/** `evensow chores FILE [LOG]`: what to do on each visit of the next days. */

import { choresFrom } from '../../sim/calls/look.js';
import { futuresOptions, loadLine, lookInto, tellingOf } from '../inputs/futures-inputs.js';
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
 * @param file path of the scenario, or `-` for standard input
 * @param log path of the season log, or `-`; if left out, the list begins with an empty line on the scenario's first day
 * @throws Problem if an option, the scenario or the log is wrong
 */
export async function chores(
  file: string,
  log: string | undefined,
  options: ChoresCliOptions,
): Promise<number> {
  const faults: string[] = [];
  const asked = futuresOptions(options, faults);
  const days = wholeNumber('--days', options['days'], 1, MOST_DAYS, USUAL_DAYS, faults) ?? USUAL_DAYS;
  if (asked.today !== null && log === undefined) {
    faults.push(
      '--today must not be given without a log. Without one the list begins on the first day of the scenario. Example: evensow chores my-line.yaml season.csv --today 2027-03-15',
    );
  }
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const out = options['out'] ?? null;
  const going = await loadLine('chores', file, log, out);
  const look = choresFrom(going.scenario.scenario, going.rows, asked.today, days);
  const result = await lookInto(going, asked, look);
  if (result === null) return EXIT_INTERRUPTED;
  const told = {
    result,
    sections: () => choresSections(result, tellingOf(options, log)),
    rows: () => choresRows(result),
  };
  const text = options.ics ? calendarText(choresCalendar(result)) : toldAs(formOf(options), told);
  await writeResult(text, out);
  return EXIT_DONE;
}
