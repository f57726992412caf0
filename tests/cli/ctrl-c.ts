/** The built program with a person at the terminal who presses Ctrl-C. Its results go into a pipe, what it tells is seen there. */

import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spawn } from '@lydell/node-pty';
import { until } from '../support/patience.js';
import { type Answer, BINARY } from './program.js';

/** Removes the present line of a terminal. */
const ERASE = '\r\u001b[K';

export interface Interrupted extends Answer {
  /** Number of the signal that ended the program; 0 if it ended by itself. */
  readonly signal: number;
}

/**
 * Run `evensow ...args` and press Ctrl-C as soon as the terminal shows what is expected.
 * @throws Error if the program ends before, or never shows it
 */
export async function interrupted(
  args: readonly string[],
  expected: RegExp,
  { cwd = process.cwd() } = {},
): Promise<Interrupted> {
  const folder = await mkdtemp(join(tmpdir(), 'evensow-ctrl-c-'));
  const out = join(folder, 'out');
  const words = [process.execPath, BINARY, ...args];
  const terminal = spawn('bash', ['-c', 'exec "$@" > "$0"', out, ...words], {
    cwd,
    env: process.env,
    cols: 200,
    name: 'xterm',
  });
  let shown = '';
  let ended: { exitCode: number; signal?: number } | null = null;
  terminal.onData((text) => {
    shown += text;
  });
  terminal.onExit((end) => {
    ended = end;
  });
  const wait = async (done: () => boolean, what: string): Promise<void> =>
    await until(done, what, () => shown.replaceAll('\r', '\n'));
  try {
    await wait(() => ended !== null || expected.test(shown), `${args.join(' ')} to show ${expected}`);
    if (ended !== null) throw new Error(`${args.join(' ')} ended before it was interrupted:\n${shown}`);
    terminal.write('\u0003');
    await wait(() => ended !== null, `${args.join(' ')} to end`);
    const { exitCode, signal = 0 } = ended!;
    return { code: exitCode, signal, out: await readFile(out, 'utf8'), err: toldIn(shown) };
  } finally {
    if (ended === null) terminal.kill('SIGKILL');
    await rm(folder, { recursive: true });
  }
}

/** What stands on the terminal in the end: lines as a file has them, without what was removed from them again. */
function toldIn(shown: string): string {
  const lines = shown.replaceAll('\r\n', '\n').split('\n');
  return lines.map((line) => line.split(ERASE).at(-1)).join('\n');
}
