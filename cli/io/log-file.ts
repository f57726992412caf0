/**
 * The file of a season log: read, and replaced whole by a longer one.
 *
 * Nobody's row may get lost. Two shells at once take turns by a lock. The longer text is written into a file beside
 * the log, put on the disk, and only then renamed over the log: whenever the power fails, the name holds the old text
 * or the new one. A program that does not know the lock (a spreadsheet that saves) is noticed by the state of the
 * log right before the renaming.
 */

import type { BigIntStats } from 'node:fs';
import { access, constants, lstat, readFile, utimes } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import { Problem } from '../problem.js';
import { tell } from './streams.js';
import { decoded, type TextKind } from './text-file.js';
import { putInPlace, refuseOdd, stateOf, targetOf } from './write-file.js';

/** The most that is read of a log [bytes]: more than a million rows. */
const LIMIT = 64_000_000;
const HINT = 'A season log has some thousands of rows.';
export const LOG: TextKind = {
  what: 'a season log',
  limit: LIMIT,
  hint: HINT,
  missing: 'Check the path; a log begins with: evensow log sow 6 butterhead --to FILE',
};

/** A lock that nobody has renewed for so long is left over from a program that was killed [ms]. */
const STALE = 5000;
/** How long to wait for one who holds the lock [ms]: long enough for it to become stale. Who take turns are waited for. */
const PATIENCE = 15_000;
/** After so long whoever waits is told why [ms]. */
const SILENCE = 1000;
/** How often to begin again because the log was changed meanwhile. */
const MOST_ATTEMPTS = 5;

/** What is to be written, and what is to be handed back when that is safely on the disk. */
export interface Addition<T> {
  /** In the place of the present text; it stays as it is if null. */
  readonly instead: string | null;
  /** Behind that. */
  readonly text: string;
  readonly result: T;
}

/**
 * Adds to a log.
 * @param file its path; a link is followed; made if there is none
 * @param compose is given the present text (empty if there is no file). May be called again if the file has changed
 * meanwhile. If it throws, nothing is written.
 * @returns the result of `compose`, once the row is on the disk
 * @throws Problem if the file cannot be read or written
 */
export async function appendToLog<T>(file: string, compose: (text: string) => Addition<T>): Promise<T> {
  const log = { name: file, path: await targetOf(file) };
  for (let attempt = 1; attempt <= MOST_ATTEMPTS; attempt++) {
    const held = await takeTurn(log);
    try {
      const added = await append(log, compose, held);
      if (added !== null) return added.result;
    } catch (error) {
      throw error instanceof Problem ? error : new Problem(`${file}: ${reason(error)}`);
    } finally {
      await held.release();
    }
    tell(`evensow: another program has changed ${file} meanwhile; reading it again.`);
  }
  throw new Problem(
    `${file}: another program keeps changing the file. Nothing was written. Close it there and try again.`,
  );
}

interface LogFile {
  /** As the user named it. */
  readonly name: string;
  /** Where it is. */
  readonly path: string;
}

/** @returns null if the log was changed, or the lock was lost, before it could be replaced */
async function append<T>(
  { name, path }: LogFile,
  compose: (text: string) => Addition<T>,
  held: Turn,
): Promise<Addition<T> | null> {
  const { bytes, state } = await read({ name, path });
  const addition = compose(decoded(bytes, name, 'Save the log as CSV in UTF-8.'));
  const unchanged = async (): Promise<boolean> =>
    (await held.lasts()) && sameState(state, await stateOf(path));
  const { instead } = addition;
  const present = instead === null ? [bytes] : [markOf(bytes), Buffer.from(instead)];
  const text = Buffer.concat([...present, Buffer.from(addition.text)]);
  // It could not be read any more.
  if (text.length > LIMIT) throw tooLarge(name);
  return (await putInPlace(path, text, state, unchanged)) ? addition : null;
}

/** The byte order mark of a file, which its text does not show. */
function markOf(bytes: Buffer): Buffer {
  const mark = Buffer.from('\uFEFF');
  return bytes.subarray(0, bytes.indexOf(mark) === 0 ? mark.length : 0);
}

