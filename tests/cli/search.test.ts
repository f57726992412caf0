import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { EXAMPLES, SHELF } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { interrupted } from './ctrl-c.js';
import { type Answer, evensow, evensowOnce } from './program.js';

const folder = ownFolder();

/** Some plans around the built-in scenario, of which some cost the same: 2 d x 8 and 3 d x 12 are both 28 seeds a week. */
const SOME = [
  '--heads=10',
  '--every=2,3',
  '--seeds=8,12',
  '--channels=nursery=1..2',
  '--channels=finishing=6,7',
  '--runners=2',
  // Wide enough that a plan is soon told from the goal.
  '--near=0.1',
];

function found({ code, out, err }: Answer): string {
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return out;
}

async function search(...args: string[]): Promise<string> {
  return found(await evensow(['search', ...args]));
}

/** The search that most tests look at: it is run once in each form. */
async function searchOfSome(...form: string[]): Promise<string> {
  return found(await evensowOnce(['search', ...SOME, ...form]));
}

async function refused(...args: string[]): Promise<string> {
  const { code, out, err } = await evensow(['search', ...args]);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  return err;
}

describe('evensow search', () => {
  test('says which plan to use, as lines of the scenario file, and how sure that is', async () => {
    const out = await searchOfSome();
    const found = JSON.parse(await searchOfSome('--json'));
    const { settings, cost } = found.best;
    expect(out).toContain(`  sow: {every: ${settings.every}, seeds: ${settings.seeds}}\n`);
    expect(out).toContain(`  - {name: nursery, channels: ${settings.channels.nursery}}\n`);
    expect(out).toContain(`It takes ${cost.holes} holes`);
    expect(out).toContain('With a probability of at least 95 %');
    expect(out).toContain('Limits: sow every 2,3 d, 8,12 seeds, 1,2 x nursery, 6,7 x finishing.');
    expect(found.runners_up).toHaveLength(2);
    for (const [i, { name }] of found.runners_up.entries()) expect(out).toContain(`  ${i + 1}: ${name}\n`);
    const picture = out.slice(out.indexOf('Yield against steadiness'));
    for (const sign of ['.', 'o', '*', '1']) expect(picture).toMatch(new RegExp(`\\|.*[${sign}]`));
    for (const row of out.split('\n')) expect(row.length, row).toBeLessThanOrEqual(80);
  });

  test('the plan to use is that of its holes, seeds and visits', async () => {
    const grid = ['--every=2,3', '--seeds=8', '--channels=nursery=1..2', '--channels=finishing=6,7'];
    const { best, plans } = JSON.parse(
      await search('--heads=10', ...grid, '--visits=daily,mon+thu', '--json'),
    );
    const { every, seeds, channels, visits } = best.settings;
    // Holes of the built-in scenario: 40 in the tray, 24 and 9 in a channel.
    expect(best.cost).toEqual({
      holes: 40 + 24 * channels.nursery + 9 * channels.finishing,
      seeds_a_week: expect.closeTo((7 * seeds) / every, 9),
      lit_m2: null,
      visits_a_week: visits === 'daily' ? 7 : 2,
    });
    expect(plans).toHaveLength(2 * 2 * 2 * 2);
    const holes = plans.map((plan: { cost: { holes: number } }) => plan.cost.holes);
    expect(holes).toEqual([...holes].sort((a, b) => a - b));
  });

  test('the plan it finds meets the goal in seasons that the search has not seen', async () => {
    const { best, counted } = JSON.parse(await searchOfSome('--json'));
    const { every, seeds, channels } = best.settings;
    const text = readFileSync(SHELF, 'utf8')
      .replace('every: 3, seeds: 10', `every: ${every}, seeds: ${seeds}`)
      .replace('channels: 2', `channels: ${channels.nursery}`)
      .replace('channels: 8', `channels: ${channels.finishing}`);
    const { out } = await evensow(['run', '-', '--json', '--seasons=500', '--seed=99'], { input: text });
    const weeks = JSON.parse(out).weeks.filter(({ start }: { start: string }) => start >= counted.from);
    expect(weeks).toHaveLength(counted.weeks);
    const heads = weeks.reduce((sum: number, week: { mean: number }) => sum + week.mean, 0) / weeks.length;
    // The mean of 340 and more correlated weeks of the search lies within a few tenths of that of 500 seasons.
    expect(Math.abs(heads - best.heads_a_week)).toBeLessThan(0.5);
    // 9 of 10 weeks bring 10 heads, so the tenth quantile of a middling week does.
    const tenths = weeks.map(({ p10 }: { p10: number }) => p10).sort((a: number, b: number) => a - b);
    expect(tenths[Math.floor(tenths.length / 2)]).toBeGreaterThanOrEqual(10);
  });

  test('--csv gives every plan of --json, a row each', async () => {
    const rows = (await searchOfSome('--csv')).trimEnd().split('\r\n');
    const { plans, best, frontier } = JSON.parse(await searchOfSome('--json'));
    expect(rows[0]).toBe(
      'place,plan,every,on,seeds,visits,channels nursery,channels finishing,holes,seeds_a_week,lit_m2,visits_a_week,verdict,seasons,role,frontier,weeks_met,heads_a_week,bad_week,steadiness',
    );
    expect(rows).toHaveLength(1 + plans.length);
    for (const [i, plan] of plans.entries()) {
      const row = rows[i + 1]!;
      expect(row.startsWith(`${plan.place},"${plan.name}",${plan.settings.every},,`)).toBe(true);
      expect(row.includes(',best,')).toBe(plan.place === best.place);
      expect(row.includes(',yes,')).toBe(frontier.includes(plan.place));
      expect(
        row.endsWith(`,${plan.weeks_met},${plan.heads_a_week},${plan.bad_week},${plan.steadiness}`),
      ).toBe(true);
    }
  });

  test('without limits searches around the scenario, and says so', async () => {
    const { out, code } = await evensow([
      'search',
      `${EXAMPLES}school-club.yaml`,
      '--heads=5',
      '--weeks-met=0.8',
    ]);
    expect(code).toBe(0);
    expect(out.replaceAll('\n', ' ')).toContain(
      'Limits (none were given; these lie around the scenario): 1..5 x nursery, 4..8 x finishing.',
    );
  });

  test('spends least of what it is asked to', async () => {
    const lit = readFileSync(SHELF, 'utf8').replace('holes: 40}', 'holes: 40, hole_area_cm2: 20}');
    const file = join(folder, 'lit.yaml');
    writeFileSync(file, lit);
    const by = async (least: string) => await search(file, ...SOME, `--least=${least}`, '--json');
    const light = await by('light');
    for (const [found, cost] of [
      // Holes are what is spent least of if nothing is said.
      [await searchOfSome('--json'), 'holes'],
      [await by('seeds'), 'seeds_a_week'],
      [light, 'lit_m2'],
    ] as const) {
      const { plans, best } = JSON.parse(found);
      const costs = plans.map((plan: { cost: Record<string, number> }) => plan.cost[cost]);
      expect(costs).toEqual([...costs].sort((a, b) => a - b));
      const meeting = plans.filter(({ verdict }: { verdict: string | null }) => verdict === 'meets');
      expect(best.cost[cost]).toBe(
        Math.min(...meeting.map((plan: { cost: Record<string, number> }) => plan.cost[cost])),
      );
    }
    // 40 x 20 cm2 + 24 x 100 cm2 + 54 x 400 cm2 for the smallest.
    expect(JSON.parse(light).plans[0].cost.lit_m2).toBeCloseTo(2.48, 9);
  });

  test('says that no plan meets the goal, and which comes nearest', async () => {
    const out = await search('--heads=30', '--every=2,3,4');
    expect(out).toContain('No plan within these limits meets the goal.');
    expect(out).toContain('Nearest comes');
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      'probability of at least 95 % none of these plans meets the goal',
    );
    const { best, runners_up, nearest } = JSON.parse(await search('--heads=30', '--every=2,3,4', '--json'));
    expect([best, runners_up]).toEqual([null, []]);
    expect(nearest.settings.seeds).toBe(10);
  });
});

