/** `evensow ahead FILE [LOG]`: the next weeks, from what stands today. */

import { aheadFrom } from '../../sim/calls/look.js';
import { futuresOptions, loadLine, lookInto } from '../inputs/futures-inputs.js';
import { AHEAD } from '../inputs/line-files.js';
import { EXIT_DONE, EXIT_INTERRUPTED } from '../io/streams.js';
import { formOf, type Options, wholeNumber } from '../options/options.js';
import { Problem } from '../problem.js';
import { toldAs } from '../render/told.js';
import { aheadSections } from '../sections/ahead/ahead.js';
import { aheadRows } from '../sections/ahead/rows.js';
import { writeResult } from '../studies/perform.js';

const MOST_WEEKS = 52;
const USUAL_WEEKS = 8;

/**
 * @param file path of the scenario or the log, or `-` for standard input
 * @param other path of the other one; the log that the scenario names if left out
 * @throws Problem if an option, the scenario or the log is wrong
 */
export async function ahead(
  file: string | undefined,
  other: string | undefined,
  options: Options,
): Promise<number> {
  const faults: string[] = [];
  const asked = futuresOptions(options, faults);
  const weeks = wholeNumber('--weeks', options['weeks'], 1, MOST_WEEKS, USUAL_WEEKS, faults) ?? USUAL_WEEKS;
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const out = options['out'] ?? null;
  const going = await loadLine(AHEAD, [file, other], out);
  const look = aheadFrom(going.scenario.scenario, going.rows, asked.today, weeks);
  const result = await lookInto(going, asked, look);
  if (result === null) return EXIT_INTERRUPTED;
  await writeResult(toldAs(formOf(options), result, aheadSections, aheadRows), out);
  return EXIT_DONE;
}
