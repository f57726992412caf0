/** `evensow replay LOG [FILE]`: rebuild a real season from its log. */

import { WEEKDAYS, type Weekday } from '../../sim/models/dates.js';
import { replaySeason } from '../../sim/season/replay/replay.js';
import type { CadenceChange } from '../../sim/season/replay/what-if.js';
import { faultsProblem } from '../inputs/faults-problem.js';
import { loadScenario } from '../inputs/scenario-file.js';
import { loadSeasonLog } from '../inputs/season-log.js';
import { EXIT_DONE, print } from '../io/streams.js';
import { checkInputs } from '../io/text-file.js';
import { everyList } from '../options/lists.js';
import { formOf, type Options, wholeNumber, wrong } from '../options/options.js';
import { Problem } from '../problem.js';
import { toldAs } from '../render/told.js';
import { replayRows, replaySections } from '../sections/replay.js';

/**
 * @param log path of the season log, or `-` for standard input
 * @param file path of the scenario, or `-`; if left out the line is inferred from the log
 * @throws Problem if an option, the log or the scenario is wrong
 */
export async function replay(log: string, file: string | undefined, options: Options): Promise<number> {
  const change = changeFrom(options);
  const form = formOf(options);
  if (change !== null && form === 'csv') {
    throw new Problem(
      '--csv must not be given with another cadence (--every, --on, --seeds). It holds the season as it was, day by day; leave one of them out. --json holds both.',
    );
  }
  checkInputs('the log and the scenario', [log, file], 'evensow replay - my-line.yaml < season.csv');
  const line = file === undefined ? null : await loadScenario(file);
  const { name, rows, stages, plan } = await loadSeasonLog(log, line);
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
    seeds: wholeNumber('--seeds', seeds, 1, 1_000_000, 8, faults) ?? null,
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
