/**
 * The terminal while the dashboard has it: the second screen is entered once and left once, whatever ends the program.
 *
 * ink clears the scrollback when a frame exceeds the screen, as it does for a moment when the terminal is made lower;
 * what it writes passes through here so that this one sequence is dropped.
 */

import type { WriteStream } from 'node:tty';

const ENTER = '\u001b[?1049h\u001b[H';
const LEAVE = '\u001b[?1049l\u001b[?25h';
const CLEAR_SCROLLBACK = '\u001b[3J';

/** Signals that end the program, and the exit code that shells give them. */
const SIGNALS: Readonly<Record<string, number>> = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129, SIGQUIT: 131 };

export class Terminal {
  readonly #out: WriteStream;
  #entered = false;
  readonly #handlers = new Map<string, () => void>();

  constructor(out: WriteStream) {
    this.#out = out;
  }

  /** Enter the second screen. @param ended called when a signal asks the program to end, with its exit code */
  enter(ended: (code: number) => void): void {
    this.#out.write(ENTER);
    this.#entered = true;
    for (const [signal, code] of Object.entries(SIGNALS)) {
      const handler = (): void => ended(code);
      this.#handlers.set(signal, handler);
      process.on(signal, handler);
    }
    process.on('exit', this.#leaveNow);
  }

  /** Back to the first screen; the second time nothing happens. */
  leave(): void {
    for (const [signal, handler] of this.#handlers) process.off(signal, handler);
    process.off('exit', this.#leaveNow);
    this.#leaveNow();
  }

  /** The output for ink: everything but the sequence that clears the scrollback. */
  stream(): WriteStream {
    const out = this.#out;
    return new Proxy(out, {
      get(target, key) {
        if (key === 'write') {
          return (chunk: unknown, ...rest: unknown[]): boolean => {
            const text = typeof chunk === 'string' ? chunk.replaceAll(CLEAR_SCROLLBACK, '') : chunk;
            return (target.write as (...all: unknown[]) => boolean).call(target, text, ...rest);
          };
        }
        const value: unknown = Reflect.get(target, key, target);
        return typeof value === 'function' ? value.bind(target) : value;
      },
    });
  }

  readonly #leaveNow = (): void => {
    if (!this.#entered) return;
    this.#entered = false;
    this.#out.write(LEAVE);
  };
}
