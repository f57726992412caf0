/** Where results go: files that are written whole, files that must not be touched, and a disk that is full. */

import {
  chmod,
  chown,
  copyFile,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  readlink,
  rm,
  stat,
  symlink,
  writeFile,
} from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { writeWhole } from '../../cli/io/write-file.js';
import { SHELF, SHELF_LOG } from '../support/examples.js';
import { interrupted } from './ctrl-c.js';
import { type Answer, BINARY, evensow, program } from './program.js';

const onPosix = describe.skipIf(process.platform === 'win32');

let folder: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'evensow-out-'));
});
afterEach(async () => {
  await rm(folder, { recursive: true });
});

const at = (name: string): string => join(folder, name);
const text = async (name: string): Promise<string> => await readFile(at(name), 'utf8');

onPosix('a file is replaced whole', () => {
  test.each(['600', '664', '444'])('and its permissions stay %s', async (mode) => {
    await writeFile(at('result.txt'), 'old');
    await chmod(at('result.txt'), Number.parseInt(mode, 8));
    // Whoever may write to everything may write to a protected file too.
    if (mode === '444' && process.getuid?.() !== 0) {
      await expect(writeWhole(at('result.txt'), 'new')).rejects.toThrow('may not be written to');
      expect(await text('result.txt')).toBe('old');
      return;
    }
    await writeWhole(at('result.txt'), 'new');
    expect(await text('result.txt')).toBe('new');
    expect(((await stat(at('result.txt'))).mode & 0o7777).toString(8)).toBe(mode);
    expect(await readdir(folder)).toEqual(['result.txt']);
  });

  test.runIf(process.getuid?.() === 0)('and its owner stays who it was', async () => {
    await writeFile(at('result.txt'), 'old');
    await chown(at('result.txt'), 4321, 4322);
    await writeWhole(at('result.txt'), 'new');
    expect(await stat(at('result.txt'))).toMatchObject({ uid: 4321, gid: 4322 });
  });

  test('links are followed, also to where there is nothing yet', async () => {
    await mkdir(at('elsewhere'));
    await symlink(join('elsewhere', 'link.txt'), at('result.txt'));
    await symlink('target.txt', at('elsewhere/link.txt'));
    for (const content of ['first', 'second']) {
      await writeWhole(at('result.txt'), content);
      expect(await text('elsewhere/target.txt')).toBe(content);
    }
    expect(await readlink(at('result.txt'))).toBe(join('elsewhere', 'link.txt'));
    expect(await readlink(at('elsewhere/link.txt'))).toBe('target.txt');
  });

  test('links that lead round in a circle, and into no folder, are refused', async () => {
    await symlink('b', at('a'));
    await symlink('a', at('b'));
    await symlink(join('nowhere', 'c'), at('c'));
    await expect(writeWhole(at('a'), 'x')).rejects.toThrow('ELOOP');
    await expect(writeWhole(at('c'), 'x')).rejects.toThrow(`there is no folder ${at('nowhere')}`);
    expect(await readdir(folder)).toEqual(['a', 'b', 'c']);
  });

  test('what is no ordinary file stays what it is', async () => {
    await program('bash', ['-c', 'mkfifo pipe'], { cwd: folder });
    await symlink('pipe', at('link'));
    for (const name of ['pipe', 'link']) {
      await expect(writeWhole(at(name), 'x')).rejects.toThrow(
        `${at(name)}: this is no file that can be replaced. Name another.`,
      );
    }
    await expect(writeWhole(folder, 'x')).rejects.toThrow('this is a folder. Name a file in it.');
    await expect(writeWhole(at('new/'), 'x')).rejects.toThrow('this names a folder. Name a file in it.');
    expect((await stat(at('pipe'))).isFIFO()).toBe(true);
    expect((await readdir(folder)).sort()).toEqual(['link', 'pipe']);
  });
});

