/**
 * The benchmark: `npm run bench`, or `npm run bench -- small luck workers` for some parts of it (the parts: PARTS below).
 *
 * It reports and does not judge: the exit code is 0 whatever it finds. Speeds are ratios of CPU times (of the whole
 * process, so the garbage collector is paid for) that were taken in turns in one run, after a warm-up; medians are
 * shown. What is computed is used and checked, so that nothing is optimised away and no part runs on nonsense.
 */

import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { Moments } from '../../sim/engine/tally.js';
import { DISCARDED, FAILED, LOST, PICKED, PICKED_OUT, SOWN, STANDING } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import { TANK_EVERY } from '../../sim/models/takes.js';
import { toPlan } from '../../sim/scenario/plan.js';
import { readScenario } from '../../sim/scenario/read.js';
import type { Scenario } from '../../sim/scenario/schema.js';
import { vary } from '../../sim/scenario/vary.js';
import { gather } from '../../sim/seasons/gather.js';
import { threadPool } from '../../sim/seasons/thread-pool.js';
import type { Workload } from '../../sim/seasons/workload.js';
import { dashboard, growthOfAnHour, hourOfPlaying } from './dashboard.js';
import { large, lineOf, small } from './plans.js';
import { median, type Row } from './rows.js';
import { runStraightforward } from './straightforward.js';

/** What a piece of work consumed, to be checked. */
interface Work {
  seasons: number;
  sown: number;
  picked: number;
}

const PARTS: Record<string, () => Row[] | Promise<Row[]>> = {
  small: () => [against('small', small, { seasons: 60, rounds: 9, target: 3 })],
  large: () => [against('large', large, { seasons: 1, rounds: 3, target: 12 })],
  takes,
  scale,
  memory,
  growth,
  start,
  compare,
  luck,
  workers,
  dashboard,
  hour: () => [growthOfAnHour(runSelf('child-hour', ['--expose-gc'], { NODE_ENV: 'production' }))],
};

/** What a child process of this program does instead of the benchmark, by its argument. */
const CHILDREN: Record<string, () => number[] | Promise<number[]>> = {
  'child-memory': () => {
    checked(runLine(new Line(large), 0, 1));
    return [residentMb()];
  },
  'child-growth': measureGrowth,
  'child-hour': hourOfPlaying,
};

async function main(names: string[]): Promise<void> {
  const child = CHILDREN[names[0] ?? ''];
  if (child !== undefined) {
    console.log(JSON.stringify(await child()));
    return;
  }
  const unknown = names.filter((name) => PARTS[name] === undefined);
  if (unknown.length > 0) {
    console.error(`There is no part "${unknown[0]}". The parts are: ${Object.keys(PARTS).join(', ')}.`);
  }
  const parts = Object.keys(PARTS).filter((name) => names.length === 0 || names.includes(name));
  printRow({ what: 'what', measured: 'measured', target: 'target', met: null }, 'met');
  for (const part of parts) {
    for (const row of await PARTS[part]!()) printRow(row, row.met === null ? '-' : row.met ? 'yes' : 'NO');
  }
}

function printRow({ what, measured, target }: Row, met: string): void {
  console.log(`${what.padEnd(48)}${measured.padEnd(46)}${target.padEnd(13)}${met}`);
}

// Speed against the straightforward version.

function against(name: string, plan: Plan, how: { seasons: number; rounds: number; target: number }): Row {
  const line = new Line(plan);
  const [ours, theirs] = inTurns(how.rounds, [
    (round) => runLine(line, round * how.seasons, how.seasons),
    (round) => runOther(plan, round * how.seasons, how.seasons),
  ]);
  const share = ours!.work.picked / theirs!.work.picked;
  if (!(Math.abs(share - 1) < 0.02))
    throw new Error(`the two versions do not pick alike on ${name}: ${share}`);
  const ratio = theirs!.cpu / ours!.cpu;
  const rates = [ours!, theirs!].map(({ cpu }) => figure(how.seasons / cpu)).join(' against ');
  return {
    what: `${name}: seasons a CPU second, against plain code`,
    measured: `${rates}, ratio ${ratio.toFixed(1)}`,
    target: `>= ${how.target}`,
    met: ratio >= how.target,
  };
}

