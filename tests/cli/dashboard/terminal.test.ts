/**
 * The real program in a real pseudo-terminal, seen through an emulated screen.
 *
 * The golden screens lie in `screens`; `UPDATE_SCREENS=1 npx vitest run tests/cli/dashboard/terminal.test.ts` writes them
 * anew. Look at them before you commit them.
 */

import { cp, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/scenario/read.js';
import { evensow } from '../program.js';
import { Screen, type ScreenOptions } from './screen.js';

const KEYS = {
  right: '\u001b[C',
  left: '\u001b[D',
  down: '\u001b[B',
  pageDown: '\u001b[6~',
  end: '\u001b[F',
  escape: '\u001b',
};
/** The figures are there, with what holds the line back. */
const ANSWERED = /held back by +[a-z]/;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'evensow-'));
});
afterAll(async () => {
  await rm(folder, { recursive: true });
});

let screen: Screen | null = null;
afterEach(() => {
  screen?.close();
  screen = null;
});

/** The dashboard, with the figures of its first plan on the screen. */
async function opened(args: readonly string[] = [], options: ScreenOptions = {}): Promise<Screen> {
  screen = new Screen(args, options);
  await screen.shows(ANSWERED);
  await screen.settles();
  return screen;
}

async function expectGolden(name: string, text: string): Promise<void> {
  const file = fileURLToPath(new URL(`screens/${name}.txt`, import.meta.url));
  if (process.env['UPDATE_SCREENS']) await writeFile(file, `${text}\n`);
  expect(`${text}\n`).toBe(await readFile(file, 'utf8'));
}

describe('without an argument it opens on the built-in scenario,', () => {
  test.each([
    [80, 24],
    [120, 40],
    [200, 60],
  ])('%d x %d', async (columns, rows) => {
    const { text, isAlternate, lines } = await opened([], { columns, rows });
    expect(isAlternate).toBe(true);
    expect(lines.every((line) => [...line].length <= columns)).toBe(true);
    await expectGolden(`first-${columns}x${rows}`, text);
  });

  test('with signs of plain ASCII where the locale has no others', async () => {
    const { text } = await opened([], { env: { LANG: 'C' } });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII
    expect(text).toMatch(/^[\u0000-\u007f]*$/);
    await expectGolden('plain-80x24', text);
  });
});

describe('keys', () => {
  test('move the day, by one and by seven', async () => {
    const shown = await opened();
    shown.type(KEYS.right + KEYS.right);
    await shown.shows('day 2 of 182');
    shown.type(KEYS.pageDown);
    await shown.shows('day 9 of 182');
    shown.type(KEYS.left);
    await shown.shows('day 8 of 182');
    shown.type(KEYS.end);
    await shown.shows('day 182 of 182');
  });

  test('let the season run and stop it at any day', async () => {
    const shown = await opened();
    shown.type(' ');
    await shown.shows(/day (1\d|2\d) of 182/);
    shown.type(' ');
    const resting = await shown.settles();
    expect(resting).toContain('at rest');
    await expect(shown.settles(400)).resolves.toBe(resting);
  });

  test('change the plan; what that brings is shown, and undo brings the screen back', async () => {
    const shown = await opened();
    const before = shown.text;
    shown.type('-');
    await shown.shows(/sow +every 2 d/);
    await shown.shows(/heads a week +\+\d.*more/);
    await shown.shows(ANSWERED);
    await expectGolden('every-2-days-80x24', await shown.settles());
    shown.type('u');
    await shown.shows(/sow +every 3 d/);
    await shown.shows(/bad week +-\d.*less/);
    await shown.shows(ANSWERED);
    await shown.settles();
    // The difference to the plan that was undone is not shown any more; all else is as it was.
    const figures = (text: string): string => text.split('\n').slice(0, 16).join('\n');
    expect(figures(shown.text)).toBe(figures(before));
  });

  test('show the help, and take it away', async () => {
    const shown = await opened();
    const before = shown.text;
    shown.type('?');
    await shown.shows('keep this plan beside the others');
    await expectGolden('help-80x24', await shown.settles());
    shown.type('?');
    await shown.shows(/sow +every 3 d/);
    expect(await shown.settles()).toBe(before);
  });
});

describe('saving', () => {
  test('writes the plan on the screen as a scenario, and asks before it writes over a file', async () => {
    const path = join(folder, 'plan.yaml');
    const shown = await opened();
    shown.type('-');
    await shown.shows(/sow +every 2 d/);
    shown.type('s');
    await shown.settles();
    shown.type(`${path}\r`);
    await shown.shows('Written:');
    const text = await readFile(path, 'utf8');
    const original = await readFile('scenarios/home-shelf.yaml', 'utf8');
    expect(text).toBe(original.replace('{every: 3, seeds: 10}', '{every: 2, seeds: 10}'));
    expect(readScenario(text).ok).toBe(true);

    shown.type('-s');
    await shown.settles();
    shown.type(`${path}\r`);
    await shown.settles();
    shown.type('n');
    await shown.shows('Nothing was written.');
    expect(await readFile(path, 'utf8')).toBe(text);

    shown.type('s');
    await shown.settles();
    shown.type(`${path}\r`);
    await shown.settles();
    shown.type('y');
    await shown.shows('Written:');
    expect(await readFile(path, 'utf8')).toContain('{every: 1, seeds: 10}');
  });

  test('into a folder that is not there says so, and goes on', async () => {
    const shown = await opened([], { columns: 120, rows: 40 });
    shown.type('s');
    await shown.settles();
    shown.type('/nowhere/plan.yaml\r');
    await shown.shows('there is no folder /nowhere');
    shown.type('q');
    expect(await shown.ends()).toBe(0);
  });
});

