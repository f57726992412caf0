/** A log is taken by every command that reads one, or refused by every one with the same sentence. The built program. */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SHELF, SHELF_LOG } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { evensow } from './program.js';

const folder = ownFolder();

/** A file in the folder of these tests. */
function put(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const FULL = readFileSync(SHELF_LOG, 'utf8');
/** Eleven weeks in which no failed seed was logged. */
const THIN = FULL.split('\n')
  .filter((row) => !/,lose,.*,germination,/.test(row))
  .slice(0, 150)
  .join('\n');
const thin = put('thin.csv', THIN);

/** The commands that read a scenario and a log, with what makes them quick. */
const READERS: readonly [command: string, ...options: string[]][] = [
  ['fit'],
  ['replay'],
  ['ahead', '--seasons', '10', '--weeks', '2'],
  ['chores', '--seasons', '10', '--days', '2'],
];
/** Where it cannot draw it only checks the log. */
const WATCH = ['watch'] as const;

describe('a log with more plants in germination than cells, since failed seeds were never logged', () => {
  test.each(READERS)('is taken by %s', async (...command) => {
    const { code, err } = await evensow([...command, SHELF, thin]);
    expect(err).not.toContain('fault');
    expect(code).toBe(0);
  });

  test('ahead and chores take the overdue as failed and gone, in one sentence, with the commands that log them', async () => {
    const args = [SHELF, thin, '--seasons', '20', '--all'];
    const { out } = await evensow(['ahead', ...args]);
    const { out: list } = await evensow(['chores', ...args]);
    const SENTENCE =
      /(\d+) plants of \d+ batches stand so long that fewer than 1 in 100 would still grow: they are taken as failed and gone, for there is no room for all that stands by the log\. Log them\./;
    const flat = (text: string): string => text.replace(/\s+/g, ' ');
    const [sentence, plants] = SENTENCE.exec(flat(out))!;
    expect(flat(list)).toContain(sentence);
    expect(flat(list)).not.toContain('clear 1 dead, failed or overgrown in germination: B1 ');

    const commands = [...out.matchAll(/evensow (log lose (\d+) (B\d+) germination --date [\d-]+) --to \S+/g)];
    expect(commands.reduce((sum, [, , count]) => sum + Number(count), 0)).toBe(Number(plants));
    const { overdue, now } = JSON.parse((await evensow(['ahead', ...args.slice(0, -1), '--json'])).out);
    expect(overdue).toHaveLength(commands.length);
    for (const group of overdue) expect(group).toMatchObject({ stage: 'germination', gone: group.plants });

    // Whoever types them is told the same of what stands, and nothing of them any more.
    const [[, first] = [], ...others] = commands;
    const rows = others.map(([, , count, batch]) => `2027-03-18,lose,,${batch},germination,,${count},,\n`);
    const mended = put('mended.csv', `${THIN}\n${rows.join('')}`);
    const typed = [...first!.split(' '), '--to', mended, '--line', SHELF];
    expect((await evensow(typed)).code).toBe(0);
    const after = JSON.parse((await evensow(['ahead', SHELF, mended, ...args.slice(2, -1), '--json'])).out);
    expect(after).toMatchObject({ overdue: [], now });
  });
});

test('a log of another line is refused by all, with the same sentence', async () => {
  const small = put(
    'small.yaml',
    readFileSync(SHELF, 'utf8').replace('channels: 8, holes: 9', 'channels: 3, holes: 9'),
  );
  for (const log of [SHELF_LOG, thin]) {
    const all = [...READERS, WATCH];
    const answers = await Promise.all(all.map((command) => evensow([...command, small, log])));
    expect(answers.map(({ code, out }) => ({ code, out }))).toEqual(all.map(() => ({ code: 2, out: '' })));
    expect([...new Set(answers.map(({ err }) => err))]).toEqual([
      expect.stringMatching(
        /found \d+ plants in finishing after the last row; expected at most 27, for the scenario has so many holes there\./,
      ),
    ]);
  }
});
