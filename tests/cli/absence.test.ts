/** A line whose every head can be followed on paper, and an absence of three visits: what it costs, when, and where. */

import { beforeAll, describe, expect, test } from 'vitest';
import { evensow } from './program.js';

/**
 * Ten seeds every Monday, 20 days each, so ten heads on every Monday from day 21 on; a head keeps 3 days. On the Mondays of days 70, 77
 * and 84 nobody comes. On day 91 the 30 heads of these Mondays are thrown away and the 30 missed seeds are sown with the ten of that day,
 * so nothing is ready on days 91, 98 and 105; of the 40 that are ready on day 111 ten are wanted on day 112, and 30 are thrown away on
 * day 119. The weeks that count are 4 to 19.
 */
const away = 'away: [{from: 2027-03-10, to: 2027-03-31}]';
const scenario = (absence: string): string => `title: On paper
start: 2027-01-04
weeks: 20
visits: [mon]
${absence}
stages:
  - {name: finishing, channels: 8, holes: 10}
crops:
  - name: butterhead
    sow: {every: 7, seeds: 10}
    stages: {finishing: {days: 20, shape: fixed, keeps: 3}}
want: {heads: 10, on: [mon]}
`;

async function json(command: string, absence: string) {
  const { code, out, err } = await evensow([command, '-', '--seasons', '5', '--json'], {
    input: scenario(absence),
  });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return JSON.parse(out);
}

describe('run', () => {
  let gone: ReturnType<typeof JSON.parse>;
  let there: ReturnType<typeof JSON.parse>;
  beforeAll(async () => {
    gone = await json('run', away);
    there = await json('run', '');
  });

  test('tells a bad week and what is missing with and without the absence, in the same weeks', () => {
    expect(gone.running).toMatchObject({
      from: '2027-02-01',
      weeks: 16,
      mean: 6.25,
      p10: 0,
      wanted: 160,
      missing: 60,
    });
    const { mean, p50, p10, without_pick, wanted, missing } = there.running;
    expect(gone.running.without_absence).toEqual({ mean, p50, p10, without_pick, wanted, missing });
    expect([mean, p10, missing]).toEqual([10, 10, 0]);
    expect(there.running.without_absence).toBeNull();
    // The whole season has the three Mondays before the first heads as well.
    expect(gone.counts.short.mean).toBe(90);
  });

  test('names the weeks that the absence makes bad', () => {
    expect(gone.running.bad_by_absence).toEqual([
      '2027-03-15',
      '2027-03-22',
      '2027-03-29',
      '2027-04-05',
      '2027-04-12',
      '2027-04-19',
    ]);
    expect(there.running.bad_by_absence).toEqual([]);
  });

  test('tells where and when plants were thrown away', () => {
    const [{ thrown_away }] = gone.stages;
    const weeks = new Array<number>(20).fill(0);
    weeks[13] = 30;
    weeks[17] = 30;
    expect(thrown_away).toEqual({ mean: 60, weeks });
    expect(there.stages[0].thrown_away).toEqual({ mean: 0, weeks: new Array(20).fill(0) });
  });

  test('holds the absence, and nothing else, for what holds the line back', () => {
    expect(gone.limits).toMatchObject({ by: 'away', stages: [] });
    const trials = Object.fromEntries(
      gone.limits.trials.map((trial: { change: { kind: string } }) => [trial.change.kind, trial]),
    );
    // 60 heads in 16 weeks; 3 visits more than 17.
    expect(trials.away).toMatchObject({ gain: 3.75, low: 3.75, high: 3.75 });
    expect(trials.away.added).toBeCloseTo(3 / 17, 12);
    expect(trials.away.elasticity.mean).toBeCloseTo(0.6 / (3 / 17), 12);
    // A visit every day leaves the absence as it is: the heads of these days stay lost.
    expect(trials.visits.gain).toBeLessThanOrEqual(0);
    expect(there.limits.trials.map(({ change }: { change: { kind: string } }) => change.kind)).not.toContain(
      'away',
    );
  });

  test('says all that in words', async () => {
    const { out } = await evensow(['run', '-', '--seasons', '5'], { input: scenario(away) });
    const text = out.replaceAll(/\s+/g, ' ');
    expect(text).toContain('in a bad week (1 in 10) 0 heads the same, if nobody were away 10 heads or fewer');
    expect(text).toContain('missing of 160 heads wanted 60 (37.5 %) the same, if nobody were away 0 (0 %)');
    expect(text).toContain(
      'Bad by the absence: the weeks from Mon 15 Mar 2027, Mon 22 Mar 2027, Mon 29 Mar 2027, Mon 5 Apr 2027 and 2 more.',
    );
    expect(text).toContain('if nobody were away, there would be more heads.');
    expect(text).toContain(
      'Thrown away in finishing: 60 plants, at least half of them in the week from Mon 5 Apr 2027.',
    );
  });
});

