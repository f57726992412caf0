/** Runs the built program as a user does, and hands back what it said. */

import { type ChildProcess, spawn } from 'node:child_process';
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
  readonly env?: Readonly<Record<string, string>>;
  readonly cwd?: string;
  /** Called when the program has started. */
  readonly started?: (child: ChildProcess) => void;
}

/** Run `evensow ...args` to its end. */
export async function evensow(args: readonly string[], options: ProgramOptions = {}): Promise<Answer> {
  return await program(process.execPath, [BINARY, ...args], options);
}

/** Run any program to its end. */
export async function program(
  command: string,
  args: readonly string[],
  { input, env = {}, cwd, started }: ProgramOptions = {},
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
