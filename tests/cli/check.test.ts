/** What `check` says of keys that may be left out, and what it warns of with a caution. */

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../sim/models/plan.js';
import { readScenario } from '../../sim/scenario/read.js';
import { EXAMPLES, SHELF } from '../support/examples.js';
import { evensow } from './program.js';

const RACK = `${EXAMPLES}lettuce-rack.yaml`;
const MORE = 'More keys would tell more';

/** The lines below the plan that say what more keys would tell. */
async function more(input: string): Promise<string[]> {
  const { code, out } = await evensow(['check', '-'], { input });
  expect(code).toBe(0);
  const [, told = ''] = out.split(`\n${MORE}`);
  return told.trimEnd().split('\n').slice(1);
}

function rackWith(...edits: readonly (readonly [from: string | RegExp, to: string])[]): string {
  return edits.reduce(
    (text, [from, to]) => {
      const edited = text.replace(from, to);
      if (edited === text) throw new Error(`not in the file: ${from}`);
      return edited;
    },
    readFileSync(RACK, 'utf8'),
  );
}

describe('what more keys would tell', () => {
  test('is told in at most 12 lines where nothing of them is there', async () => {
    const { out } = await evensow(['check', SHELF]);
    const told = out.slice(out.indexOf(MORE)).trimEnd().split('\n');
    expect(told.length).toBeLessThanOrEqual(12);
    for (const key of ['ppfd', 'days_at', 'climate', 'tank', 'tiers', 'work', 'prices']) {
      expect(
        told.some((line) => line.includes(key)),
        key,
      ).toBe(true);
    }
  });

  test('is nothing where all of it is there', async () => {
    const { code, out, err } = await evensow(['check', RACK]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).not.toContain(MORE);
  });

  test.each([
    ['work', /^work: .*\n/m],
    ['prices', /^prices:.*\n.*\n/m],
    ['tank', /^tank: .*\n/m],
    ['days_at', /, days_at: \{.*?\}/],
    ['climate', /, humidity: 65/],
    ['tiers', /^tiers:\n( {2}- .*\n)+/m],
  ] as const)('is one sentence where only %s is missing', async (key, lines) => {
    const told = await more(rackWith([lines, '']));
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(key);
  });

  test.each([
    [/ plug: 0\.08,/, 'prices tell nothing of plugs yet: costs leave that out.'],
    [/, head: 2\.5/, 'prices.head (or kg) tells what a head earns'],
  ] as const)('is one sentence where a price is missing: %s', async (price, sentence) => {
    const told = await more(rackWith([price, '']));
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(sentence);
  });

  test('is one sentence where no stage tells of light', async () => {
    const light = /^ {4}(ppfd|hours|watts|efficacy|reaches): .*\n/gm;
    const told = await more(rackWith([light, ''], [/, days_at: \{.*?\}/, '']));
    expect(told.filter((line) => line.includes('ppfd'))).toHaveLength(1);
  });
});

describe('cautions stand where what is warned of stands, for every command that reads the scenario', () => {
  const LOAD =
    /The shelf's own label and a competent person decide; even static load only; add people, sloshing, overdue heads and water on the floor; rack and floor are not checked\./;
  const WATER = /Water and mains power: .* licensed electrician\./;
  const commands: [string, string[]][] = [
    ['check', ['check', '-']],
    ['run', ['run', '-', '--seasons', '2', '--json']],
  ];

  test.each(commands)('%s: a tier that bears too much', async (_, args) => {
    const { code, err } = await evensow(args, { input: rackWith(['rated_kg: 80', 'rated_kg: 30']) });
    expect(code).toBe(0);
    expect(err).toMatch(
      /^Note: standard input, line \d+: tier 3, rated_kg \(tiers\[2\]\.rated_kg\): bottom left bears /,
    );
    expect(err).toMatch(LOAD);
    expect(err).not.toMatch(/safe/);
  });

  test.each(commands)('%s: a tank that spills', async (_, args) => {
    const { code, err } = await evensow(args, { input: rackWith(['full_l: 95', 'full_l: 119']) });
    expect(code).toBe(0);
    expect(err).toMatch(/litres run onto the floor/);
    expect(err).toMatch(WATER);
  });
});

test('a fault names its place, what was found, what was expected and what to do; nothing else is printed', async () => {
  const { code, out, err } = await evensow(['check', '-'], {
    input: rackWith(['full_l: 95', 'full_l: 130']),
  });
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toMatch(
    /line \d+, column \d+: tank\.full_l\s+found 130; expected at most what the tank can hold \(litres: 120\)\.\s+full_l is the\s+level after topping up, with the pump running\./,
  );
});

describe('spells with other air', () => {
  const dated = rackWith([
    'co2: 500}',
    'co2: 500, dated: [{from: 2027-04-01, to: 2027-04-30, air_c: 14, night_c: 12}]}',
  ]);

  test('are told by how much longer days are then, one sentence a crop and spell', async () => {
    const { code, out } = await evensow(['check', '-'], { input: dated });
    expect(code).toBe(0);
    const said =
      /Thu 1 Apr 2027 to Fri 30 Apr 2027: butterhead lettuce takes ([\d.]+), ([\d.]+) and ([\d.]+) times its usual days, stage by stage\./;
    const [, ...times] = said.exec(out.replaceAll(/\n\s+/g, ' '))!;
    // Only the finishing stage has days_at, and the stages before are as now in both.
    const { spells } = planOf(dated).crops[0]!.stages[2]!;
    expect(times).toEqual(['1.00', '1.00', spells![0]!.times.toFixed(2)]);
  });

  test('are in the days that fit tells, and it says so where one lies in the time of the log', async () => {
    const log = ['date,action,crop,batch,stage,channel,count,grams,note']
      .concat('2027-04-05,sow,butterhead lettuce,B1,,,5,,', '2027-04-16,move,,B1,nursery,,5,,')
      .join('\n');
    const folder = mkdtempSync(join(tmpdir(), 'dated-'));
    const [logFile, file] = [join(folder, 'log.csv'), join(folder, 'rack.yaml')];
    writeFileSync(logFile, log);
    writeFileSync(file, dated);
    const sentence =
      /the spells of climate\.dated \(Thu 1 Apr 2027 to Fri 30 Apr 2027\) are in them and not taken out\./;
    const flat = async (args: string[]) => (await evensow(args)).out.replaceAll(/\s+/g, ' ');
    expect(await flat(['fit', logFile, file])).toMatch(sentence);
    expect(JSON.parse(await flat(['fit', logFile, file, '--json'])).spells).toEqual([
      { from: '2027-04-01', to: '2027-04-30' },
    ]);
    writeFileSync(file, dated.replace('from: 2027-04-01', 'from: 2027-04-20'));
    expect(await flat(['fit', logFile, file])).not.toMatch(/climate\.dated/);
    rmSync(folder, { recursive: true });
  });
});

function planOf(text: string): Plan {
  const read = readScenario(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.plan;
}
