/**
 * How quick the dashboard is: the real program in a pseudo-terminal, timed from the key that is typed to what an emulated
 * screen shows. And how its memory grows, in a process of its own.
 */

import { existsSync, readFileSync } from 'node:fs';
import { setImmediate as breathe } from 'node:timers/promises';
import { render } from 'ink';
import { createElement } from 'react';
import { Dashboard } from '../../cli/dashboard/dashboard.js';
import { beginning, reduce, type State } from '../../cli/dashboard/state/state.js';
import { DRAWN } from '../../cli/dashboard/theme.js';
import { readScenario } from '../../sim/scenario/read.js';
import { gather } from '../../sim/seasons/gather.js';
import { filmOf } from '../../sim/study/film/film.js';
import { runStudy } from '../../sim/study/summary.js';
import { Screen } from '../cli/dashboard/screen.js';
import { quantile, type Row } from './rows.js';

/** Changes of the plan that are timed. */
const CHANGES = 40;
/** Seconds that a season is let run. */
const PLAYED = 8;
const SIZE = { columns: 120, rows: 40 };

export async function dashboard(): Promise<Row[]> {
  return [...(await keys()), ...(await hall()), ...(await bytes()), ...(await playing())];
}

/** All of the strip is there, and what holds each plan back. */
const COMPLETE = /seasons each(, same luck)? · /;

/** From a key to the new value on the screen, to the new figures, to the whole strip. */
async function keys(): Promise<Row[]> {
  const screen = new Screen([], SIZE);
  await screen.shows(COMPLETE);
  // The seeds knob: each value is another plan, none is remembered from before, nor are its neighbours.
  screen.type('\u001b[B');
  await screen.settles();
  const [echoes, figures, strips]: [number[], number[], number[]] = [[], [], []];
  for (let i = 0; i < CHANGES; i++) {
    const seeds = 11 + i;
    const began = performance.now();
    screen.type('+');
    await screen.until(() => new RegExp(`seeds +${seeds}\\b`).test(screen.text), 'the echo', 1);
    echoes.push(performance.now() - began);
    await screen.until(
      () => /heads a week [+-]?\d.*\(/.test(screen.text) && !isRunning(screen),
      'the figures',
      1,
    );
    figures.push(performance.now() - began);
    // In half of the cases the next key comes while the strip is being computed.
    if (i % 2 !== 0) continue;
    await screen.until(() => COMPLETE.test(screen.text), 'the strip', 1);
    strips.push(performance.now() - began);
  }
  screen.type('q');
  await screen.ends();
  screen.close();
  return [
    { ...timeRow('key to echo, while seasons run, median', quantile(echoes, 0.5), 0), target: '', met: null },
    timeRow('key to echo, while seasons run, 95 %', quantile(echoes, 0.95), 30),
    timeRow('key to new figures of 200 seasons, median', quantile(figures, 0.5), 100),
    timeRow('key to new figures of 200 seasons, 95 %', quantile(figures, 0.95), 200),
    timeRow('key to the strip of 7 plans, complete, 95 %', quantile(strips, 0.95), 1500),
  ];
}

function isRunning(screen: Screen): boolean {
  return /running 200 seasons|of the plan before|the plan before: /.test(screen.text);
}

/** From the start of the program to the first figures of a hall of 155 000 holes. */
async function hall(): Promise<Row[]> {
  const began = performance.now();
  const screen = new Screen(['watch', 'scenarios/hall-150000.yaml'], SIZE);
  await screen.until(() => /\d+ of \d+ seasons: /.test(screen.text), 'the first figures', 1);
  const took = performance.now() - began;
  screen.type('q');
  await screen.ends();
  screen.close();
  return [timeRow('start to first figures of 155 000 holes', took, 2000)];
}

function timeRow(what: string, ms: number, target: number): Row {
  return { what, measured: `${ms.toFixed(0)} ms`, target: `< ${target} ms`, met: ms < target };
}

/** Bytes that a key costs. */
async function bytes(): Promise<Row[]> {
  const screen = new Screen([], SIZE);
  await screen.shows(COMPLETE);
  await screen.settles();
  const costs: number[] = [];
  for (const key of ['\u001b[C', '\u001b[D', '\u001b[B', '\u001b[A', '\t', 'k']) {
    const before = Buffer.byteLength(screen.written);
    screen.type(key);
    await screen.settles();
    costs.push(Buffer.byteLength(screen.written) - before);
  }
  screen.type('q');
  screen.type('y');
  await screen.ends();
  screen.close();
  return [kilobytesRow(`bytes of a key that is not a change, at most`, Math.max(...costs) / 1000, 1)];
}

function kilobytesRow(what: string, measured: number, target: number): Row {
  return { what, measured: `${measured.toFixed(2)} KB`, target: `< ${target} KB`, met: measured < target };
}

/** Days shown a second, and what of a core and of the line that takes. */
async function playing(): Promise<Row[]> {
  const screen = new Screen([], SIZE);
  await screen.shows(COMPLETE);
  await screen.settles();
  const cpu = cpuOf(screen.pid);
  const first = dayOf(screen);
  const before = Buffer.byteLength(screen.written);
  const began = performance.now();
  screen.type(' ');
  await new Promise((resolve) => setTimeout(resolve, PLAYED * 1000));
  const seconds = (performance.now() - began) / 1000;
  const used = cpuOf(screen.pid);
  const days = dayOf(screen) - first;
  const written = Buffer.byteLength(screen.written) - before;
  screen.type('q');
  await screen.ends();
  screen.close();
  const rate = days / seconds;
  const rows: Row[] = [
    {
      what: `frames a second of a season that runs, ${SIZE.columns}x${SIZE.rows}`,
      measured: rate.toFixed(1),
      // The first frame comes a twentieth of a second after the key, and the last may be on its way.
      target: '>= 19.5 (20 less the ends)',
      met: rate >= 19.5,
    },
    kilobytesRow('bytes a second while it runs', written / seconds / 1000, 75),
  ];
  if (cpu === null || used === null) return rows;
  const share = (used - cpu) / seconds;
  return [
    ...rows,
    {
      what: 'share of a core while it runs',
      measured: `${(share * 100).toFixed(0)} %`,
      target: '< 60 %',
      met: share < 0.6,
    },
  ];
}

function dayOf(screen: Screen): number {
  return Number(/day (\d+) of/.exec(screen.text)?.[1]);
}

/** Processor time of a process so far [s]; null where the system does not tell. */
function cpuOf(pid: number): number | null {
  const file = `/proc/${pid}/stat`;
  if (!existsSync(file)) return null;
  // Fields behind the name, which stands in brackets; 14 and 15 are user and system time in hundredths of a second.
  const fields = readFileSync(file, 'utf8')
    .replace(/^.*\) /, '')
    .split(' ');
  return (Number(fields[11]) + Number(fields[12])) / 100;
}

