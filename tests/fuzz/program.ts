/** Asks the program thousands of things, in a process of its own whose memory and silence are watched. */

import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import type { Answer } from '../cli/program.js';
import { judge } from './said.js';

/** A line so small that all commands are through with it at once. */
export const SMALL_LINE = `start: 2027-01-04
weeks: 8
stages: [{name: bench, channels: 1, holes: 4}]
crops: [{name: leaf, sow: {every: 3, seeds: 2}, stages: {bench: {days: 9, spread: 0.2}}}]
`;

/** Most memory that it may ever have taken [MB]. */
const MOST_MEMORY = 500;
/** What has not answered by then never will: the lines are small. Wide, for a machine that has much else to do [ms]. */
const SILENCE = 300_000;
/** Answers of one process, whose memory is then not that of thousands of answers. */
const ANSWERS = 1000;

interface Said {
  readonly answer: Answer;
  readonly fault: string | null;
  readonly megabytes: number;
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

let host: ChildProcess | null = null;
let answers = 0;
let built: string | null = null;

/**
 * Run `evensow ...args` to its end.
 * @throws Error if it throws, falls silent, takes too much memory or says what it may not
 */
export async function asked(args: readonly string[], cwd: string, input = ''): Promise<Answer> {
  let said = await hostSays({ args, cwd, input });
  if (said.megabytes > MOST_MEMORY) {
    // It may be what earlier answers left: alone it must do with less.
    endHost();
    said = await hostSays({ args, cwd, input });
    endHost();
  }
  const { answer, fault, megabytes } = said;
  if (fault !== null) throw new Error(`it threw ${fault}`);
  if (megabytes > MOST_MEMORY) throw new Error(`${megabytes} MB of memory were taken`);
  judge(answer);
  return answer;
}

async function hostSays(question: object): Promise<Said> {
  if (answers === ANSWERS) endHost();
  host ??= startHost();
  answers++;
  return await saidBy(host, question);
}

async function saidBy(asked: ChildProcess, question: object): Promise<Said> {
  return await new Promise<Said>((resolve, reject) => {
    const over = (then: () => void) => {
      clearTimeout(timer);
      asked.removeAllListeners();
      then();
    };
    const fail = (why: string) => {
      endHost();
      over(() => reject(new Error(why)));
    };
    const timer = setTimeout(() => fail('it does not answer'), SILENCE);
    asked.once('message', (said: Said) => over(() => resolve(said)));
    asked.once('exit', (code, signal) => fail(`it ended the process that ran it (${code ?? signal})`));
    asked.send(question);
  });
}

function startHost(): ChildProcess {
  built ??= build();
  // What is printed to a file goes past the stream, so it must be a pipe.
  const child = fork(join(ROOT, 'tests/fuzz/host.mjs'), [built], {
    execArgv: ['--max-old-space-size=300'],
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
  });
  child.unref();
  return child;
}

/** Also when the tests of a file are over. */
export function endHost(): void {
  host?.kill();
  host = null;
  answers = 0;
}

/** The program as its builder makes it, but to be asked again and again. */
function build(): string {
  // Where Node finds the packages that stay outside.
  const folder = mkdtempSync(join(ROOT, 'node_modules', '.evensow-'));
  process.on('exit', () => rmSync(folder, { recursive: true }));
  buildSync({
    entryPoints: { main: join(ROOT, 'cli/main.ts'), worker: join(ROOT, 'sim/worker.ts') },
    outdir: join(folder, 'dist'),
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    splitting: true,
    external: ['tinypool', 'ink', 'react'],
    sourcemap: 'inline',
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module';\nconst require = __createRequire(import.meta.url);",
    },
  });
  // As in the package, the built-in scenario lies beside it.
  symlinkSync(join(ROOT, 'scenarios'), join(folder, 'scenarios'));
  return join(folder, 'dist/main.js');
}
