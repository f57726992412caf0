/** `evensow fit` through the built program. */

import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { textOf } from '../../cli/render/text.js';
import { fitSections } from '../../cli/sections/fit.js';
import { fitSeason } from '../../sim/season/fit/fit.js';
import { conflictsOf, fitChangesOf } from '../../sim/season/fit/fit-changes.js';
import { EXAMPLES, planOf, SHELF, SHELF_LOG } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { logText, simulatedLog } from '../support/simulated-log.js';
import { interrupted } from './ctrl-c.js';
import { type Answer, evensow } from './program.js';

const folder = ownFolder();
const file = (name: string): string => join(folder, name);

/** A log of a simulated season of some scenario, up to a day. */
function written(name: string, scenario: string, until = Infinity): string {
  writeFileSync(file(name), logText(simulatedLog(planOf(EXAMPLES + scenario), 7, 0, { until })));
  return file(name);
}

/** A log that is short, so that little has to be computed. */
const young = written('young.csv', 'home-shelf.yaml', 22);

/** The log of the repository beside its scenario: as text, with all of it written into a scenario, and as JSON. */
const fitted = file('fitted.yaml');
let answer: Answer;
// biome-ignore lint/suspicious/noExplicitAny: the document, read as a user's program reads it
let told: any;
beforeAll(async () => {
  answer = await evensow(['fit', SHELF_LOG, SHELF, '--write', fitted, '--all']);
  told = JSON.parse((await evensow(['fit', SHELF_LOG, SHELF, '--json'])).out);
});

describe('beside a scenario', () => {
  test('ends well and says nothing on standard error', async () => {
    expect(await evensow(['fit', young, SHELF])).toMatchObject({ code: 0, err: '' });
  });

  test('tells of each stage, which shapes fit and what waited, then what would change', () => {
    const parts = answer.out.split('\n\n').map((part) => part.replace(/\s+/g, ' '));
    expect(parts).toHaveLength(3);
    expect(parts[1]).toMatch(/^butterhead /);
    expect(parts[2]).toMatch(`What it would change in ${SHELF} `);
    const flat = answer.out.replace(/\s+/g, ' ');
    for (const stage of ['germination', 'nursery', 'finishing'])
      expect(answer.out).toContain(`\n  ${stage} `);
    expect(flat).toMatch(/Of the seeds \d\d\.\d % \(.* %\) sprout\./);
    expect(flat).toContain('Shape: ');
    expect(flat).toContain('That is allowed for.');
  });

  test('fits into 80 columns of plain characters', () => {
    for (const text of answer.out.split('\n')) {
      expect(text).toMatch(/^[ -~]*$/);
      // The name of the file is the user's.
      expect(text.replace(SHELF, '').length, text).toBeLessThanOrEqual(80);
    }
  });

  test('finds again what the season was simulated with, although nobody came for a fortnight', () => {
    const { stages } = told.crops[0];
    // The scenario's times; four standard errors are about as wide as the interval.
    for (const [s, days] of [7, 14, 21].entries()) {
      const { low, high } = stages[s].days;
      expect(Math.abs((low + high) / 2 - days)).toBeLessThan(high - low);
    }
  });
});

test('without a scenario it says that waiting cannot be told from growing, and changes nothing', async () => {
  const { code, out } = await evensow(['fit', young]);
  expect(code).toBe(0);
  expect(out.replace(/\s+/g, ' ')).toContain('what a plant waited for a hole is taken for growing');
  expect(out).not.toContain('What it would change');
});