// What it takes.

/** Seasons of a turn: as many times as often as the tank is looked at closely. */
const TAKES_SEASONS = 2 * TANK_EVERY;

/** A season of the line that tells of all there is, with what it takes and without. */
function takes(): Row[] {
  const plan = toPlan({ ...scenarioOf('lettuce-rack'), weeks: 52 });
  const lines = [plan, { ...plan, physical: null }].map((each) => new Line(each));
  const [full, bare] = inTurns(
    15,
    lines.map((line) => (round) => runLine(line, round * TAKES_SEASONS, TAKES_SEASONS)),
  );
  if (full!.work.picked !== bare!.work.picked) throw new Error('what is told changes the season');
  const rates = [full!, bare!].map(({ cpu }) => figure(TAKES_SEASONS / cpu)).join(' against ');
  const ratio = full!.cpu / bare!.cpu;
  return [
    {
      what: 'seasons a CPU second, all told, against holes',
      measured: `${rates}, ${ratio.toFixed(2)} times as long`,
      target: '< 1.1',
      met: ratio < 1.1,
    },
  ];
}

// Cost per plant, by size of line.

function scale(): Row[] {
  const sizes = [1000, 10_000, 100_000, 1_000_000];
  const lines = sizes.map((size) => ({ line: new Line(lineOf(size)), seasons: 0 }));
  for (const entry of lines) entry.seasons = seasonsForHalfASecond(entry.line);
  const results = inTurns(
    5,
    lines.map(
      ({ line, seasons }) =>
        (round) =>
          runLine(line, round * seasons, seasons),
    ),
  );
  const costs = results.map(({ cpu, work }) => cpu / work.sown);
  const ratio = costs.at(-1)! / costs[0]!;
  return [
    ...sizes.map((size, i): Row => {
      const measured = `${(costs[i]! * 1e9).toFixed(0)} ns (${lines[i]!.seasons} seasons each time)`;
      return { what: `CPU time per plant, ${size} plants a year`, measured, target: '', met: null };
    }),
    {
      what: 'CPU time per plant, 1 000 000 to 1000',
      measured: `ratio ${ratio.toFixed(2)}`,
      target: '< 1.5',
      met: ratio < 1.5,
    },
  ];
}

function seasonsForHalfASecond(line: Line): number {
  for (let seasons = 1; ; seasons *= 2) {
    const { cpu } = timed(() => runLine(line, 0, seasons));
    if (cpu >= 0.25) return Math.ceil((seasons * 0.55) / cpu);
  }
}

// Memory.

function memory(): Row[] {
  const [megabytes] = runSelf('child-memory');
  return [
    {
      what: 'resident memory, one year of large, own process',
      measured: `${megabytes!.toFixed(0)} MB at most`,
      target: '< 250 MB',
      met: megabytes! < 250,
    },
  ];
}

const GROWTH_SEASONS = [200, 2000, 20_000];

function growth(): Row[] {
  const figures = runSelf('child-growth', ['--expose-gc']);
  const rows = GROWTH_SEASONS.map((seasons, i): Row => {
    const measured = `heap ${figures[2 * i]!.toFixed(2)} MB, rss ${figures[2 * i + 1]!.toFixed(0)} MB`;
    return { what: `memory after ${seasons} seasons of a small line`, measured, target: '', met: null };
  });
  const grown = figures[4]! - figures[2]!;
  rows.push({
    what: 'heap grown from 2000 to 20 000 seasons',
    measured: `${grown.toFixed(2)} MB`,
    target: '< 0.5 MB',
    met: grown < 0.5,
  });
  return rows;
}