/** `evensow` in the folder, words parted at spaces. */
async function said(words: string, options: Parameters<typeof evensow>[1] = {}): Promise<Answer> {
  return await evensow(words.split(' '), { cwd: folder, ...options });
}

/** Refused with one message and exit code 2, and all files are as they were. */
async function refused(words: string, message: string): Promise<void> {
  const files = async () =>
    await Promise.all((await readdir(folder)).sort().map(async (name) => [name, await text(name)]));
  const before = await files();
  expect(await said(words)).toEqual({ code: 2, out: '', err: `evensow: ${message}\n` });
  expect(await files()).toEqual(before);
}

describe('--out', () => {
  beforeEach(async () => {
    await copyFile(SHELF, at('line.yaml'));
    await copyFile(SHELF, at('other.yaml'));
    await copyFile(SHELF_LOG, at('season.csv'));
  });

  test('clears what a killed program has left unfinished, and nothing else', async () => {
    // No process has so high a number.
    for (const name of [
      '.result.txt.4194305.ab12.part',
      '.result.txt.note.part',
      '.other.txt.4194305.ab12.part',
    ])
      await writeFile(at(name), 'half');
    await writeFile(at(`.result.txt.${process.pid}.ab12.part`), 'half, of one that still runs');
    const { code } = await said('run line.yaml --seasons 3 --out result.txt');
    expect(code).toBe(0);
    expect((await readdir(folder)).filter((name) => name.endsWith('.part')).sort()).toEqual([
      '.other.txt.4194305.ab12.part',
      `.result.txt.${process.pid}.ab12.part`,
      '.result.txt.note.part',
    ]);
  });

  /** What is said where `--out` names an input. */
  const isInput = (name: string, what: string): string =>
    `--out must not name ${name}, which is ${what}. It must be a file for the result. Example: --out result.txt`;

  test.each([
    ['run line.yaml', 'line.yaml', 'the scenario'],
    ['run line.yaml', './line.yaml', 'the scenario'],
    ['run line.yaml --shard 1/2', 'line.yaml', 'the scenario'],
    ['compare line.yaml --every 2,3', 'line.yaml', 'the scenario'],
    ['compare line.yaml other.yaml', 'other.yaml', 'one of the scenarios'],
    ['size line.yaml', 'line.yaml', 'the scenario'],
    ['search line.yaml --heads 12', 'line.yaml', 'the scenario'],
    ['ahead line.yaml season.csv', 'season.csv', 'the log'],
    ['ahead line.yaml season.csv', 'line.yaml', 'the scenario'],
    ['chores line.yaml season.csv', 'season.csv', 'the log'],
    ['chores line.yaml', 'line.yaml', 'the scenario'],
  ])('is not the file that is read: %s --out %s', async (words, out, what) => {
    await refused(`${words} --out ${out}`, isInput(out, what));
  });

  test('is not the file that is read, also by the name of a link', async () => {
    await symlink('line.yaml', at('link.yaml'));
    await refused('run link.yaml --out line.yaml', isInput('line.yaml', 'the scenario'));
    await refused('run line.yaml --out link.yaml', isInput('link.yaml', 'the scenario'));
  });

  test('is not one of the parts that are joined', async () => {
    for (const k of [1, 2]) await said(`run line.yaml --seasons 4 --shard ${k}/2 --out p${k}.json`);
    await refused('merge p1.json p2.json --out p1.json', isInput('p1.json', 'one of the parts'));
  });

  test('is not the built-in scenario that runs without a file', async () => {
    const builtIn = SHELF;
    await refused(`run --out ${builtIn}`, isInput(builtIn, 'the built-in scenario'));
  });

  test.runIf(process.platform === 'linux')('is not the file behind standard input', async () => {
    const command = `"${process.execPath}" "${BINARY}" run - --out line.yaml < line.yaml`;
    const { code, err } = await program('bash', ['-c', command], { cwd: folder });
    expect({ code, err }).toEqual({ code: 2, err: `evensow: ${isInput('line.yaml', 'the scenario')}\n` });
  });

  test('may be a file that is no input, and the built-in scenario under another name', async () => {
    expect(await said('run line.yaml --seasons 2 --out other.yaml')).toEqual({ code: 0, out: '', err: '' });
    expect(await text('other.yaml')).toContain('2 seasons simulated');
    expect((await said('run --seasons 2 --out line.yaml')).code).toBe(0);
  });

  test('that cannot be written is told before any season is run', async () => {
    await mkdir(at('results'));
    // So many seasons would take longer than a test may.
    for (const [out, why] of [
      ['results', 'this is a folder. Name a file in it.'],
      ['no/result.txt', 'there is no folder'],
    ]) {
      const { code, err } = await said(`run line.yaml --seasons 1000000 --out ${out}`);
      expect(err).toContain(why);
      expect(code).toBe(2);
    }
  });

  test.skipIf(process.platform === 'win32')('after Ctrl-C says where what was known is', async () => {
    // Seasons are told some hundreds at a time.
    const { code, out, err } = await interrupted(
      'run line.yaml --seasons 1000000 --workers 1 --out result.txt'.split(' '),
      /\d \d{3} of 2 000 \d{3} seasons/,
      { cwd: folder },
    );
    expect({ code, out, err }).toEqual({
      code: 130,
      out: '',
      err: 'evensow: stopped; what was known by then is written to result.txt.\n',
    });
    expect(await text('result.txt')).toContain('stopped early');
  });
});

