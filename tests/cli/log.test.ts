import { mkdtemp, readFile, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readLog } from '../../sim/season/log/read.js';
import { SHELF } from '../support/examples.js';
import { type Answer, evensow } from './program.js';

const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note\n';

let folder: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'evensow-log-'));
});
afterEach(async () => {
  await rm(folder, { recursive: true });
});

/** `evensow log` in the folder; what is typed in one string is parted at its spaces. */
async function log(typed: string, ...more: string[]): Promise<Answer> {
  return await evensow(['log', ...typed.split(' '), ...more], { cwd: folder });
}

/** Log rows that are right. */
async function logged(...rows: string[]): Promise<string> {
  let said = '';
  for (const row of rows) {
    const { code, out, err } = await log(row);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    said = out;
  }
  return said;
}

async function file(name = 'season.csv'): Promise<string> {
  return await readFile(join(folder, name), 'utf8');
}

/** Refused with one message and exit code 2, and the log is as it was. */
async function refused(typed: string, ...parts: (string | RegExp)[]): Promise<void> {
  const before = await file().catch(() => null);
  const { code, out, err } = await log(typed);
  expect(out).toBe('');
  expect(err.match(/^evensow: /gm)).toHaveLength(1);
  for (const part of parts) expect(err).toMatch(part);
  expect(code).toBe(2);
  expect(await file().catch(() => null)).toBe(before);
}

describe('a season is logged as it goes', () => {
  test('from seed to pick, and each row says what now stands', async () => {
    expect(await logged('sow 6 butterhead --date 2027-01-04')).toBe(
      'Mon 4 Jan 2027: 6 butterhead sown as B1. B1 (butterhead) now: 6 in germination.\n',
    );
    expect(await logged('sow 5 romaine --date 2027-01-07')).toContain('as B2');
    expect(await logged('move 4 B1 nursery --date 2027-01-11')).toContain(
      'B1 (butterhead) now: 2 in germination, 4 in nursery.',
    );
    expect(await logged('lose 2 B1 germination --date 2027-01-11 --note weak')).toContain(
      '4 in nursery; 2 lost, of 6 sown.',
    );
    expect(await logged('move 4 B1 finishing --channel F3 --date 2027-01-25')).toContain('4 in finishing');
    expect(await logged('pick 4 B1 --grams 610.5 --date 2027-02-15')).toContain(
      'nothing stands any more; 4 picked, 2 lost, of 6 sown.',
    );
    expect(await logged('clean 9 finishing --channel F3 --date 2027-02-15')).toContain(
      '9 holes of F3 out of use',
    );
    expect(await file()).toBe(
      `${HEADER}2027-01-04,sow,butterhead,B1,,,6,,
2027-01-07,sow,romaine,B2,,,5,,
2027-01-11,move,butterhead,B1,nursery,,4,,
2027-01-11,lose,butterhead,B1,germination,,2,,weak
2027-01-25,move,butterhead,B1,finishing,F3,4,,
2027-02-15,pick,butterhead,B1,finishing,,4,610.5,
2027-02-15,clean,,,finishing,F3,9,,
`,
    );
  });

  test('a stage that can be one only need not be named', async () => {
    await logged(
      'sow 6 butterhead --date 2027-01-04',
      'move 6 B1 --date 2027-01-11',
      'lose 1 B1 --date 2027-01-12',
    );
    expect(await file()).toContain(
      'move,butterhead,B1,nursery,,6,,\n2027-01-12,lose,butterhead,B1,nursery,,1,,\n',
    );
    await logged('sow 6 butterhead --date 2027-01-12', 'move 2 B1 --date 2027-01-25');
    await refused('move 1 B3 --date 2027-01-25', /found "B3"/);
    await logged('move 3 B2 --date 2027-01-25');
    await refused('move 1 B2 --date 2027-01-25', /nursery or finishing/, /3 in germination, 3 in nursery/);
  });

  test('without a date the row is of today', async () => {
    const before = new Date().toISOString().slice(0, 10);
    await logged('sow 6 butterhead');
    const after = new Date().toISOString().slice(0, 10);
    const [date] = (await file()).split('\n')[1]!.split(',') as [string];
    expect([before, after]).toContain(date);
  });

  test('batches get the next number, or the name that is given', async () => {
    await logged(
      'sow 6 a --batch B7 --date 2027-01-04',
      'sow 6 a --batch left --date 2027-01-04',
      'sow 6 a --date 2027-01-04',
    );
    expect((await file()).match(/,a,[^,]+/g)).toEqual([',a,B7', ',a,left', ',a,B8']);
  });

  test('a value with separators, quotes and ends of line comes back as it was typed', async () => {
    const note = 'pale, "leggy"\nand thin; 5" pots';
    await log('sow 6 butterhead --date 2027-01-04', '--note', note, '--batch', 'left, upper');
    await logged('sow 6 butterhead --date 2027-01-05');
    const reading = readLog(await file(), null);
    expect(reading.ok && reading.value.rows).toMatchObject([
      { note, batch: 'left, upper' },
      { batch: 'B1', line: 4 },
    ]);
  });
});

