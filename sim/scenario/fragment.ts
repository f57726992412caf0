/** Some keys of a scenario that is not whole yet: what a file with them would be told of them. */

import { crossFaults } from './cross-checks.js';
import type { FaultDraft } from './faults.js';
import { issuesToFaults } from './issues-to-faults.js';
import { scenarioSchema } from './schema.js';

/** @param data keys of a scenario with their values @returns the faults of these keys, not of those that lack */
export function fragmentFaults(data: Readonly<Record<string, unknown>>): FaultDraft[] {
  const read = scenarioSchema.safeParse(data);
  const drafts = [
    ...(read.success ? [] : issuesToFaults(scenarioSchema, data, read.error.issues)),
    ...crossFaults(data),
  ];
  return drafts.filter(({ path }) => Object.hasOwn(data, String(path[0])));
}
