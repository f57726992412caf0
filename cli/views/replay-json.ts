/** A replayed season as one JSON document, numbers in full; its keys are those of `ReplayResult`. */

import type { ReplayResult } from '../../sim/season/replay/result.js';

export function replayJson(result: ReplayResult): string {
  return `${JSON.stringify(result, null, 2)}\n`;
}