describe('compare', () => {
  const args = ['compare', '-', '--every', '7,14', '--seasons', '5'];

  test('tells what each plan would bring in the same weeks if nobody were away', async () => {
    const { out } = await evensow([...args, '--json'], { input: scenario(away) });
    const [weekly] = JSON.parse(out).plans;
    expect(weekly.figures.bad_week.mean).toBe(0);
    expect(weekly.without_absence).toMatchObject({ mean: 10, p50: 10, p10: 10, without_pick: 0, missing: 0 });
    const there = await evensow([...args, '--json'], { input: scenario('') });
    for (const plan of JSON.parse(there.out).plans) expect(plan.without_absence).toBeNull();
  });

  test('in the text and in the CSV', async () => {
    const { out } = await evensow(args, { input: scenario(away) });
    expect(out).toMatch(/The same, if nobody were away\n +usual +bad\* +mean\n +every 7 d +10 +10 +10\n/);
    expect((await evensow(args, { input: scenario('') })).out).not.toContain('nobody');
    const csv = await evensow([...args, '--csv'], { input: scenario(away) });
    expect(csv.out).toContain('every 7 d,bad_week_without_absence,10,,,,,,');
  });
});

test.each([
  { goal: 'met', share: 0.5, found: 'best' },
  { goal: 'not met', share: 0.95, found: 'nearest' },
])(
  'search tells the bad week of the plan that it names with and without the absence, the goal being $goal',
  async ({ share, found }) => {
    const args = [
      'search',
      '-',
      '--heads=10',
      `--weeks-met=${share}`,
      '--every=7',
      '--channels=finishing=8,9',
    ];
    const result = JSON.parse((await evensow([...args, '--json'], { input: scenario(away) })).out);
    expect(result[found]).toMatchObject({ bad_week: 0, without_absence: { heads_a_week: 10, bad_week: 10 } });
    for (const runner of result.runners_up) expect(runner.without_absence).toBeNull();
    const { out } = await evensow(args, { input: scenario(away) });
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      '0 in a bad week (1 in 10), 10 or fewer if nobody were away.',
    );
    const there = await evensow(args, { input: scenario('') });
    expect(there.out.replaceAll(/\s+/g, ' ')).toContain('10 or fewer in a bad week (1 in 10).');
  },
);

describe('where all that is ready is picked, and seeds are few', () => {
  const told = async (absence: string): Promise<string> => {
    const input = scenario(absence)
      .replace(/want: .*/, '')
      .replace('keeps: 3', 'keeps: 7');
    return (await evensow(['run', '-', '--seasons', '5'], { input })).out.replaceAll(/\s+/g, ' ');
  };

  test('it is said that the absence costs more than more seeds would bring', async () => {
    expect(await told(away)).toContain('For what it adds, this brings more than more seeds: nobody away.');
    expect(await told('')).not.toContain('For what it adds');
  });

  test('that heads come a week later is no loss of each week', async () => {
    // Ready after 20 days or 22, so picked on the Monday of day 21 or 28: ten a week from then on.
    expect(await told('')).toContain(
      'If all growing takes 10 % longer: no loss that could be told (0.0 to 0.0) once the line runs.',
    );
  });
});

test('with a visit every day but for an absence, no visit more is tried', async () => {
  const { out } = await evensow(['run', '-', '--seasons', '5', '--json'], {
    input: scenario(away).replace('visits: [mon]', 'visits: daily'),
  });
  const kinds = JSON.parse(out).limits.trials.map(({ change }: { change: { kind: string } }) => change.kind);
  expect(kinds).toContain('away');
  expect(kinds).not.toContain('visits');
});

test('size books an absence as absence, with the plants that overgrow meanwhile', async () => {
  const { sizes, present } = await json('size', away);
  const { gap } = sizes.find(({ name }: { name: string }) => name === present);
  const steps = Object.fromEntries(
    gap.steps.map(({ name, change }: { name: string; change: { mean: number } }) => [name, change.mean]),
  );
  expect(steps.absence).toBeCloseTo(-3.75, 12);
  expect([steps.visits, steps.losses, steps.cleaning, steps.spread]).toEqual([0, 0, 0, 0]);
});