/** Frames of an hour at 20 a second; so many are drawn, and the growth is taken to go on. */
const HOUR = 72_000;
const WARM_UP = 1500;
const DRAWN_FRAMES = 6000;

export function growthOfAnHour([before, after]: readonly number[]): Row {
  const grown = ((after! - before!) / DRAWN_FRAMES) * HOUR;
  return {
    what: 'heap grown in an hour of playing',
    measured: `${grown.toFixed(1)} MB (from ${DRAWN_FRAMES} frames: ${(after! - before!).toFixed(2)} MB)`,
    target: '< 20 MB',
    met: grown < 20,
  };
}

/** Draw frame after frame as fast as it goes. @returns heap before and after [MB] */
export async function hourOfPlaying(): Promise<number[]> {
  const read = readScenario(readFileSync('scenarios/home-shelf.yaml', 'utf8'));
  if (!read.ok) throw new Error('the built-in scenario is wrong');
  const study = runStudy(read.value.plan, 7, 200);
  const result = study.conclude(await gather(study.workload))!;
  const film = filmOf(read.value.plan, { seed: 7 });
  let state: State = beginning({ scenario: read.value.scenario, ...SIZE, hasLog: false });
  state = reduce(state, { type: 'figures', id: 1, figures: { result, differences: null } });
  state = reduce(state, { type: 'play', direction: 1 });
  const stdout = Object.assign(Object.create(process.stdout), {
    ...SIZE,
    isTTY: true,
    hasColors: () => true,
    write: () => true,
  }) as NodeJS.WriteStream;
  const stdin = Object.assign(Object.create(process.stdin), {
    isTTY: true,
    setRawMode: () => stdin,
    ref: () => stdin,
    unref: () => stdin,
    setEncoding: () => stdin,
    addListener: () => stdin,
    removeListener: () => stdin,
    read: () => null,
  }) as NodeJS.ReadStream;
  const dispatch = (): void => {};
  const tree = (): ReturnType<typeof createElement> =>
    createElement(Dashboard, {
      state,
      dispatch,
      film,
      realFilm: null,
      spells: [],
      realPicks: null,
      signs: DRAWN,
    });
  const app = render(tree(), { stdout, stdin, patchConsole: false, exitOnCtrlC: false, maxFps: 10_000 });
  const heap = (): number => {
    globalThis.gc?.();
    globalThis.gc?.();
    return process.memoryUsage().heapUsed / 2 ** 20;
  };
  const draw = async (frames: number): Promise<void> => {
    for (let i = 0; i < frames; i++) {
      state = { ...state, day: (state.day + 1) % film.days };
      app.rerender(tree());
      await breathe();
    }
  };
  await draw(WARM_UP);
  const before = heap();
  await draw(DRAWN_FRAMES);
  const after = heap();
  app.unmount();
  return [before, after];
}