describe('the same result to the last digit', () => {
  test('from one thread, from two, and from three parts joined', async () => {
    const one = await searchOfSome('--json');
    expect(await searchOfSome('--json', '--workers=1')).toBe(one);
    // Plans of one price have to be told apart here, so that this is checked too.
    expect(JSON.parse(one).same_cost).toBeGreaterThan(1);
    expect(await searchOfSome('--json', '--workers=2')).toBe(one);
    const parts = [1, 2, 3].map((k) => join(folder, `part-${k}.json`));
    for (const [i, part] of parts.entries())
      expect(await search(...SOME, `--shard=${i + 1}/3`, `--out=${part}`)).toBe('');
    const merged = await evensow(['merge', '--json', parts[2]!, parts[0]!, parts[1]!]);
    expect(merged).toEqual({ code: 0, out: one, err: '' });
    expect((await evensow(['merge', ...parts])).out).toBe(await searchOfSome());
    expect((await evensow(['merge', parts[0]!, parts[1]!])).err).toContain('Part 3 of 3 is missing.');
  });

  test('with what a head costs, from one thread, from two, and from three parts joined', async () => {
    const grid = ['--every=2,3', '--seeds=4..6', '--channels=finishing=7,8', '--runners=2'];
    const costs = [`${EXAMPLES}lettuce-rack.yaml`, '--heads=10', ...grid, '--least=cost'];
    const one = await search(...costs, '--json');
    const { best, runners_up: runners, plans } = JSON.parse(one);
    const seasons = plans.map((plan: { cost: { luckless_season: number } }) => plan.cost.luckless_season);
    expect(seasons).toEqual([...seasons].sort((a, b) => a - b));
    for (const { cost_a_head: head } of [best, ...runners]) expect(head.low).toBeLessThan(head.high);
    expect(await search(...costs, '--json', '--workers=2')).toBe(one);
    const parts = [1, 2, 3].map((k) => join(folder, `cost-${k}.json`));
    for (const [i, part] of parts.entries()) await search(...costs, `--shard=${i + 1}/3`, `--out=${part}`);
    const merged = async (...form: string[]) => found(await evensow(['merge', ...form, ...parts]));
    expect(await merged('--json')).toBe(one);
    const text = await merged();
    expect(text.replaceAll(/\s+/g, ' ')).toMatch(
      /A season without luck costs [\d ]+\.\d\d\. With luck a head costs \d\.\d\d \(\d\.\d\d to \d\.\d\d; 95 % interval\)/,
    );
    for (const row of text.split('\n')) expect(row.length, row).toBeLessThanOrEqual(80);
    const [header, ...rows] = (await merged('--csv')).trimEnd().split('\r\n');
    expect(header).toMatch(
      /,visits_a_week,luckless_season,verdict,.*,cost_a_head,cost_a_head_low,cost_a_head_high$/,
    );
    const { mean, low, high } = best.cost_a_head;
    expect(rows.find((row) => row.includes(',best,'))!.endsWith(`,${mean},${low},${high}`)).toBe(true);
    expect(rows.at(-1)).toContain('assumes: ');
  });

  test('a part of another goal is refused', async () => {
    const [ours, theirs] = ['ours.json', 'theirs.json'].map((name) => join(folder, name));
    await search('--heads=9', '--every=2,3', '--shard=1/2', `--out=${ours}`);
    await search('--heads=10', '--every=2,3', '--shard=2/2', `--out=${theirs}`);
    const { code, err } = await evensow(['merge', ours!, theirs!]);
    expect(code).toBe(2);
    expect(err).toContain('heads is 10, not 9');
  });
});

