/** What `check` says of keys that may be left out, and what it warns of with a caution. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
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
