/**
 * The terminal while the dashboard has it: the second screen is entered once and left once, whatever ends the program; whoever
 * stops the program has the terminal back meanwhile.
 *
 * What ink writes passes through here. Of each picture only what differs from the one before goes on to the terminal; and what ink
 * erases with is dropped: it clears the scrollback, too, when a frame exceeds the screen, as it does for a moment when the terminal
 * is made lower.
 */

import type { ReadStream, WriteStream } from 'node:tty';
import { widthOf } from '../../render/width.js';
import { Picture } from './picture.js';

const ENTER = '\u001b[?1049h\u001b[H';
/** Enter it again: empty, and without the cursor. */
const ENTER_AGAIN = `${ENTER}\u001b[2J\u001b[?25l`;
const LEAVE = '\u001b[?1049l\u001b[?25h';
/** What ink goes back to the first row of its last picture with: erasing, and moving up. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
const BACK = /^(?:\u001b\[(?:[23][JK]|1A|G|H))+/;

// biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
const SEQUENCES = /\u001b\[[?\d;]*[A-Za-z]/g;

function columnsOf(row: string): number {
  return widthOf(row.replace(SEQUENCES, ''));
}

/** Signals that end the program, and the exit code that shells give them. */
const SIGNALS: Readonly<Record<string, number>> = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129, SIGQUIT: 131 };

export class Terminal {
  readonly #out: WriteStream;
  readonly #keys: ReadStream;
  readonly #picture = new Picture();
  /** What stands on the screen is not, or not all, what was drawn. */
  #isStale = true;
  #size = '';
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
    if (process.platform !== 'win32') process.on('SIGWINCH', this.#resized);
    process.on('exit', this.#leaveNow);
  }

  /** Back to the first screen; the second time nothing happens. */
  leave(): void {
    for (const [signal, handler] of this.#handlers) process.off(signal, handler);
    process.off('SIGTSTP', this.#stop);
    process.off('SIGCONT', this.#goOn);
    process.off('SIGWINCH', this.#resized);
    process.off('exit', this.#leaveNow);
    this.#leaveNow();
  }

  /** The output for ink: it takes whole pictures, and hands on what changes. */
  stream(): WriteStream {
    const write = (chunk: unknown, ...rest: unknown[]): boolean => {
      const text = typeof chunk === 'string' ? this.#handedOn(chunk) : chunk;
      return (this.#out.write as (...all: unknown[]) => boolean).call(this.#out, text, ...rest);
    };
    return new Proxy(this.#out, {
      get(target, key) {
        if (key === 'write') return write;
        const value: unknown = Reflect.get(target, key, target);
        return typeof value === 'function' ? value.bind(target) : value;
      },
    });
  }

  /** Draw the last picture anew, whatever stands on the screen. */
  repaint(): void {
    this.#out.write(this.#picture.whole());
  }

  /**
   * Stop, as the terminal does on Ctrl-Z where it is not told to hand that on: with all that the shell started together. Windows has no such
   * thing, there nothing happens.
   */
  stop(): void {
    if (process.platform === 'win32') return;
    if (!this.#entered) {
      // Somebody listens: there is no second screen, but keys are taken one by one.
      this.#keys.setRawMode(false);
      process.once('SIGCONT', () => this.#keys.setRawMode(true));
    }
    process.kill(0, 'SIGTSTP');
  }

  #handedOn(text: string): string {
    const told = text.replace(BACK, '');
    if (told === '' && text !== '') this.#isStale = true;
    // What is more than a few sequences is a picture, and each is a whole one.
    if (told.replace(SEQUENCES, '') === '') return told;
    const { columns, rows } = this.#out;
    const size = this.#sizeNow();
    const isWhole = this.#isStale || size !== this.#size;
    this.#size = size;
    const picture = told.replace(/\n$/, '').split('\n');
    // One of the size before: that of the new one follows at once.
    this.#isStale = isWhole && !(picture.length <= rows && picture.every((row) => columnsOf(row) <= columns));
    if (this.#isStale) return '';
    return isWhole ? this.#picture.whole(picture) : this.#picture.change(picture);
  }

  #sizeNow(): string {
    return `${this.#out.columns} x ${this.#out.rows}`;
  }

  /** A window that went to another size and back at once has cut the picture off; nobody else is told, for the size is the same. */
  readonly #resized = (): void => {
    if (this.#sizeNow() === this.#size) this.repaint();
  };

  readonly #stop = (): void => {
    this.#keys.setRawMode(false);
    this.#out.write(LEAVE);
    process.kill(process.pid, 'SIGSTOP');
  };

  /** The shell has set the terminal as it likes it, and may have written on it. */
  readonly #goOn = (): void => {
    this.#keys.setRawMode(false);
    this.#keys.setRawMode(true);
    this.#out.write(`${ENTER_AGAIN}${this.#picture.whole()}`);
  };

  readonly #leaveNow = (): void => {
    if (!this.#entered) return;
    this.#entered = false;
    this.#out.write(LEAVE);
  };
}