/** Heap and resident memory in turn [MB], after each of GROWTH_SEASONS. */
function measureGrowth(): number[] {
  const line = new Line(lineOf(1000));
  const figures: number[] = [];
  let done = 0;
  for (const seasons of GROWTH_SEASONS) {
    checked(runLine(line, done, seasons - done));
    done = seasons;
    globalThis.gc?.();
    const { heapUsed, rss } = process.memoryUsage();
    figures.push(heapUsed / 2 ** 20, rss / 2 ** 20);
  }
  return figures;
}

/** The most that this process ever had in memory [MB]. */
function residentMb(): number {
  return process.resourceUsage().maxRSS / 1024;
}

/** Run this file as a child process. @returns the numbers that it printed */
function runSelf(
  argument: string,
  flags: readonly string[] = [],
  env: Readonly<Record<string, string>> = {},
): number[] {
  const child = spawnSync(process.execPath, [...flags, process.argv[1]!, argument], {
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  if (child.status !== 0) throw new Error(`${argument} ended with ${child.status}: ${child.stderr}`);
  return JSON.parse(child.stdout) as number[];
}

// From the command to its result.

const PROGRAM = 'dist/evensow.js';

/** Makes a process write its CPU time [us] to file descriptor 3 when it ends. */
const REPORT_CPU =
  'data:text/javascript,' +
  encodeURIComponent(
    "import{writeSync}from'node:fs';process.on('exit',()=>{const c=process.cpuUsage();writeSync(3,String(c.user+c.system))})",
  );

function start(): Row[] {
  return [programTime(['run', '--seasons', '200'], 0.5)];
}

function compare(): Row[] {
  return [programTime(['compare', '--every', '1,2,3,4,5,6,7,10', '--seasons', '200'], 1)];
}

/** Processor time of the whole program, from its start to its end. @param target [s] */
function programTime(words: readonly string[], target: number): Row {
  const row = { what: `CPU time of \`${words.slice(0, 3).join(' ')}\``, target: `< ${target} s` };
  if (!existsSync(PROGRAM)) return { ...row, measured: `skipped: no ${PROGRAM}`, met: null };
  const times: number[] = [];
  for (let i = 0; i < 7; i++) {
    const args = ['--import', REPORT_CPU, PROGRAM, ...words];
    const child = spawnSync(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe', 'pipe'] });
    if (child.status !== 0 || child.stdout.length === 0) {
      const said = child.stderr.toString().trim().split('\n')[0]!.slice(0, 60);
      return { ...row, measured: `skipped: exit code ${child.status} (${said})`, met: null };
    }
    times.push(Number(child.output[3]!.toString()) / 1e6);
  }
  const seconds = median(times);
  return { ...row, measured: `${seconds.toFixed(2)} s`, met: seconds < target };
}

// Common random numbers.

/** The built-in scenario with another cadence; about as many seeds a week. */
function withCadence(every: number, seeds: number): Plan {
  const varied = vary(scenarioOf('home-shelf'), { cadence: { every }, seeds });
  if (!varied.ok) throw new Error(varied.faults.join());
  return toPlan(varied.value);
}

/** One of the examples. */
function scenarioOf(name: string): Scenario {
  const read = readScenario(readFileSync(`scenarios/${name}.yaml`, 'utf8'));
  if (!read.ok) throw new Error(`the scenario ${name} is wrong`);
  return read.value.scenario;
}

const LUCK_SEASONS = 2000;

/** Variance of the difference between two cadences at 21 seeds a week: with luck of their own, and with the same luck. */
function luck(): Row[] {
  const lines = [new Line(withCadence(3, 9)), new Line(withCadence(4, 12))];
  const [threes, fours, same] = [new Moments(), new Moments(), new Moments()];
  for (let season = 0; season < LUCK_SEASONS; season++) {
    const [three, four] = lines.map((line) => line.run(1, season).counts[PICKED]!);
    threes.add(three!);
    fours.add(four!);
    same.add(three! - four!);
  }
  // Independent luck: the variances add up.
  const ratio = (threes.variance + fours.variance) / same.variance;
  return [
    {
      what: 'variance of "every 3 d" less "every 4 d"',
      measured: `${figure(ratio)} times smaller with the same luck`,
      target: '>= 3',
      met: ratio >= 3,
    },
  ];
}

// Threads.

const THREAD_SEASONS = 10_000;

/** Seasons a second of two threads against one, by the clock: starting the threads is part of it. */
async function workers(): Promise<Row[]> {
  const plan = withCadence(3, 10);
  const workload: Workload = { seed: 1, sections: 1, jobs: [{ plan, seasons: THREAD_SEASONS, trials: 0 }] };
  const worker = pathToFileURL('dist/worker.js');
  const seconds = async (threads: number): Promise<number> => {
    const began = performance.now();
    const crew = await threadPool(workload, threads, worker);
    const gathered = await gather(workload, { pool: crew });
    await crew.close();
    if (gathered.whole(0).seasons !== THREAD_SEASONS) throw new Error('seasons are missing');
    return (performance.now() - began) / 1000;
  };
  const times: [number[], number[]] = [[], []];
  for (let round = 0; round < 5; round++) {
    times[0].push(await seconds(1));
    times[1].push(await seconds(2));
  }
  const [one, two] = times.map(median) as [number, number];
  const rates = [two, one].map((time) => figure(THREAD_SEASONS / time)).join(' against ');
  return [
    {
      what: `seasons a second, 2 threads against 1, ${THREAD_SEASONS} seasons`,
      measured: `${rates}, ratio ${(one / two).toFixed(2)}`,
      target: '>= 1.8',
      met: one / two >= 1.8,
    },
  ];
}

// Work, and how it is timed.

function runLine(line: Line, from: number, seasons: number): Work {
  const work = { seasons, sown: 0, picked: 0 };
  for (let season = from; season < from + seasons; season++) {
    const { counts } = line.run(1, season);
    const gone = counts[FAILED]! + counts[LOST]! + counts[DISCARDED]! + counts[PICKED_OUT]!;
    if (gone + counts[STANDING]! !== counts[SOWN])
      throw new Error(`season ${season}: the seeds do not add up`);
    work.sown += counts[SOWN]!;
    work.picked += counts[PICKED]!;
  }
  return work;
}

function runOther(plan: Plan, from: number, seasons: number): Work {
  const work = { seasons, sown: 0, picked: 0 };
  for (let season = from; season < from + seasons; season++) {
    const { counts } = runStraightforward(plan, 1, season);
    work.sown += counts.sown;
    work.picked += counts.picked;
  }
  return work;
}

/** All benchmark lines sprout 90 % of the seeds, hold nothing up for long and pick what was sown 45 days before. */
function checked(work: Work): Work {
  const share = work.picked / work.sown;
  if (!(share > 0.74 && share < 0.82)) throw new Error(`picks are not plausible: ${share} of the seeds sown`);
  return work;
}

interface Timed {
  /** CPU time [s]. */
  cpu: number;
  work: Work;
}

function timed(run: () => Work): Timed {
  const before = process.cpuUsage();
  const work = checked(run());
  const { user, system } = process.cpuUsage(before);
  return { cpu: (user + system) / 1e6, work };
}

/** Run each work once to warm up, then all in turns. @returns the median time of each, and what its last run gave */
function inTurns(rounds: number, works: readonly ((round: number) => Work)[]): Timed[] {
  for (const run of works) checked(run(0));
  const times = works.map((): number[] => []);
  let last: Timed[] = [];
  for (let round = 1; round <= rounds; round++) {
    last = works.map((run) => timed(() => run(round)));
    for (const [i, { cpu }] of last.entries()) times[i]!.push(cpu);
  }
  return last.map(({ work }, i) => ({ cpu: median(times[i]!), work }));
}

/** Three figures, without a decimal point where it says nothing. */
function figure(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(3);
}

// Last, when all the constants above have their values.
await main(process.argv.slice(2));
