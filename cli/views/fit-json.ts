/** What a log tells as one JSON document, numbers in full; its keys are those of `FitResult`. */

import type { FitResult } from '../../sim/season/fit.js';
import type { FitChange } from '../../sim/season/fit-changes.js';

/** @param changes that it would make in the scenario; null if there is none */
export function fitJson(result: FitResult, changes: readonly FitChange[] | null): string {
  return `${JSON.stringify({ ...result, changes }, null, 2)}\n`;
}
