import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** A new folder for the tests of a file, or of a part of it; gone when they are over. */
export function ownFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'evensow-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  return folder;
}
