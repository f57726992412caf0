/** `evensow ahead FILE LOG`: the next weeks, from what stands today. */

import { lookAhead, runsAhead, weeksNeeded } from '../../sim/season/ahead/ahead.js';
import { defaultSeasons } from '../../sim/seasons/replicate.js';
import { faultsProblem } from '../inputs/faults-problem.js';
import { goingOptions, lengthened, loadGoing, withProgress } from '../inputs/going-on.js';
import { DONE, INTERRUPTED, tell } from '../io/streams.js';
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
  const { today, seasons, seed } = goingOptions(options, faults);
  const weeks = wholeNumber('--weeks', options['weeks'], 1, MOST_WEEKS, USUAL_WEEKS, faults) ?? USUAL_WEEKS;
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const out = options['out'] ?? null;
  const going = await loadGoing({ command: 'ahead', file, log, out });
  const plan = lengthened(going, today, (short, from) => weeksNeeded(short, from, weeks));
  const futures = seasons ?? defaultSeasons(going.scenario.plan);
  const reading = await withProgress(runsAhead(futures), (pause) =>
    lookAhead(plan, going.rows, { today, weeks, futures, seed: seed ?? plan.seed, pause }),
  );
  if (reading === 'stopped') {
    tell('evensow: stopped before all futures were run; there is nothing to show.');
    return INTERRUPTED;
  }
  if (!reading.ok) throw faultsProblem(going.name, reading.faults);
  const { result } = reading;
  const told = { result, sections: () => aheadSections(result), rows: () => aheadRows(result) };
  await put(toldAs(formOf(options), told), out);
  return DONE;
}
