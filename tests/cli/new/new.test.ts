/** `evensow new` as a grower has it: asked in a real pseudo-terminal, or with all answers as options. */

import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { ownFolder } from '../../support/folder.js';
import { Screen, type ScreenOptions } from '../dashboard/screen.js';
import { evensow, evensowOnce } from '../program.js';

const ROOT = ownFolder();
const folder = (): string => mkdtempSync(join(ROOT, 'new-'));

/** A small line, whose answer is soon there. */
const ANSWERS = {
  stages: '1 tray of 12, 2 channels of 6, 4 channels of 5',
  crop: 'butterhead',
  visits: 'mon thu sat',
  heads: '3',
  away: '2027-02-08..2027-02-14',
};
const OPTIONS = Object.entries(ANSWERS).flatMap(([key, answer]) => [`--${key}`, answer]);
const TODAY = ['--today', '2026-12-30'];

const ESCAPE = '\u001b';
const CTRL_C = '\u0003';
const CTRL_D = '\u0004';
const CTRL_U = '\u0015';

/** The file is written, and its first answer is shown. */
const OFFER = /Look for the plan[\s\S]*Y\/n/;

let screen: Screen | null = null;
afterEach(() => {
  screen?.close();
  screen = null;
});

function asked(args: readonly string[], options: ScreenOptions): Screen {
  screen = new Screen(['new', 'line.yaml', ...TODAY, ...args], options);
  return screen;
}

/** Type a line, and end it when it is there. */
async function says(shown: Screen, line: string): Promise<void> {
  shown.type(line);
  await shown.shows(`> ${line}`.slice(0, 40));
  shown.type('\r');
}

/** Answer all five. */
async function answersAll(shown: Screen): Promise<void> {
  for (const [i, answer] of Object.values(ANSWERS).entries()) {
    await shown.shows(new RegExp(`${i + 1} of 5:`));
    await shown.shows(/\n>$/);
    await says(shown, answer);
  }
}

/** The file that the options alone write. */
async function byOptions(more: readonly string[] = TODAY): Promise<string> {
  const cwd = folder();
  expect((await evensow(['new', 'line.yaml', ...OPTIONS, ...more], { cwd })).code).toBe(0);
  return readFileSync(join(cwd, 'line.yaml'), 'utf8');
}

describe('with all answers as options', () => {
  test('it writes a scenario that has no fault, and tells what run tells of it', async () => {
    const cwd = folder();
    const { code, out, err } = await evensow(['new', 'line.yaml', ...OPTIONS, ...TODAY], { cwd });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Written: line\.yaml\n/);
    expect((await evensow(['check', 'line.yaml'], { cwd })).out).toMatch(/^line\.yaml: no faults\.\n/);
    const run = await evensow(['run', 'line.yaml'], { cwd });
    const told = out.slice(out.indexOf('A line of'), out.indexOf('Which stage'));
    expect(told).toContain('in a usual week');
    expect(run.out).toContain(told);
    expect(run.out).toContain(out.slice(out.indexOf('Which stage'), out.indexOf('\n\nWhat you would like')));
    expect(out).toContain('evensow search line.yaml --heads 3\n');
    // The season begins on the Monday that comes.
    expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toContain('start: 2027-01-04');
    expect(readdirSync(cwd)).toEqual(['line.yaml']);
  });

  test('the wish is no want, and the commands that are named work', async () => {
    const text = await byOptions();
    expect(text).not.toMatch(/^want/m);
    const cwd = folder();
    writeFileSync(join(cwd, 'line.yaml'), text);
    const named = [...text.matchAll(/^# {3}evensow (.*?) {3}/gm)].map(([, typed]) =>
      typed!.trim().split(' '),
    );
    expect(named.map(([command]) => command)).toEqual(['check', 'run', 'search', 'watch', 'chores']);
    for (const args of named) {
      const more = args[0] === 'search' ? ['--every', '3', '--seeds', '2', '--channels', 'nursery=2'] : [];
      expect((await evensow([...args, ...more], { cwd })).code).toBe(0);
    }
  });

  test('--start is the first day', async () => {
    expect(await byOptions(['--start', '2027-03-02'])).toContain('start: 2027-03-02');
  });
});

