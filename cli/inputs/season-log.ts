/** A season log, read for a line: its rows, or every fault of the file as a Problem. */

import type { Plan } from '../../sim/models/plan.js';
import { readLog } from '../../sim/season/log/read.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { loadLog } from '../io/log-file.js';
import { tell } from '../io/streams.js';
import { Problem } from '../problem.js';
import { warningLines } from '../sections/faults.js';
import { faultsProblem } from './faults-problem.js';

export interface SeasonRows {
  /** Name of the file, for messages. */
  readonly name: string;
  /** At least one. */
  readonly rows: readonly LogRow[];
  readonly stages: readonly string[];
}

/**
 * @param log path, or `-` for standard input
 * @param plan of the line; null if no scenario is known
 * @throws Problem with every fault of the log, or if it has no row
 */
export async function loadSeasonLog(log: string, plan: Plan | null): Promise<SeasonRows> {
  const name = log === '-' ? 'standard input' : log;
  const read = readLog(
    await loadLog(log),
    plan?.stages.map((stage) => stage.name) ?? null,
    plan?.crops ?? null,
  );
  if (!read.ok) throw faultsProblem(name, read.faults);
  const { rows, stages, warnings } = read.value;
  if (warnings.length > 0) tell(warningLines(name, warnings).join('\n'));
  if (rows.length === 0) {
    throw new Problem(
      `${name} must not be without rows. It must hold what was done: a row for each sowing, move, pick and loss. Example: evensow log sow 6 butterhead --to ${name}`,
    );
  }
  return { name, rows, stages };
}
