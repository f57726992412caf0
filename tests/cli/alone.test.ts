/**
 * Each command in a process of its own, as a user starts it: it ends by itself, and says what it says to the other tests, whose process
 * has run others before (see host.mjs).
 */

import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { evensow, evensowAlone } from './program.js';

let folders: string[];
beforeAll(async () => {
  folders = await Promise.all(['alone', 'hosted'].map((name) => mkdtemp(join(tmpdir(), `evensow-${name}-`))));
  for (const folder of folders) {
    // A season that is no longer than what is asked of it needs.
    const line = await readFile('scenarios/home-shelf.yaml', 'utf8');
    await writeFile(join(folder, 'line.yaml'), line.replace('weeks: 26', 'weeks: 10'));
    const log = await readFile('scenarios/logs/cellar-2027.csv', 'utf8');
    await writeFile(join(folder, 'season.csv'), log.split('\n').slice(0, 20).join('\n').concat('\n'));
  }
});
afterAll(async () => {
  for (const folder of folders) await rm(folder, { recursive: true });
});

test.each([
  'new begun.yaml --stages 1x40,2x24,8x9 --crop basil --visits sat --heads 9 --away none --start 2027-01-04',
  'run --seasons 2',
  'run - --json',
  'compare line.yaml --every 2,3 --seasons 4 --workers 2',
  'size line.yaml --channels nursery=1..2 --seasons 2',
  'search line.yaml --heads 1 --every 3 --channels nursery=2 --runners 0',
  'run line.yaml --seasons 2 --shard 1/1 --out part.json',
  'merge part.json --csv',
  'check line.yaml',
  'ahead line.yaml season.csv --seasons 2',
  'chores line.yaml season.csv --seasons 2',
  'replay season.csv line.yaml',
  'fit season.csv line.yaml',
  'log sow 6 butterhead --date 2027-07-02 --line line.yaml',
  'report line.yaml season.csv --seasons 2 --out plan.html',
  'schema',
  'help',
  'help bad week',
  'completion fish',
  'complete -- compare --by us',
  'watch line.yaml season.csv',
])('evensow %s', async (words) => {
  const args = words.split(' ');
  const [one, other] = folders.map((cwd) => ({ cwd, input: args[1] === '-' ? 'weeks: -3\n' : '' }));
  expect(await evensowAlone(args, one)).toEqual(await evensow(args, other));
});
