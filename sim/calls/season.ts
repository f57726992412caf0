/** A season's log by one call: read, added to, replayed, fitted. */

import { EVERY, SEEDS, wholeWithin, within } from '../models/limits.js';
import type { Plan } from '../models/plan.js';
import type { Result } from '../models/result.js';
import { type FitResult, fitSeason } from '../season/fit/fit.js';
import { fittedPlan } from '../season/fit/fitted-plan.js';
import { isMetered, meteredOf } from '../season/fit/meter/meter.js';
import { logFaults } from '../season/history/log-faults.js';
import { type Appended, appendRow, type Refused, type Typed } from '../season/log/append.js';
import type { LogFault } from '../season/log/faults.js';
import { readLog, type SeasonLog } from '../season/log/read.js';
import { ALL_COLUMNS } from '../season/log/rows.js';
import { replaySeason } from '../season/replay/replay.js';
import type { ReplayResult } from '../season/replay/result.js';
import type { CadenceChange } from '../season/replay/what-if.js';

/**
 * Reads the text of a season log (CSV). Never throws on any text.
 *
 * @param options `plan` of the line; left out: stages are inferred, every crop is taken as it comes, with one pick a plant
 * @returns what the log says, or every fault of the file, sorted by line
 * @example
 * ```ts
 * const read = readSeasonLog(text, { plan });
 * if (!read.ok) for (const fault of read.faults) console.error(fault.line, fault.found, fault.expected);
 * ```
 */
export function readSeasonLog(
  text: string,
  { plan = null }: { readonly plan?: Plan | null } = {},
): Result<SeasonLog, LogFault> {
  return readLog(text, plan?.stages.map(({ name }) => name) ?? null, plan?.crops ?? null);
}

/**
 * A row more for a season log, checked against all that stands by it.
 *
 * @param text of the present file; empty if there is none yet
 * @param row as somebody types it. `batch` may be left out for `sow` (it gets the next number), `stage` where the plants can
 * be in one stage only. A `tank` row has `litres`, `ec` or the note `changed`, and no count; every other has a count
 * @returns `text`, which is to be written behind the present text, or what is wrong with the file or the row. The first row of the
 * tank needs columns more: then `widened` is what is to be written in the place of the present text
 * @example
 * ```ts
 * const added = addRow(text, { date: '2027-02-01', action: 'pick', count: '4', batch: 'B9' }, plan);
 * if (added.ok) writeFileSync('season.csv', (added.value.widened ?? text) + added.value.text);
 * ```
 */
export function addRow(
  text: string,
  row: Partial<Typed> & Pick<Typed, 'date' | 'action'>,
  plan: Plan,
): Result<Appended, LogFault> & ({ readonly ok: true } | Refused) {
  const nothing = Object.fromEntries(ALL_COLUMNS.map((column) => [column, ''])) as Typed;
  const stages = plan.stages.map(({ name }) => name);
  return appendRow(text, { ...nothing, ...row }, { stages, crops: plan.crops }, stages);
}

/**
 * A season as it was, rebuilt from its log: the picks, which holes stood empty and why, and another cadence with the same luck.
 *
 * @param log with at least one row
 * @param options `plan` of the line (left out: inferred from the log), `change` another cadence to try
 * @returns faults if the log and the plan do not belong together
 * @throws RangeError if `change` is out of range
 * @example
 * ```ts
 * const replayed = replay(log, { plan });
 * if (replayed.ok) console.log(replayed.value.idle[0]);
 * ```
 */
export function replay(
  log: SeasonLog,
  {
    plan = null,
    change = null,
  }: { readonly plan?: Plan | null; readonly change?: CadenceChange | null } = {},
): Result<ReplayResult, LogFault> {
  if (change !== null) {
    const { every, seeds } = change;
    if (every !== null) within('change.every', every, EVERY);
    if (seeds !== null) wholeWithin('change.seeds', seeds, SEEDS);
  }
  return replaySeason(log.rows, log.stages, plan, { change });
}

/**
 * What a log tells about growing times, losses and germination, each with its 95 % interval, and whether enough was seen. Where it has
 * rows of the tank, and the plan tells of climate and tank, also the scale of the model's litres and the conductivity of what plants take up.
 *
 * @param options `plan` of the line; left out: its holes are not known, so waiting cannot be told from growing
 * @example
 * ```ts
 * const { crops } = fit(log, { plan });
 * ```
 */
export function fit(log: SeasonLog, { plan = null }: { readonly plan?: Plan | null } = {}): FitResult {
  const { rows, stages, tank } = log;
  const grown = fitSeason(rows, stages, plan);
  if (!isMetered(tank, plan)) return grown;
  const refused = logFaults(rows, plan).length > 0;
  return { ...grown, ...meteredOf({ rows, tank, plan: fittedPlan(grown, plan), refused }) };
}
