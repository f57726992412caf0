/** Values of options, checked like the keys of a scenario: what must not be, what it must be, an example. */

import { type Limits, SEED } from '../../sim/models/limits.js';
import type { Plan } from '../../sim/models/plan.js';
import { defaultSeasons, SEASONS, USUAL_SEASONS } from '../../sim/seasons/how-many.js';
import { WORKERS } from '../../sim/seasons/threads.js';
import type { Shard } from '../../sim/study/study.js';
import { checkReplaceable, sameFile } from '../io/write-file.js';
import { Problem } from '../problem.js';

export type Form = 'text' | 'json' | 'csv';

/** How a study is to be carried out and shown. */
export interface ExecutionOptions {
  readonly form: Form;
  /** File for the result; standard output if null. */
  readonly out: string | null;
  /** Threads; by the size of the work if undefined. */
  readonly workers: number | undefined;
  /** The part to do; null for all of it, shown and not packed. */
  readonly shard: Shard | null;
}

/**
 * @param name of the option
 * @param text as typed; undefined if the option was left out
 * @param example a value that is right
 * @param faults takes a sentence if the value is wrong
 * @returns the number; undefined if left out or wrong
 */
export function wholeNumber(
  name: string,
  text: string | boolean | undefined,
  { least, most }: Limits,
  example: number,
  faults: string[],
): number | undefined {
  if (text === undefined) return undefined;
  const value =
    typeof text === 'string' && /^[+-]?\d+(\.\d+)?([eE]\+?\d+)?$/.test(text) ? Number(text) : Number.NaN;
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  faults.push(wrong(name, text, `a whole number from ${least} to ${most}`, example));
  return undefined;
}

/** The sentences on a value that is wrong. @param expected what it must be */
export function wrong(name: string, text: unknown, expected: string, example: string | number): string {
  return `${name} must not be ${JSON.stringify(text)}. It must be ${expected}. Example: ${name} ${example}`;
}

/** Options as commander hands them over: texts, or true for those without a value. */
export type Options = Readonly<Record<string, string | undefined>> & {
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly refill?: boolean;
  readonly aloud?: boolean;
  readonly all?: boolean;
  readonly changed?: boolean;
};

export function formOf(options: Options): Form {
  return options.json ? 'json' : options.csv ? 'csv' : 'text';
}

/**
 * Takes the name of a file that will be written.
 * @param option such as "--out"
 * @param what is written there, such as "the result"
 * @param example a name that is right
 * @param output what is so of standard output, in a sentence: files only can be named
 * @returns a function that throws a Problem if the name is empty, or `-`, which would become the name of a file
 */
export function fileToWrite(option: string, what: string, example: string, output: string) {
  return (name: string): string => {
    const fault = name.trim() === '' ? 'be empty.' : name === '-' ? `be "-". ${output}` : null;
    if (fault === null) return name;
    throw new Problem(
      `${option} must not ${fault} It must be a file for ${what}. Example: ${option} ${example}`,
    );
  };
}

/** A file that a command reads. */
export interface Input {
  /** Path, or `-` for standard input. */
  readonly path: string;
  /** Such as "the scenario". */
  readonly what: string;
}

/** A path by which most systems know what standard input leads to. */
const STANDARD_INPUT = '/dev/stdin';

/**
 * May the result be written to this file? Asked before any work is done.
 * @param out as `--out` names it; null for standard output
 * @param inputs what the command reads
 * @throws Problem if it is one of the inputs, or no file that can be made or replaced
 */
export async function checkOut(out: string | null, inputs: readonly Input[]): Promise<void> {
  if (out === null) return;
  for (const { path, what } of inputs) {
    if (!(await sameFile(out, path === '-' ? STANDARD_INPUT : path))) continue;
    throw new Problem(
      `--out must not name ${out}, which is ${what}. It must be a file for the result. Example: --out result.txt`,
    );
  }
  await checkReplaceable(out);
}

