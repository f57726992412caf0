/**
 * The scenario and the log of a line, in whichever order they were named: what a file is, its text tells. A scenario may
 * name its log, and then it is enough to name the scenario.
 */

import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { scenarioSchema } from '../../sim/scenario/schema.js';
import { isLog } from '../../sim/season/log/header.js';
import { LOG } from '../io/log-file.js';
import { tell } from '../io/streams.js';
import { checkInputs, readTextFile, refuseLarge, type TextKind } from '../io/text-file.js';
import { exists } from '../io/write-file.js';
import type { Input } from '../options/options.js';
import { Problem } from '../problem.js';
import { type Loaded, nameOf, OPTIONAL, SCENARIO, type Source, scenarioFrom } from './scenario-file.js';

type Kind = 'scenario' | 'log';

/** A command that reads a scenario and a log. */
interface Reader {
  readonly command: string;
  /** What it takes files for that tell nothing of themselves. */
  readonly order: readonly [Kind, Kind];
  /** What it cannot do without. */
  readonly needs: readonly Kind[];
  /** What is said of a scenario that cannot be read. */
  readonly scenario: TextKind;
}

const SCENARIO_FIRST = { order: ['scenario', 'log'], needs: ['scenario'], scenario: SCENARIO } as const;
const LOG_FIRST = { order: ['log', 'scenario'], needs: ['log'], scenario: SCENARIO } as const;

/** The commands that read a scenario and a log. */
export const AHEAD: Reader = { command: 'ahead', ...SCENARIO_FIRST, needs: ['scenario', 'log'] };
export const CHORES: Reader = { command: 'chores', ...SCENARIO_FIRST };
export const WATCH: Reader = { command: 'watch', ...SCENARIO_FIRST, scenario: OPTIONAL };
export const REPORT: Reader = { command: 'report', ...SCENARIO_FIRST, scenario: OPTIONAL };
export const REPLAY: Reader = { command: 'replay', ...LOG_FIRST };
export const FIT: Reader = { command: 'fit', ...LOG_FIRST };

/** A text, and where it is from. */
export interface SourceFile extends Source {
  /** `-` for standard input. */
  readonly path: string;
}

/** What was named; null for what was not. */
export interface LineFiles {
  readonly scenario: (Loaded & { readonly source: SourceFile }) | null;
  readonly log: SourceFile | null;
  /** What there is of both. */
  readonly inputs: readonly Input[];
}

/**
 * @param named paths, or `-` for standard input, in any order
 * @throws Problem if one cannot be read, both are of one kind, the scenario is wrong, or one that is needed is not named
 */
export async function loadLineFiles(
  reader: Reader,
  named: readonly (string | undefined)[],
): Promise<LineFiles> {
  const paths = named.filter((path) => path !== undefined);
  const example = `evensow ${reader.command} my-line.yaml - < season.csv`;
  checkInputs('the scenario and the log', paths, example);
  if (paths.length === 0) {
    throw new Problem(
      `no file was named. Example: evensow ${reader.command} my-line.yaml season.csv\nSee: evensow ${reader.command} --help`,
    );
  }
  const files = await sorted(reader, paths);
  const source = files.get('scenario') ?? null;
  if (source === null && reader.needs.includes('scenario')) throw without('scenario', reader, files);
  const scenario = source === null ? null : { ...scenarioFrom(source), source };
  const log = files.get('log') ?? (await namedLog(scenario, source, reader));
  if (log === null && reader.needs.includes('log')) throw without('log', reader, files);
  const inputs = [
    ...(source === null ? [] : [{ path: source.path, what: 'the scenario' }]),
    ...(log === null ? [] : [{ path: log.path, what: 'the log' }]),
  ];
  return { scenario, log, inputs };
}

/** @param log as a scenario names it @param path of the scenario */
export function besideScenario(log: string, path: string): string {
  return isAbsolute(log) ? log : join(dirname(path), log);
}

/**
 * The log as another file names it that is to mean the same one.
 * @param log as a scenario names it @param path of the scenario @param out path of the other file
 */
