/** What comes in from outside is neither obeyed nor believed: characters that move a terminal, formulas, slips of years and counts. */

import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ownFolder } from '../support/folder.js';
import { type Answer, evensow } from './program.js';

const folder = ownFolder();
const at = (name: string): string => join(folder, name);

/** Controls, separators and signs of direction, by their names in the Unicode standard (Cc; Zl, Zp; bidirectional formatting). */
const OBEYED =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are what must not be printed
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/;

function expectPlain({ out, err }: Pick<Answer, 'out' | 'err'>): void {
  for (const line of [...out.split(/\r?\n/), ...err.split('\n')]) expect(line).not.toMatch(OBEYED);
}

const CSI = '\u009b31m';
const TURNED = '\u202egnp';
const PARTED = 'a\u2028b';

const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note\n';
const scenario = (title: string, crop: string): string => `
title: "${title}"
start: 2027-01-04
weeks: 12
visits: daily
stages: [{name: tray, channels: 1, holes: 40}, {name: bed, channels: 4, holes: 10}]
crops:
  - name: "${crop}"
    germination: 0.9
    sow: {every: 3, seeds: 4}
    stages: {tray: {days: 7, spread: 0.1, keeps: 4}, bed: {days: 14, spread: 0.1, keeps: 7}}
`;
const logOf = (crop: string, batch: string): string =>
  [
    HEADER.trimEnd(),
    `2027-01-04,sow,${crop},${batch},,,8,,${TURNED}`,
    `2027-01-12,move,,${batch},bed,,5,,${PARTED}`,
    `2027-01-12,lose,,${batch},tray,,1,,`,
    `2027-01-13,sow,${crop},=1+1,,,6,,=2+2`,
    '',
  ].join('\n');

describe('characters that a terminal obeys are not printed', () => {
  const crop = `leaf${TURNED}`;
  const batch = `B${CSI}1`;
  test.each([
    ['run line.yaml --seasons 5'],
    ['run line.yaml --seasons 5 --json'],
    ['run line.yaml --seasons 5 --csv'],
    ['compare line.yaml --every 2,3 --seasons 5'],
    ['compare line.yaml --every 2,3 --seasons 5 --json'],
    ['size line.yaml --seasons 3'],
    ['check line.yaml'],
    ['replay line.yaml season.csv'],
    ['replay line.yaml season.csv --json'],
    ['replay season.csv'],
    ['fit line.yaml season.csv'],
    ['ahead line.yaml season.csv --seasons 5'],
    ['ahead line.yaml season.csv --seasons 5 --json'],
    ['chores line.yaml season.csv --seasons 5'],
    ['chores line.yaml season.csv --seasons 5 --csv'],
    ['chores line.yaml season.csv --seasons 5 --ics'],
    ['watch line.yaml season.csv --aloud'],
  ])('%s', async (words) => {
    await writeFile(at('line.yaml'), scenario(`Line ${PARTED}`, crop));
    await writeFile(at('season.csv'), logOf(crop, batch));
    const answer = await evensow(words.split(' '), { cwd: folder });
    expectPlain(answer);
    expect(answer.out + answer.err).not.toBe('');
    // Nothing is lost in JSON: what is read back is what the file has.
    if (words.startsWith('run') && words.endsWith('--json'))
      expect(JSON.parse(answer.out).title).toBe(`Line ${PARTED}`);
  });

  test.each([
    ['a file that is not there', ['run', `no${CSI}thing.yaml`]],
    ['of more than one line', ['run', 'no\nthing.yaml']],
    ['an option', [`--\u001b[2Jseasons`]],
    ['a value', ['run', '--seasons', `1${TURNED}`]],
    ['a command', [`ru${CSI}`]],
  ])('nor of %s', async (_, args) => {
    const answer = await evensow(args, { cwd: folder });
    expect(answer.code).toBe(2);
    expectPlain(answer);
    expect(answer.err).not.toContain('no\nthing');
  });

  test('nor of what a part says of itself', async () => {
    await writeFile(
      at('part.json'),
      '{"evensow_part":1,"version":"\u001b[2J0","shard":{"k":1,"n":2},"typed":["run"]',
    );
    const answer = await evensow(['merge', 'part.json'], { cwd: folder });
    expect(answer).toMatchObject({ code: 2, out: '' });
    expectPlain(answer);
  });

  test('nor written to a result', async () => {
    await writeFile(at('line.yaml'), scenario(`Line ${CSI}`, 'leaf').replace(CSI, '\u202e'));
    await evensow(['run', 'line.yaml', '--seasons', '5', '--out', 'result.txt'], { cwd: folder });
    expectPlain({ out: await readFile(at('result.txt'), 'utf8'), err: '' });
  });
});

test('a table for a spreadsheet has no formulas of others, and its numbers are numbers; the log stays as it was', async () => {
  await writeFile(at('line.yaml'), scenario('Line', 'leaf'));
  const log = logOf('leaf', '@sum').replace('=1+1', '-b2');
  await writeFile(at('season.csv'), log);
  const { out } = await evensow(['chores', 'line.yaml', 'season.csv', '--seasons', '5', '--csv'], {
    cwd: folder,
  });
  const cells = out.split('\r\n').flatMap((line) => line.split(','));
  expect(cells.filter((cell) => /^"?[=+@\t-]/.test(cell) && Number.isNaN(Number(cell)))).toEqual([]);
  expect(cells.filter((cell) => /^"?'[@-]/.test(cell)).length).toBeGreaterThan(0);
  const added = await evensow(
    ['log', 'lose', '1', '@sum', 'tray', '--date', '2027-01-13', '--to', 'season.csv'],
    {
      cwd: folder,
    },
  );
  expect(added.code).toBe(0);
  expect((await readFile(at('season.csv'), 'utf8')).startsWith(log)).toBe(true);
});

describe('a log that cannot be', () => {
  const rows = logOf('leaf', 'B1');
  test.each([
    [
      'of another millennium',
      rows.replaceAll('2027-01-13', '2927-01-13'),
      /line 5, column date\n +found 2927-01-13, although line 4 is of 2027-01-12; expected all rows within 520 weeks/,
    ],
    [
      'of a thousand million seeds',
      rows.replace(',8,,', ',1000000000,,'),
      /line 2, column count\n +found "1000000000"; expected a whole number from 1 to 1000000\./,
    ],
  ])('%s is told with its row by all who read it', async (_, text, fault) => {
    await writeFile(at('line.yaml'), scenario('Line', 'leaf'));
    await writeFile(at('season.csv'), text);
    for (const words of ['replay --every 3', 'ahead', 'chores', 'fit', 'watch']) {
      const [command, ...rest] = words.split(' ');
      const { code, out, err } = await evensow([command!, 'line.yaml', 'season.csv', ...rest], {
        cwd: folder,
      });
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(fault);
    }
  });
});
