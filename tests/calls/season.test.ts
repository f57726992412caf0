/** A real season by one call: the same answers as from the functions behind it, on the log of the repository. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ahead, chores, type FuturesOptions } from '../../sim/calls/look.js';
import { addRow, fit as fitLog, readSeasonLog, replay } from '../../sim/calls/season.js';
import { Line } from '../../sim/models/line/line.js';
import { readScenario } from '../../sim/scenario/read.js';
import { filmOf as film } from '../../sim/study/film/film.js';
import { until } from '../support/patience.js';

const text = readFileSync(new URL('../../scenarios/home-shelf.yaml', import.meta.url), 'utf8');
const shelf = readScenario(text);
if (!shelf.ok) throw new Error('the built-in scenario has faults');
const { plan, scenario } = shelf.value;

const BEGUN = `date,action,crop,batch,stage,channel,count,grams,note
${plan.start},sow,${plan.crops[0]!.name},B1,,,6,,
`;

/** The line with room for very many plants. */
const roomy = {
  ...scenario,
  stages: scenario.stages.map((stage) => ({ ...stage, channels: 60, holes: 10_000 })),
};

function sown(seeds: number): string {
  return BEGUN.replace(',6,', `,${seeds},`);
}

function logOf(content: string) {
  const read = readSeasonLog(content, { plan });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value;
}

test('a row is added to a text, and read again', () => {
  const added = addRow(BEGUN, { date: plan.start, action: 'lose', count: '2', batch: 'B1' }, plan);
  if (!added.ok) throw new Error(JSON.stringify(added.faults));
  expect(logOf(BEGUN + added.value.text).rows.at(-1)).toMatchObject({
    action: 'lose',
    count: 2,
    batch: 'B1',
  });
  expect(addRow(BEGUN, { date: plan.start, action: 'lose', count: '7', batch: 'B1' }, plan)).toMatchObject({
    ok: false,
    wrong: 'row',
    faults: [{ column: 'count' }],
  });
});

test('a log is read by its plan, or without one, and its faults come with their lines', () => {
  expect(logOf(BEGUN).stages).toEqual(plan.stages.map(({ name }) => name));
  expect(readSeasonLog(`${BEGUN}2027-01-05,pick,,B9,,,1,,\n`)).toMatchObject({
    ok: false,
    faults: [{ line: 3 }],
  });
});

