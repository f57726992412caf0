/** `compare`, in one piece and in parts, through the built program. */

import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { FIGURES } from '../../sim/study/figures/figures.js';
import { EXAMPLES } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { interrupted } from './ctrl-c.js';
import { evensow } from './program.js';

/** What plans can be ordered by. */
const ORDERED = FIGURES.filter(({ scope }) => scope === 'whole').map(({ name }) => name);
/** Of scenarios that tell of holes only. */
const WHOLE = FIGURES.filter(({ scope, isToldOf }) => scope === 'whole' && isToldOf === undefined).map(
  ({ name }) => name,
);

const folder = ownFolder();

/** What the program prints; it must have ended well and said nothing else. */
async function said(...args: string[]): Promise<string> {
  const { code, out, err } = await evensow(args);
  expect(err).toBe('');
  expect(code).toBe(0);
  return out;
}

describe('compare', () => {
  test('puts the plans side by side, in 80 columns', async () => {
    const out = await said('compare', '--every', '2,3,4', '--seeds', '6', '--seasons', '40');
    for (const words of ['every 2 d, 6 seeds', 'every 3 d, 6 seeds', 'every 4 d, 6 seeds', 'usual', 'bad']) {
      expect(out).toContain(words);
    }
    expect(out).toMatch(/Against every 2 d, 6 seeds: difference and its 95 % interval/);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('gives every plan the figures that were promised, with intervals and differences', async () => {
    const result = JSON.parse(await said('compare', '--every', '3,4', '--seasons', '40', '--json'));
    expect(result).toMatchObject({ seasons: 40, seed: 7, partial: false, by: null, first: 'every 3 d' });
    expect(Object.keys(result.plans[0].figures)).toEqual(WHOLE);
    expect(result.plans[0].idle.map(({ stage }: { stage: string }) => stage)).toEqual([
      'germination',
      'nursery',
      'finishing',
    ]);
    expect(result.plans[1].limits.by).toBe('sowing');
    const { low, high, difference } = result.plans[1].figures.heads_a_week;
    expect(low).toBeLessThan(high);
    expect(difference).toEqual({
      mean: expect.any(Number),
      low: expect.any(Number),
      high: expect.any(Number),
      verdict: 'less',
    });
    expect(result.plans[0].figures.heads_a_week.difference).toBeNull();
  });

  test('--by takes each figure of the whole line, and no other name', async () => {
    // Of a scenario that tells of all of them.
    const args = [
      'compare',
      `${EXAMPLES}lettuce-rack.yaml`,
      '--every',
      '3,4',
      '--seasons',
      '1',
      '--json',
      '--by',
    ];
    for (const name of ORDERED) expect(JSON.parse(await said(...args, name)).by).toBe(name);
    const { code, err } = await evensow([...args, 'idle']);
    expect(code).toBe(2);
    expect(err).toContain(`must be one of ${ORDERED.join(', ')}.`);
  });

  test('takes cadences, weekdays, refill, seeds and visits together', async () => {
    const args = [
      '--every',
      '3',
      '--on',
      'thu+mon',
      '--refill',
      '--seeds',
      '6..7',
      '--visits',
      'daily,mon+thu',
    ];
    const { plans } = JSON.parse(await said('compare', ...args, '--seasons', '4', '--json'));
    expect(plans.map(({ name }: { name: string }) => name)).toEqual([
      'every 3 d, 6 seeds, visits daily',
      'every 3 d, 6 seeds, visits mon+thu',
      'every 3 d, 7 seeds, visits daily',
      'every 3 d, 7 seeds, visits mon+thu',
      'on mon+thu, 6 seeds, visits daily',
      'on mon+thu, 6 seeds, visits mon+thu',
      'on mon+thu, 7 seeds, visits daily',
      'on mon+thu, 7 seeds, visits mon+thu',
      'refill, visits daily',
      'refill, visits mon+thu',
    ]);
  });

  test('compares files as they are', async () => {
    const text = await readFile('scenarios/home-shelf.yaml', 'utf8');
    const more = join(folder, 'more.yaml');
    await writeFile(more, text.replace('channels: 2, holes: 24', 'channels: 3, holes: 24'));
    const { plans } = JSON.parse(
      await said('compare', 'scenarios/home-shelf.yaml', more, '--seasons', '20', '--json'),
    );
    expect(plans.map(({ name }: { name: string }) => name)).toEqual(['scenarios/home-shelf.yaml', more]);
    expect(plans[1].figures.heads_a_week.difference.verdict).toBe('more');
  });

  test('of one cadence with its own file is what run says of it', async () => {
    const { plans } = JSON.parse(await said('compare', '--every', '3,4', '--seasons', '30', '--json'));
    const run = JSON.parse(await said('run', '--seasons', '30', '--json'));
    const { figures, limits } = plans[0];
    expect(figures.heads_a_week.mean).toBe(run.running.mean);
    expect(figures.bad_week.mean).toBe(run.running.p10);
    expect(figures.usual_week.mean).toBe(run.running.p50);
    for (const heads of [run.running.p10, run.running.p50]) expect(Number.isInteger(heads)).toBe(true);
    expect(figures.thrown_away.mean).toBe(run.counts.discarded.mean);
    expect(figures.seeds_a_head.mean).toBe(run.counts.sown.mean / run.counts.picked.mean);
    expect(limits).toEqual(run.limits);
    for (const name of WHOLE) expect(figures[name]).toEqual({ ...run.figures[name], difference: null });
  });

  test('--csv gives the figures of --json, a row each', async () => {
    const args = ['compare', '--every', '3,4', '--seasons', '10'];
    const rows = (await said(...args, '--csv')).trimEnd().split('\r\n');
    const { plans } = JSON.parse(await said(...args, '--json'));
    expect(rows[0]).toBe('plan,figure,mean,low,high,difference,difference_low,difference_high,verdict');
    // The figures, the empty holes of 3 stages, and the bad week if nobody were away, of each plan.
    expect(rows).toHaveLength(1 + 2 * (WHOLE.length + 3 + 1));
    const { mean, low, high, difference } = plans[1].figures.bad_week;
    // Heads of a week are whole, and so are what they may be and how they differ.
    const { mean: more, low: least, high: most } = difference;
    for (const heads of [mean, low, high, more, least, most]) expect(Number.isInteger(heads)).toBe(true);
    expect(rows).toContain(
      [
        'every 4 d',
        'bad_week',
        mean,
        low,
        high,
        difference.mean,
        difference.low,
        difference.high,
        difference.verdict,
      ].join(','),
    );
  });
});

describe('the same to the last digit', () => {
  test('with one thread, two and three', async () => {
    const study = ['compare', '--every', '2,3', '--seasons', '60', '--json'];
    const whole = await said(...study);
    for (const threads of ['1', '2', '3']) expect(await said(...study, '--workers', threads)).toBe(whole);
  });

  test.each(['run', 'compare'])('in parts of %s that are joined', async (command) => {
    const args =
      command === 'run' ? ['run', '--seasons', '45'] : ['compare', '--on', 'mon,tue+fri', '--seasons', '45'];
    const parts = [3, 1, 4, 2].map((k) => ({ k, file: join(folder, `${command}-${k}.json`) }));
    for (const { k, file } of parts) expect(await said(...args, '--shard', `${k}/4`, '--out', file)).toBe('');
    const files = parts.map(({ file }) => file);
    for (const form of [[], ['--json'], ['--csv']]) {
      expect(await said('merge', ...files, ...form)).toBe(await said(...args, ...form));
    }
  });
});

test('--out writes the file whole, and nothing to standard output', async () => {
  const file = join(folder, 'result.json');
  expect(await said('run', '--seasons', '5', '--json', '--out', file)).toBe('');
  expect(await readFile(file, 'utf8')).toBe(await said('run', '--seasons', '5', '--json'));
});

describe('wrong options are answered with what must not be, what must be and what to do:', () => {
  test.each([
    [['compare', '--every', ''], '--every must not be empty. It must be numbers of days'],
    [['compare', '--every', '2,,3'], '--every must not hold "".'],
    [['compare', '--every', '2,0,x'], '--every must not hold "0".'],
    [['compare', '--every', '3,3'], '--every must not hold 3 twice.'],
    [['compare', '--seeds', '4..'], '--seeds must not hold "4..".'],
    [['compare', '--seeds', '6..4'], '--seeds must not hold "6..4".'],
    [['compare', '--on', 'mon+mon'], '--on must not hold "mon+mon".'],
    [['compare', '--on', 'monday'], '--on must not hold "monday".'],
    [['compare', '--visits', 'never'], '--visits must not hold "never".'],
    [['compare', '--every', '2,3', '--by', 'heads'], 'Did you mean heads_a_week?'],
    [['compare', 'scenarios/home-shelf.yaml', 'scenarios/home-shelf.yaml'], 'must not be named twice'],
    [['compare'], 'There is only one plan'],
    [['compare', '--every', '3'], 'There is only one plan'],
    [['compare', '--seeds', '1..400', '--every', '1,2'], 'must not make 800 plans'],
    [['compare', '--seeds', '4,5', '--seeds-a-week', '20'], 'must not be given together'],
    [['run', '--workers', '0'], '--workers must not be "0".'],
    [['run', '--workers', '9', '--seasons', '8'], '--workers must not be 9. There are only 8 seasons'],
    [['run', '--shard', '4/3'], '--shard must not be "4/3".'],
    [['run', '--shard', '0/3'], '--shard must not be "0/3".'],
    [['run', '--shard', '1'], '--shard must not be "1".'],
    [
      ['run', '--shard', '1/3'],
      '--shard must not stand without --out. A part is written to a file of its own',
    ],
    [
      ['run', '--shard', '1/9', '--seasons', '8', '--out', 'part-1.json'],
      '--shard must not be 1/9. There are only 8 seasons',
    ],
    [['run', '--seasons', '5', '--out', '/nowhere/result.txt'], 'there is no folder /nowhere.'],
  ])('%j', async (args, words) => {
    const { code, out, err } = await evensow(args);
    expect(err).toContain(words);
    expect(err).toMatch(/^evensow: /);
    expect(out).toBe('');
    expect(code).toBe(2);
  });

  test('all of them at once', async () => {
    const { err } = await evensow(['compare', '--every', '0', '--seeds', 'x', '--shard', '4/3']);
    expect(err.trimEnd().split('\n')).toHaveLength(3);
  });

  test('scenarios with seasons of different lengths', async () => {
    const short = join(folder, 'short.yaml');
    await writeFile(
      short,
      (await readFile('scenarios/home-shelf.yaml', 'utf8')).replace('weeks: 26', 'weeks: 20'),
    );
    const { code, err } = await evensow(['compare', 'scenarios/home-shelf.yaml', short]);
    expect(err).toContain('seasons of different lengths (26, 20 weeks)');
    expect(code).toBe(2);
  });
});

describe('parts that do not make a study are refused:', () => {
  /** A part of `run`, written to a file. */
  async function part(name: string, ...args: string[]): Promise<string> {
    const file = join(folder, name);
    await said('run', ...args, '--out', file);
    return file;
  }

  async function refused(...files: string[]): Promise<string> {
    const { code, out, err } = await evensow(['merge', ...files]);
    expect(code).toBe(2);
    expect(out).toBe('');
    return err;
  }

  /** A part with the sum that it would have had. */
  function summedAnew({ sha256: _, ...document }: Record<string, unknown>): string {
    const text = JSON.stringify(document).slice(0, -1);
    return `${text},"sha256":"${createHash('sha256').update(text).digest('hex')}"}\n`;
  }

  /** Runs the command that is given to make a part again. @returns the file that it writes */
  async function makesAgain(err: string): Promise<string> {
    const [, words] = /Make it(?: again)?: evensow (.*)$/m.exec(err) ?? [];
    const args = words!.split(' ');
    expect(await said(...args)).toBe('');
    return args.at(-1)!;
  }

  let first: string;
  beforeAll(async () => {
    first = await part('a1.json', '--seasons', '6', '--shard', '1/3');
  });

  test('one is missing', async () => {
    const third = await part('a3.json', '--seasons', '6', '--shard', '3/3');
    const err = await refused(first, third);
    expect(err).toContain(
      'Part 2 of 3 is missing. A study is joined from all of its parts.\nMake it: evensow run',
    );
    const second = await makesAgain(err);
    expect(second).toBe(join(folder, 'a2.json'));
    expect(await said('merge', first, second, third)).toBe(await said('run', '--seasons', '6'));
  });

  test('one is there twice', async () => {
    const err = await refused(first, first);
    expect(err).toContain(`Part 1 of 3 is there twice: ${first} and ${first}.`);
    expect(err).toContain('Parts 2, 3 of 3 are missing.');
  });

  test('they are of different scenarios', async () => {
    const text = await readFile('scenarios/home-shelf.yaml', 'utf8');
    const file = join(folder, 'other.yaml');
    await writeFile(file, text.replace('loss: 0.03', 'loss: 0.04'));
    const err = await refused(first, await part('b2.json', file, '--seasons', '6', '--shard', '2/3'));
    expect(err).toContain('is a part of another study');
    expect(err).toContain('the scenario is not the same');
  });

  test.each([
    ['--seasons', ['--seasons', '7', '--shard', '2/3'], 'seasons is 7, not 6'],
    ['--seed', ['--seasons', '6', '--seed', '8', '--shard', '2/3'], 'seed is 8, not 7'],
    ['--shard', ['--seasons', '6', '--shard', '2/4'], 'it is one of 4 parts, not of 3'],
  ])('they differ in %s', async (_, args, words) => {
    expect(await refused(first, await part('c.json', ...args))).toContain(words);
  });

  test('one is no part', async () => {
    expect(await refused('scenarios/home-shelf.yaml')).toContain('this is no part of a study');
  });

  test('one is cut short, wherever the cut is', async () => {
    const text = await readFile(first, 'utf8');
    const cut = join(folder, 'cut.json');
    await writeFile(cut, text.slice(0, -100));
    const err = await refused(cut);
    expect(err).toContain(`${cut}, part 1 of 3, is cut short`);
    expect(await makesAgain(err)).toBe(cut);
    // The sum at its end is of all before it, the name of the file included.
    const withoutSum = (part: string): string => part.replace(/,"sha256".*/s, '');
    expect(withoutSum(await readFile(cut, 'utf8'))).toBe(withoutSum(text.replaceAll(first, cut)));

    // In the middle of what it says of itself: the others know the command.
    await writeFile(cut, text.slice(0, 40));
    const second = await part('a2.json', '--seasons', '6', '--shard', '2/3');
    const third = await part('a3.json', '--seasons', '6', '--shard', '3/3');
    const some = await refused(cut, second, third);
    expect(some).toContain(`${cut} is cut short`);
    expect(some).toContain('Part 1 of 3 is missing.');
    expect(await makesAgain(some)).toBe(join(folder, 'a1.json'));
  });

  test('one is of another version', async () => {
    const text = await readFile(await part('a2.json', '--seasons', '6', '--shard', '2/3'), 'utf8');
    const third = await part('a3.json', '--seasons', '6', '--shard', '3/3');
    const old = join(folder, 'old.json');
    for (const [from, to] of [
      [/"version":"[^"]*"/, '"version":"0.0.9"'],
      [/"evensow_part":\d+,"version":"[^"]*"/, '"evensow_part":1,"version":"0.0.9"'],
    ] as const) {
      await writeFile(old, text.replace(from, to));
      const err = await refused(old, first, third);
      expect(err).toContain(`${old}, part 2 of 3, was `);
      expect(err).toContain('by evensow 0.0.9');
      expect(err).not.toContain('missing');
      expect(await makesAgain(err)).toBe(old);
      expect(await said('merge', old, first, third)).toBe(await said('run', '--seasons', '6'));
    }
  });

  test('one is damaged', async () => {
    const damaged = join(folder, 'damaged.json');
    const whole = await part('whole.json', '--seasons', '6', '--shard', '1/1');
    const document = JSON.parse(await readFile(whole, 'utf8'));
    document.data[0].sections[0].counts.pop();
    await writeFile(damaged, JSON.stringify(document));
    const err = await refused(damaged);
    expect(err).toContain(`${damaged}, part 1 of 1, is not as it was written`);
    expect(await makesAgain(err)).toBe(damaged);

    // Also if whoever changed it has made its sum anew.
    await writeFile(damaged, summedAnew(document));
    expect(await refused(damaged)).toContain(`${damaged}, part 1 of 1, is damaged`);
  });

  test.each<[string, (document: { asked: Record<string, unknown>; shard: { n: number } }) => void]>([
    ['asks for another command', ({ asked }) => Object.assign(asked, { command: 'size' })],
    ['is one of a thousand million', ({ shard }) => Object.assign(shard, { n: 1e9 })],
    ['has options that cannot be', ({ asked }) => Object.assign(asked, { seasons: 'many' })],
  ])('one %s', async (_, change) => {
    const changed = join(folder, 'changed.json');
    const whole = await part('unchanged.json', '--seasons', '6', '--shard', '1/1');
    const document = JSON.parse(await readFile(whole, 'utf8'));
    change(document);
    await writeFile(changed, JSON.stringify(document));
    expect(await refused(changed)).toMatch(
      /^evensow: .*changed\.json, part 1 of 1(000000000)?, is not as it was written\./,
    );
    await writeFile(changed, summedAnew(document));
    expect(await refused(changed)).toMatch(
      /^evensow: .*changed\.json, part 1 of \d+, is (damaged|not as it was written)/,
    );
  });

  test('one is not there', async () => {
    expect(await refused(join(folder, 'nothing.json'))).toContain('there is no such file');
  });
});

test('a part that is stopped is not written', async () => {
  const file = join(folder, 'stopped.json');
  const { code, err } = await interrupted(
    ['run', '--seasons', '1000000', '--shard', '1/2', '--workers', '2', '--out', file],
    /\d of 1 000 \d{3} seasons/,
  );
  expect(err).toBe('evensow: stopped; a part that is not whole is of no use, so none is written.\n');
  expect(code).toBe(130);
  await expect(readFile(file)).rejects.toThrow('ENOENT');
});

test('Ctrl-C while threads run shows what is known by then', async () => {
  const { code, out, err } = await interrupted(
    ['compare', '--every', '2,3', '--seasons', '1000000', '--workers', '2', '--json'],
    /\d \d{3} of 4 000 \d{3} seasons/,
  );
  const result = JSON.parse(out);
  expect(result.partial).toBe(true);
  expect(result.seasons).toBeGreaterThan(0);
  expect(err).toBe('evensow: stopped; what was known by then is shown.\n');
  expect(code).toBe(130);
});