describe('the log may be named, and so may the line', () => {
  const LINE = `start: 2027-01-04
weeks: 10
stages:
  - {name: tray, channels: 1, holes: 20}
  - {name: tower, channels: 2, holes: 10}
crops:
  - name: basil
    sow: {every: 7, seeds: 10}
    cuts: 2
    regrow: {days: 10, spread: 0.1}
    stages:
      tray: {days: 7, spread: 0.1}
      tower: {days: 20, spread: 0.1}
`;

  test('a log of another name', async () => {
    await logged('sow 6 butterhead --to other.csv');
    expect(await file('other.csv')).toContain('sow,butterhead,B1');
  });

  test("with a scenario the stages, crops and cuts are the scenario's", async () => {
    await writeFile(join(folder, 'line.yaml'), LINE);
    await logged(
      'sow 6 basil --date 2027-01-04 --line line.yaml',
      'move 6 B1 tower --date 2027-01-11 --line line.yaml',
    );
    await logged(
      'pick 6 B1 --date 2027-02-04 --line line.yaml',
      'pick 6 B1 --date 2027-02-14 --line line.yaml',
    );
    await refused('pick 1 B1 --date 2027-02-24 --line line.yaml', /none/);
    await refused('sow 6 basill --date 2027-02-24 --line line.yaml', /Did you mean basil\?/);
    expect(await file()).toContain('sow,basil,B1,tray,,6');
  });

  test('with a scenario no row brings more into a stage than it has holes', async () => {
    for (const typed of [
      'sow 41 butterhead',
      'stand 41 B9 germination --crop butterhead',
      'clean 73 finishing',
    ])
      await refused(
        `${typed} --line ${SHELF} --date 2027-01-04`,
        /count\n {4}found \d\d; expected at most \d\d, for \w+ has so many holes\./,
      );
    const { code } = await evensow(
      ['log', 'sow', '40', 'butterhead', '--line', SHELF, '--date', '2027-01-04'],
      {
        cwd: folder,
      },
    );
    expect(code).toBe(0);
  });

  test('with a scenario no row is of a day before its first, told with all else that is wrong', async () => {
    await writeFile(join(folder, 'line.yaml'), LINE);
    await refused(
      'sow six basil --date 2027-01-03 --line line.yaml',
      /found "2027-01-03"; expected 2027-01-04 or later, for that is the first day of the line/,
      /found "six"/,
    );
    await refused(
      'sow 6 basil --date 2027-01-03 --line line.yaml',
      /^evensow: nothing was written to season/,
    );
    await logged('sow 6 basil --date 2027-01-04 --line line.yaml', 'sow 6 basil --date 2027-01-05');
    // The last row of the log says more than the first day does.
    await refused('sow 6 basil --date 2027-01-03 --line line.yaml', /found.*expected 2027-01-05 or later/);
  });

  test('a row long after all before it is told of, for it is most likely a slip of the year', async () => {
    await writeFile(join(folder, 'line.yaml'), LINE);
    const late = await log('sow 6 basil --date 2207-01-04 --line line.yaml --to new.csv');
    expect(late.err).toBe(
      'evensow: 2207-01-04 is about 180 years after the first day of the line (2027-01-04), and no row of an earlier date can be added behind it. If it is a slip, remove the last line of new.csv.\n',
    );
    expect(late.code).toBe(0);
    // 2028 is a leap year: from 5 January 2027 there are 366 days to 6 January 2028.
    await logged('sow 6 basil --date 2027-01-05', 'sow 6 basil --date 2028-01-06');
    const { err } = await log('move 6 B1 nursery --date 2029-01-07');
    expect(err).toMatch(/^evensow: 2029-01-07 is about 1 year after the last row before it \(2028-01-06\), /);
    expect(await file()).toContain('2029-01-07,move,basil,B1,nursery,,6,,\n');
  });

  test('without one, the stages are those that the log names', async () => {
    await writeFile(
      join(folder, 'season.csv'),
      `${HEADER}2027-01-04,sow,basil,B1,tray,,6,,\n2027-01-11,move,,B1,tower,,3,,\n`,
    );
    await logged('move 1 B1 --date 2027-01-12', 'pick 2 B1 --date 2027-02-12');
    await refused('move 1 B1 finishing --date 2027-02-12', /tray, tower/, /--line/);
  });

  test('a stage that the built-in scenario has not points to --line', async () => {
    await logged('sow 6 basil --date 2027-01-04');
    await refused(
      'move 6 B1 tower --date 2027-01-11',
      /found "tower"/,
      /germination, nursery, finishing/,
      /--line FILE/,
    );
  });
});

