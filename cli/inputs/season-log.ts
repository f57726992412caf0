/**
 * A season log, read for a line: its rows, or every fault of the file as a Problem. Every command that reads one does so here,
 * so that a log which one of them refuses is refused by all.
 */

import { lengthenedPlan } from '../../sim/calls/lengthened.js';
import type { Plan } from '../../sim/models/plan.js';
import type { ReadScenario } from '../../sim/scenario/read.js';
import { logFaults } from '../../sim/season/history/log-faults.js';
import { readLog } from '../../sim/season/log/read.js';
import type { LogRow, TankRow } from '../../sim/season/log/rows.js';
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
  /** What was done with the tank. */
  readonly tank: readonly TankRow[];
  readonly stages: readonly string[];
  /** Of the line, going on for as long as the log does; null if no scenario is known. */
  readonly plan: Plan | null;
}

/**
 * @param line its scenario; null if none is known
 * @throws Problem with every fault of the log, or if it has no row
 */
export function seasonRows({ name, text }: Source, line: ReadScenario | null): SeasonRows {
  const plan = line?.plan ?? null;
  const read = readLog(text, plan?.stages.map((stage) => stage.name) ?? null, plan?.crops ?? null);
  if (!read.ok) throw faultsProblem(name, read.faults);
  const { rows, tank, stages, warnings } = read.value;
  if (warnings.length > 0) tell(warningLines(name, warnings).join('\n'));
  if (rows.length === 0) {
    throw new Problem(
      `${name} must not be without rows${tank.length > 0 ? ' but those of the tank' : ''}. It must hold what was done: a row for each sowing, move, pick and loss. Example: evensow log sow 6 butterhead --to ${name}`,
    );
  }
  if (line === null) return { name, rows, tank, stages, plan };
  const faults = logFaults(rows, line.plan);
  if (faults.length > 0) throw faultsProblem(name, faults);
  const going = lengthenedPlan(line.scenario, rows, null, (_, from) => Math.ceil(from / 7));
  return { name, rows, tank, stages, plan: going };
}