describe('looking ahead', () => {
  test('goes on from the log for as long as is asked, beyond the season of the scenario', async () => {
    const short = { ...scenario, weeks: 2 };
    const looked = await ahead(short, logOf(BEGUN), { weeks: 6, futures: 5 });
    expect(looked.ok && looked.value.weeks).toHaveLength(6);
    const listed = await chores(short, null, { days: 30, futures: 5 });
    expect(listed.ok && listed.value.visits.length).toBeGreaterThan(0);
  });

  test('throws the reason of a signal that stops it, before or while futures run', async () => {
    const why = new Error('not today');
    await expect(ahead(scenario, logOf(BEGUN), { signal: AbortSignal.abort(why) })).rejects.toBe(why);
    const stop = new AbortController();
    const onProgress = (done: number): void => {
      if (done === 3) stop.abort(why);
    };
    const looking = chores(scenario, null, { futures: 1000, signal: stop.signal, onProgress });
    await expect(looking).rejects.toBe(why);
  });

  test('lets go of its threads at once when the signal comes, as a study does', async () => {
    // The built library, which has the threads' file beside it.
    const built = new URL('../../dist/index.js', import.meta.url).href;
    const library = (await import(built)) as typeof import('../../sim/index.js');
    const why = new Error('not today');
    const plans = { ...scenario, weeks: 100 };
    for (const call of [
      (options: FuturesOptions) => library.ahead(plans, logOf(BEGUN), { ...options, weeks: 100 }),
      (options: FuturesOptions) => library.chores(plans, null, { ...options, days: 700 }),
    ]) {
      const stop = new AbortController();
      let heard = 0;
      const onProgress = (): void => {
        heard++;
        stop.abort(why);
      };
      const looking = call({ futures: 80, workers: 2, signal: stop.signal, onProgress });
      await expect(looking).rejects.toBe(why);
      // Two threads have four parts in hand: one is told of, and at most one more was done at the same instant.
      expect(heard).toBeLessThanOrEqual(2);
      expect(heard).toBeGreaterThan(0);
    }
  });

  test.each(['ahead', 'chores'] as const)(
    '%s with one thread hears its signal while it draws what stands',
    async (call) => {
      const built = new URL('../../dist/index.js', import.meta.url).href;
      const library = (await import(built)) as typeof import('../../sim/index.js');
      const why = new Error('not today');
      const stop = new AbortController();
      let heard = 0;
      const looking = library[call](roomy, logOf(sown(300_000)), {
        futures: 1,
        signal: stop.signal,
        onProgress: () => heard++,
      });
      // Drawing so many takes several seconds of the processor, a thread is there after a tenth of one.
      const before = process.cpuUsage();
      const used = (): number => process.cpuUsage(before).user / 1e6;
      await until(
        () => used() > 0.6 || heard > 0,
        'the drawing',
        () => `${used()} s`,
      );
      stop.abort(why);
      await expect(looking).rejects.toBe(why);
      // Who is deaf meanwhile hears of the first future before anything else.
      expect(heard).toBe(0);
    },
  );

  test('where the file of the threads is not there a signal is no hindrance', async () => {
    const { signal } = new AbortController();
    const options = { futures: 1, days: 1 };
    const stages = scenario.stages.map((stage) => ({ ...stage, channels: 1, holes: 5000 }));
    const wide = { ...scenario, stages, away: [] };
    const log = logOf(sown(5000));
    // As the tests import the simulator, worker.js is not beside it.
    const listed = await chores(wide, log, { ...options, signal });
    expect(listed.ok).toBe(true);
    expect(listed).toEqual(await chores(wide, log, options));
    await expect(chores(wide, log, { ...options, workers: 2 })).rejects.toThrow(
      /worker\.js, which is not there/,
    );
  });

  test('an option out of range breaks the contract', async () => {
    await expect(ahead(scenario, logOf(BEGUN), { futures: 0 })).rejects.toThrow(RangeError);
    await expect(chores(scenario, null, { days: 0 })).rejects.toThrow(RangeError);
    // As the program has it: no season is longer than 520 weeks.
    for (const today of ['2037-01-04', '2927-01-04', 'tomorrow', '2027-02-30']) {
      await expect(ahead(scenario, logOf(BEGUN), { today, futures: 1 })).rejects.toThrow(/^today must be/);
      await expect(chores(scenario, logOf(BEGUN), { today, futures: 1 })).rejects.toThrow(RangeError);
    }
  });
});

test('a season is replayed and fitted, with a plan and without', () => {
  const log = logOf(BEGUN);
  expect(replay(log, { plan })).toMatchObject({ ok: true });
  expect(fitLog(log, { plan }).holes_known).toBe(true);
  expect(fitLog(log).holes_known).toBe(false);
});

test.each([
  { every: 0, on: null, seeds: null },
  { every: -1, on: null, seeds: 5 },
  { every: 3, on: null, seeds: 0 },
  { every: null, on: null, seeds: 1.5 },
])('replay: another cadence out of range breaks the contract: %j', (change) => {
  expect(() => replay(logOf(BEGUN), { plan, change })).toThrow(RangeError);
});

test('a film shows the season that the line runs with the same seed and number', () => {
  const picked = new Line(plan).run(5, 2).weekPicks.reduce((sum, picks) => sum + picks, 0);
  const shown = film(plan, { seed: 5, season: 2 });
  expect(shown.picksUpTo(shown.days)).toBe(picked);
  expect(picked).toBeGreaterThan(0);
});