test('a shape that fits worse than another is told with how much less likely it is', async () => {
  const log = join(folder, 'first-weeks.csv');
  writeFileSync(log, readFileSync(SHELF_LOG, 'utf8').split('\n').slice(0, 100).join('\n'));
  const line = join(folder, 'exponential.yaml');
  const nursery = /(nursery: \{days: 14), spread: 0\.12/;
  writeFileSync(line, readFileSync(SHELF, 'utf8').replace(nursery, '$1, shape: exponential'));
  const told =
    /nursery: (\w+) was fitted, but (\w+) is (.+) times as likely by this log \(AIC lower by ([\d.]+)\)/;
  const { out } = await evensow(['fit', log, line]);
  const [, shape, best, times, gap] = told.exec(out.replace(/\s+/g, ' '))!;
  const { crops } = JSON.parse((await evensow(['fit', log, line, '--json'])).out);
  const { shapes } = crops[0].stages[1];
  const aic = (name: string) => shapes.find((one: { shape: string }) => one.shape === name).aic;
  expect(Number(gap)).toBeCloseTo(aic(shape!) - aic(best!), 1);
  // exp(x / 2), x the difference of AIC.
  expect(times).toBe(
    Number(gap) > 2 * Math.log(1000)
      ? 'more than 1000'
      : String(Math.round(Math.exp((aic(shape!) - aic(best!)) / 2))),
  );
});

test('several crops and several cuts fit into 80 columns', async () => {
  const log = written('kitchen.csv', 'kitchen-garden.yaml', 45);
  const { code, out } = await evensow(['fit', log, `${EXAMPLES}kitchen-garden.yaml`]);
  expect(code).toBe(0);
  for (const text of out.split('\n')) {
    if (!text.startsWith('What it would')) expect(text.length, text).toBeLessThanOrEqual(80);
  }
  const flat = out.replace(/\s+/g, ' ');
  expect(flat).toContain('the log does not say which plants gave their first pick');
});

test('names of 60 signs fit into 80 columns too', () => {
  const name = 'a very long name of a stage of the line, as long as it may be';
  const plan = planOf(SHELF);
  const long = {
    ...plan,
    stages: plan.stages.map((stage) => ({ ...stage, name: `${stage.name} ${name}`.slice(0, 60) })),
    crops: plan.crops.map((crop) => ({ ...crop, name: name.slice(0, 60) })),
  };
  const rows = simulatedLog(long, 7, 0, { until: 50 });
  const result = fitSeason(
    rows,
    long.stages.map((stage) => stage.name),
    long,
  );
  const changes = fitChangesOf(result, long);
  const conflicts = conflictsOf(result, long);
  const told = textOf(fitSections({ result, scenario: 'x.yaml', changes, conflicts }));
  for (const text of told.split('\n')) {
    expect(text.length, text).toBeLessThanOrEqual(80);
  }
});

test('crops whose names begin alike are told apart', async () => {
  const twoCrops = readFileSync(`${EXAMPLES}kitchen-garden.yaml`, 'utf8')
    .replaceAll('butterhead', 'butterhead green')
    .replaceAll('basil', 'butterhead red');
  writeFileSync(file('two.yaml'), twoCrops);
  const rows = simulatedLog(planOf(file('two.yaml')), 7, 0, { until: 50 });
  writeFileSync(file('two.csv'), logText(rows));
  const { out } = await evensow(['fit', file('two.csv'), file('two.yaml')]);
  const [head, ...changed] = out.slice(out.indexOf('  crop ')).split('\n').slice(0, -3);
  const names = new Set(changed.map((text) => text.slice(0, head!.indexOf('stage'))));
  expect(names.size).toBe(2);
});

test('Ctrl-C before any stage is fitted ends it at once, and nothing is written', async () => {
  // A year's log of several crops: fitting it takes some seconds.
  const log = written('year.csv', 'kitchen-garden.yaml');
  const out = file('stopped.yaml');
  const answer = await interrupted(
    ['fit', log, `${EXAMPLES}kitchen-garden.yaml`, '--write', out],
    /fitting .*, stage 1 of/,
  );
  expect(answer.out).toBe('');
  expect(answer).toMatchObject({ code: 130, signal: 0 });
  expect(answer.err).toContain('stopped before any stage was fitted; there is nothing to show');
  expect(readdirSync(folder).filter((name) => name.includes('stopped'))).toEqual([]);
});

test('Ctrl-C later prints the stages that are known by then, says which are not, and writes nothing', async () => {
  const log = written('year.csv', 'kitchen-garden.yaml');
  const out = file('stopped.yaml');
  const answer = await interrupted(
    ['fit', log, `${EXAMPLES}kitchen-garden.yaml`, '--write', out],
    /fitting .*, stage 2 of/,
  );
  expect(answer).toMatchObject({ code: 130, signal: 0 });
  const [first, second, third] = planOf(`${EXAMPLES}kitchen-garden.yaml`).stages.map(({ name }) => name);
  expect(answer.out).toContain(`\n  ${first} `);
  expect(answer.out).not.toContain(`\n  ${second} `);
  expect(answer.err.replace(/\s+/g, ' ')).toContain(
    `stopped; of ${second} and ${third} nothing is known yet. ${out} was not written.`,
  );
  expect(readdirSync(folder).filter((name) => name.includes('stopped'))).toEqual([]);
});

test('what a shape leaves no room for is told and not written', async () => {
  const half = written('half.csv', 'home-shelf.yaml', 50);
  for (const [shape, key] of [
    ['shape: fixed, days: 14', 'spread'],
    ['shape: exponential, days: 14', 'spread'],
    ['shape: observed, observed: [12, 12]', 'days'],
  ] as const) {
    const scenario = readFileSync(SHELF, 'utf8').replace('days: 14, spread: 0.12', shape);
    const path = file('shaped.yaml');
    writeFileSync(path, scenario);
    const { conflicts, changes } = JSON.parse((await evensow(['fit', half, path, '--json'])).out);
    expect(conflicts).toContainEqual(expect.objectContaining({ stage: 'nursery', key }));
    expect(changes).not.toContainEqual(expect.objectContaining({ stage: 'nursery', key }));
  }
  const { out } = await evensow(['fit', half, file('shaped.yaml')]);
  const shapes = out.slice(out.indexOf('What its shapes leave no room for'));
  expect(shapes).toMatch(/butterhead +nursery +days /);
  expect(shapes.replace(/\s+/g, ' ')).toContain('These are not written');
  expect(answer.out).not.toContain('What its shapes');
});

describe('ordinary records', () => {
  const flat = (text: string): string => text.replace(/\s+/g, ' ');
  const rowsOf = (text: string): string[] => text.split('\n').filter((row) => row !== '');

  test('failed seeds that were never logged: growing is told all the same, germination is not sure', async () => {
    const log = file('unlogged.csv');
    const rows = rowsOf(readFileSync(SHELF_LOG, 'utf8'));
    const kept = rows.filter((row) => !/^[^,]*,lose,[^,]*,[^,]*,germination,/.test(row));
    writeFileSync(log, `${kept.join('\n')}\n`);
    const { crops, changes } = JSON.parse((await evensow(['fit', log, SHELF, '--json'])).out);
    const { days, spread, germination, unmentioned, doubts } = crops[0].stages[0];
    // The season was simulated with 7 days, a spread of 10 % and 92 %, and seedlings were thrown away.
    expect(days).toMatchObject({ good: true });
    expect(days.low).toBeLessThan(7);
    expect(days.high).toBeGreaterThan(7);
    expect(spread.low).toBeLessThan(0.1);
    expect(spread.high).toBeGreaterThan(0.1);
    expect(germination.good).toBe(false);
    expect(doubts[0].batches).toContain('B10');
    expect(unmentioned).toBeGreaterThan(90);
    const keys = changes.map(({ path }: { path: string[] }) => path.join('.'));
    expect(keys).not.toContain('crops.0.germination');
  });

  test('of these, their batches are named, and that they are taken to have failed', async () => {
    const log = file('unlogged-half.csv');
    const rows = rowsOf(readFileSync(SHELF_LOG, 'utf8')).slice(0, 110);
    writeFileSync(log, `${rows.filter((row) => !row.includes(',lose,,B2,')).join('\n')}\n`);
    const { out } = await evensow(['fit', log, SHELF]);
    expect(flat(out)).toContain(
      '2 seeds of B2 should have left germination long ago, and no row tells of them',
    );
  });

  test('what stood when the log began, entered as sown then: nothing of it is sure, and how to log it is said', async () => {
    const log = file('midway.csv');
    const [head, ...rows] = rowsOf(readFileSync(SHELF_LOG, 'utf8'));
    const from = '2027-01-28';
    const entered = [
      `${from},sow,butterhead,B1,,,9,,`,
      `${from},move,,B1,nursery,,9,,`,
      `${from},sow,butterhead,B9,,,10,,`,
    ];
    const late = rows.filter((row) => row > '2027-02-15' && row < '2027-04-15' && /,B(9|[1-9]\d),/.test(row));
    const kept = late.filter((row) => Number(/,B(\d+),/.exec(row)![1]) > 12);
    writeFileSync(log, `${[head, ...entered, ...kept].join('\n')}\n`);
    const { out } = await evensow(['fit', log, SHELF]);
    expect(flat(out)).toContain('B1 and B9 cannot have been sown on the day on which they were logged');
    // No command: to a batch that is sown already none can be added that says it stood before.
    expect(flat(out)).toContain('Put stand rows of what stood then in the place of their rows of that day');
    expect(out).not.toContain('evensow log');
  });

  test('a hole more than the line has: the number that was seen is offered', async () => {
    const more = readFileSync(SHELF, 'utf8').replace('channels: 2, holes: 24', 'channels: 1, holes: 49');
    writeFileSync(file('more.yaml'), more);
    const log = written('to-day-80.csv', 'home-shelf.yaml', 80);
    const { out } = await evensow(['fit', log, file('more.yaml')]);
    expect(flat(out)).toMatch(
      /Of the 49 holes of nursery never more than 48 were taken, and so many after \d+ visits/,
    );
    expect(flat(out)).toContain('Has nursery 48 holes? Then say so in the scenario and fit again');
    expect(out).toMatch(/\n {2}germination +\d+ +\d+ +\(/);
  });
});

describe('too little', () => {
  test('while nothing is known for sure, it does not say that nothing differs', async () => {
    const log = written('first-days.csv', 'home-shelf.yaml', 3);
    const { out } = await evensow(['fit', log, SHELF]);
    expect(out).toContain('Nothing yet: the log does not tell any figure for sure.');
    const written1 = await evensow(['fit', log, SHELF, '--write', file('same.yaml')]);
    expect(written1.err).toContain('as it was: the log changes nothing');
    expect(readFileSync(file('same.yaml'))).toEqual(readFileSync(SHELF));
  });

  test('a stage that few plants have left is said to be too little, without a number', async () => {
    const { code, out } = await evensow(['fit', young, SHELF]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /Too little for nursery: \d+ plants? (was|were) seen to leave it ready/,
    );
    expect(out).not.toMatch(/^ {2}nursery/m);
  });

  test('of a log without rows, the next step is told', async () => {
    writeFileSync(file('empty.csv'), 'date,action,crop,batch,stage,channel,count,grams,note\r\n');
    const { code, out, err } = await evensow(['fit', file('empty.csv'), SHELF]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('must not be without rows');
    expect(err).toContain('evensow log sow');
  });

  test('a crop that the scenario does not have is a fault of the log, with its line', async () => {
    const text = readFileSync(SHELF_LOG, 'utf8').replaceAll('butterhead', 'cress');
    const { code, err } = await evensow(['fit', '-', SHELF], { input: text });
    expect(code).toBe(2);
    expect(err).toContain('line 2');
    expect(err).toContain('cress');
    expect(err).toContain('butterhead');
  });
});

describe('--json and --csv', () => {
  test('hold the same figures, in full', async () => {
    expect(told).toMatchObject({ from: '2027-01-04', holes_known: true });
    const [json, table] = await Promise.all(
      ['--json', '--csv'].map(async (form) => (await evensow(['fit', young, SHELF, form])).out),
    );
    const csv = table!.trimEnd().split('\r\n');
    expect(csv[0]).toBe('crop,stage,regrowth,figure,value,low,high,good');
    const rows = JSON.parse(json!).crops[0].stages.flatMap((stage: Record<string, never>) =>
      ['days', 'spread', 'loss', 'germination'].flatMap((figure) => {
        const found = stage[figure] as { value: number; low: number; high: number; good: boolean } | null;
        if (found === null) return [];
        const { value, low, high, good } = found;
        return [['butterhead', stage['stage'], 'false', figure, value, low, high, good].join(',')];
      }),
    );
    expect(rows.length).toBeGreaterThan(2);
    expect(csv.slice(1)).toEqual(rows);
  });

  test('the changes name the keys of the scenario', async () => {
    expect(told.changes.map(({ path }: { path: string[] }) => path.join('.'))).toContain(
      'crops.0.stages.nursery.days',
    );
    expect(JSON.parse((await evensow(['fit', young, '--json'])).out).changes).toBeNull();
  });
});

describe('of several crops', () => {
  test('what is to be said of them in the same words is said once; without a scenario nothing is said of one', async () => {
    const rows = readFileSync(SHELF_LOG, 'utf8').split('\n').slice(0, 120);
    // Every other batch is of another crop, and no note says what became of plants.
    const bare = rows.map((row) =>
      row.replace(/,butterhead,(B\d*[02468]),/, ',romaine,$1,').replace(/,[a-z ]*$/, ','),
    );
    const { code, out } = await evensow(['fit', '-'], { input: bare.join('\n') });
    expect(code).toBe(0);
    const text = out.replace(/\s+/g, ' ');
    const sentence =
      'What was cleared in germination is taken for seeds that failed: no note tells of plants that died.';
    expect(text.split(sentence)).toHaveLength(2);
    expect(text).toContain(`butterhead and romaine ${sentence}`);
    expect(text).not.toContain('the scenario has no loss');
  });
});

describe('--write', () => {
  test('into another folder: the scenario there names the same log', async () => {
    const text = `${readFileSync(SHELF, 'utf8')}\nlog: own.csv\n`;
    writeFileSync(file('names-log.yaml'), text);
    writeFileSync(file('own.csv'), readFileSync(SHELF_LOG, 'utf8').split('\n').slice(0, 40).join('\n'));
    mkdirSync(file('other'));
    const out = file('other/fitted.yaml');
    const { code, err } = await evensow(['fit', file('names-log.yaml'), '--write', out]);
    expect(code).toBe(0);
    expect(err).toContain('It names the same log, from there: ../own.csv.');
    expect(readFileSync(out, 'utf8')).toContain('\nlog: ../own.csv\n');
    expect(await evensow(['replay', out, '--csv'])).toEqual(
      await evensow(['replay', file('names-log.yaml'), '--csv']),
    );
    const beside = file('beside.yaml');
    expect((await evensow(['fit', file('names-log.yaml'), '--write', beside])).err).not.toContain(
      'from there',
    );
    expect(readFileSync(beside, 'utf8')).toContain('\nlog: own.csv\n');
  });

  test('writes the scenario with the values put in: only these differ, comments and layout stay', async () => {
    expect(answer.code).toBe(0);
    expect(answer.err).toMatch(/fitted\.yaml is the scenario with \d+ values from the log/);
    const [before, after] = [SHELF, fitted].map((path) => readFileSync(path, 'utf8')) as [string, string];
    // But for numbers, the text is the same.
    expect(after.replaceAll(/[\d.]+/g, '#')).toBe(before.replaceAll(/[\d.]+/g, '#'));
    const plan = planOf(fitted);
    for (const { path, value } of told.changes as { path: (string | number)[]; value: number }[]) {
      const [, , , stage, key] = path;
      const s = plan.stages.findIndex(({ name }) => name === stage);
      const growing = plan.crops[0]!.stages[s];
      const found =
        path.at(-1) === 'germination'
          ? plan.crops[0]!.germination
          : key === 'loss'
            ? growing!.loss
            : growing!.time[key as 'days' | 'spread'];
      expect(found).toBe(value);
    }
    expect(planOf(fitted).visits).toEqual(planOf(SHELF).visits);
  });

  test('writes only what the log gives reason to change: the present value lies outside the interval', async () => {
    const out = file('changed.yaml');
    // Of nine figures one is not that of the season.
    const text = readFileSync(SHELF, 'utf8').replace('{days: 14,', '{days: 16,');
    expect(text).not.toBe(readFileSync(SHELF, 'utf8'));
    const { err } = await evensow(['fit', SHELF_LOG, '-', '--write', out], { input: text });
    expect(err).toContain('is the scenario with 1 value from the log; all else says what it said.');
    expect(err).toContain(
      'Of 8 other values it holds what the scenario says for possible; --all writes them too.',
    );
    const [before, after] = [text, readFileSync(out, 'utf8')].map((one) => one.split('\n')) as [
      string[],
      string[],
    ];
    const differ = before.flatMap((was, i) => (was === after[i] ? [] : [after[i]!]));
    expect(differ).toHaveLength(1);
    expect(differ[0]).toMatch(/nursery: +\{days: 1[34]\.\d+,/);
  });

  test('a loss of which nobody died among few plants stays what it was', async () => {
    const out = file('young.yaml');
    const log = written('few.csv', 'home-shelf.yaml', 42);
    await evensow(['fit', log, SHELF, '--write', out]);
    for (const [s, { loss }] of planOf(out).crops[0]!.stages.entries())
      expect(loss).toBe(planOf(SHELF).crops[0]!.stages[s]!.loss);
  });

  test('leaves what is there alone unless it is told to go over it', async () => {
    const out = file('mine.yaml');
    writeFileSync(out, 'mine');
    const refused = await evensow(['fit', SHELF_LOG, SHELF, '--write', out]);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('--over');
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect((await evensow(['fit', young, SHELF, '--write', out, '--over'])).code).toBe(0);
    expect(planOf(out).title).toBe('Cellar line');
  });

  test('never goes over the log, by whatever name', async () => {
    const log = file('season.csv');
    writeFileSync(log, readFileSync(SHELF_LOG));
    symlinkSync(log, file('same.csv'));
    for (const out of [log, file('same.csv')]) {
      const { code, err } = await evensow(['fit', log, SHELF, '--write', out, '--over']);
      expect(code).toBe(2);
      expect(err).toContain('is the log');
    }
    expect(readFileSync(log)).toEqual(readFileSync(SHELF_LOG));
  });

  test('leaves nothing behind if it cannot write', async () => {
    const { code, err } = await evensow(['fit', young, SHELF, '--write', file('no/such.yaml')]);
    expect(code).toBe(2);
    expect(err).toContain('there is no folder');
    expect(readdirSync(folder).filter((name) => name.includes('part'))).toEqual([]);
  });

  test.each(['--over', '--all'])('%s says nothing by itself', async (option) => {
    const { code, err } = await evensow(['fit', SHELF_LOG, SHELF, option]);
    expect(code).toBe(2);
    expect(err).toContain('without --write');
  });

  test('needs a scenario', async () => {
    const { code, err } = await evensow(['fit', SHELF_LOG, '--write', file('new.yaml')]);
    expect(code).toBe(2);
    expect(err).toContain('without a scenario');
  });

  test('takes one of the two from standard input, not both', async () => {
    const { code, err } = await evensow(['fit', '-', '-']);
    expect(code).toBe(2);
    expect(err).toContain('must not both');
    const piped = await evensow(['fit', '-', SHELF], { input: readFileSync(young, 'utf8') });
    expect(piped.out).toBe((await evensow(['fit', young, SHELF])).out);
  });
});
