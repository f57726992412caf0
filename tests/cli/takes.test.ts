/** What a plan takes, through the built program: in few lines, in full, with its cautions wherever figures of it stand. */

import { readFileSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { LOAD_CAUTION, TAKES_CAUTION } from '../../sim/models/physical/cautions.js';
import type { RunResult } from '../../sim/study/summary.js';
import { EXAMPLES, SHELF } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { readPage } from '../support/page.js';
import { evensow } from './program.js';

const RACK = `${EXAMPLES}lettuce-rack.yaml`;
const FEW = ['--seasons', '4'];
const BRIEF = 'What it takes (mean of a season';
const folder = ownFolder();

async function said(args: readonly string[], input = ''): Promise<string> {
  const { code, out, err } = await evensow([...args], { input });
  expect({ args, code, err }).toEqual({ args, code: 0, err: '' });
  return out;
}

/** Sentences are broken into lines. */
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');

/** The example without some of its lines. */
function without(...lines: readonly RegExp[]): string {
  return lines.reduce(
    (text, line) => {
      const left = text.replace(line, '');
      if (left === text) throw new Error(`not in the file: ${line}`);
      return left;
    },
    readFileSync(RACK, 'utf8'),
  );
}

const PRICES = /^prices:.*\n.*\n/m;
const TANK = /^tank: .*\n/m;
const TIERS = /^tiers:\n( {2}- .*\n)+/m;
const WORK = /^work: .*\n/m;
const HUMIDITY = / humidity: 65,/;
const HEAD = /^ {4}head_g: .*\n/m;

describe('run', () => {
  test('grows by at most 12 lines of 80 columns', async () => {
    const [before, more] = (await said(['run', RACK, ...FEW])).split(BRIEF);
    expect(before).toMatch(/\n\n$/);
    const lines = `\n${BRIEF}${more}`.trimEnd().split('\n');
    expect(lines.length).toBeLessThanOrEqual(12);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('is as it was for a scenario that tells of holes only, with --all too', async () => {
    const out = await said(['run', SHELF, ...FEW]);
    expect(out).not.toContain(BRIEF);
    expect(out).not.toContain(TAKES_CAUTION.slice(0, 20));
    expect(await said(['run', SHELF, ...FEW, '--all'])).toBe(out);
  });

  test('shares of the light are whole percents that add up to 100', async () => {
    const out = flat(await said(['run', RACK, ...FEW]));
    const [sentence] = /Of their light fell [^.]*\./.exec(out)!;
    const percents = [...sentence.matchAll(/(\d+) %/g)].map(([, percent]) => Number(percent));
    expect(percents).toHaveLength(4);
    expect(percents.reduce((sum, percent) => sum + percent, 0)).toBe(100);
  });

  test('its bar has as many signs as leaves and gaps have shares', async () => {
    const out = await said(['run', RACK, ...FEW]);
    const [, leaves, gaps] = /fell (\d+) % on leaves, (\d+) %/.exec(flat(out))!.map(Number);
    const [, bar] = /= leaves, - gaps +(=+-+)/.exec(out)!;
    // 24 places: half a place and half a percent of rounding.
    expect(Math.abs([...bar!].filter((sign) => sign === '=').length / 24 - leaves! / 100)).toBeLessThan(0.03);
    expect(Math.abs(bar!.length / 24 - (leaves! + gaps!) / 100)).toBeLessThan(0.035);
  });

  test('litres go with their factor until a meter has scaled them', async () => {
    expect(await said(['run', RACK, ...FEW])).toContain('good to a factor of 1.5');
    const metered = `${readFileSync(RACK, 'utf8')}water: {scale: 1.2}\n`;
    const brief = await said(['run', '-', ...FEW], metered);
    expect(brief).toContain('scaled to your meter');
    const full = await said(['run', '-', ...FEW, '--all'], metered);
    for (const out of [brief, full]) expect(out).not.toContain('factor of 1.5');
  });

  test('a figure for every litre that stands in full has its factor or its total', async () => {
    const out = flat(await said(['run', RACK, ...FEW, '--all']));
    expect(out).toMatch(/runs low in \d+ to \d+ days \(\d+, good to a factor of 1\.5\)/);
    expect(out).toMatch(/L used since the visit before \(litres good to a factor of 1\.5\)/);
    expect(out).toContain('do not count on them');
  });

  test('what spills stands in few lines and in full', async () => {
    const spilling = readFileSync(RACK, 'utf8').replace('full_l: 95', 'full_l: 118');
    for (const all of [[], ['--all']]) {
      const { code, out } = await evensow(['run', '-', ...FEW, ...all], { input: spilling });
      expect(code).toBe(0);
      expect(flat(out)).toMatch(/(\d+\.\d L|\d+ L) spill/);
    }
  });

  test('a tier over its label is said to be, and no tier is ever called safe', async () => {
    const heavy = readFileSync(RACK, 'utf8').replaceAll('rated_kg: 80', 'rated_kg: 20');
    const { out } = await evensow(['run', '-', ...FEW, '--all'], { input: heavy });
    expect(out.match(/OVER ITS LABEL/g)).toHaveLength(2);
    expect(flat(out)).toContain(LOAD_CAUTION);
    expect(out).not.toMatch(/\bsafe/i);
    const unlabelled = readFileSync(RACK, 'utf8').replace('rated_kg: 60, lamps_kg: 3', 'lamps_kg: 3');
    expect(await said(['run', '-', ...FEW, '--all'], unlabelled)).toContain('no rated_kg is told');
  });

  test('money is told with what is left out, and in no currency', async () => {
    for (const all of [[], ['--all']]) {
      const out = flat(await said(['run', RACK, ...FEW, ...all]));
      for (const part of [
        'cooling',
        'drying',
        'pumps',
        'first filling',
        'rent',
        'packing',
        'transport',
        'tax',
      ])
        expect(out, part).toContain(part);
      expect(out).not.toMatch(/[$€£¥]/);
    }
  });

  test('parts of the costs in full add up to what a head costs', async () => {
    const out = await said(['run', RACK, ...FEW, '--all']);
    const [, parts] = /a season +of all +a head\n([\s\S]*?) {2}all of these/.exec(out)!;
    const costs = parts!
      .trimEnd()
      .split('\n')
      .map((row) => Number(/ ([\d ]*\d\.\d\d) +[<\d]/.exec(row)![1]!.replaceAll(' ', '')));
    const [, total] = /all of these +([\d ]+\.\d\d) /.exec(out)!;
    expect(costs).toHaveLength(8);
    // Each is rounded to a hundredth.
    expect(
      Math.abs(costs.reduce((sum, cost) => sum + cost, 0) - Number(total!.replaceAll(' ', ''))),
    ).toBeLessThan(0.05);
  });
});

describe('only what the scenario asks for is told', () => {
  test.each([
    ['prices', [PRICES], /costs|in money|Money|not the lost sale/],
    ['work', [WORK], /hours a week|min a head/],
    ['a tank', [TANK], /tank at its lowest|The tank is topped up|wilts/],
    ['tiers', [TIERS], /Load of each tier/],
    ['humidity', [HUMIDITY], /L a day|runs low|given off/],
  ] as const)('without %s', async (_, lines, words) => {
    for (const all of [[], ['--all']]) {
      expect(await said(['run', RACK, ...FEW, '--all'])).toMatch(words);
      expect(await said(['run', '-', ...FEW, ...all], without(...lines))).not.toMatch(words);
    }
  });

  test('without masses of heads growing plants are one part', async () => {
    const alone = without(
      HEAD,
      HUMIDITY,
      TANK,
      TIERS,
      /, days_at: \{.*?\}/,
      /, ready_g: 4/,
      /^ {4}dry: .*\n/m,
    );
    for (const all of [[], ['--all']]) {
      const out = flat(await said(['run', '-', ...FEW, ...all], alone));
      expect(out).toMatch(/\d+ % on growing plants/);
      expect(out).not.toMatch(/on leaves, \d|Wide from the start/);
    }
  });
});

describe('cautions stand where the figures stand', () => {
  test('in the text, in brief and in full', async () => {
    expect(flat(await said(['run', RACK, ...FEW]))).toContain(TAKES_CAUTION);
    const full = flat(await said(['run', RACK, ...FEW, '--all']));
    for (const caution of [TAKES_CAUTION, LOAD_CAUTION, 'Do not look into lamps', 'Water and mains power'])
      expect(full).toContain(caution);
  });

  test.each([
    ['light', [PRICES, TANK, TIERS, WORK, HUMIDITY]],
    [
      'all but light on leaves',
      [HEAD, HUMIDITY, TANK, TIERS, /, days_at: \{.*?\}/, /, ready_g: 4/, /^ {4}dry: .*\n/m],
    ],
  ] as const)('whatever is told: %s', async (_, lines) => {
    const input = without(...lines);
    expect(flat(await said(['run', '-', ...FEW], input))).toContain(TAKES_CAUTION);
    const { assumes } = JSON.parse(await said(['run', '-', ...FEW, '--json'], input)) as RunResult;
    expect(assumes).toContain(TAKES_CAUTION);
    expect(assumes).not.toContain(LOAD_CAUTION);
  });

  test('in JSON', async () => {
    const { assumes } = JSON.parse(await said(['run', RACK, ...FEW, '--json'])) as RunResult;
    expect(assumes).toContain(TAKES_CAUTION);
    expect(assumes).toContain(LOAD_CAUTION);
  });

  test('beside a comparison, as text, JSON and CSV', async () => {
    const args = ['compare', RACK, '--every', '2,3', ...FEW];
    expect(flat(await said(args))).toContain(TAKES_CAUTION);
    expect(JSON.parse(await said([...args, '--json'])).assumes).toContain(TAKES_CAUTION);
    const csv = await said([...args, '--csv']);
    expect(csv).toContain('cost_a_head');
    expect(csv).toContain(TAKES_CAUTION);
  });

  test('on the page', async () => {
    const path = join(folder, 'page.html');
    expect((await evensow(['report', RACK, '--seasons', '2', '--out', path])).code).toBe(0);
    const html = await readFile(path, 'utf8');
    expect(readPage(html)).toBeDefined();
    for (const words of ['What it takes', 'Light that is paid for', 'Load of each tier', TAKES_CAUTION])
      expect(html).toContain(words);
    expect(html).toContain(LOAD_CAUTION.slice(LOAD_CAUTION.indexOf('own label')));
    expect(html).not.toContain('Not simulated: light');
  });
});

describe('size', () => {
  test('tells what more channels cost and bring in a year, and what there is to mind', async () => {
    const args = ['size', RACK, '--channels', 'finishing=8,9', ...FEW];
    const out = await said(args);
    expect(out).toMatch(
      /costs +margin +interval\n.*\n* *\+1 channel of nursery \(20 holes\) +\+\d+\.\d +-\d/s,
    );
    expect(flat(out)).toContain(TAKES_CAUTION);
    expect(out).toContain('There is no interval from so few seasons');
    for (const row of out.split('\n')) expect(row.length, row).toBeLessThanOrEqual(80);
    const csv = await said([...args, '--csv']);
    expect(csv).toContain('worth of one more channel finishing: margin a year,');
    expect(csv).toContain(TAKES_CAUTION);
    const bare = JSON.parse(await said(['size', SHELF, '--channels', 'finishing=8', ...FEW, '--json']));
    expect(bare).not.toHaveProperty('assumes');
  });
});

describe('compare', () => {
  test('tells what a head takes, and how it differs', async () => {
    const out = await said(['compare', RACK, '--every', '2,3', ...FEW, '--by', 'kwh_a_head']);
    expect(out).toMatch(/kWh a head +litres a head +minutes a head +cost a head/);
    expect(out).toMatch(/ {2}cost a head\n {4}every 3 d +\+/);
    expect(out).toContain('The best by kwh_a_head stands first.');
  });

  test('says nothing of it for scenarios that tell of holes only', async () => {
    const out = await said(['compare', SHELF, '--every', '2,3', ...FEW]);
    expect(out).not.toContain('For each head that is picked');
    expect(JSON.parse(await said(['compare', SHELF, '--every', '2,3', ...FEW, '--json']))).not.toHaveProperty(
      'assumes',
    );
  });

  test('refuses an order by what no plan tells', async () => {
    const { code, out, err } = await evensow([
      'compare',
      SHELF,
      '--every',
      '2,3',
      ...FEW,
      '--by',
      'cost_a_head',
    ]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('--by must not be cost_a_head');
    expect(err).toContain('Example: --by heads_a_week');
  });
});

test('parts of a study are told in full by merge --all', async () => {
  const part = (k: number): string => join(folder, `part-${k}.json`);
  for (const k of [1, 2]) await said(['run', RACK, ...FEW, '--shard', `${k}/2`, '--out', part(k)]);
  expect(await said(['merge', part(1), part(2), '--all'])).toBe(await said(['run', RACK, ...FEW, '--all']));
});

describe('prices of a part of what a season takes', () => {
  /** The example with other prices. */
  const priced = (prices: string, ...others: readonly RegExp[]): string =>
    `${without(PRICES, ...others)}prices: {${prices}}\n`;
  const UNTOLD = 'what is not told here (water, nutrients, seed, plugs, work, wear of the holes), cooling';

  test('what has no price is named wherever a cost is told', async () => {
    const file = await writtenTo('kwh-only.yaml', priced('kwh: 0.3'));
    const run = flat(await said(['run', file, ...FEW]));
    // Beside the figure: light alone.
    expect(run).toMatch(/A head costs [\d.]+\. Left out: /);
    expect(run).toContain(`Left out: ${UNTOLD}`);
    for (const args of [
      ['run', file, '--json', ...FEW],
      ['compare', file, '--every', '2,3', ...FEW],
      ['size', file, '--channels', 'finishing=8', ...FEW],
    ])
      expect(flat(await said(args)), args[0]).toContain(`Costs leave out ${UNTOLD}`);
  });

  test('a price of what is not told adds nothing, and what is left out names it', async () => {
    const out = flat(await said(['run', '-', ...FEW], priced('kwh: 0.3, hour: 15', WORK)));
    expect(out).toContain('(water, nutrients, seed, plugs, work, wear of the holes)');
  });

  test('nothing that can be paid for is no cost of 0: no cost is told, and why', async () => {
    for (const prices of ['hour: 15', 'head: 2.5']) {
      const input = priced(prices, WORK);
      const { code, out, err } = await evensow(['run', '-', '--json', ...FEW], { input });
      expect(code).toBe(0);
      expect(flat(err)).toContain('prices: No cost can be told from these prices, and so no margin.');
      const result: RunResult = JSON.parse(out);
      expect(result.money).toBeUndefined();
      expect(result.assumes!.join(' ')).not.toContain('Costs');
      const compared = await evensow(['compare', '-', '--every', '2', '--json', ...FEW], { input });
      expect(compared.out).not.toMatch(/cost_a_head|margin_a_season/);
    }
  });
});

async function writtenTo(name: string, text: string): Promise<string> {
  const file = join(folder, name);
  await writeFile(file, text);
  return file;
}
