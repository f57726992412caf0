/**
 * The real program in a real pseudo-terminal, seen through an emulated screen.
 *
 * The golden screens lie in `screens`; `UPDATE_SCREENS=1 npx vitest run tests/cli/dashboard/terminal.test.ts` writes them
 * anew. Look at them before you commit them.
 */

import { existsSync } from 'node:fs';
import { cp, readFile, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/scenario/read.js';
import { ownFolder } from '../../support/folder.js';
import { BINARY, evensow, evensowAlone, evensowOnce } from '../program.js';
import { Screen, type ScreenOptions } from './screen.js';

const KEYS = {
  right: '\u001b[C',
  left: '\u001b[D',
  up: '\u001b[A',
  down: '\u001b[B',
  shiftTab: '\u001b[Z',
  pageDown: '\u001b[6~',
  home: '\u001b[H',
  end: '\u001b[F',
};
/** All figures are there: of the plan on the screen and of those beside it, and what holds each back has been tried. */
const ANSWERED = /seasons each(, same luck)? [·-] /;

const folder = ownFolder();

let screen: Screen | null = null;
afterEach(() => {
  screen?.close();
  screen = null;
});

/** The dashboard, with the figures of its first plan on the screen. */
async function opened(args: readonly string[] = [], options: ScreenOptions = {}): Promise<Screen> {
  screen = new Screen(args, options);
  await screen.shows(ANSWERED);
  return screen;
}

/** An example that lasts a few weeks only, for what is claimed of a season however long it is; the built-in one, until after its absence. */
async function shortLine(name = 'home-shelf', weeks = 10): Promise<string> {
  const path = join(folder, `short-${name}.yaml`);
  const whole = await readFile(`scenarios/${name}.yaml`, 'utf8');
  await writeFile(path, whole.replace(/^weeks: \d+/m, `weeks: ${weeks}`));
  return path;
}

/** Wait until the screen is the golden one of this name. */
async function showsGolden(shown: Screen, name: string): Promise<void> {
  const file = fileURLToPath(new URL(`screens/${name}.txt`, import.meta.url));
  if (process.env['UPDATE_SCREENS']) await writeFile(file, `${await shown.settles(1000)}\n`);
  const golden = await readFile(file, 'utf8');
  await shown.until(() => `${shown.text}\n` === golden, `the screen ${name}:\n${golden}`);
}

/** A copy of the program with another second thread. @returns what is to be run */
async function programWith(name: string, thread: string): Promise<string> {
  const copy = join(folder, name);
  await cp('dist', join(copy, 'dist'), { recursive: true });
  for (const one of ['scenarios', 'node_modules', 'package.json']) {
    await symlink(join(process.cwd(), one), join(copy, one));
  }
  await writeFile(join(copy, 'dist', 'seasons-thread.js'), thread);
  return join(copy, 'dist', 'evensow.js');
}

/** Type what ends the program: it does well, and gives the terminal back. */
async function leaves(shown: Screen, keys: string): Promise<void> {
  shown.type(keys);
  expect(await shown.ends()).toBe(0);
  expectRestored(shown);
  expect(shown.lines.slice(1).join('')).toBe('');
}

/** The first screen as it was, nothing of the dashboard on it, and the cursor shown. */
function expectRestored(shown: Screen): void {
  expect(shown.isAlternate).toBe(false);
  expect(shown.lines[0]).toBe('before the program');
  expect(shown.scrollback).toBe(0);
  expect(shown.written).not.toContain('\u001b[3J');
  expect(shown.written.lastIndexOf('\u001b[?25h')).toBeGreaterThan(shown.written.lastIndexOf('\u001b[?25l'));
}

/** What is read of the JSON of compare and run. */
interface Compared {
  readonly name: string;
  readonly figures: Readonly<Record<'usual_week' | 'bad_week', { readonly mean: number }>>;
  readonly idle: readonly { readonly share: { readonly mean: number } }[];
  readonly limits: { readonly by: string; readonly stages: readonly string[] };
}

type AHead = Readonly<
  Record<'kwh_a_head' | 'litres_a_head' | 'minutes_a_head' | 'cost_a_head', { readonly mean: number }>
>;

type Trial = Readonly<Record<'gain' | 'low' | 'high', number>>;

function whole(share: number): string {
  return share > 0 && share < 0.005 ? '<1' : String(Math.round(share * 100));
}

function gained(value: number): string {
  return `${value > 0 ? '+' : ''}${value.toFixed(1)}`;
}

/** Each goes on where the one before has left the screen, since opening it takes longer than all that is asked of it. */
describe('without an argument it opens on the built-in scenario', () => {
  let shown: Screen;
  beforeAll(async () => {
    shown = new Screen([]);
    await shown.shows(ANSWERED);
  });
  afterAll(() => shown.close());

  test('and draws the picture anew in each size, and says what it needs when it is too small', async () => {
    await showsGolden(shown, 'first-80x24');
    expect(shown.isAlternate).toBe(true);
    for (const [columns, rows] of [
      [120, 40],
      [200, 60],
    ] as const) {
      shown.resize(columns, rows);
      await showsGolden(shown, `first-${columns}x${rows}`);
      expect(shown.lines.every((line) => [...line].length <= columns)).toBe(true);
    }
    shown.resize(60, 16);
    await showsGolden(shown, 'first-60x16');
    shown.resize(40, 10);
    await shown.shows(/needs a window of/);
    shown.resize(80, 24);
    await showsGolden(shown, 'first-80x24');
    // There and back, quicker than the program looks: for it nothing has changed, but the picture was cut off.
    shown.resize(60, 16);
    shown.resize(80, 24);
    await showsGolden(shown, 'first-80x24');
    expect(shown.scrollback).toBe(0);
    // Colours are those of 256 whose values are known, bold and turned round; none is faint, and no background is set.
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
    const codes = [...shown.written.matchAll(/\u001b\[([\d;]*)m/g)].flatMap(([, all]) =>
      all!.replace(/38;5;(2[0-9]|[3-9][0-9]|1\d\d|2\d\d)(?!\d)/g, 'fixed').split(';'),
    );
    expect(codes).toContain('fixed');
    expect([...new Set(codes)].filter((code) => !/^(fixed|0|1|7|22|27|39)$/.test(code))).toEqual([]);
  });

  test('a key costs few bytes, and the picture is drawn anew in full with the help, or if that is asked for', async () => {
    shown.resize(120, 40);
    await showsGolden(shown, 'first-120x40');
    const bytesOf = async (keys: string, expected: string): Promise<number> => {
      await shown.settles();
      const written = Buffer.byteLength(shown.written);
      shown.type(keys);
      await shown.shows(expected);
      await shown.settles();
      return Buffer.byteLength(shown.written) - written;
    };
    expect(await bytesOf(KEYS.right, 'day 50 of')).toBeLessThan(1000);
    expect(await bytesOf(KEYS.left, 'day 49 of')).toBeLessThan(1000);
    expect(await bytesOf(KEYS.down, '› seeds')).toBeLessThan(200);
    expect(await bytesOf(KEYS.up, '› sow')).toBeLessThan(200);
    expect(await bytesOf('\t', '►›3 d')).toBeLessThan(1000);
    expect(await bytesOf(KEYS.shiftTab, '› sow')).toBeLessThan(1000);
    // Something else wrote on the screen.
    for (const keys of ['\u000c', '?']) {
      shown.spill('\u001b[5;5Hspilt\u001b[30;9Hspilt');
      await shown.shows('spilt');
      shown.type(keys);
      await shown.until(() => !shown.text.includes('spilt'), 'a clean picture');
    }
    shown.type('?');
    await showsGolden(shown, 'first-120x40');
    shown.resize(80, 24);
    await showsGolden(shown, 'first-80x24');
  });

  test('whoever stops it has the terminal back; when it goes on it draws its picture anew and takes keys', async () => {
    const picture = await shown.settles();
    shown.kill('SIGTSTP');
    // It gives the terminal back and then stops: told to go on before it has stopped, it would stop after that, for good.
    await shown.until(() => !shown.isAlternate && shown.isStopped, 'the first screen, and nobody at work');
    expectRestored(shown);
    shown.kill('SIGCONT');
    await shown.until(() => shown.isAlternate && shown.text === picture, 'the same picture');
    // Ctrl-Z, which comes as a key while keys are taken one by one.
    shown.type('\u001a');
    await shown.until(() => !shown.isAlternate && shown.isStopped, 'the first screen after Ctrl-Z');
    expectRestored(shown);
    shown.kill('SIGCONT');
    await shown.until(() => shown.isAlternate && shown.text === picture, 'the same picture again');
  });

  test('the strip shows what compare says, the headline what run says, without a key', async () => {
    const screenText = await shown.shows(ANSWERED);
    const compared = JSON.parse((await evensow(['compare', '--every', '1,2,3,4,5', '--json'])).out);
    const rows = screenText.split('\n').slice(2, 7);
    expect(rows).toHaveLength(compared.plans.length);
    compared.plans.forEach((plan: Compared, i: number) => {
      const { usual_week, bad_week } = plan.figures;
      const idle = plan.idle.map(({ share }) => `${whole(share.mean)} %`);
      const held =
        plan.limits.by === 'sowing'
          ? 'what is sown'
          : plan.limits.by === 'stage'
            ? plan.limits.stages.join(' and ')
            : '';
      const cells = rows[i]!.replace(/^ ►? +/, '').split(/ {2,}/);
      const bar = cells[3]!;
      expect([cells[0]!.replace(' now', ''), cells[1], cells[2]]).toEqual([
        plan.name.replace('every ', ''),
        String(usual_week.mean),
        String(bad_week.mean),
      ]);
      expect(cells.slice(4, 7)).toEqual(idle);
      expect(held).toContain(cells[7]!.replace(/…$/, ''));
      const top = Math.max(...compared.plans.map((one: Compared) => one.figures.usual_week.mean));
      const width = Math.max(...rows.map((row) => /[━┿]+/.exec(row)![0].length));
      expect(bar.length).toBe(Math.round((usual_week.mean / top) * width));
      expect(bar.indexOf('┿') + 1).toBe(Math.round((bad_week.mean / top) * width));
    });
    const run = JSON.parse((await evensowOnce(['run', '--json'])).out);
    const held = `held back by ${run.limits.stages.join(' and ')}`;
    // What brings more than that is what the text of run calls so.
    const [, more] = /this brings more than any channel: (.*)\.$/m.exec((await evensowOnce(['run'])).out)!;
    expect(screenText.split('\n')[0]!.replace(/ +…$/, '')).toBe(
      ` ${run.running.p50} heads a week, ${run.running.p10} in a bad one; ${held}; more: ${more}`,
    );
    shown.resize(120, 40);
    await shown.shows(
      `  ${run.running.p50} heads in a usual week, ${run.running.p10} in a bad one; ${held}; ${more} would bring more\n`,
    );
  });

  test('remedies and shares of the season are what run says', async () => {
    await showsGolden(shown, 'first-120x40');
    const screenText = shown.text;
    const run = JSON.parse((await evensowOnce(['run', '--json'])).out);
    const remedies = run.limits.trials
      .filter(({ brings }: { brings: boolean }) => brings)
      .sort((a: Trial, b: Trial) => b.gain - a.gain);
    expect(remedies.length).toBeGreaterThan(1);
    const shownRemedies = [
      ...screenText.matchAll(/([+-]\d+\.\d) \(([+-]\d+\.\d) to ([+-]\d+\.\d)\)( most)?/g),
    ];
    expect(shownRemedies.length).toBeGreaterThan(1);
    shownRemedies.forEach(([, gain, low, high, most], i) => {
      const trial: Trial = remedies[i];
      expect([gain, low, high]).toEqual([trial.gain, trial.low, trial.high].map(gained));
      expect(most !== undefined).toBe(i === 0);
    });
    for (const { figures } of run.stages) {
      expect(screenText).toMatch(new RegExp(`, (season )?${whole(figures.idle.mean)} %`));
    }
    expect(screenText).toContain(`without a pick ${run.running.without_pick * 100} % of weeks`);
    shown.resize(80, 24);
    await showsGolden(shown, 'first-80x24');
  });

  test('keys change the plan; what that brings is shown, and undo brings the screen back', async () => {
    await showsGolden(shown, 'first-80x24');
    shown.type('-');
    await shown.shows(/heads a week \+\d.*more/);
    await showsGolden(shown, 'every-2-days-80x24');
    shown.type('u');
    await showsGolden(shown, 'undone-80x24');
    shown.type('?');
    await showsGolden(shown, 'help-80x24');
    shown.type('?');
    await showsGolden(shown, 'undone-80x24');
  });

  test('Tab leads to the strip, where Enter takes a row; undo brings the plan of before back', async () => {
    shown.type('\t');
    await shown.shows(/^ ►›3 d now /m);
    await showsGolden(shown, 'strip-80x24');
    shown.type(KEYS.down + KEYS.down);
    await shown.shows(/^ {2}›5 d /m);
    shown.type('+');
    await shown.shows('Tab leads to the plan; there values are changed.');
    shown.type('\r');
    await shown.shows(/^ ►›5 d now [\s\S]*sow +every 5 d/m);
    shown.type('u');
    await shown.shows(/^ ►›3 d now [\s\S]*sow +every 3 d/m);
    shown.resize(60, 16);
    await shown.shows('›►3 d');
    shown.type(KEYS.down);
    await shown.shows('›4 d');
    shown.resize(80, 24);
    shown.type(KEYS.shiftTab);
    await showsGolden(shown, 'undone-80x24');
  });

  test('a value is typed; one that the scenario does not take is told and can be mended; undo takes it back', async () => {
    shown.type(`${KEYS.down}0`);
    await shown.shows('seeds, now 10: 0▏');
    shown.type('\r');
    await shown.shows('Not taken: found 0; expected a whole number from 1 to 1000000 (seeds).');
    await showsGolden(shown, 'refused-80x24');
    shown.type('\u007f12\r');
    await shown.shows(/› seeds +12\b/);
    shown.type(`${KEYS.up}\r`);
    await shown.shows('sow, now every 3 d: ▏');
    shown.type('thu mon\r');
    await shown.shows(/› sow +mon thu/);
    // Now digits are weekdays.
    shown.type('1');
    await shown.shows(/› sow +thu /);
    shown.type('uuu');
    await showsGolden(shown, 'undone-80x24');
    // q closes what is open.
    shown.type('1');
    await shown.shows('sow, now every 3 d: 1▏');
    shown.type('q');
    await showsGolden(shown, 'undone-80x24');
  });

  test('c turns the strip; a plan that was kept stands in it in all sizes, also if its figures had not come yet', async () => {
    shown.type('c');
    await shown.shows(/^ Seeds +usual[\s\S]* ► 10 now +\d/m);
    // Kept and left within one burst: nothing of it is known when the next plan is asked about.
    shown.type('-k-');
    await shown.shows(/ ► 10 now[\s\S]*changed · 1 kept/);
    shown.type('ccccc');
    await shown.shows(/^ Kept plans[\s\S]* ► now +\d+ +\d+ [\s\S]* 1: sow every 2 d +\d+ +\d+ /m);
    await showsInAllSizes(shown, 'kept');
    shown.resize(80, 24);
  });

  test('keys move the day, by one and by seven; let the season run and stop it at any day; leave at any time', async () => {
    shown.type(KEYS.right + KEYS.right);
    await shown.shows('day 51 of 182');
    shown.type(KEYS.pageDown);
    await shown.shows('day 58 of 182');
    shown.type(KEYS.left);
    await shown.shows('day 57 of 182');
    shown.type(' ');
    await shown.shows(/day (5[89]|[6-9]\d|1[0-7]\d) of 182 .*running/);
    shown.type(' ');
    const day = Number(/day (\d+) of 182/.exec(await shown.shows('at rest'))![1]);
    // It rests: the next day is that of the key.
    shown.type(KEYS.right);
    await shown.shows(`day ${day + 1} of 182`);
    shown.type(KEYS.end);
    await shown.shows('day 182 of 182');
    // While a season runs backward, and an answer is out; a plan is kept.
    shown.type('b-q');
    await shown.shows('1 kept plan is not saved. Leave?');
    shown.type('n');
    await shown.shows('q leave');
    shown.type('q');
    await shown.shows('Leave?');
    await leaves(shown, 'y');
  });
});

const ALL_SIZES = [
  [80, 24],
  [60, 16],
  [120, 40],
  [200, 60],
] as const;

/** Each size one after the other, in one window. */
async function showsInAllSizes(shown: Screen, name: string): Promise<void> {
  for (const [columns, rows] of ALL_SIZES) {
    shown.resize(columns, rows);
    // A higher screen has more plans side by side; a low one does not say of how many seasons they are.
    if (rows > 16) await shown.shows(ANSWERED);
    await showsGolden(shown, `${name}-${columns}x${rows}`);
  }
}

describe('in all sizes is drawn', () => {
  test('a line of two crops with a want', async () => {
    await showsInAllSizes(await opened(['watch', await shortLine('kitchen-garden', 14)]), 'two-crops');
  });

  test('a line of long names, narrow and wide', async () => {
    const path = join(folder, 'long.yaml');
    const text = await readFile('scenarios/home-shelf.yaml', 'utf8');
    const called = (line: string, name: string, long: string): string =>
      line.replace(`{name: ${name},`, `{name: "${long}",`).replace(` ${name}: {`, ` "${long}": {`);
    await writeFile(
      path,
      text
        .replace(/^weeks: 26/m, 'weeks: 10')
        .split('\n')
        .map((line) => called(line, 'germination', 'germination trays on the warm mat, lower shelf'))
        .map((line) => called(line, 'nursery', '育苗室の棚育苗室の棚、下'))
        .map((line) => called(line, 'finishing', 'finishing gullies by the south window 🌱'))
        .join('\n')
        .replace(
          'title: Cellar line',
          'title: The cellar line behind the bakery, two shelves, as planned for 2027',
        ),
    );
    await showsInAllSizes(await opened(['watch', path]), 'long-names');
  });

  test('the Linux console', async () => {
    const shown = await opened(['watch', await shortLine()], { env: { TERM: 'linux' } });
    await showsInAllSizes(shown, 'console');
    expect(shown.written).not.toContain('38;5;');
  });
});

describe('a line that tells what it takes', () => {
  let rack: string;
  let shown: Screen;
  beforeAll(async () => {
    rack = await shortLine('lettuce-rack', 16);
    shown = new Screen(['watch', rack]);
    await shown.shows(ANSWERED);
  });
  afterAll(() => shown.close());

  /** The row of what a head takes, from figures as `--json` has them. */
  const takesRow = (figures: AHead, factor: number): string => {
    const [kwh, litres, minutes, cost] = [
      figures.kwh_a_head.mean.toFixed(2),
      figures.litres_a_head.mean.toFixed(2),
      figures.minutes_a_head.mean.toFixed(1),
      figures.cost_a_head.mean.toFixed(2),
    ];
    return ` A head takes ${kwh} kWh, ${litres} L (good to a factor of ${factor}), ${minutes} min; costs ${cost}`;
  };

  test('shows it with its caution in all sizes, the cadences beside each other all the same', async () => {
    for (const [columns, rows] of ALL_SIZES.slice(0, 3)) {
      shown.resize(columns, rows);
      if (rows > 16) await shown.shows(ANSWERED);
      await showsGolden(shown, `takes-${columns}x${rows}`);
    }
  });

  test('with the figures of run and of compare, also after a change to the plan', async () => {
    shown.resize(80, 24);
    await showsGolden(shown, 'takes-80x24');
    const run = JSON.parse((await evensowOnce(['run', rack, '--json'])).out);
    const factor = run.water.good_to_factor;
    const lines = shown.lines;
    expect(lines[1]).toBe(takesRow(run.figures, factor));
    // The cost is that of the season over its picks, the light that of its groups.
    expect(run.figures.cost_a_head.mean).toBe(run.money.cost_per_head.mean);
    expect(run.figures.kwh_a_head.mean).toBe(run.light.kwh_per_head.mean);

    const asked = ['compare', rack, '--every', '2,1,3,4,5', '--by', 'cost_a_head', '--json'];
    const { plans } = JSON.parse((await evensow(asked)).out);
    const called = (every: number) => plans.find(({ name }: Compared) => name === `every ${every} d`);
    for (const every of [1, 2, 3, 4, 5]) {
      const row = lines.find((line) => new RegExp(`^ .. ?${every} d `).test(line))!;
      expect(row).toContain(` % ${called(every).figures.cost_a_head.mean.toFixed(2).padStart(6)}  `);
    }
    shown.resize(140, 45);
    await shown.shows(/ minutes\/head [\s\S]*seasons each, same luck/);
    for (const every of [1, 2, 3, 4, 5]) {
      const { cost_a_head, kwh_a_head, litres_a_head, minutes_a_head }: AHead = called(every).figures;
      expect(shown.text).toMatch(
        new RegExp(
          ` ${every} d .* ${cost_a_head.mean.toFixed(2)} +${kwh_a_head.mean.toFixed(2)} +${litres_a_head.mean.toFixed(2)} +${minutes_a_head.mean.toFixed(1)} `,
        ),
      );
    }
    shown.resize(80, 24);
    await shown.shows(ANSWERED);
    await showsGolden(shown, 'takes-80x24');
    shown.type('+');
    await shown.shows(takesRow(called(3).figures, factor));
  });
});

test('while seasons are computed each part has its place already', async () => {
  // A copy of the program whose second thread never answers: what is shown then stays.
  const slow = await programWith('slow', 'setInterval(() => {}, 1e9);\n');
  screen = new Screen(['watch', await shortLine('lettuce-rack', 16)], { binary: slow });
  await showsGolden(screen, 'computing-80x24');
  const done = await readFile(fileURLToPath(new URL('screens/takes-80x24.txt', import.meta.url)), 'utf8');
  const places = (text: string): number[] =>
    text
      .split('\n')
      .flatMap((line, y) => (/^ (Mains|Sow every|Heads a week| *. sow|up down)/.test(line) ? [y] : []));
  expect(places(screen.text)).toEqual(places(done));
  expect(places(done)).toHaveLength(5);
});

test('with signs of plain ASCII where the locale has no others, without any colour if NO_COLOR says so; CI changes nothing', async () => {
  const shown = await opened(['watch', await shortLine()], { env: { LANG: 'C', NO_COLOR: '1', CI: '1' } });
  await showsInAllSizes(shown, 'plain');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII
  expect(shown.text).toMatch(/^[\u0000-\u007f]*$/);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
  expect(shown.written).not.toMatch(/\u001b\[(3[0-8]|9[0-7]|4[0-8])(;[\d;]*)?m/);
});

test('saving writes the plan on the screen as a scenario, and asks before it writes over a file', async () => {
  const path = join(folder, 'plan.yaml');
  const original = await readFile('scenarios/home-shelf.yaml', 'utf8');
  // No figures are needed for it.
  const shown = new Screen([], { columns: 120, rows: 40 });
  screen = shown;
  await shown.shows('q leave');
  const name = async (typed: string): Promise<void> => {
    shown.type('s');
    await shown.shows('Save as:');
    shown.type(`${typed}\r`);
  };
  shown.type('-');
  await shown.shows(/sow +every 2 d/);
  await name(path);
  await shown.shows('Written:');
  const text = await readFile(path, 'utf8');
  expect(text).toBe(original.replace('{every: 3, seeds: 10}', '{every: 2, seeds: 10}'));
  expect(readScenario(text).ok).toBe(true);

  shown.type('-');
  await shown.shows(/sow +every 1 d/);
  await name(path);
  await shown.shows('Write over it?');
  shown.type('n');
  await shown.shows('Nothing was written.');
  expect(await readFile(path, 'utf8')).toBe(text);

  await name(path);
  await shown.shows('Write over it?');
  shown.type('y');
  await shown.shows('Written:');
  expect(await readFile(path, 'utf8')).toContain('{every: 1, seeds: 10}');

  await name('/nowhere/plan.yaml');
  await shown.shows('there is no folder /nowhere');
});

test('the plans side by side are saved as compare tells them, once all their seasons are there', async () => {
  const [text, table] = [join(folder, 'strip.txt'), join(folder, 'strip.csv')];
  const short = await shortLine();
  const shown = new Screen(['watch', short]);
  screen = shown;
  await shown.shows('q leave');
  // Asked before all seasons are there; another season is looked at in the meantime.
  shown.type('s');
  await shown.shows('Save as:');
  shown.type(text);
  await shown.shows('as text');
  shown.type('\r');
  await shown.until(() => !shown.text.includes('Save as:'), 'the name to be taken');
  // What is said goes with this key, whether it is said before or after.
  shown.type('m');
  await shown.shows('season 2');
  await shown.until(() => existsSync(text), 'the file');
  const asked = ['compare', short, '--every', '3,1,2,4,5'];
  expect(await readFile(text, 'utf8')).toBe((await evensow(asked)).out);

  shown.type('s');
  await shown.shows('Save as:');
  shown.type(`${table}\r`);
  await shown.shows(`Written: ${table}`);
  const csv = (await evensow([...asked, '--csv'])).out;
  expect(await readFile(table, 'utf8')).toBe(csv);

  // Other plans, and never over a file without asking.
  shown.type('c');
  await shown.shows(ANSWERED);
  shown.type('s');
  await shown.shows('Save as:');
  shown.type(`${table}\r`);
  await shown.shows('Write over it?');
  shown.type('n');
  await shown.shows('Nothing was written.');
  expect(await readFile(table, 'utf8')).toBe(csv);
  shown.type('s');
  await shown.shows('Save as:');
  shown.type(`${table}\r`);
  await shown.shows('Write over it?');
  shown.type('y');
  await shown.shows(`Written: ${table}`);
  expect(await readFile(table, 'utf8')).toMatch(/^plan,.*\r?\n10 seeds,[\s\S]*\n8 seeds,[\s\S]*\n12 seeds,/);
  shown.type('s');
  await shown.shows('Save as:');
  shown.type('/nowhere/strip.txt\r');
  await shown.shows('there is no folder /nowhere');
  // The name stands there to be mended.
  shown.type('\u001b');
  await shown.until(() => !shown.text.includes('Save as:'), 'the name to be left');
  await leaves(shown, 'q');
});

test('with a log it shows the real season, and why holes stood empty', async () => {
  const shown = await opened(['watch', 'scenarios/home-shelf.yaml', 'scenarios/logs/cellar-2027.csv'], {
    columns: 120,
    rows: 40,
  });
  // What stands at the end of the log comes first.
  expect(shown.text).toContain('day 181 of 182');
  shown.type(KEYS.home + KEYS.pageDown.repeat(8));
  await showsInAllSizes(shown, 'log');
  shown.resize(120, 40);
  await showsGolden(shown, 'log-120x40');
  expect(shown.text).toContain('the season of the log');
  expect(shown.text).toContain('too little was sown');
  await leaves(shown, '\u0003');
});

describe('a signal or a fault gives the terminal back, as q and Ctrl-C do:', () => {
  test.each([
    ['SIGTERM', 143],
    ['SIGHUP', 129],
    ['SIGINT', 130],
  ])('%s ends with %d', async (signal, code) => {
    screen = new Screen([]);
    await screen.shows('q leave');
    screen.kill(signal);
    expect(await screen.ends()).toBe(code);
    expectRestored(screen);
  });

  test('a fault of the program ends with 1 and says what to report', async () => {
    screen = new Screen([], {
      binary: await programWith('broken', "throw new Error('the thread is broken');\n"),
    });
    expect(await screen.ends()).toBe(1);
    expectRestored(screen);
    expect(screen.text).toContain('this is a fault of the program');
    expect(screen.text).toContain('the thread is broken');
  });
});

describe('where it cannot or should not draw', () => {
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
    expect(screen.isAlternate).toBe(false);
    screen.type('q');
    expect(await screen.ends()).toBe(0);
  });

  test('--aloud is stopped by Ctrl-Z too: a shell has the terminal back, and fg goes on where keys are taken', async () => {
    // Only a shell that knows jobs lets a program be stopped so: no program that began a session of its own can be.
    const job = `"${process.execPath}" "${BINARY}" watch --aloud; echo "left with $?"; read -r line; echo "read $line"; fg`;
    screen = new Screen([], { command: ['bash', '-m', '-c', job] });
    await screen.shows(/usual week/i);
    screen.type('\u001a');
    // 128 and the number of SIGTSTP.
    await screen.shows('left with 148');
    expect(screen.isAlternate).toBe(false);
    // Lines are read again, and what is typed is seen.
    screen.type('a line\r');
    await screen.shows(/^a line\n+read a line$/m);
    screen.type('+');
    await screen.shows(/sow: every 4 d, chosen/);
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
    const { code, out, err } = await evensowAlone([]);
    expect([code, err]).toEqual([0, '']);
    expect(out).toBe((await evensow(['run'])).out);
  });

  test('watch says why, and gives the text of run', async () => {
    const { code, out, err } = await evensowAlone(['watch']);
    expect(code).toBe(0);
    expect(err).toContain('on a terminal only');
    expect(out).toContain('What you will pick');
  });
});
