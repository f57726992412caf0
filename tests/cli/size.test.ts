/** `size`, in one piece and in parts, through the built program. */

import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { SizeResult } from '../../sim/index.js';
import { ownFolder } from '../support/folder.js';
import { evensow } from './program.js';

const folder = ownFolder();

/** What the built-in line gives, in so few seasons that it is known at once. */
const AS_IT_IS = ['--seasons', '20'];
let asItIs: string;
beforeAll(async () => {
  asItIs = await said(...AS_IT_IS);
});

/** What the program prints; it must have ended well and said nothing else. */
async function said(...args: string[]): Promise<string> {
  const { code, out, err } = await evensow(['size', ...args]);
  expect(err).toBe('');
  expect(code).toBe(0);
  return out;
}

async function resultOf(...args: string[]): Promise<SizeResult> {
  return JSON.parse(await said(...args, '--json'));
}

/** Nothing on standard output, one message, exit code 2. */
async function refused(args: readonly string[], ...parts: RegExp[]): Promise<void> {
  const { code, out, err } = await evensow(['size', ...args]);
  expect(out).toBe('');
  for (const part of parts) expect(err).toMatch(part);
  expect(err.match(/^evensow: /gm)).toHaveLength(1);
  expect(code).toBe(2);
}

function expectNarrow(text: string): void {
  for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
}

describe('the text', () => {
  test('shows both stages against each other, the bound beside every figure, in 80 columns', async () => {
    const out = asItIs;
    expectNarrow(out);
    expect(out).toContain('15 sizes, 20 seasons of each with the same luck (seed 7)');
    expect(out).toContain('As it is\n(*): 2 x nursery, 8 x finishing.');
    expect(out).toContain('Heads a week / what holes and times would allow');
    // 72 holes x 7 / 21 d and 48 x 7 / 14 d: 24 a week, in the cell of the size as it is.
    expect(out).toMatch(/^ {2}2( +\d+\.\d\/1[28]\.0){2} +\d+\.\d\/24\.0 \*/m);
    expect(out).toContain('Heads in a bad week');
    // The answer comes first.
    expect(out.indexOf('Which size\n')).toBeLessThan(out.indexOf('Heads a week / what'));
    expect(out).toContain('empty in');
    expect(out).toMatch(/\+1 channel of finishing \(9 holes\) +\+0\.\d+ +\+0\.\d+ to \+0\.\d+/);
    expect(out).toMatch(/holds? the line back/);
  });

  test('explains the gap step by step', async () => {
    const gap = asItIs.slice(asItIs.indexOf('Why it gives no more'));
    for (const words of [
      'holes and times allow',
      'sown',
      'batches',
      'spread',
      'visits',
      'fail',
      'cleaning',
      'absence',
    ])
      expect(gap).toContain(words);
    const numbers = [...gap.matchAll(/^ {2}\D+ ([+-]?\d+\.\d) /gm)].map(([, number]) => Number(number));
    expect(numbers).toHaveLength(9);
    // Seven steps, the bound and the sum, each rounded to a twentieth.
    const sum = numbers.slice(0, -1).reduce((all, number) => all + number, 0);
    expect(Math.abs(sum - numbers.at(-1)!)).toBeLessThan(9 * 0.05 + 1e-9);
  });

  test('of a split lists every way, and the size as it is', async () => {
    const out = await said('--split', '6', '--seasons', '10');
    expectNarrow(out);
    for (const row of ['1 + 5', '2 + 4', '3 + 3', '4 + 2', '5 + 1', '2 + 8 *'])
      expect(out).toMatch(new RegExp(`^  ${row.replace(/[+*]/g, '\\$&')} `, 'm'));
    expect(out).not.toContain('knee');
  });

  test('of very many sizes shows a few and says where the others are', async () => {
    const short = join(folder, 'short.yaml');
    const shelf = await readFile('scenarios/home-shelf.yaml', 'utf8');
    await writeFile(short, shelf.replace('weeks: 26', 'weeks: 16'));
    const many = ['--channels', 'nursery=1..12', '--channels', 'finishing=4..16'];
    const out = await said(short, ...many, '--seasons', '1');
    expectNarrow(out);
    expect(out).toMatch(/\d+ more in --csv/);
    expect(out.split('\n').length).toBeLessThan(90);
  });

  test('of three stages is a list', async () => {
    const stages = ['germination=1,2', 'nursery=1,2', 'finishing=6,8'].flatMap((list) => [
      '--channels',
      list,
    ]);
    const out = await said(...stages, '--seasons', '5');
    expectNarrow(out);
    expect(out).toMatch(/^ {2}2 \+ 1 \+ 6 /m);
    expect(out).toContain('channels of germination + nursery + finishing');
  });

  test('of every example and of long names stays within 80 columns', async () => {
    for (const name of ['kitchen-garden', 'school-club']) {
      expectNarrow(await said(`scenarios/${name}.yaml`, '--seasons', '2'));
    }
    const long = join(folder, 'long.yaml');
    const stage = (n: number): string => `stage ${n} with a name of nearly sixty letters which is allowed`;
    await writeFile(
      long,
      `start: 2027-01-04
weeks: 7
stages:
  - {name: ${stage(1)}, channels: 2, holes: 2000}
  - {name: ${stage(2)}, channels: 10000, holes: 1}
crops:
  - name: leaf
    sow: {every: 7, seeds: 1500}
    stages:
      ${stage(1)}: {days: 7, spread: 0.1}
      ${stage(2)}: {days: 20, spread: 0.1}
`,
    );
    // One more channel of the first, and all the columns that a table has.
    const counts = ['--channels', `${stage(1)}=2,3`, '--channels', `${stage(2)}=9998..10002`];
    const out = await said(long, ...counts, '--seasons', '1');
    expectNarrow(out);
    expect(out).toContain('Heads a week against holes');
  });
});

