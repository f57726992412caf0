/** A scenario file, or the built-in scenario, turned into a plan; faults become a Problem. */

import { fileURLToPath } from 'node:url';
import { readScenario } from '../sim/scenario/read.js';
import type { Source } from './assignment.js';
import { Problem } from './problem.js';
import { tell } from './streams.js';
import { readTextFile } from './text-file.js';
import { faultsText, warningsText } from './views/faults-text.js';

/** The scenario that runs when no file is named. It lies beside dist/ in the package. */
const BUILT_IN = 'home-shelf.yaml';

export type Read = Extract<ReturnType<typeof readScenario>, { ok: true }>;

/** Path and name of the file to read. */
export function scenarioPath(file: string | undefined): { path: string; name: string } {
  if (file !== undefined) return { path: file, name: file === '-' ? 'standard input' : file };
  return {
    path: fileURLToPath(new URL(`../scenarios/${BUILT_IN}`, import.meta.url)),
    name: `built-in scenario ${BUILT_IN}`,
  };
}

/**
 * The text of a scenario.
 * @param file path, `-` for standard input, or nothing for the built-in scenario
 */
export async function loadSource(file: string | undefined): Promise<Source> {
  const { path, name } = scenarioPath(file);
  return { name, text: await readTextFile(path) };
}

/** What was read already: a command looks at its scenario, and then its study does. */
const known = new WeakMap<Source, Read>();

/** @throws Problem with every fault of the file */
export function readSource(source: Source): Read {
  const before = known.get(source);
  if (before !== undefined) return before;
  const read = readScenario(source.text);
  if (!read.ok) throw new Problem(faultsText(source.name, read.faults));
  known.set(source, read);
  return read;
}

/**
 * Read a scenario and tell its warnings.
 * @param file as in `loadSource`
 * @throws Problem with every fault of the file
 */
export async function loadScenario(file: string | undefined): Promise<Read & { readonly source: Source }> {
  const source = await loadSource(file);
  const read = readSource(source);
  if (read.warnings.length > 0) tell(warningsText(source.name, read.warnings));
  return { ...read, source };
}
