/** What must come of reading, whatever the text. */

import type { Plan } from '../../sim/models/plan.js';
import { readScenario } from '../../sim/scenario/read.js';
import { readLog, type SeasonLog } from '../../sim/season/log/read.js';

/** Read a scenario: it is understood, or has faults that say where they are, in the order of the file. */
export function readAnyScenario(text: string): Plan | null {
  const reading = readScenario(text);
  if (reading.ok) return reading.value.plan;
  tellWhere(reading.faults, text);
  for (const { column, found, expected } of reading.faults) {
    if (!(column >= 1 && /\S/.test(found) && /\S/.test(expected)))
      throw new Error(JSON.stringify(reading.faults));
  }
  return null;
}

/** Read a log, likewise. */
export function readAnyLog(text: string, plan: Plan | null): SeasonLog | null {
  const stages = plan?.stages.map(({ name }) => name) ?? null;
  const reading = readLog(text, stages, plan?.crops ?? null);
  if (reading.ok) return reading.value;
  tellWhere(reading.faults, text);
  return null;
}

function tellWhere(faults: readonly { readonly line: number }[], text: string): void {
  const lines = text.split(/\r\n|\r|\n/).length;
  let last = 1;
  for (const { line } of faults) {
    if (!(line >= last && line <= lines)) throw new Error(`${line} of ${lines}: ${JSON.stringify(faults)}`);
    last = line;
  }
  if (faults.length === 0) throw new Error('refused without a fault');
}
