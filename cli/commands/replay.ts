/** `evensow replay LOG [FILE]`: rebuild a real season from its log. */

import { WEEKDAYS, type Weekday } from '../../sim/models/dates.js';
import { SEEDS } from '../../sim/models/limits.js';
import { replaySeason } from '../../sim/season/replay/replay.js';
import type { CadenceChange } from '../../sim/season/replay/what-if.js';
import { faultsProblem } from '../inputs/faults-problem.js';
import { loadLineFiles, REPLAY } from '../inputs/line-files.js';
import type { Source } from '../inputs/scenario-file.js';
import { seasonRows } from '../inputs/season-log.js';
import { EXIT_DONE, print } from '../io/streams.js';
import { everyList } from '../options/lists.js';
import { formOf, type Options, wholeNumber, wrong } from '../options/options.js';
import { Problem } from '../problem.js';
import { toldAs } from '../render/told.js';
import { replayRows, replaySections } from '../sections/replay.js';

/**
 * @param file path of the log or the scenario, or `-` for standard input
 * @param other path of the other one; without a scenario the line is inferred from the log
 * @throws Problem if an option, the log or the scenario is wrong
 */
export async function replay(
  file: string | undefined,
  other: string | undefined,
  options: Options,
): Promise<number> {
  const change = changeFrom(options);
  const form = formOf(options);
  if (change !== null && form === 'csv') {
    throw new Problem(
      '--csv must not be given with another cadence (--every, --on, --seeds). It holds the season as it was, day by day; leave one of them out. --json holds both.',
    );
  }
  const { scenario, log } = await loadLineFiles(REPLAY, [file, other]);
  const { name, rows, stages, plan } = seasonRows(log as Source, scenario);
  if (change !== null && rows.some(({ action }) => action === 'stand')) {
    throw new Problem(
      `another cadence (--every, --on, --seeds) must not be asked for with a log that begins in the middle of a season. ${name} has stand rows, and what their plants would have done is not told. Leave it out; evensow compare tries cadences.`,
    );
  }
  const replayed = replaySeason(rows, stages, plan, { change });
  if (!replayed.ok) throw faultsProblem(name, replayed.faults);
  await print(toldAs(form, replayed.value, replaySections, replayRows));
  return EXIT_DONE;
}

/** @returns null if no other cadence is asked for */
function changeFrom(options: Options): CadenceChange | null {
  const { every, on, seeds } = options;
  const faults: string[] = [];
  const [days, ...more] = everyList(every, faults);
  if (more.length > 0) {
    faults.push(wrong('--every', every, 'one number of days here', days!));
  }
  const change: CadenceChange = {
    every: days ?? null,
    on: on === undefined ? null : weekdaysOf(on, faults),
    seeds: wholeNumber('--seeds', seeds, SEEDS, 8, faults) ?? null,
  };
  if (every !== undefined && on !== undefined) {
    faults.push(
      '--every and --on must not be given together. Each says by itself when is sown. Leave one out.',
    );
  }
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  return change.every === null && change.on === null && change.seeds === null ? null : change;
}

/** `mon,thu` or `mon+thu`. */
function weekdaysOf(text: string, faults: string[]): Weekday[] {
  const names = text.split(/[,+]/).map((name) => name.trim().toLowerCase());
  const unknown = names.filter((name) => !(WEEKDAYS as readonly string[]).includes(name));
  if (unknown.length > 0) {
    faults.push(
      `--on must not hold ${unknown.map((name) => JSON.stringify(name)).join(', ')}. It must be weekdays (${WEEKDAYS.join(', ')}), with commas between. Example: --on mon,thu`,
    );
  }
  return WEEKDAYS.filter((day) => names.includes(day));
}
