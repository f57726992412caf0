/**
 * The one place that touches the process: standard streams, signals, terminal or not.
 *
 * Results go to standard output; progress, warnings and errors to standard error.
 */

import { once } from 'node:events';
import { availableParallelism } from 'node:os';

/** Exit codes. 130 is the shells' code for a program that Ctrl-C ended. */
export const DONE = 0;
export const FAILED = 1;
export const WRONG_INPUT = 2;
export const INTERRUPTED = 130;

/** The reader of standard output has gone, as `head` does when it has enough. */
export class OutputClosed extends Error {}

/** Write a result to standard output and wait until it is taken. @throws OutputClosed if nobody reads it */
export async function print(text: string): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException): void => {
      reject(error.code === 'EPIPE' ? new OutputClosed() : error);
    };
    process.stdout.once('error', failed);
    process.stdout.write(text, (error) => {
      if (error) return failed(error);
      process.stdout.off('error', failed);
      resolve();
    });
  });
}

/** Write a message to standard error. If nobody reads it there is nobody to tell. */
export function tell(text: string): void {
  process.stderr.once('error', () => {});
  process.stderr.write(text.endsWith('\n') ? text : `${text}\n`);
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
  process.stderr.write(`\r\u001b[K${text}`);
}

/** How many threads can run at the same time here. */
export function processors(): number {
  return availableParallelism();
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

/** Milliseconds of an even clock. */
export function now(): number {
  return performance.now();
}

/** Today's date where the user is, ISO 8601. */
export function today(): string {
  const date = new Date();
  const two = (part: number) => String(part).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

/** Let the event loop take its turn, so that signals arrive. */
export async function breathe(): Promise<void> {
  await new Promise<void>((resolve) => setImmediate(resolve));
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
