/** `evensow ahead`: what lies ahead as text, CSV and JSON, and what is said of wrong input. */

import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { ahead } from '../../cli/commands/ahead.js';
import type { Options } from '../../cli/options/options.js';
import type { AheadResult } from '../../sim/season/ahead/ahead.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { EXAMPLES, planOf, SHELF } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { logText, simulatedLog } from '../support/simulated-log.js';

function scenario(name: string): string {
  return `${EXAMPLES}${name}.yaml`;
}

const folder = ownFolder();
const logs = new Map(
  Object.entries({ 'home-shelf': 80, 'kitchen-garden': 90, 'school-club': 60, 'market-farm': 40 }).map(
    ([name, until]) => [name, simulatedLog(planOf(scenario(name)), 7, 3, { until })],
  ),
);

async function logFile(rows: readonly LogRow[]): Promise<string> {
  const path = join(folder, 'season.csv');
  await writeFile(path, logText(rows));
  return path;
}

/** What is written for an example of the repository. */
async function shown(name: string, options: Partial<Record<string, string | boolean>> = {}): Promise<string> {
  const out = join(folder, 'ahead.out');
  const asked = { seasons: '20', weeks: '4', ...options, out } as unknown as Options;
  expect(await ahead(scenario(name), await logFile(logs.get(name)!), asked)).toBe(0);
  return await readFile(out, 'utf8');
}

describe('as text', () => {
  test.each(['home-shelf', 'kitchen-garden', 'school-club', 'market-farm'])(
    '%s: five parts, plain letters, no line longer than 80 columns',
    async (name) => {
      const text = await shown(name, { seasons: '5' });
      expect(text).toMatch(/^[\x20-\x7e\n]*$/);
      // A command to be typed is one line, however long.
      const lines = text.split('\n').filter((line) => !/^ +evensow /.test(line));
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
      // Stages that find no room beside the others stand below them, a line apart.
      const parts = text.split('\n\n').filter((part) => !part.startsWith(' '));
      const titles = parts.map((part) => part.split('\n')[0]!.split(/[:,]/)[0]);
      expect(titles.slice(1)).toEqual([
        'What stands now',
        'Heads in each week',
        'Holes that will stand empty',
        'Batches that will run out of room',
        'What to sow',
      ]);
    },
  );

  test('the built-in line: a row for each week and sowing, as many plants as the log leaves', async () => {
    const text = await shown('home-shelf');
    expect(text.replaceAll('\n', ' ')).toContain('By the log the last visit was on Mon 22 Mar 2027.');
    for (const monday of ['Tue 23 Mar', 'Tue 30 Mar', 'Tue 6 Apr', 'Tue 13 Apr']) {
      expect(text).toMatch(new RegExp(`${monday} 2027 +\\d+ +\\d+ to \\d+ +\\d+ +\\d+ to \\d+ +=+-+`));
    }
    // Sown: the seeds of the rows; gone: what was picked and lost.
    const rows = logs.get('home-shelf')!;
    const sum = (...actions: string[]): number =>
      rows.reduce((all, { action, count }) => all + (actions.includes(action) ? count : 0), 0);
    const standing = [...text.matchAll(/^ {2}(?:germination|nursery|finishing) +(\d+) +\d+ +\d+ +\d+$/gm)];
    expect(standing.reduce((all, [, plants]) => all + Number(plants), 0)).toBe(
      sum('sow') - sum('pick', 'lose'),
    );
    // The plan's seeds are as good: the others are listed only if they are asked for.
    expect(text.replace(/\s+/g, ' ')).toContain('Keep to the plan');
    expect(text).not.toContain('seeds that fill the gap');
    expect(await shown('home-shelf', { all: true })).toMatch(/Thu 25 Mar 2027 +10 +\d+/);
  });

  test('crops that are refilled are told as such; what is wanted stands beside what is picked', async () => {
    expect(await shown('school-club')).toContain('Refilled, as the scenario says:');
    expect(await shown('kitchen-garden')).toMatch(/week from +ready +picked +wanted/);
  });
});

