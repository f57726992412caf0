/**
 * Standard streams, signals, terminal or not. Beside it only what opens the dashboard reads the terminal by itself.
 *
 * Results go to standard output; progress, warnings and errors to standard error.
 */

import { once } from 'node:events';
import { fstatSync, writeSync } from 'node:fs';
import { Problem } from '../problem.js';
import { inOneLine, plainLines } from '../render/obeyed.js';

/** Exit codes. 130 is the shells' code for a program that Ctrl-C ended. */
export const EXIT_DONE = 0;
export const EXIT_FAILED = 1;
export const EXIT_WRONG_INPUT = 2;
export const EXIT_INTERRUPTED = 130;

/** The arguments that were typed behind the name of the program. */
export function typedArguments(): readonly string[] {
  return process.argv.slice(2);
}

/** The reader of standard output has gone, as `head` does when it has enough. */
export class OutputClosed extends Error {}

/**
 * Write a result to standard output, without what a terminal would obey, and wait until it is taken.
 * @param plain takes out what a terminal would obey
 * @throws OutputClosed if nobody reads it
 * @throws Problem if it cannot be written, as on a full disk
 */
export async function print(result: string, plain = plainLines): Promise<void> {
  const text = plain(result);
  try {
    if (leadsToFile()) writeToFile(text);
    else await writeToStream(text);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw code === 'EPIPE' ? new OutputClosed() : new Problem(`standard output: ${whyUnwritten(code)}`);
  }
}

const STANDARD_OUTPUT = 1;

function leadsToFile(): boolean {
  try {
    return fstatSync(STANDARD_OUTPUT).isFile();
  } catch {
    // It is closed: writing will say so.
    return false;
  }
}

/** A disk that is nearly full takes a part and says so; the stream of Node would take that for all of it. */
function writeToFile(text: string): void {
  const bytes = Buffer.from(text);
  let taken = 0;
  while (taken < bytes.length) taken += writeSync(STANDARD_OUTPUT, bytes, taken);
}

async function writeToStream(text: string): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    process.stdout.once('error', reject);
    process.stdout.write(text, (error) => {
      if (error) return reject(error);
      process.stdout.off('error', reject);
      resolve();
    });
  });
}

function whyUnwritten(code: string): string {
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return 'the disk is full.';
    case 'EFBIG':
      return 'the file may not become so large.';
    default:
      return `the system answers ${code}.`;
  }
}

/** Write a message to standard error, without what a terminal would obey. If nobody reads it there is nobody to tell. */
export function tell(text: string): void {
  process.stderr.once('error', () => {});
  // A file may be called by more than one line.
  const typed = typedArguments().filter((word) => /[\r\n]/.test(word));
  const said = typed.reduce((whole, word) => whole.replaceAll(word, () => inOneLine(word)), text);
  process.stderr.write(plainLines(said.endsWith('\n') ? said : `${said}\n`));
}

/** Is a person watching standard error? */
export function hasWatcher(): boolean {
  return process.stderr.isTTY === true && process.env['TERM'] !== 'dumb';
}

/** Can a person see pictures here and press keys? */
export function isTerminal(): boolean {
  return process.stdin.isTTY === true && process.stdout.isTTY === true && process.env['TERM'] !== 'dumb';
}

/** Write over the present line of standard error; an empty text removes it. */
export function showProgress(text: string): void {
  process.stderr.write(`\r\u001b[K${inOneLine(text)}`);
}

/** Remembers Ctrl-C (or a polite request to end) until somebody asks. */
export class Interrupt {
  stopped = false;
  /** Called when it comes, for work that cannot be asked now and then. */
  onStop: (() => void) | null = null;
  readonly #stop = (): void => {
    this.stopped = true;
    this.onStop?.();
  };

  constructor() {
    process.once('SIGINT', this.#stop);
    process.once('SIGTERM', this.#stop);
  }

  /** Stop listening: the next Ctrl-C ends the program at once. */
  release(): void {
    process.off('SIGINT', this.#stop);
    process.off('SIGTERM', this.#stop);
  }
}

/** Today's date where the user is, ISO 8601. */
export function today(): string {
  const date = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

/** All of standard input, at most `limit` bytes and one more. */
export async function readInput(limit: number): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let size = 0;
  process.stdin.on('data', (chunk: Buffer) => {
    chunks.push(chunk);
    size += chunk.length;
    if (size > limit) process.stdin.destroy();
  });
  await Promise.race([once(process.stdin, 'end'), once(process.stdin, 'close')]);
  return Buffer.concat(chunks);
}