test('without a terminal all answers that lack and all that are wrong are told at once, each with an example', async () => {
  const cwd = folder();
  const wrong = ['--stages', '1 tray of 0', '--heads', 'many', '--start', '2027-02-30'];
  const { code, out, err } = await evensow(['new', 'line.yaml', ...wrong], { cwd });
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err.trimEnd().split('\n')).toEqual([
    'evensow: --start must not be "2027-02-30". It must be an existing date as YYYY-MM-DD (year 1900 to 2999, month, day). 2027-02 has the days 01 to 28. Example: --start 2027-03-15',
    '--stages must not be "1 tray of 0". stage 1, holes: found 0; expected a whole number from 1 to 1000000 (holes per channel). Example: --stages "1 tray of 40, 2 channels of 24, 8 channels of 9"',
    '--heads must not be "many". It must be a whole number from 1 to 1000000000. Example: --heads "12"',
    '--crop must be given. It says what grows, and how many days it usually takes in each stage. Example: --crop "butterhead 7 14 21"',
    '--visits must be given. It says on which days you come: nothing is sown, moved or picked on others. Example: --visits "mon thu sat"',
    '--away must be given. It says when you are away: first and last day. Example: --away "2027-02-08..2027-02-14"',
  ]);
  expect(readdirSync(cwd)).toEqual([]);
});

test('the examples of the faults are taken', async () => {
  const { err } = await evensowOnce(['new', 'nothing-here.yaml'], { cwd: ROOT });
  const examples = [...err.matchAll(/Example: (--\w+) "(.*)"/g)].flatMap(([, option, value]) => [
    option!,
    value!,
  ]);
  expect(examples).toHaveLength(10);
  const cwd = folder();
  expect((await evensow(['new', 'line.yaml', ...examples], { cwd })).code).toBe(0);
});

test('a file that is there stays as it is, and no name is none', async () => {
  const cwd = folder();
  writeFileSync(join(cwd, 'line.yaml'), 'mine\n');
  const { code, err } = await evensow(['new', 'line.yaml', ...OPTIONS], { cwd });
  expect({ code, err }).toEqual({
    code: 2,
    err: 'evensow: line.yaml: there is such a file already, and it stays as it is. Name another.\n',
  });
  expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toBe('mine\n');
  for (const args of [[], ['-'], [''], ['.'], ['none/line.yaml']])
    expect((await evensow(['new', ...args, ...OPTIONS], { cwd })).code).toBe(2);
  // Nobody is asked in vain.
  const shown = asked([], { cwd });
  expect(await shown.ends()).toBe(2);
  expect(shown.text).not.toContain('1 of 5');
});