test('Ctrl-C shows what is known by then, marked as partial', async () => {
  // Five of the plans have had their first 20 seasons.
  const { code, out, err } = await interrupted(
    ['search', '--heads=12', '--json', '--workers=1'],
    /[1-9]\d\d of 44 800 seasons/,
  );
  expect(code).toBe(130);
  expect(err).toBe('evensow: stopped; what was known by then is shown.\n');
  expect(JSON.parse(out)).toMatchObject({ partial: true, candidates: 2240 });
});

describe('what cannot be searched is told, all at once', () => {
  test('no goal', async () => {
    expect(await refused()).toContain('--heads must be given.');
  });

  test('numbers that mean nothing', async () => {
    const err = await refused(
      '--heads=0',
      '--weeks-met=1.5',
      '--confidence=1',
      '--near=0',
      '--first=1',
      '--runners=-1',
      '--least=money',
    );
    for (const option of ['heads', 'weeks-met', 'confidence', 'near', 'first', 'runners', 'least'])
      expect(err).toMatch(new RegExp(`--${option} must not be ".*"\\. It must be .* Example: --${option} `));
    expect(await refused('--heads=12', '--weeks-met=0')).toContain('--weeks-met must not be "0"');
    expect(await refused('--heads=twelve')).toContain('--heads must not be "twelve"');
  });

  test('lists that are empty, wrong, twice or upside down', async () => {
    const err = await refused(
      '--heads=12',
      '--every=',
      '--seeds=9..4',
      '--on=mon+xyz',
      '--visits=never',
      '--channels=nursery',
      '--channels=finishing=',
    );
    expect(err).toContain('--every must not be empty.');
    expect(err).toContain('--seeds must not hold "9..4".');
    expect(err).toContain('--on must not hold "mon+xyz".');
    expect(err).toContain('--visits must not hold "never".');
    expect(err).toContain('--channels must not be "nursery".');
    expect(err).toContain('--channels must not be empty.');
    const twice = await refused('--heads=12', '--channels=nursery=1', '--channels=nursery=2', '--seeds=4,4');
    expect(twice).toContain('--channels must not name nursery twice.');
    expect(twice).toContain('--seeds must not hold 4 twice.');
  });

  test('a stage that is not there, with the nearest that is', async () => {
    const err = await refused('--heads=12', '--channels=nursry=1..4');
    expect(err).toContain(
      'there is no such stage. The stages are germination, nursery, finishing. Did you mean nursery?',
    );
  });

  test('more plans than can be searched', async () => {
    expect(await refused('--heads=12', '--every=1..10', '--seeds=1..600')).toContain(
      'must not leave 6000 plans',
    );
  });

  test('costs that are not known', async () => {
    expect(await refused('--heads=12', '--least=light')).toContain('germination (stages[0].hole_area_cm2)');
    expect(await refused('--heads=12', '--least=kwh')).toContain(
      'Missing: germination (stages[0]) ppfd, hours, and watts or efficacy, nursery (stages[1]) ppfd,',
    );
    expect(await refused('--heads=12', '--least=cost')).toContain('Example: prices: {kwh: 0.3, ');
    const priced = join(folder, 'priced.yaml');
    writeFileSync(priced, `${readFileSync(SHELF, 'utf8')}prices: {kwh: 0.3, water_m3: 4, hour: 15}\n`);
    const err = await refused(priced, '--heads=12', '--least=cost');
    for (const key of ['prices.kwh: germination (stages[0]) ppfd', 'prices.water_m3', 'prices.hour: work'])
      expect(err).toContain(key);
    const club = `${EXAMPLES}school-club.yaml`;
    expect(await refused(club, '--heads=5', '--least=seeds')).toContain('refilled');
    expect(await refused(club, '--heads=5', '--seeds=4..6')).toContain('it has no seeds per sowing');
  });

  test('a season that ends before the plans can be judged', async () => {
    const file = join(folder, 'short.yaml');
    writeFileSync(file, readFileSync(SHELF, 'utf8').replace('weeks: 26', 'weeks: 8'));
    expect(await refused(file, '--heads=3')).toContain(
      'The season must not end before the plans can be judged',
    );
  });

  test('options that contradict each other', async () => {
    expect(await refused('--heads=12', '--json', '--csv')).toContain(
      "'--json' cannot be used with option '--csv'",
    );
    expect(await refused('--heads=12', '--json', '--shard=1/2')).toContain(
      "cannot be used with option '--shard",
    );
    expect(await refused('--heads=12', '--every=2,3', '--shard=1/3', '--out=part-1.json')).toContain(
      'There are only 2 plans to share out.',
    );
    expect(await refused('--heads=12', '--every=2,3', '--workers=3')).toContain('--workers must not be 3.');
    expect(await refused('--heads=12', '--seasons', '100')).toContain("unknown option '--seasons'");
  });
});