describe('the name of a file that is written', () => {
  test.each([
    ['run', '--out', 'a file for the result'],
    ['merge part.json', '--out', 'a file for the result'],
    ['chores line.yaml', '--out', 'a file for the result'],
    ['log sow 6 butterhead', '--to', 'a file for the log'],
    ['fit season.csv line.yaml', '--write', 'a file for the scenario'],
  ])('of %s %s is not empty and not -', async (words, option, must) => {
    for (const [name, wrong] of [
      ['', 'be empty.'],
      ['-', 'be "-".'],
    ] as const) {
      const { code, out, err } = await evensow([...words.split(' '), option, name], { cwd: folder });
      expect(err).toContain(`evensow: ${option} must not ${wrong}`);
      expect(err).toContain(`It must be ${must}. Example: ${option} `);
      expect({ code, out }).toEqual({ code: 2, out: '' });
    }
    expect(await readdir(folder)).toEqual([]);
  });
});

describe.runIf(process.platform === 'linux')('a full disk on standard output', () => {
  async function onFullDisk(words: string): Promise<Answer> {
    const command = `"${process.execPath}" "${BINARY}" ${words} > /dev/full`;
    return await program('bash', ['-c', command], { cwd: folder });
  }

  test.each(['run --seasons 2', '--help', '--version', 'schema', 'help run'])(
    'is no fault of the program: %s',
    async (words) => {
      expect(await onFullDisk(words)).toMatchObject({
        code: 2,
        err: 'evensow: standard output: the disk is full.\n',
      });
    },
  );

  test('does not hide that a row was logged', async () => {
    const { code, err } = await onFullDisk('log sow 10 kale --date 2027-01-04');
    expect(err).toBe(
      'evensow: standard output: the disk is full. The row was written to season.csv all the same; do not log it again.\n',
    );
    expect(code).toBe(2);
    expect(await text('season.csv')).toContain('2027-01-04,sow,kale,B1,,,10,,\n');
  });

  test('that takes a part only is noticed', async () => {
    // No file may grow beyond 2 blocks of 1024 bytes; the schema is longer. The system takes 2048 bytes and says so.
    const command = `ulimit -f 2; "${process.execPath}" "${BINARY}" schema > schema.json`;
    const { code, err } = await program('bash', ['-c', command], { cwd: folder });
    expect((await stat(at('schema.json'))).size).toBe(2048);
    expect({ code, err }).toEqual({
      code: 2,
      err: 'evensow: standard output: the file may not become so large.\n',
    });
  });
});
