/** A season log, read for a line: its rows, or every fault of the file as a Problem. */

import type { Plan } from '../../sim/models/plan.js';
import { readLog } from '../../sim/season/log/read.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { tell } from '../io/streams.js';
import { Problem } from '../problem.js';
import { warningLines } from '../sections/faults.js';
import { faultsProblem } from './faults-problem.js';
import type { Source } from './scenario-file.js';

export interface SeasonRows {
  /** Name of the file, for messages. */
  readonly name: string;
  /** At least one. */
  readonly rows: readonly LogRow[];
  readonly stages: readonly string[];
}

/**
 * @param plan of the line; null if no scenario is known
 * @throws Problem with every fault of the log, or if it has no row
 */
export function seasonRows({ name, text }: Source, plan: Plan | null): SeasonRows {
  const read = readLog(text, plan?.stages.map((stage) => stage.name) ?? null, plan?.crops ?? null);
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
