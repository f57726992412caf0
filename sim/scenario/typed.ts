/** A value that somebody types for one key of a scenario: read as a file's would be, and checked with all the rest of it. */

import { failure, type Result, success } from '../models/result.js';
import { withValue } from './amend.js';
import type { Fault, FaultDraft, Path } from './faults.js';
import { fragmentFaults } from './fragment.js';
import { type Scenario, scenarioSchema } from './schema.js';
import { parseYaml } from './syntax.js';
import { Tree } from './tree.js';

/** What is wrong with what was typed: where it stands somebody sees. */
export type TypedFault = Pick<Fault, 'found' | 'expected' | 'nearest' | 'advice'>;

/** What a text says behind the colon of a key: a number, a word, a list, a map. @returns faults if it is no YAML */
export function typedValue(text: string): Result<unknown, TypedFault> {
  const parsed = parseYaml(text);
  if (!parsed.ok) return parsed;
  const tree = new Tree(parsed.value.document, parsed.value.lines);
  return tree.faults.length > 0 ? failure(tree.faults) : success(structuredClone(tree.value));
}

/**
 * A scenario with another value at a path.
 *
 * @param path leads through maps and lists that are there
 * @returns every fault that a file with it would have
 */
export function withTyped(scenario: Scenario, path: Path, value: unknown): Result<Scenario, TypedFault> {
  const data = withValue(scenario, { path, value }) as Scenario;
  const faults = faultsOf(data);
  return faults.length > 0 ? failure(faults) : success(scenarioSchema.parse(data));
}

/** What keeps a scenario from being one that a file could say. */
export function faultsOf(scenario: Scenario): TypedFault[] {
  return fragmentFaults(scenario).map(
    ({ found, expected, nearest = null, advice }: FaultDraft): TypedFault =>
      advice === undefined ? { found, expected, nearest } : { found, expected, nearest, advice },
  );
}
