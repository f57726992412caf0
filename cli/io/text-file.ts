/** Reads a text file that a user named, and says plainly why it cannot be read. */

import { type FileHandle, open, readdir } from 'node:fs/promises';
import { Problem } from '../problem.js';
import { readInput } from './streams.js';

/** What a file should hold, and the most that is read of it [bytes]. */
export interface TextKind {
  /** Such as "a season log". */
  readonly what: string;
  readonly limit: number;
  /** A sentence that helps whoever named a file that is too large. */
  readonly hint: string;
  /** What to do if there is no such file. */
  readonly missing: string;
}

/** What is read at a time [bytes]. */
const PIECE = 65_536;

/**
 * @param file path, or `-` for standard input
 * @throws Problem if there is no such file, it may not be read, is too large, or is not UTF-8
 */
export async function readTextFile(file: string, kind: TextKind): Promise<string> {
  const bytes = file === '-' ? await readInput(kind.limit) : await readBytes(file, kind);
  refuseLarge(file, bytes.length, kind);
  return decoded(bytes, file, 'Save it as UTF-8 (plain text) in your editor.');
}

/** @param size [bytes] @throws Problem if that is more than such a file may have */
export function refuseLarge(file: string, size: number, { limit, hint }: TextKind): void {
  if (size <= limit) return;
  throw new Problem(
    `${file}: the file is too large: more than ${limit / 1e6} MB. ${hint} Check the name of the file.`,
  );
}

/** Names of what is in this folder, in the order of the alphabet. */
export async function namesHere(): Promise<string[]> {
  return (await readdir('.').catch(() => [])).sort();
}

/** @throws Problem with this advice if the bytes are not UTF-8 */
export function decoded(bytes: Buffer, file: string, advice: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Problem(`${file}: the file is not UTF-8 text. ${advice}`);
  }
}

async function readBytes(file: string, kind: TextKind): Promise<Buffer> {
  let handle: FileHandle | null = null;
  try {
    handle = await open(file, 'r');
    // Piece by piece: what is named may be a pipe or have no end, so its size says nothing.
    const pieces: Buffer[] = [];
    let size = 0;
    while (size <= kind.limit) {
      const piece = Buffer.allocUnsafe(PIECE);
      const { bytesRead } = await handle.read(piece, 0, PIECE, null);
      if (bytesRead === 0) break;
      pieces.push(piece.subarray(0, bytesRead));
      size += bytesRead;
    }
    return Buffer.concat(pieces);
  } catch (error) {
    throw new Problem(`${file}: ${reason((error as NodeJS.ErrnoException).code ?? String(error), kind)}`);
  } finally {
    await handle?.close();
  }
}

function reason(code: string, { what, missing }: TextKind): string {
  switch (code) {
    case 'ENOENT':
      return `there is no such file. ${missing}`;
    case 'EACCES':
    case 'EPERM':
      return 'the file may not be read. Check its permissions.';
    case 'EISDIR':
      return `this is a folder. Name ${what} in it.`;
    default:
      return `the file cannot be read (${code}).`;
  }
}

/**
 * Standard input can be read once only.
 * @param what the files are, such as "the scenario and the log"
 * @param files paths, or `-`
 * @throws Problem if more than one of them is to be read from standard input
 */
export function checkInputs(what: string, files: readonly (string | undefined)[], example: string): void {
  if (files.filter((file) => file === '-').length < 2) return;
  const [both, rest] =
    files.length === 2 ? ['both', 'One of them must be a file'] : ['all', 'All but one must be files'];
  throw new Problem(`${what} must not ${both} be read from standard input. ${rest}. Example: ${example}`);
}
