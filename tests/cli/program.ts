/** Runs the built program as a user does, and hands back what it said. */

import { type ChildProcess, fork, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const BINARY = fileURLToPath(new URL('../../dist/evensow.js', import.meta.url));

export interface Answer {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export interface ProgramOptions {
  /** Text for standard input. */
  readonly input?: string;
  readonly cwd?: string;
}

export interface ProcessOptions extends ProgramOptions {
  readonly env?: Readonly<Record<string, string>>;
  /** Called when the program has started. */
  readonly started?: (child: ChildProcess) => void;
}

/** What host.mjs sends: what the program said, and what it threw if it did. */
interface Said {
  readonly answer: Answer;
  /** Standard output and standard error in the order in which they were written, as a terminal shows them. */
  readonly both: string;
  readonly fault: string | null;
}

/** Ends with the process of the tests. */
let host: ChildProcess | null = null;
/** The host answers one question at a time: this is over when it has answered the last one. */
let answered: Promise<unknown> = Promise.resolve();

/** Run `evensow ...args` to its end, in a process that has run it before (see host.mjs). */
export async function evensow(args: readonly string[], options: ProgramOptions = {}): Promise<Answer> {
  return (await said(args, options)).answer;
}

/** The same, with both streams as one. */
export async function evensowBoth(
  args: readonly string[],
  options: ProgramOptions = {},
): Promise<Pick<Answer, 'code' | 'out'>> {
  const { answer, both } = await said(args, options);
  return { code: answer.code, out: both };
}

/** What was asked with `evensowOnce`. */
const known = new Map<string, Promise<Answer>>();

/** The same, asked once only however often it is called: for what reads files that stay as they are, and writes none. */
export async function evensowOnce(args: readonly string[], options: ProgramOptions = {}): Promise<Answer> {
  const question = JSON.stringify([args, options]);
  if (!known.has(question)) known.set(question, evensow(args, options));
  return await known.get(question)!;
}

async function said(args: readonly string[], options: ProgramOptions): Promise<Said> {
  const mine = answered.then(async () => await ask(args, options));
  answered = mine.catch(() => {});
  return await mine;
}

async function ask(
  args: readonly string[],
  { input = '', cwd = process.cwd() }: ProgramOptions,
): Promise<Said> {
  host ??= fork(fileURLToPath(new URL('host.mjs', import.meta.url)), [BINARY], { execArgv: [] });
  host.unref();
  const asked = host;
  const said = await new Promise<Said>((resolve, reject) => {
    asked.removeAllListeners();
    asked.on('message', resolve);
    asked.on('exit', () => reject(new Error(`evensow ${args.join(' ')} ended the process that ran it`)));
    asked.on('error', reject);
    asked.send({ args, input, cwd });
  });
  if (said.fault !== null) throw new Error(`evensow ${args.join(' ')} threw ${said.fault}`);
  return said;
}

/** Run `evensow ...args` to its end, in a process of its own. */
export async function evensowAlone(args: readonly string[], options: ProcessOptions = {}): Promise<Answer> {
  return await program(process.execPath, [BINARY, ...args], options);
}

/** Run any program to its end. */
export async function program(
  command: string,
  args: readonly string[],
  { input, env = {}, cwd, started }: ProcessOptions = {},
): Promise<Answer> {
  return await new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      env: { ...process.env, ...env },
      ...(cwd === undefined ? {} : { cwd }),
    });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
    // The program may end without having read its input.
    child.stdin.on('error', () => {});
    child.stdin.end(input ?? '');
    started?.(child);
  });
}
