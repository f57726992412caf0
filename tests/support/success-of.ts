/** What was asked for, of an answer that must be no failure. */

import type { Result } from '../../sim/models/result.js';

export function successOf<Value>(result: Result<Value, unknown>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults, null, 1));
  return result.value;
}