function tooLarge(name: string): Problem {
  return new Problem(
    `${name}: the file is too large: more than ${LIMIT / 1e6} MB. Nothing was written. ${HINT}`,
  );
}

async function read({ name, path }: LogFile): Promise<{ bytes: Buffer; state: BigIntStats | null }> {
  const state = await stateOf(path);
  if (state === null) return { bytes: Buffer.alloc(0), state };
  refuseOdd(name, state);
  if (state.size > LIMIT) throw tooLarge(name);
  // Renaming would replace a file that is protected, so its protection is asked for.
  await access(path, constants.R_OK | constants.W_OK);
  return { bytes: await readFile(path), state };
}

/** Whose turn it is to write. */
interface Turn {
  /** Whether it is still ours: a program that was asleep for long may have lost it to another. */
  readonly lasts: () => Promise<boolean>;
  readonly release: () => Promise<void>;
}

async function takeTurn({ name, path }: LogFile): Promise<Turn> {
  const lockPath = `${path}.lock`;
  const began = performance.now();
  let holder: string | null = null;
  let holderCame = began;
  let told = false;
  let lost = false;
  for (;;) {
    try {
      // Loaded when it is needed: from then on a signal is heard only between two steps of the work.
      const { default: locks } = await import('proper-lockfile');
      const release = await locks.lock(path, {
        realpath: false,
        stale: STALE,
        lockfilePath: lockPath,
        onCompromised: () => {
          lost = true;
        },
      });
      const mark = await birthOf(lockPath);
      return {
        lasts: async () => !lost && mark !== null && mark === (await birthOf(lockPath)),
        release: async () => await release().catch(() => {}),
      };
    } catch (error) {
      // The lock is a folder. Something else of its name would never be given back.
      const inTheWay = await lstat(lockPath).catch(() => null);
      if (inTheWay !== null && !inTheWay.isDirectory()) {
        throw new Problem(
          `${lockPath} must not be there: it is no lock of evensow. A folder of that name keeps two shells apart while they write to ${name}. Nothing was written. Move it away, or name another log.`,
        );
      }
      if ((error as NodeJS.ErrnoException).code !== 'ELOCKED') {
        throw new Problem(`${name}: ${reason(error)}`);
      }
      // Who holds it renews its time. One that lies ahead would be renewed in the eyes of all until the clock comes there.
      if (inTheWay !== null && inTheWay.mtimeMs > Date.now() + STALE) {
        tell(
          `evensow: ${lockPath} is of a time that is still to come; the clock of this machine was probably set back. It is taken as of now.`,
        );
        await utimes(lockPath, new Date(), new Date()).catch(() => {});
      }
    }
    const present = await birthOf(lockPath);
    const time = performance.now();
    if (present !== holder) {
      holder = present;
      holderCame = time;
    }
    if (time - holderCame > PATIENCE) {
      throw new Problem(
        `${name}: another evensow has been writing to the log for more than ${PATIENCE / 1000} s. Nothing was written. Try again when it has ended; if none is running, remove the folder ${lockPath}.`,
      );
    }
    if (!told && time - began > SILENCE) {
      tell(`evensow: waiting for another evensow that writes to ${name}.`);
      told = true;
    }
    await pause(20 + Math.random() * 60);
  }
}

/** What tells a lock from a later one of the same name. */
async function birthOf(path: string): Promise<string | null> {
  const state = await stateOf(path);
  return state === null ? null : `${state.ino} ${state.birthtimeNs}`;
}

function sameState(a: BigIntStats | null, b: BigIntStats | null): boolean {
  if (a === null || b === null) return a === b;
  return a.ino === b.ino && a.size === b.size && a.mtimeNs === b.mtimeNs && a.ctimeNs === b.ctimeNs;
}

function reason(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return 'there is no such folder. Make it first, or name another file.';
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return 'the file or its folder may not be written to. Check their permissions, or name another file.';
    case 'EBUSY':
      return 'another program holds the file. Close it there and try again.';
    case 'ENOSPC':
    case 'EDQUOT':
      return 'the disk is full. Nothing was written. Make room and try again.';
    case undefined:
      throw error;
    default:
      return `the file cannot be written (${code}). Nothing was written.`;
  }
}
