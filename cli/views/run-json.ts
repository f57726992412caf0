/** The result of a run as one JSON document, numbers in full. */

import type { RunResult } from '../../sim/study/summary.js';

export function runJson(result: RunResult): string {
  return `${JSON.stringify(result, null, 2)}\n`;
}
