/** A scenario file, or the built-in scenario, turned into a plan; faults become a Problem. */

import { fileURLToPath } from 'node:url';
import { type ReadScenario, readScenario } from '../../sim/scenario/read.js';
import { isLog } from '../../sim/season/log/header.js';
import { tell } from '../io/streams.js';
import { readTextFile, type TextKind } from '../io/text-file.js';
import type { Input } from '../options/options.js';
import { Problem } from '../problem.js';
import { warningLines } from '../sections/faults.js';
import { faultsProblem } from './faults-problem.js';

/** The scenario that runs when no file is named. It lies beside dist/ in the package. */
const BUILT_IN = 'home-shelf.yaml';

export const SCENARIO: TextKind = {
  what: 'a scenario file',
  limit: 4_000_000,
  hint: 'A scenario is a text of a few kB.',
  missing: 'Check the path.',
};
/** Where the scenario may be left out. */
export const OPTIONAL: TextKind = {
  ...SCENARIO,
  missing: 'Check the path; without a file, evensow runs its built-in scenario.',
};

/** A scenario as it was read. */
export interface Source {
  /** Name of the file, for messages. */
  readonly name: string;
  readonly text: string;
}

/** Whether a command needs a scenario file, or takes the built-in scenario without one: what helps depends on it. */
export type Need = 'needed' | 'optional';

/** The name of a file for messages. @param path `-` for standard input */
export function nameOf(path: string): string {
  return path === '-' ? 'standard input' : path;
}

/** Path and name of the file to read. */
export function scenarioPath(file: string | undefined): { path: string; name: string } {
  if (file !== undefined) return { path: file, name: nameOf(file) };
  return {
    path: fileURLToPath(new URL(`../scenarios/${BUILT_IN}`, import.meta.url)),
    name: `built-in scenario ${BUILT_IN}`,
  };
}

/** @param file path, `-`, or undefined for the built-in scenario */
export function scenarioInput(file: string | undefined): Input {
  return {
    path: scenarioPath(file).path,
    what: file === undefined ? 'the built-in scenario' : 'the scenario',
  };
}

/**
 * The text of a scenario.
 * @param file path, `-` for standard input, or nothing for the built-in scenario
 */
export async function loadSource(file: string | undefined, need: Need = 'needed'): Promise<Source> {
  const { path, name } = scenarioPath(file);
  return { name, text: await readTextFile(path, need === 'optional' ? OPTIONAL : SCENARIO) };
}

/** A scenario with its text. */
export type Loaded = ReadScenario & { readonly source: Source };

/** What was read already: a command looks at its scenario, and then its study does. */
const known = new WeakMap<Source, ReadScenario>();

/** @throws Problem with every fault of the file */
export function readSource(source: Source): ReadScenario {
  const before = known.get(source);
  if (before !== undefined) return before;
  const read = readScenario(source.text);
  if (!read.ok && isLog(source.text)) {
    throw new Problem(
      `${source.name} is a season log (CSV). It must be a scenario (YAML). Example: my-line.yaml`,
    );
  }
  if (!read.ok) throw faultsProblem(source.name, read.faults);
  known.set(source, read.value);
  return read.value;
}

/**
 * Read a scenario and tell its warnings.
 * @param file as in `loadSource`
 * @throws Problem with every fault of the file
 */
export async function loadScenario(file: string | undefined, need: Need = 'needed'): Promise<Loaded> {
  return scenarioFrom(await loadSource(file, need));
}

/** The scenario of a text that was read; its warnings are told. @throws Problem with every fault */
export function scenarioFrom(source: Source): Loaded {
  const read = readSource(source);
  if (read.warnings.length > 0) tell(warningLines(source.name, read.warnings).join('\n'));
  return { ...read, source };
}
