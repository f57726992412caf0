/** Writes a text file whole or not at all: into a file beside it, to the disk, then renamed over the name. */

import type { BigIntStats } from 'node:fs';
import { access, constants, open, readdir, readlink, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { Problem } from '../problem.js';

/** An unfinished file of a program that may still run is left alone for so long [ms]. */
const UNFINISHED = 60_000;

/** Is there something of this name? */
export async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/** Do two paths lead to the same thing that is there? */
export async function sameFile(a: string, b: string): Promise<boolean> {
  const [one, other] = await Promise.all([a, b].map((path) => realpath(path).catch(() => null)));
  return one !== null && one === other;
}

/**
 * Write `text` to `path`. Whatever happens, `path` holds the old text or the new one. A link is followed, also to
 * where there is nothing yet; a file that is replaced keeps its permissions and, where that is allowed, its owner.
 * @throws Problem as `checkReplaceable`, or if the disk is full
 */
export async function writeWhole(path: string, text: string): Promise<void> {
  const state = await checkReplaceable(path);
  const target = await targetOf(path);
  try {
    await putInPlace(target, Buffer.from(text), state);
  } catch (error) {
    throw new Problem(`${path}: the file cannot be written: ${reason(error, dirname(target))}`);
  }
}

/**
 * Write `text` to a file that is not there yet, whole or not at all.
 * @throws Problem as `checkNew`
 */
export async function writeNew(path: string, text: string): Promise<void> {
  await checkNew(path);
  const target = await targetOf(path);
  let written = false;
  try {
    written = await putInPlace(target, Buffer.from(text), null, async () => !(await exists(target)));
  } catch (error) {
    throw new Problem(`${path}: the file cannot be written: ${reason(error, dirname(target))}`);
  }
  if (!written) throw thereAlready(path);
}

/** What can be told before there is anything to write. @throws Problem if something of this name is there, or no file of it can be made */
export async function checkNew(path: string): Promise<void> {
  if ((await checkReplaceable(path)) !== null) throw thereAlready(path);
}

function thereAlready(path: string): Problem {
  return new Problem(`${path}: there is such a file already, and it stays as it is. Name another.`);
}

/**
 * Write into a file beside it, then rename that.
 * @param like the state of the file that is replaced; null if there is none
 * @param may asked right before the renaming
 * @returns whether it was renamed
 */
export async function putInPlace(
  target: string,
  bytes: Buffer,
  like: BigIntStats | null,
  may: () => Promise<boolean> = async () => true,
): Promise<boolean> {
  await clearUp(target);
  const part = partBeside(target);
  try {
    await writeDown(part, bytes, like);
    if (!(await may())) return false;
    await rename(part, target);
  } finally {
    // After the renaming there is no such file any more.
    await rm(part, { force: true }).catch(() => {});
  }
  await syncFolder(dirname(target));
  return true;
}

/**
 * What can be told before there is anything to write: may a file of this name be made or replaced?
 * @returns the state of the file that is there; null if there is none
 * @throws Problem if a folder or something else that is no ordinary file is there, the file is protected, or its
 * folder does not exist
 */
export async function checkReplaceable(path: string): Promise<BigIntStats | null> {
  if (path.endsWith('/')) throw new Problem(`${path}: this names a folder. Name a file in it.`);
  const folder = dirname(await targetOf(path));
  try {
    // Of the name itself: what a link such as /dev/stdout leads to may have no path.
    const state = await stateOf(path);
    if (state === null) {
      if (!(await exists(folder)))
        throw new Problem(`${path}: the file cannot be written: ${noFolder(folder)}`);
      return null;
    }
    refuseOdd(path, state);
    // Renaming would replace a file that is protected, so its protection is asked for.
    await access(path, constants.W_OK);
    return state;
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw new Problem(`${path}: the file cannot be written: ${reason(error, folder)}`);
  }
}

/** @throws Problem if that which is there is no ordinary file: renaming would put one in its place */
export function refuseOdd(name: string, state: BigIntStats): void {
  if (state.isDirectory()) throw new Problem(`${name}: this is a folder. Name a file in it.`);
  if (!state.isFile()) throw new Problem(`${name}: this is no file that can be replaced. Name another.`);
}

/** The path behind a link, or behind links to links, whether or not there is a file yet. */
export async function targetOf(file: string): Promise<string> {
  try {
    return await realpath(file);
  } catch (error) {
    // Links that lead round in a circle lead to nothing: that is told when the file is looked at.
    const circle = (error as NodeJS.ErrnoException).code === 'ELOOP';
    const link = circle ? null : await readlink(file).catch(() => null);
    return link === null ? resolve(file) : await targetOf(resolve(dirname(file), link));
  }
}

/** The state of what a path leads to; null if there is nothing. */
export async function stateOf(path: string): Promise<BigIntStats | null> {
  try {
    return await stat(path, { bigint: true });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

/** Remove what killed programs have left unfinished beside a file. */
async function clearUp(target: string): Promise<void> {
  const beginning = `.${basename(target)}.`;
  for (const name of await readdir(dirname(target)).catch(() => [])) {
    if (!(name.startsWith(beginning) && name.endsWith('.part'))) continue;
    const pid = /^(\d+)\.[0-9a-f]+$/.exec(name.slice(beginning.length, -'.part'.length))?.[1];
    if (pid === undefined) continue;
    const path = join(dirname(target), name);
    const old = (await stat(path).catch(() => null))?.mtimeMs ?? Number.POSITIVE_INFINITY;
    if (!isRunning(Number(pid)) || Date.now() - old > UNFINISHED) await rm(path, { force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}

/** A name that nobody has, in the same folder, for a file that is not finished yet. */
function partBeside(target: string): string {
  const mark = Math.floor(Math.random() * 2 ** 32).toString(16);
  return join(dirname(target), `.${basename(target)}.${process.pid}.${mark}.part`);
}

/** Write a new file and wait until it is on the disk. It gets the owner and the permissions of the one it replaces. */
async function writeDown(path: string, bytes: Buffer, like: BigIntStats | null): Promise<void> {
  // Until it has the permissions of the one it replaces, nobody else may read it.
  const handle = await open(path, 'wx', like === null ? 0o666 : 0o600);
  try {
    await handle.writeFile(bytes);
    if (like !== null) {
      // Only some may give a file away; the permissions come last, because a new owner clears some of them.
      await handle.chown(Number(like.uid), Number(like.gid)).catch(() => {});
      await handle.chmod(Number(like.mode) & 0o7777);
    }
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** The name is on the disk only once its folder is. Some systems cannot open a folder; there nothing more can be done. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => {});
  await handle?.close();
}

function noFolder(folder: string): string {
  return `there is no folder ${folder}. Make it first, or name another file.`;
}

function reason(error: unknown, folder: string): string {
  const code = (error as NodeJS.ErrnoException).code ?? String(error);
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return noFolder(folder);
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return `the file or the folder ${folder} may not be written to. Check their permissions, or name another file.`;
    case 'ENOSPC':
    case 'EDQUOT':
      return 'the disk is full. Make room and try again.';
    default:
      return `the system answers ${code}.`;
  }
}
