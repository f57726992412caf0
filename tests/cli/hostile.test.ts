/** What comes in from outside is neither obeyed nor believed: characters that move a terminal, formulas, slips of years and counts. */

import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { ownFolder } from '../support/folder.js';
import { type Answer, BINARY, evensow, program } from './program.js';

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
    expect([answer.code, answer.out === '']).toEqual([0, false]);
    // Nothing is lost in JSON: what is read back is what the file has.
    if (words.startsWith('run') && words.endsWith('--json'))
      expect(JSON.parse(answer.out).title).toBe(`Line ${PARTED}`);
  });

  test.each([
    ['a file that is not there', ['run', `no${CSI}thing.yaml`]],
    ['more than one line', ['run', 'no\nthing.yaml']],
    ['more than one line, with signs of a replacement', ['run', 'no\nth$&ing.yaml']],
    ['an option', [`--\u001b[2Jseasons`]],
    ['a value', ['run', '--seasons', `1${TURNED}`]],
    ['a command', [`ru${CSI}`]],
  ])('nor of %s', async (_, args) => {
    const answer = await evensow(args, { cwd: folder });
    expect(answer.code).toBe(2);
    expectPlain(answer);
    expect(answer.err).not.toContain('no\nth');
  });

  test.each([['check two\nlines.yaml'], ['compare line.yaml two\nlines.yaml --seasons 5']])(
    'nor a line break in the name of a file that is there: %j',
    async (words) => {
      await writeFile(at('line.yaml'), scenario('Line', 'leaf'));
      await writeFile(at('two\nlines.yaml'), scenario('Two', 'leaf'));
      const answer = await evensow(words.split(' '), { cwd: folder });
      expect([answer.code, answer.err]).toEqual([0, '']);
      expect(answer.out).toContain('two\ufffdlines.yaml');
      expect(answer.out).not.toContain('two\nlines.yaml');
    },
  );

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

test.each([['["run",]'], ['["ru\\q"]']])('a part with arguments that are none, %s', async (typed) => {
  const text = `{"evensow_part":4,"version":"${packageJson.version}","shard":{"k":1,"n":2},"typed":${typed},"asked":`;
  await writeFile(at('part.json'), text);
  const { code, err } = await evensow(['merge', 'part.json'], { cwd: folder });
  expect([code, err]).toEqual([
    2,
    'evensow: part.json, part 1 of 2, is cut short: its end is missing, as after a copy that broke off or on a full disk. Carry out that part again.\n',
  ]);
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

test('the command that logs what is gone can be typed, also of a batch whose name begins like an option', async () => {
  await writeFile(at('line.yaml'), scenario('Line', 'leaf'));
  const rows =
    '2027-01-04,sow,leaf,-b2,,,5,,\n2027-01-12,move,,-b2,bed,,1,,\n2027-01-28,pick,,-b2,,,1,,\n2027-02-20,sow,leaf,B3,,,4,,\n';
  await writeFile(at('season.csv'), HEADER + rows);
  const { out } = await evensow(['chores', 'line.yaml', 'season.csv', '--seasons', '5'], { cwd: folder });
  const typed = /evensow (log lose .*)/.exec(out)![1]!.split(' ');
  expect(await evensow(typed, { cwd: folder })).toMatchObject({ code: 0 });
  expect(await readFile(at('season.csv'), 'utf8')).toBe(
    `${HEADER}${rows}2027-02-20,lose,leaf,-b2,tray,,4,,\n`,
  );
});

describe('a slip of the year elsewhere', () => {
  test.each([['replay'], ['ahead'], ['chores'], ['fit'], ['watch']])('in the start: %s', async (command) => {
    await writeFile(at('line.yaml'), scenario('Line', 'leaf').replace('2027', '1927'));
    await writeFile(at('season.csv'), logOf('leaf', 'B1'));
    const { code, out, err } = await evensow([command, 'line.yaml', 'season.csv'], { cwd: folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(
      /line 2, column date\n +found 2027-01-04; expected a date from 1927-01-04 to 1936-12-22, within 520 weeks .* set start: 2027-01-04 in the scenario/,
    );
  });

  test.each([['ahead'], ['chores']])('in --today: %s', async (command) => {
    await writeFile(at('line.yaml'), scenario('Line', 'leaf'));
    await writeFile(at('season.csv'), logOf('leaf', 'B1'));
    const asked = [command, 'line.yaml', 'season.csv', '--seasons', '5', '--today', '2927-01-14'];
    const { code, out, err } = await evensow(asked, { cwd: folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('--today must not be 2927-01-14. It must be within 520 weeks');
  });
});

test('a log of more batches than a call takes arguments is told of', async () => {
  await writeFile(at('line.yaml'), scenario('Line', 'leaf'));
  // How many that are follows from the stack [kB]: with a small one a small log will do.
  const stack = '--stack-size=200';
  const batches = 30_000;
  const call = `Math.max(...new Array(${batches}).fill(1))`;
  expect((await program(process.execPath, [stack, '-e', call])).err).toContain('RangeError');
  const rows = Array.from({ length: batches }, (_, i) => {
    const date = `2027-01-${String(4 + Math.floor((20 * i) / batches)).padStart(2, '0')}`;
    return `${date},sow,leaf,B${i},,,1,,\n${date},lose,,B${i},tray,,1,,\n`;
  });
  await writeFile(at('season.csv'), HEADER + rows.join(''));
  const asked = ['chores', 'line.yaml', 'season.csv', '--seasons', '1', '--days', '3'];
  const { code, out } = await program(process.execPath, [stack, BINARY, ...asked], { cwd: folder });
  expect(code).toBe(0);
  expect(out).toContain(`B${batches}`);
});