describe('the document', () => {
  test('holds every size with its figures, intervals, bound and gap', async () => {
    const result = await resultOf(
      '--channels',
      'nursery=2,3',
      '--channels',
      'finishing=8',
      '--seasons',
      '20',
    );
    expect(result).toMatchObject({
      title: 'Cellar line',
      seed: 7,
      seasons: 20,
      partial: false,
      varied: ['nursery', 'finishing'],
      present: '2 x nursery, 8 x finishing',
      frontier: { cost: 'area_m2' },
    });
    expect(result.sizes).toHaveLength(2);
    for (const size of result.sizes) {
      expect(Object.keys(size.figures)).toEqual(['heads_a_week', 'bad_week']);
      const { mean, low, high } = size.figures['heads_a_week']!;
      expect(low!).toBeLessThan(mean);
      expect(high!).toBeGreaterThan(mean);
      expect(size.idle.map(({ stage }) => stage)).toEqual(['germination', 'nursery', 'finishing']);
      expect(size.bound.pure.heads_a_week).toBe(24);
      const gap = size.gap!;
      expect(gap.steps.map(({ name }) => name)).toEqual([
        'sown_or_wanted',
        'batches',
        'spread',
        'visits',
        'losses',
        'cleaning',
        'absence',
      ]);
      const sum = gap.steps.reduce((level, { change }) => level + change.mean, 24);
      expect(sum).toBeCloseTo(gap.heads_a_week, 9);
    }
    expect(result.worth.stages.map(({ stage, holes }) => [stage, holes])).toEqual([
      ['germination', 40],
      ['nursery', 24],
      ['finishing', 9],
    ]);
    // One more channel of the nursery is the other size.
    expect(result.worth.stages[1]!.heads_a_week).toEqual(
      result.sizes[1]!.figures['heads_a_week']!.difference,
    );
  });

  test('as CSV has a row for each size and figure, and for the worth of a channel in each stage', async () => {
    const rows = (await said('--split', '4', '--seasons', '5', '--csv')).trimEnd().split('\r\n');
    const [header, ...others] = rows.map((row) => row.replace(/"[^"]*"/g, 'x').split(','));
    expect(header!.slice(0, 7)).toEqual([
      'size',
      'channels germination',
      'channels nursery',
      'channels finishing',
      'holes',
      'area_m2',
      'figure',
    ]);
    for (const row of others) expect(row).toHaveLength(header!.length);
    const counts = new Map<string, number>();
    for (const row of others) counts.set(row[6]!, (counts.get(row[6]!) ?? 0) + 1);
    // Three ways to deal four channels, and the size as it is.
    for (const figure of ['heads_a_week', 'bad_week', 'idle finishing', 'bound', 'gap visits'])
      expect(counts.get(figure)).toBe(4);
    expect(counts.get('worth of one more channel nursery')).toBe(1);
    // 1 nursery channel of 24 x 100 cm2 and 3 finishing channels of 9 x 400 cm2.
    expect(others.find((row) => row[2] === '1')!.slice(1, 6)).toEqual(['1', '1', '3', '51', '1.32']);
  });

  test('an area in m2 is dealt out', async () => {
    const result = await resultOf('--area', '2', '--between', 'nursery,finishing', '--seasons', '2');
    const dealt = result.sizes.filter(({ asked }) => asked);
    // By hand: 0.24 m2 a nursery channel, 0.36 m2 a finishing channel.
    expect(dealt.map(({ channels }) => [channels['nursery'], channels['finishing']])).toEqual([
      [2, 4],
      [3, 3],
      [5, 2],
      [6, 1],
    ]);
  });
});

test('parts that were carried out apart are joined to the same answer', async () => {
  const options = ['--split', '5', '--seasons', '12', '--seed', '4'];
  const parts = [1, 2, 3].map((k) => join(folder, `part-${k}.json`));
  for (const [i, part] of parts.entries()) await said(...options, '--shard', `${i + 1}/3`, '--out', part);
  for (const form of [['--json'], ['--csv'], []]) {
    const merged = await evensow(['merge', ...parts, ...form]);
    expect(merged).toEqual({ code: 0, err: '', out: await said(...options, ...form) });
  }
});

test('two threads give what one gives', async () => {
  const options = ['--channels', 'finishing=7,8', '--seasons', '20', '--json'];
  expect(await said(...options, '--workers', '2')).toBe(await said(...options, '--workers', '1'));
});

describe('options that are wrong', () => {
  test.each<[args: string[], ...parts: RegExp[]]>([
    [['--channels', ''], /--channels must not be ""\. .*Example: --channels nursery=1\.\.4/],
    [['--channels', 'nursery='], /--channels must not be empty/],
    [['--channels', 'nursery=0,x'], /must not hold "0"/, /must not hold "x"/],
    [['--channels', 'nursery=4..1'], /must not hold "4\.\.1"/],
    [['--channels', 'nursry=1,2'], /no stage "nursry"\. .*Did you mean nursery\?/],
    [['--channels', 'nursery=1', '--channels', 'nursery=2'], /nursery twice/],
    [
      ['--channels', 'nursery=1..40', '--channels', 'finishing=1..40'],
      /must not make 1600 plans\. At most 400/,
    ],
    [['--split', '1'], /--split must not be "1"/],
    [['--split', '2.5'], /--split must not be "2\.5"/],
    [['--split', '2', '--between', 'germination,nursery,finishing'], /takes 3\. Give at least 3/],
    [['--split', '4', '--between', 'nursery'], /to nursery alone.*Name two/],
    [['--split', '4', '--between', 'nursery,finshing'], /no stage "finshing"\. .*Did you mean finishing\?/],
    [['--split', '4', '--between', 'nursery,nursery'], /nursery must not be named twice/],
    [['--split', '500'], /more than 400 ways/],
    [['--split', '4', '--area', '2'], /--split and --area must not be given together/],
    [
      ['--channels', 'nursery=2', '--split', '4', '--area', '2'],
      /--channels and --split and --area .*all but one/,
    ],
    [['--between', 'nursery,finishing'], /--between must not stand alone/],
    [['--area', '0'], /--area must not be "0"/],
    [['--area', '-1'], /--area must not be "-1"/],
    [['--area', 'x'], /--area must not be "x"\. It must be an area above 0/],
    [['--area', '0.5'], /takes 0\.6 m2\. Give at least 0\.6/],
    [['--area', '3', '--between', 'germination,finishing'], /germination must not lack hole_area_cm2/],
    [['--seasons', '0', '--split', '1'], /--seasons must not be "0"/, /--split must not be "1"/],
    [['--seasons', '3', '--workers', '5'], /--workers must not be 5/],
  ])('%j', async (args, ...parts) => {
    await refused(args, ...parts);
  });
});
