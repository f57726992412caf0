/** A scenario file, or the built-in scenario, turned into a plan; faults become a Problem. */

import { fileURLToPath } from 'node:url';
import { readScenario } from '../sim/scenario/read.js';
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
 * Read a scenario and tell its warnings.
 * @param file path, `-` for standard input, or nothing for the built-in scenario
 * @throws Problem with every fault of the file
 */
export async function loadScenario(file: string | undefined): Promise<Read> {
  const { path, name } = scenarioPath(file);
  const read = readScenario(await readTextFile(path));
  if (!read.ok) throw new Problem(faultsText(name, read.faults));
  if (read.warnings.length > 0) tell(warningsText(name, read.warnings));
  return read;
}
