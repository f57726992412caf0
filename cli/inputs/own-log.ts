/** Which log a scenario names, and which scenario of this folder does: who logs a row need name neither then. */

import type { Plan } from '../../sim/models/plan.js';
import { namesHere, readTextFile } from '../io/text-file.js';
import { Problem } from '../problem.js';
import { besideScenario } from './line-files.js';
import { loadSource, readSource, SCENARIO, type Source } from './scenario-file.js';

/** A scenario, and where its log is. */
export interface LoggedScenario {
  /** Of its file. */
  readonly name: string;
  readonly plan: Plan;
  /** Path of the log; null if the scenario names none. */
  readonly log: string | null;
}

/** @param file path of a scenario @throws Problem if it cannot be read or is wrong */
export async function loggedScenario(file: string): Promise<LoggedScenario> {
  return withLog(await loadSource(file), file);
}

/**
 * The scenario of this folder that names its log.
 * @returns null if none does
 * @throws Problem if several do, of different lines or logs, or if one that does is wrong
 */
export async function ownScenario(): Promise<LoggedScenario | null> {
  const found: LoggedScenario[] = [];
  for (const name of await namesHere()) {
    if (!/\.(ya?ml|json)$/i.test(name)) continue;
    const text = await readTextFile(name, SCENARIO).catch(() => '');
    if (!MAY_NAME_LOG.every((key) => key.test(text))) continue;
    const scenario = readHere({ name, text });
    if (scenario.log !== null) found.push(scenario);
  }
  // What `fit` makes of a scenario names the same log and line: either will do.
  if (new Set(found.map(asLogged)).size < 2) return found[0] ?? null;
  const names = found.map(({ name }) => name);
  throw new Problem(
    `nothing was written, for ${names.join(' and ')} each name a log. Name the one that is meant. Example: --line ${names[0]}`,
  );
}

/** Without these keys a file names no log, or is no scenario, and need not be read as one. */
const MAY_NAME_LOG = ['log', 'stages', 'crops'].map((key) => new RegExp(`\\b${key}["']?\\s*:`));

function readHere(source: Source): LoggedScenario {
  try {
    return withLog(source, source.name);
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const advice = 'It seems to name the log of this folder. Mend it, or name the log: --to season.csv';
    throw new Problem(`nothing was written. ${error.message}\n${advice}`);
  }
}

function withLog(source: Source, path: string): LoggedScenario {
  const { plan, scenario } = readSource(source);
  return {
    name: source.name,
    plan,
    log: scenario.log === undefined ? null : besideScenario(scenario.log, path),
  };
}

/** What of a scenario matters when a row is logged. */
function asLogged({ log, plan: { start, stages, crops } }: LoggedScenario): string {
  const named = [stages.map(({ name }) => name), crops.map(({ name, cuts }) => [name, cuts])];
  return JSON.stringify([log, start, named]);
}