export function besideOther(log: string, path: string, out: string): string {
  if (isAbsolute(log) || resolve(dirname(path)) === resolve(dirname(out))) return log;
  return relative(dirname(out), besideScenario(log, path)).replaceAll(sep, '/');
}

/** The log that the scenario names, if it does. One that nobody has begun is none. */
async function namedLog(
  scenario: Loaded | null,
  source: SourceFile | null,
  { command, needs }: Reader,
): Promise<SourceFile | null> {
  if (source === null || scenario?.scenario.log === undefined) return null;
  const path = besideScenario(scenario.scenario.log, source.path);
  if (await exists(path)) return await readSource(path, LOG);
  const missing = `${path}, the log that ${source.name} names, is not there`;
  if (!needs.includes('log')) {
    tell(`Note: ${missing} yet: nothing is taken to have been done.`);
    return null;
  }
  throw new Problem(
    `${missing}, and evensow ${command} needs one. It begins with: evensow log sow 6 butterhead --to ${path}`,
  );
}

async function sorted(
  { command, order, scenario }: Reader,
  paths: readonly string[],
): Promise<Map<Kind, SourceFile>> {
  const named = paths.map((path, i) => kindByName(path) ?? order[i]!);
  // Two names that say the same say nothing.
  const guesses = named[0] === named[1] ? order : named;
  const files: SourceFile[] = [];
  for (const [i, path] of paths.entries())
    files.push(await readSource(path, guesses[i] === 'log' ? LOG : scenario));
  const [one, other] = files.map(({ text }) => kindOf(text));
  if (one != null && one === other) throw twice(one, command, files);
  const first = one ?? (other == null ? guesses[0]! : opposite(other));
  const kinds = new Map(files.map((file, i) => [i === 0 ? first : opposite(first), file]));
  const file = kinds.get('scenario');
  if (file !== undefined) refuseLarge(file.path, Buffer.byteLength(file.text), scenario);
  return kinds;
}

/** Up to the length of a log: whether it is one is known only when it is read. */
async function readSource(path: string, kind: TextKind): Promise<SourceFile> {
  return { path, name: nameOf(path), text: await readTextFile(path, { ...kind, limit: LOG.limit }) };
}

const SCENARIO_KEY = new RegExp(
  `^[\\s{]*["']?(${Object.keys(scenarioSchema.shape).join('|')})["']?\\s*:`,
  'm',
);

/** @returns null if the text looks like neither */
function kindOf(text: string): Kind | null {
  if (isLog(text)) return 'log';
  return SCENARIO_KEY.test(text) ? 'scenario' : null;
}

function kindByName(path: string): Kind | null {
  if (/\.(csv|tsv)$/i.test(path)) return 'log';
  return /\.(ya?ml|json)$/i.test(path) ? 'scenario' : null;
}

function opposite(kind: Kind): Kind {
  return kind === 'log' ? 'scenario' : 'log';
}

const WORDS: Readonly<Record<Kind, { readonly one: string; readonly name: string }>> = {
  scenario: { one: 'a scenario (YAML)', name: 'my-line.yaml' },
  log: { one: 'a season log (CSV)', name: 'season.csv' },
};

function twice(kind: Kind, command: string, files: readonly SourceFile[]): Problem {
  const [one, other] = files.map(({ name }) => name);
  const rest = WORDS[opposite(kind)];
  return new Problem(
    `${one} and ${other} must not both be given, for each is ${WORDS[kind].one}. evensow ${command} takes one and ${rest.one}. Example: evensow ${command} ${one} ${rest.name}`,
  );
}

/** @param files what was named: the other kind, or nothing */
function without(kind: Kind, { command }: Reader, files: ReadonlyMap<Kind, SourceFile>): Problem {
  const there = files.get(opposite(kind));
  const name = there?.path ?? WORDS[opposite(kind)].name;
  const [is, how] =
    kind === 'log'
      ? ['names no log', 'Name it too, or write it into the scenario (log: season.csv).']
      : ['is a season log', 'Name the scenario of its line too.'];
  const example = `Example: evensow ${command} ${[name, WORDS[kind].name].join(' ')}`;
  return new Problem(
    `${there?.name} ${is}, and evensow ${command} needs ${WORDS[kind].one}. ${how} ${example}`,
  );
}
