/** `evensow ahead FILE LOG`: the next weeks, from what stands today. */

import { lengthened } from '../../sim/calls/lengthened.js';
import { lookAhead, runsAhead, weeksNeeded } from '../../sim/season/ahead/ahead.js';
import { defaultSeasons } from '../../sim/seasons/replicate.js';
import { goingOptions, loadGoing, lookInto } from '../inputs/going-on.js';
import { DONE, INTERRUPTED } from '../io/streams.js';
import { formOf, type Options, wholeNumber } from '../options/options.js';
import { Problem } from '../problem.js';
import { toldAs } from '../render/told.js';
import { aheadSections } from '../sections/ahead/ahead.js';
import { aheadRows } from '../sections/ahead/rows.js';
import { put } from '../studies/perform.js';

const MOST_WEEKS = 52;
const USUAL_WEEKS = 8;

/**
 * @param file path of the scenario, or `-` for standard input
 * @param log path of the season log, or `-`
 * @throws Problem if an option, the scenario or the log is wrong
 */
export async function ahead(file: string, log: string, options: Options): Promise<number> {
  const faults: string[] = [];
  const asked = goingOptions(options, faults);
  const weeks = wholeNumber('--weeks', options['weeks'], 1, MOST_WEEKS, USUAL_WEEKS, faults) ?? USUAL_WEEKS;
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const out = options['out'] ?? null;
  const going = await loadGoing({ command: 'ahead', file, log, out });
  const { scenario } = going.scenario;
  const plan = lengthened(scenario, going.rows, asked.today, (short, from) =>
    weeksNeeded(short, from, weeks),
  );
  const futures = asked.seasons ?? defaultSeasons(going.scenario.plan);
  const result = await lookInto(going, asked, futures, runsAhead(futures), (look) =>
    lookAhead(plan, going.rows, { ...look, weeks }),
  );
  if (result === null) return INTERRUPTED;
  const told = { result, sections: () => aheadSections(result), rows: () => aheadRows(result) };
  await put(toldAs(formOf(options), told), out);
  return DONE;
}
