/**
 * The terminal while the dashboard has it: the second screen is entered once and left once, whatever ends the program; whoever
 * stops the program has the terminal back meanwhile.
 *
 * ink clears the scrollback when a frame exceeds the screen, as it does for a moment when the terminal is made lower;
 * what it writes passes through here so that this one sequence is dropped.
 */

import type { ReadStream, WriteStream } from 'node:tty';

const ENTER = '\u001b[?1049h\u001b[H';
/** Enter it again: empty, and without the cursor. */
const ENTER_AGAIN = `${ENTER}\u001b[2J\u001b[?25l`;
const LEAVE = '\u001b[?1049l\u001b[?25h';
const CLEAR_SCROLLBACK = '\u001b[3J';

/** Signals that end the program, and the exit code that shells give them. */
const SIGNALS: Readonly<Record<string, number>> = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129, SIGQUIT: 131 };

export class Terminal {
  readonly #out: WriteStream;
  readonly #keys: ReadStream;
  /** The last picture. */
  #shown = '';
  #entered = false;
  readonly #handlers = new Map<string, () => void>();

  constructor(out: WriteStream, keys: ReadStream) {
    this.#out = out;
    this.#keys = keys;
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
    process.on('SIGTSTP', this.#stop);
    process.on('SIGCONT', this.#goOn);
    process.on('exit', this.#leaveNow);
  }

  /** Back to the first screen; the second time nothing happens. */
  leave(): void {
    for (const [signal, handler] of this.#handlers) process.off(signal, handler);
    process.off('SIGTSTP', this.#stop);
    process.off('SIGCONT', this.#goOn);
    process.off('exit', this.#leaveNow);
    this.#leaveNow();
  }

  /** The output for ink: everything but the sequence that clears the scrollback. */
  stream(): WriteStream {
    const out = this.#out;
    const remember = (picture: string): void => {
      this.#shown = picture;
    };
    return new Proxy(out, {
      get(target, key) {
        if (key === 'write') {
          return (chunk: unknown, ...rest: unknown[]): boolean => {
            const text = typeof chunk === 'string' ? chunk.replaceAll(CLEAR_SCROLLBACK, '') : chunk;
            // What is longer than a few sequences is a picture, and each is a whole one.
            if (typeof text === 'string' && text.includes('\n')) remember(text);
            return (target.write as (...all: unknown[]) => boolean).call(target, text, ...rest);
          };
        }
        const value: unknown = Reflect.get(target, key, target);
        return typeof value === 'function' ? value.bind(target) : value;
      },
    });
  }

  readonly #stop = (): void => {
    this.#keys.setRawMode(false);
    this.#out.write(LEAVE);
    process.kill(process.pid, 'SIGSTOP');
  };

  /** The shell has set the terminal as it likes it, and may have written on it. */
  readonly #goOn = (): void => {
    this.#keys.setRawMode(false);
    this.#keys.setRawMode(true);
    this.#out.write(`${ENTER_AGAIN}${this.#shown}`);
  };

  readonly #leaveNow = (): void => {
    if (!this.#entered) return;
    this.#entered = false;
    this.#out.write(LEAVE);
  };
}
