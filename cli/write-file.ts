/** Writes a text file whole or not at all: into a file beside it, to the disk, then renamed over the name. */

import { access, open, realpath, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { Problem } from './problem.js';

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
 * Write `text` to `path`. Whatever happens, `path` holds the old text or the new one. A link is followed.
 * @throws Problem if the folder does not exist or may not be written to, or the disk is full
 */
export async function writeWhole(path: string, text: string): Promise<void> {
  const target = await realpath(path).catch(() => path);
  const folder = dirname(target);
  const part = join(folder, `.${basename(target)}.${process.pid}.part`);
  try {
    const handle = await open(part, 'w');
    try {
      await handle.writeFile(text);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(part, target);
    await syncFolder(folder);
  } catch (error) {
    await rm(part, { force: true }).catch(() => {});
    throw new Problem(`${path}: the file cannot be written: ${reason(error, folder)}`);
  }
}

/** The name is on the disk only once its folder is. Some systems cannot open a folder; there nothing more can be done. */
export async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => {});
  await handle?.close();
}

function reason(error: unknown, folder: string): string {
  const code = (error as NodeJS.ErrnoException).code ?? String(error);
  switch (code) {
    case 'ENOENT':
      return `there is no folder ${folder}. Make it first, or name another file.`;
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return `the folder ${folder} may not be written to. Check its permissions, or name another file.`;
    case 'EISDIR':
      return 'this is a folder. Name a file in it.';
    case 'ENOSPC':
      return 'the disk is full. Make room and try again.';
    default:
      return `the system answers ${code}.`;
  }
}