test('with a log it shows the real season, and why holes stood empty', async () => {
  const shown = await opened(['watch', 'scenarios/home-shelf.yaml', 'scenarios/logs/cellar-2027.csv'], {
    columns: 120,
    rows: 40,
  });
  shown.type(KEYS.pageDown.repeat(8));
  await shown.shows('day 56 of 182');
  expect(shown.text).toContain('the season of the log');
  expect(shown.text).toContain('too little was sown');
  await expectGolden('log-120x40', await shown.settles());
});

describe('resizing', () => {
  test('draws the picture anew in each size, and says what it needs when it is too small', async () => {
    const shown = await opened();
    const { text: before } = shown;
    shown.resize(120, 40);
    await shown.settles();
    await expectGolden('first-120x40', shown.text);
    shown.resize(40, 10);
    await shown.shows(/needs a window of/);
    shown.resize(80, 24);
    await shown.shows(ANSWERED);
    expect(await shown.settles()).toBe(before);
    expect(shown.scrollback).toBe(0);
  });
});

describe('leaving gives the terminal back:', () => {
  /** The first screen as it was, nothing of the dashboard on it, and the cursor shown. */
  function expectRestored(shown: Screen): void {
    expect(shown.isAlternate).toBe(false);
    expect(shown.lines[0]).toBe('before the program');
    expect(shown.scrollback).toBe(0);
    expect(shown.written).not.toContain('\u001b[3J');
    expect(shown.written.lastIndexOf('\u001b[?25h')).toBeGreaterThan(
      shown.written.lastIndexOf('\u001b[?25l'),
    );
  }

  test.each([
    ['q', 'q'],
    ['Ctrl-C', '\u0003'],
  ])('%s ends with 0', async (_, key) => {
    const shown = await opened();
    shown.type(key);
    expect(await shown.ends()).toBe(0);
    expectRestored(shown);
    expect(shown.lines.slice(1).join('')).toBe('');
  });

  test('while a season runs and an answer is out', async () => {
    const shown = await opened();
    shown.type(' -');
    shown.type('q');
    expect(await shown.ends()).toBe(0);
    expectRestored(shown);
  });

  test.each([
    ['SIGTERM', 143],
    ['SIGHUP', 129],
    ['SIGINT', 130],
  ])('%s ends with %d', async (signal, code) => {
    const shown = await opened();
    shown.kill(signal);
    expect(await shown.ends()).toBe(code);
    expectRestored(shown);
  });

  test('a fault of the program ends with 1 and says what to report', async () => {
    // A copy of the program whose second thread is broken.
    const broken = join(folder, 'broken');
    await cp('dist', join(broken, 'dist'), { recursive: true });
    for (const name of ['scenarios', 'node_modules', 'package.json']) {
      await symlink(join(process.cwd(), name), join(broken, name));
    }
    await writeFile(join(broken, 'dist', 'seasons-thread.js'), "throw new Error('the thread is broken');\n");
    screen = new Screen([], { binary: join(broken, 'dist', 'evensow.js') });
    expect(await screen.ends()).toBe(1);
    expectRestored(screen);
    expect(screen.text).toContain('this is a fault of the program');
    expect(screen.text).toContain('the thread is broken');
  });
});

describe('manners', () => {
  test('NO_COLOR: no colours at all', async () => {
    const { written } = await opened([], { env: { NO_COLOR: '1' } });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
    expect(written).not.toMatch(/\u001b\[(3[0-7]|9[0-7]|38|4[0-7]|48)[;m]/);
  });

  test('else only the 16 colours that every terminal has', async () => {
    const { written } = await opened();
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
    expect(written).toMatch(/\u001b\[(3[0-7]|9[0-7])m/);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
    expect(written).not.toMatch(/\u001b\[[34]8[;m]/);
  });

  test('CI in the environment changes nothing for somebody who watches', async () => {
    const { text } = await opened([], { env: { CI: '1' } });
    await expectGolden('first-80x24', text);
  });

  test('a wrong file is told before anything is drawn', async () => {
    const path = join(folder, 'wrong.yaml');
    await writeFile(path, 'weeks: -3\n');
    screen = new Screen(['watch', path]);
    expect(await screen.ends()).toBe(2);
    expect(screen.written).not.toContain('\u001b[?1049h');
    expect(screen.text).toContain('weeks');
  });

  test('--aloud says it in sentences, on the first screen', async () => {
    screen = new Screen(['watch', '--aloud']);
    await screen.shows(/usual week/i);
    await screen.settles();
    expect(screen.isAlternate).toBe(false);
    screen.type('q');
    expect(await screen.ends()).toBe(0);
  });

  test('a terminal that cannot be drawn on gets the text of run', async () => {
    screen = new Screen([], { env: { TERM: 'dumb' } });
    expect(await screen.ends()).toBe(0);
    expect(screen.written).toContain('What you will pick');
  });
});

describe('in a pipe', () => {
  test('nothing is drawn: without an argument it is the text of run', async () => {
    const { code, out, err } = await evensow([]);
    expect([code, err]).toEqual([0, '']);
    expect(out).toBe((await evensow(['run'])).out);
  });

  test('watch says why, and gives the text of run', async () => {
    const { code, out, err } = await evensow(['watch']);
    expect(code).toBe(0);
    expect(err).toContain('on a terminal only');
    expect(out).toContain('What you will pick');
  });
});