describe('asked on a terminal', () => {
  test('the same answers give the same file, to the byte; n ends it', async () => {
    const cwd = folder();
    const shown = asked([], { cwd });
    await answersAll(shown);
    await shown.shows(OFFER);
    expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toBe(await byOptions());
    shown.type('n');
    expect(await shown.ends()).toBe(0);
    expect(shown.written).toContain('in a usual week');
    expect(shown.isAlternate).toBe(false);
    expect(shown.written.lastIndexOf('\u001b[?25h')).toBeGreaterThan(
      shown.written.lastIndexOf('\u001b[?25l'),
    );
    expect(readdirSync(cwd)).toEqual(['line.yaml']);
  });

  test('what was given as options is not asked, and Enter alone says yes to the search', async () => {
    const cwd = folder();
    // So small that all plans around it are soon looked at.
    const small = ['--stages', 'bench: 1 x 6', '--crop', 'cress 7', '--visits', 'sat', '--heads', '1'];
    const shown = asked(small, { cwd });
    await shown.shows(/5 of 5:/);
    expect(shown.text).not.toContain('4 of 5');
    await shown.shows(/\n>$/);
    shown.type('\r');
    await shown.shows(OFFER);
    shown.type('\r');
    expect(await shown.ends()).toBe(0);
    expect(shown.written).toMatch(
      /sought is the plan with the fewest holes that brings at least 1\s+head in 90 %/,
    );
    expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toContain('away: []');
  });

  test('where the holes cannot bring the wish it says so, and Enter alone says no to the search', async () => {
    const cwd = folder();
    // 6 holes for 7 days each: 6 heads a week if every seed is picked.
    const small = ['--stages', 'bench: 1 x 6', '--crop', 'cress 7', '--visits', 'daily', '--heads', '50'];
    const shown = asked(small, { cwd, columns: 120 });
    await shown.shows(/\n>$/);
    shown.type('\r');
    await shown.shows(/it may find none[\s\S]*y\/N/);
    const most = /take in seedlings for about ([\d.]+) heads a week/.exec(
      shown.text.replace(/\s+/g, ' '),
    )![1]!;
    expect(Number(most)).toBeLessThan(6);
    expect(shown.text.replace(/\s+/g, ' ')).toContain(
      `Your holes bring about ${most} heads a week at most, and the search tries few channels more: it may find none. Look for`,
    );
    shown.type('\r');
    expect(await shown.ends()).toBe(0);
    expect(shown.written).not.toContain('sought is the plan');
  });

  test('nonsense is asked again with the reason, and the line can be mended or cleared', async () => {
    const cwd = folder();
    const shown = asked(['--crop', 'butterhead', '--visits', 'daily', '--heads', '12', '--away', 'none'], {
      cwd,
    });
    await shown.shows(/\n>$/);
    await says(shown, '1 tray of 0');
    await shown.shows(/found 0; expected a whole number from 1 to 1000000/);
    await shown.shows(/\n> 1 tray of 0$/);
    shown.type('\u007f40, x');
    await shown.shows(/\n> 1 tray of 40, x$/);
    // The letter of a key with Ctrl is no answer.
    const { length } = shown.written;
    shown.type('\u0001');
    await shown.until(
      () => shown.written.length > length && /\n> 1 tray of 40, x$/.test(shown.text),
      'the line to be offered anew',
    );
    shown.type('y');
    await shown.shows(/\n> 1 tray of 40, xy$/);
    shown.type('\r');
    await shown.shows(/Found "xy"; expected/);
    await shown.shows(/\n> 1 tray of 40, xy$/);
    shown.type(CTRL_U);
    await shown.shows(/\n>$/);
    await says(shown, '3 x 30, 5 x 9');
    await shown.shows(OFFER);
    expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toContain('{name: nursery, channels: 3, holes: 30}');
  });

  test('days that do not fit the stages that are answered are asked again', async () => {
    const cwd = folder();
    const more = ['--visits', 'daily', '--heads', '12', '--away', 'none'];
    const shown = asked(['--crop', 'bok 7 14 21', ...more], { cwd });
    await shown.shows(/\n>$/);
    await says(shown, '3 x 30, 5 x 9');
    await shown.shows(/Found 3 numbers behind "bok"; expected .*\(nursery\s+and\s+finishing/s);
    await shown.shows(/\n> bok 7 14 21$/);
    shown.type('\u007f\u007f\u007f\r');
    await shown.shows(OFFER);
    expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toContain('finishing: {days: 14,');
  });

  test('a wrong option is a fault before anything is asked', async () => {
    const shown = asked(['--heads', 'many'], { cwd: folder() });
    expect(await shown.ends()).toBe(2);
    expect(shown.text).toContain('--heads must not be "many"');
    expect(shown.text).not.toContain('--crop must be given');
  });

  test('answers that are pasted at once are taken one after the other', async () => {
    const cwd = folder();
    const shown = asked([], { cwd });
    await shown.shows(/\n>$/);
    shown.type(`${Object.values(ANSWERS).join('\r')}\r`);
    await shown.shows(OFFER);
    expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toBe(await byOptions());
  });

  test.each([
    ['Ctrl-C', CTRL_C],
    ['Escape', ESCAPE],
    ['the end of the input', CTRL_D],
  ])('%s leaves nothing behind', async (_, key) => {
    const cwd = folder();
    const shown = asked([], { cwd });
    await shown.shows(/\n>$/);
    await says(shown, ANSWERS.stages);
    await shown.shows(/2 of 5/);
    await shown.shows(/\n>$/);
    shown.type('butter');
    await shown.shows('> butter');
    shown.type(key);
    expect(await shown.ends()).toBe(130);
    expect(shown.text).toContain('nothing was written');
    expect(readdirSync(cwd)).toEqual([]);
    expect(shown.written.lastIndexOf('\u001b[?25h')).toBeGreaterThan(
      shown.written.lastIndexOf('\u001b[?25l'),
    );
  });

  test('a terminal that goes away leaves nothing behind', async () => {
    const cwd = folder();
    const shown = asked([], { cwd });
    await shown.shows(/\n>$/);
    shown.kill('SIGHUP');
    await shown.ends();
    expect(readdirSync(cwd)).toEqual([]);
  });

  test('a small window shows each question, and clears nothing that stood above', async () => {
    const cwd = folder();
    const shown = asked([], { cwd, columns: 60, rows: 16 });
    await answersAll(shown);
    await shown.shows(OFFER);
    // Words are not broken at the edge.
    expect(shown.text).toContain('Look for the plan with the fewest holes that brings at least\n');
    expect(shown.written).not.toContain('\u001b[2J');
    expect(shown.written).not.toContain('\u001b[3J');
    expect(existsSync(join(cwd, 'line.yaml'))).toBe(true);
  });

  test('with NO_COLOR there is no colour, and with plain signs none but ASCII', async () => {
    const shown = asked([], { cwd: folder(), env: { NO_COLOR: '1', TERM: 'linux', LANG: 'C' } });
    await answersAll(shown);
    await shown.shows(OFFER);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: a sequence that colours begins with one
    expect(shown.written).not.toMatch(/\u001b\[(3|4|9|10)\d/);
    expect([...shown.written].filter((sign) => sign > '~' && sign !== '\u007f')).toEqual([]);
  });

  test('for somebody who listens each line is said once', async () => {
    const cwd = folder();
    const shown = asked(['--aloud'], { cwd });
    await answersAll(shown);
    await shown.shows(OFFER);
    expect(shown.written.split('1 of 5:').length - 1).toBe(1);
    expect(readFileSync(join(cwd, 'line.yaml'), 'utf8')).toBe(await byOptions());
  });
});