describe('as JSON', () => {
  test('it is the whole result; another seed gives another one, the same seed the same', async () => {
    const text = await shown('home-shelf', { json: true });
    const result = JSON.parse(text) as AheadResult;
    expect(result).toMatchObject({ title: 'Cellar line', from: '2027-03-23', futures: 20, seed: 7 });
    expect(result.weeks).toHaveLength(4);
    expect(result.stages.map(({ name, empty }) => [name, empty.length])).toEqual([
      ['germination', 4],
      ['nursery', 4],
      ['finishing', 4],
    ]);
    expect(await shown('home-shelf', { json: true })).toBe(text);
    expect(await shown('home-shelf', { json: true, seed: '8' })).not.toBe(text);
  });

  test('the line goes on behind the end of the season that the scenario names', async () => {
    // 26 weeks end on 5 July; the log goes on to the end of June.
    const rows = simulatedLog(planOf(SHELF), 7, 3);
    const out = join(folder, 'end.json');
    const options = { json: true, seasons: '20', out } as unknown as Options;
    await ahead(scenario('home-shelf'), await logFile(rows), options);
    const { weeks, sowings } = JSON.parse(await readFile(out, 'utf8')) as AheadResult;
    expect(weeks).toHaveLength(8);
    expect(weeks.at(-1)!.start > '2027-08').toBe(true);
    expect(weeks.at(-1)!.picked.p10).toBeGreaterThan(0);
    expect(sowings!.dates.at(-1)!.date > '2027-08').toBe(true);
  });
});

describe('as CSV', () => {
  test('each figure of each week, stage, batch and sowing has a row', async () => {
    const records = parseCsv(await shown('home-shelf', { csv: true }), { columns: true }) as Record<
      string,
      string
    >[];
    const result = JSON.parse(await shown('home-shelf', { json: true })) as AheadResult;
    const of = (figure: string) => records.filter((record) => record['figure'] === figure);
    expect(
      of('picked').map(({ date, mean, p10, p90 }) => [date, Number(mean), Number(p10), Number(p90)]),
    ).toEqual(result.weeks.map(({ start, picked }) => [start, picked.mean, picked.p10, picked.p90]));
    // The range that is told, too.
    expect(of('picked').map(({ low, high }) => [Number(low), Number(high)])).toEqual(
      result.weeks.map(({ picked }) => [picked.low, picked.high]),
    );
    expect(of('empty holes')).toHaveLength(12);
    expect(of('blocked')).toHaveLength(result.no_room.length);
    expect(of('advised seeds').map(({ date, mean }) => [date, Number(mean)])).toEqual(
      result.sowings!.dates.map(({ date, advised_seeds }) => [date, advised_seeds]),
    );
  });
});

describe('what is wrong is told', () => {
  const ask = async (options: Record<string, string>, log?: string) =>
    await ahead(
      scenario('home-shelf'),
      log ?? (await logFile(logs.get('home-shelf')!)),
      options as unknown as Options,
    );

  test('every wrong option at once', async () => {
    await expect(ask({ weeks: '53', seasons: '0', today: 'tomorrow' })).rejects.toThrow(
      /--today must not be "tomorrow".*or now for the date of this machine.*\n--seasons must not be "0".*\n--weeks must not be "53"/,
    );
  });

  test('a log that is not there', async () => {
    await expect(ask({}, join(folder, 'none.csv'))).rejects.toThrow(/none\.csv/);
  });

  test('rows after the day from which to look ahead', async () => {
    await expect(ask({ today: '2027-03-01' })).rejects.toThrow(
      /season\.csv has 1 fault:\n {2}line \d+, column date\n {4}found 2027-03-\d\d; expected no row after 2027-03-01/,
    );
  });

  test('more plants than the scenario has holes', async () => {
    const text = await readFile(scenario('home-shelf'), 'utf8');
    const small = join(folder, 'small.yaml');
    await writeFile(small, text.replace('channels: 8, holes: 9', 'channels: 2, holes: 9'));
    const log = await logFile(logs.get('home-shelf')!);
    await expect(ahead(small, log, {} as Options)).rejects.toThrow(
      /found \d+ plants in finishing after the last row; expected at most 18/,
    );
  });
});