describe('a row that cannot be is not written', () => {
  beforeEach(async () => {
    await writeFile(
      join(folder, 'season.csv'),
      `${HEADER}2027-01-04,sow,butterhead,B12,,,6,,\n2027-01-11,move,,B12,nursery,,5,,\n`,
    );
  });

  test.each<[typed: string, ...parts: RegExp[]]>([
    [
      'move 6 B12 finishing',
      /^evensow: nothing was written to season.csv\.\n {2}count\n {4}found 6 plants of B12/,
    ],
    ['move 1 B12 finshing', /stage\n.*found "finshing".*Did you mean finishing\?/],
    ['clean 9 finishing nursery', /must not have "nursery"/],
    ['move 1 B12 --batch B7', /--batch must not stand with log move/],
  ])('log %s', async (typed, ...parts) => {
    await refused(`${typed} --date 2027-01-12`, ...parts);
  });

  test('all that is wrong is told at once', async () => {
    await refused('move x B1 nursry --date 2027-01-01', /date\n/, /count\n/, /batch\n/, /stage\n/);
  });

  test.each([
    ['sow 6', /Example: evensow log sow 6 butterhead\n/],
    ['move 1 B12', /Example: evensow log move 5 B12 finishing\n/],
    ['pick many B1', /Example: evensow log pick 4 B9\n/],
    ['lose 1 B12', /Example: evensow log lose 2 B12 nursery\n/],
    ['clean 9', /Example: evensow log clean 9 finishing --channel F3\n/],
    ['clear 1 B1', /found "clear";.* Did you mean lose\?/, /Example: evensow log lose 2 B12 nursery\n/],
    ['discard 1 B1', /Did you mean lose\?/, /Example: evensow log lose 2 B12 nursery\n/],
    ['harvest 1 B1', /Did you mean pick\?/, /Example: evensow log pick 4 B9\n/],
    ['Transplant 1 B1', /Did you mean move\?/, /Example: evensow log move 5 B12 finishing\n/],
    ['water 1 B1', /found "water"/, /Examples:\n( {2}evensow log \w+ .*\n){5}/],
    ['move 1 B1 --chanel F3', /Example: evensow log move 5 B12 finishing\nSee: evensow log --help\n$/],
  ])('an example is shown for log %s', async (typed, ...parts) => {
    await refused(`${typed} --date 2027-01-12`, ...parts);
  });

  test('an example of each action is shown for none', async () => {
    const { code, err } = await evensow(['log'], { cwd: folder });
    expect(code).toBe(2);
    expect(err).toMatch(/Examples:\n( {2}evensow log \w+ .*\n){5}/);
  });

  test('options that are none, and what is missing', async () => {
    await refused('move', /count\n {4}found nothing/, /batch\n {4}found nothing/);
    await refused('move 1 B12 --chanel F3', /--chanel/);
  });
});

describe('a log that is wrong is not added to', () => {
  test('its faults are told with their lines', async () => {
    await writeFile(
      join(folder, 'season.csv'),
      `${HEADER}2027-01-04,sow,butterhead,B1,,,six,,\n2027-01-04,pick,,B9,,,1,,\n`,
    );
    await refused(
      'sow 6 butterhead',
      /season.csv has 2 faults:/,
      /line 2, column count/,
      /line 3, column batch/,
    );
  });

  test('half a row at its end is not made whole by the next', async () => {
    await writeFile(
      join(folder, 'season.csv'),
      `${HEADER}2027-01-04,sow,butterhead,B1,,,6,,\n2027-01-04,sow,bu`,
    );
    await refused('sow 6 butterhead', /half a row/);
  });

  test('a file that is not UTF-8', async () => {
    await writeFile(join(folder, 'season.csv'), Buffer.from([0xff, 0xfe, 0x64, 0x00]));
    const before = await readFile(join(folder, 'season.csv'));
    expect(await log('sow 6 butterhead')).toMatchObject({ code: 2, err: expect.stringContaining('UTF-8') });
    expect(await readFile(join(folder, 'season.csv'))).toEqual(before);
  });

  test('a folder, and a file in no folder', async () => {
    await refused('sow 6 butterhead --to .', /folder/);
    await refused('sow 6 butterhead --to no/where.csv', /no such folder/);
  });

  test('a file that stands where the lock would be is named', async () => {
    await writeFile(join(folder, 'season.csv.lock'), 'mine');
    // Both a file that is new and one that is old.
    for (const time of [Date.now(), 0]) {
      await utimes(join(folder, 'season.csv.lock'), time / 1000, time / 1000);
      await refused('sow 6 butterhead', /season\.csv\.lock must not be there/, /Nothing was written/);
    }
    expect(await file('season.csv.lock')).toBe('mine');
  });
});