/** Most parts of a study. */
export const MOST_SHARDS = 100_000;

/** How many seasons, and which luck. */
export interface SeasonOptions {
  readonly seasons: number | undefined;
  readonly seed: number | undefined;
}

/** @param faults takes a sentence for each wrong option */
export function seasonOptions(options: Options, faults: string[]): SeasonOptions {
  return {
    seasons: wholeNumber('--seasons', options['seasons'], SEASONS, USUAL_SEASONS, faults),
    seed: wholeNumber('--seed', options['seed'], SEED, 7, faults),
  };
}

/** The options of a study that say how much and in which manner, before the scenario is known. */
export interface StudyOptions extends SeasonOptions {
  readonly execution: ExecutionOptions;
}

/** @param faults takes a sentence for each wrong option */
export function studyOptions(options: Options, faults: string[]): StudyOptions {
  const shard = shardOf(options['shard'], faults);
  if (shard !== null && options['out'] === undefined) {
    faults.push(
      `--shard must not stand without --out. A part is written to a file of its own, to be joined with merge. Example: --shard ${shard.k}/${shard.n} --out part-${shard.k}.json`,
    );
  }
  return {
    ...seasonOptions(options, faults),
    execution: {
      form: formOf(options),
      out: options['out'] ?? null,
      workers: workersOf(options, faults),
      shard,
    },
  };
}

/** Threads that are asked for. @param faults takes a sentence if they are wrong */
export function workersOf(options: Options, faults: string[]): number | undefined {
  return wholeNumber('--workers', options['workers'], WORKERS, 2, faults);
}

function shardOf(text: string | undefined, faults: string[]): Shard | null {
  if (text === undefined) return null;
  const [, k, n] = (/^(\d+)\/(\d+)$/.exec(text) ?? []).map(Number);
  if (k !== undefined && n !== undefined && k >= 1 && k <= n && n <= MOST_SHARDS) return { k, n };
  faults.push(wrong('--shard', text, 'k/n: part k, from 1 to n, of n parts', '2/4'));
  return null;
}

/** What is shared out among threads and parts, in words. */
interface Shared {
  /** How many there are, as a sentence. */
  readonly there: string;
  /** The most parts, such as "3 parts". */
  readonly parts: string;
  /** What else helps, such as "ask for more seasons"; of threads and of parts. */
  readonly more: readonly [threads: string, parts: string];
}

/**
 * What the number of things to share out rules out.
 * @param count seasons or plans
 */
export function sharingFaults(
  count: number,
  { workers, shard }: Pick<ExecutionOptions, 'workers' | 'shard'>,
  words: Shared,
): string[] {
  const faults: string[] = [];
  const { there, parts, more } = words;
  if (workers !== undefined && workers > count) {
    faults.push(`--workers must not be ${workers}. ${there} Ask for at most ${count}, or ${more[0]}.`);
  }
  if (shard !== null && shard.n > count) {
    faults.push(`--shard must not be ${shard.k}/${shard.n}. ${there} Make at most ${parts}, or ${more[1]}.`);
  }
  return faults;
}

/**
 * How many seasons of each plan are run.
 * @throws Problem if there are too few to share out as was asked
 */
export function seasonsOf(plans: readonly Plan[], { seasons, execution }: StudyOptions): number {
  const count = seasons ?? Math.min(...plans.map(defaultSeasons));
  const faults = sharingFaults(count, execution, {
    there: `There are only ${count} seasons to share out.`,
    parts: `${count} parts`,
    more: ['for more seasons', 'ask for more seasons'],
  });
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  return count;
}

/** @param futures that will be run @param workers threads that were asked for */
export function futureFaults(futures: number, workers: number | undefined): string[] {
  return sharingFaults(
    futures,
    { workers, shard: null },
    {
      there: `There are only ${futures} futures to share out.`,
      parts: '',
      more: ['for more of them with --seasons', ''],
    },
  );
}
