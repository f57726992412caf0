/** The built program in a real pseudo-terminal, seen through an emulated screen: what a user would see. */

import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { until } from '../../support/patience.js';
import { BINARY } from '../program.js';

export interface ScreenOptions {
  readonly columns?: number;
  readonly rows?: number;
  readonly env?: Readonly<Record<string, string>>;
  readonly cwd?: string;
  /** The program; the built one if left out. */
  readonly binary?: string;
  /** What is run in its place, with its arguments: a shell that runs the program, say. */
  readonly command?: readonly [file: string, ...args: string[]];
}

export class Screen {
  readonly #pty;
  readonly #terminal: InstanceType<typeof xterm.Terminal>;
  /** Everything that the program wrote, escape sequences and all. */
  written = '';
  /** Pieces of it that the screen has not drawn yet. */
  #undrawn = 0;
  /** Exit code, once the program has ended. */
  code: number | null = null;
  signal: number | undefined;

  /** Start `evensow ...args`. */
  constructor(
    args: readonly string[],
    {
      columns = 80,
      rows = 24,
      env = {},
      cwd = process.cwd(),
      binary = BINARY,
      command: [file, ...before] = [process.execPath, binary],
    }: ScreenOptions = {},
  ) {
    this.#terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 500 });
    // What stood on the screen before must be there again afterwards.
    this.#terminal.write('before the program\r\n');
    this.#pty = spawn(file, [...before, ...args], {
      cols: columns,
      rows,
      cwd,
      name: env['TERM'] ?? 'xterm-256color',
      env: {
        PATH: process.env['PATH'] ?? '',
        HOME: process.env['HOME'] ?? '',
        LANG: 'C.UTF-8',
        TZ: 'UTC',
        ...env,
      },
    });
    this.#pty.onData((text) => {
      this.written += text;
      this.#undrawn++;
      this.#terminal.write(text, () => {
        this.#undrawn--;
      });
    });
    this.#pty.onExit(({ exitCode, signal }) => {
      this.code = exitCode;
      this.signal = signal;
    });
  }

  /** The lines of the screen as they stand, without blanks at their ends. */
  get lines(): string[] {
    const { active } = this.#terminal.buffer;
    return Array.from(
      { length: this.#terminal.rows },
      // A line that was longer before the screen was made narrower keeps what stands beyond its end.
      (_, i) =>
        active
          .getLine(active.baseY + i)
          ?.translateToString(true, 0, this.#terminal.cols)
          .trimEnd() ?? '',
    );
  }

  get text(): string {
    return this.lines.join('\n').trimEnd();
  }

  /** Is the second screen shown? */
  get isAlternate(): boolean {
    return this.#terminal.buffer.active.type === 'alternate';
  }

  /** Lines that scrolled off the first screen. */
  get scrollback(): number {
    return this.#terminal.buffer.normal.baseY;
  }

  /** Has a signal stopped the program? */
  get isStopped(): boolean {
    const file = `/proc/${this.pid}/stat`;
    const state = existsSync(file)
      ? readFileSync(file, 'utf8').replace(/^.*\) /s, '')
      : execFileSync('ps', ['-o', 'stat=', '-p', String(this.pid)], { encoding: 'utf8' });
    return state.startsWith('T');
  }

  get pid(): number {
    return this.#pty.pid;
  }

  type(keys: string): void {
    this.#pty.write(keys);
  }

  /** Something that another program writes on the screen. */
  spill(text: string): void {
    this.#terminal.write(text);
  }

  resize(columns: number, rows: number): void {
    this.#terminal.resize(columns, rows);
    this.#pty.resize(columns, rows);
  }

  kill(signal: string): void {
    this.#pty.kill(signal);
  }

  /** Wait until the screen holds what is expected. @throws with the screen as it is, if it does not come */
  async shows(expected: RegExp | string): Promise<string> {
    await this.until(
      () => (typeof expected === 'string' ? this.text.includes(expected) : expected.test(this.text)),
      `the screen to show ${expected}`,
    );
    return this.text;
  }

  /** Wait until the program has ended and all that it wrote is on the screen. */
  async ends(): Promise<number> {
    await this.until(() => this.code !== null && this.#undrawn === 0, 'the program to end');
    return this.code!;
  }

  /** Wait until nothing has changed for a while [ms]. */
  async settles(quiet = 200): Promise<string> {
    let before = '';
    let since = Date.now();
    await this.until(() => {
      if (this.written !== before) {
        before = this.written;
        since = Date.now();
      }
      return Date.now() - since >= quiet;
    }, 'the screen to come to rest');
    return this.text;
  }

  async until(done: () => boolean, what: string, every?: number): Promise<void> {
    await until(done, what, () => `${this.text}\n`, every);
  }

  /** End the program if it still runs, whatever became of the test. */
  close(): void {
    if (this.code === null) this.#pty.kill('SIGKILL');
    this.#terminal.dispose();
  }
}
