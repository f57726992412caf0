/** The scenarios of the repository. */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Plan } from '../../sim/models/plan.js';
import { readScenario } from '../../sim/scenario/read.js';

/** Their folder, with a slash behind it. */
export const EXAMPLES = fileURLToPath(new URL('../../scenarios/', import.meta.url));
export const SHELF = `${EXAMPLES}home-shelf.yaml`;
/** A log of a season of that line. */
export const SHELF_LOG = `${EXAMPLES}logs/cellar-2027.csv`;

/** What a scenario file says, and the plan that comes of it. @throws Error if it has a fault */
export function readExample(path: string, change: (text: string) => string = (text) => text) {
  const read = readScenario(change(readFileSync(path, 'utf8')));
  if (!read.ok) throw new Error(`${path}: ${JSON.stringify(read.faults)}`);
  return read.value;
}

export function planOf(path: string): Plan {
  return readExample(path).plan;
}
