import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { COUNTS, readScenario, STATES } from '../../sim/index.js';
import { ownFolder } from '../support/folder.js';
import { evensow, evensowAlone } from './program.js';

const parts = ownFolder();
const folder = fileURLToPath(new URL('../../scenarios/', import.meta.url));
const scenarios = readdirSync(folder).filter((name) => name.endsWith('.yaml'));

/** Seasons and weeks that keep the tests short: a year of the hall takes a second. */
const isLarge = (name: string): boolean => name.startsWith('hall');
const seasonsFor = (name: string): number => (isLarge(name) ? 2 : 20);
const textOf = (name: string): string => {
  const text = readFileSync(folder + name, 'utf8');
  return isLarge(name) ? text.replace('weeks: 52', 'weeks: 12') : text;
};

test('there are at least four scenarios, from fewer than 200 holes to more than 150 000', () => {
  const holes = scenarios.map((name) => {
    const read = readScenario(readFileSync(folder + name, 'utf8'));
    if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.faults)}`);
    return read.value.plan.stages.reduce((sum, stage) => sum + stage.channels * stage.holesPerChannel, 0);
  });
  expect(scenarios.length).toBeGreaterThanOrEqual(4);
  expect(Math.min(...holes)).toBeLessThan(200);
  expect(Math.max(...holes)).toBeGreaterThan(150_000);
});

describe.each(scenarios)('%s', (name) => {
  const seasons = seasonsFor(name);
  // The only part of the study: its seasons are run once, for the document and for the text.
  const part = join(parts, `${name}.json`);
  let result: ReturnType<typeof JSON.parse>;

  beforeAll(async () => {
    const asked = ['run', '-', '--seasons', String(seasons), '--shard', '1/1', '--out', part];
    expect(await evensow(asked, { input: textOf(name) })).toEqual({ code: 0, out: '', err: '' });
    const { code, out, err } = await evensow(['merge', part, '--json']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    result = JSON.parse(out);
  });

  test('has the keys of the contract, each average with its standard error', () => {
    expect(result.seasons).toBe(seasons);
    expect(Object.keys(result.counts)).toEqual([...COUNTS]);
    for (const count of COUNTS) {
      expect(result.counts[count]).toEqual({ mean: expect.any(Number), se: expect.any(Number) });
    }
    for (const stage of result.stages) {
      expect(Object.keys(stage.ledger)).toEqual([...STATES]);
      expect(stage).toMatchObject({ name: expect.any(String), holes: expect.any(Number) });
    }
    for (const week of result.weeks) {
      expect(Object.keys(week)).toEqual(['start', 'mean', 'se', 'p10', 'p50', 'p90']);
      expect(week.start).toMatch(/^\d{4}-\d{2}-\d{2}$/);
      expect(week.p10).toBeLessThanOrEqual(week.p50);
      expect(week.p50).toBeLessThanOrEqual(week.p90);
    }
  });

  test('the states of all holes add up to holes x days', () => {
    for (const stage of result.stages) {
      const sum = STATES.reduce((total, state) => total + stage.ledger[state].mean, 0);
      // Each season adds up exactly; means of seasons are rounded in their last digits.
      expect(Math.abs(sum / (stage.holes * result.weeks.length * 7) - 1)).toBeLessThan(1e-13);
    }
  });

  test('the seeds add up, and the weeks add up to the picks', () => {
    const { sown, failed, lost, discarded, picked_out, standing, picked } = result.counts;
    const accounted = failed.mean + lost.mean + discarded.mean + picked_out.mean + standing.mean;
    expect(accounted / sown.mean).toBeCloseTo(1, 12);
    const weeks = result.weeks.reduce((sum: number, week: { mean: number }) => sum + week.mean, 0);
    expect(weeks / picked.mean).toBeCloseTo(1, 12);
  });

  test('picks something, and says so in words', async () => {
    expect(result.counts.picked.mean).toBeGreaterThan(0);
    const { code, out, err } = await evensow(['merge', part]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const headings = [
      'What you will pick',
      'When the first pick comes',
      'Which stage holds the line back',
      'Where the hole-days went',
      'What became of the seeds',
    ].map((heading) => out.indexOf(`\n${heading}`));
    expect(headings).toEqual([...headings].sort((a, b) => a - b));
    expect(headings[0]).toBeGreaterThan(0);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});

describe('evensow run', () => {
  test('without a file runs the built-in scenario', async () => {
    const named = await evensow(['run', `${folder}home-shelf.yaml`, '--seasons', '3']);
    expect(await evensow(['--seasons', '3'])).toEqual(named);
    expect(await evensow(['run', '--seasons', '3'])).toEqual(named);
  });

  test('gives the same seasons again with the same seed, and others with another', async () => {
    const json = async (...args: string[]): Promise<string> =>
      (await evensow(['run', '--json', '--seasons', '3', ...args])).out;
    expect(await json()).toBe(await json());
    expect(await json('--seed', '7')).toBe(await json());
    expect(await json('--seed', '8')).not.toBe(await json());
  });

  test('one season has no standard error: null', async () => {
    const { out } = await evensow(['run', '--json', '--seasons', '1']);
    expect(JSON.parse(out).counts.picked.se).toBeNull();
    expect(JSON.parse(out).limits).toBeNull();
  });

  test('--csv gives the weeks of --json, a row each, in full', async () => {
    const { out } = await evensow(['run', '--csv', '--seasons', '5']);
    const { weeks } = JSON.parse((await evensow(['run', '--json', '--seasons', '5'])).out);
    const [head, ...rows] = out.trimEnd().split('\r\n');
    expect(head).toBe('start,mean,se,p10,p50,p90');
    expect(rows).toEqual(
      weeks.map((week: Record<string, unknown>) =>
        ['start', 'mean', 'se', 'p10', 'p50', 'p90'].map((key) => String(week[key])).join(','),
      ),
    );
  });

  test('writes no colour codes and no progress into a pipe', async () => {
    const { out, err } = await evensowAlone(['run', '--seasons', '3'], { env: { FORCE_COLOR: '1' } });
    expect(out + err).not.toContain('\u001b');
    expect(err).toBe('');
  });
});

describe('the other commands', () => {
  test('check says what the scenario is', async () => {
    const { code, out, err } = await evensow(['check', `${folder}home-shelf.yaml`]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('home-shelf.yaml: no faults.');
    expect(out).toContain('nursery: 2 channels of 24 holes, 48 holes');
    expect(out).toContain('butterhead: 61 sowings of 10 seeds, 610 seeds');
  });

  test('check warns of days on which heads are wanted and nobody comes, and still ends with 0', async () => {
    const text = `${readFileSync(`${folder}home-shelf.yaml`, 'utf8')}want: {heads: 6, on: [tue, sat]}\n`;
    const { code, err } = await evensow(['check', '-'], { input: text });
    expect(code).toBe(0);
    expect(err).toMatch(/^Note: standard input, line 23: want, day 1 \(want\.on\[0\]\): /);
    expect(err).toContain('tue');
    expect(err).not.toContain('sat');
  });

  test('schema prints the JSON Schema of the scenario file', async () => {
    const schema = JSON.parse((await evensow(['schema'])).out);
    expect(schema.$schema).toMatch(/json-schema\.org/);
    expect(Object.keys(schema.properties)).toContain('crops');
  });

  test('--help and --version go to standard output and end with 0', async () => {
    const help = await evensow(['--help']);
    expect(help).toMatchObject({ code: 0, err: '' });
    expect(help.out).toContain('Usage: evensow');
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
    expect(await evensow(['--version'])).toEqual({ code: 0, out: `${version}\n`, err: '' });
  });
});
