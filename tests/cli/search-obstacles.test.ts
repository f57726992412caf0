/** Why a goal cannot be met, of lines whose every head can be followed on paper. */

import { describe, expect, test } from 'vitest';
import { inTheWay } from '../../cli/sections/search/obstacles.js';
import { evensow } from './program.js';

interface Line {
  readonly seeds?: number;
  readonly channels?: number;
  readonly days?: number;
  readonly more?: string;
}

/** Seeds every Monday; ten of them are ten heads on a Monday three weeks on, if nothing is in the way. */
function scenario({ seeds = 10, channels = 8, days = 20, more = '' }: Line): string {
  return `title: On paper
start: 2027-01-04
weeks: 20
visits: [mon]
${more}
stages:
  - {name: finishing, channels: ${channels}, holes: 10}
crops:
  - name: butterhead
    sow: {every: 7, seeds: ${seeds}}
    stages: {finishing: {days: ${days}, shape: fixed, keeps: 3}}
`;
}

async function searched(line: Line, ...options: string[]): Promise<string> {
  const args = [
    'search',
    '-',
    '--heads=10',
    '--weeks-met=0.95',
    `--channels=finishing=${line.channels ?? 8}`,
  ];
  const { code, out, err } = await evensow([...args, ...options], { input: scenario(line) });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return out;
}

const WANT = 'want: {heads: 5, on: [mon]}';

describe('where no plan meets the goal it is said what stands in the way:', () => {
  test.each<{ is: string[]; line: Line; why: string }>([
    { is: ['want'], why: 'of ten heads five are wanted', line: { more: WANT } },
    {
      is: ['absence'],
      why: 'three Mondays without a visit',
      line: { more: 'away: [{from: 2027-03-10, to: 2027-03-31}]' },
    },
    // Ready on a Thursday, seen on the Monday after, when it is too old by a day.
    { is: ['visits'], why: 'heads keep 3 days and are seen after 4', line: { days: 24 } },
    { is: ['holes'], why: 'ten seeds a week, 3 weeks each, in 20 holes', line: { channels: 2 } },
    { is: ['seeds'], why: 'six seeds a week', line: { seeds: 6 } },
    {
      is: ['want', 'seeds'],
      why: 'six seeds a week, of which five are wanted',
      line: { seeds: 6, more: WANT },
    },
  ])('$is, when $why', async ({ is, line }) => {
    const { best, obstacles } = JSON.parse(await searched(line, '--json'));
    expect(best).toBeNull();
    expect(obstacles.in_the_way).toEqual(is);
    expect(obstacles.one_is_enough).toBe(is.length === 1);
    expect(obstacles.together.meets).toBe(true);
    const known = obstacles.alone.map((one: { taken_away: string }) => one.taken_away);
    expect(known.includes('want')).toBe(line.more === WANT);
    expect(known.includes('absence')).toBe(line.more?.startsWith('away') ?? false);
  });

  test('in words, the answer first', async () => {
    const text = (await searched({ more: WANT })).replaceAll(/\s+/g, ' ');
    expect(text).toContain(
      'No plan within these limits meets the goal. In the way: what is wanted. So let want ask for more, or ask for less.',
    );
    expect(text).toContain('all that is ready is picked 100.0 % 10 enough');
    const both = (await searched({ seeds: 6, more: WANT })).replaceAll(/\s+/g, ' ');
    expect(both).toContain(
      'In the way: what is wanted and the seeds, and they must all go. So let want ask for more and sow more (--seeds), or ask for less.',
    );
  });
});

test('it is told apart whether all of it taken away is enough', async () => {
  const input = scenario({});
  const { out } = await evensow(['search', '-', '--heads=500', '--channels=finishing=8'], { input });
  const text = out.replaceAll(/\s+/g, ' ');
  expect(text).toContain('Not even all that was tried, taken away together, is enough. Ask for fewer heads');
  // No plan was judged beyond its first seasons.
  expect(text).toContain('What it took to find out 20 seasons: 20 of each of 1 plan. ');
  const relief = { weeks_met: 1, heads_a_week: 10, meets: true };
  const more = inTheWay({ seasons: 20, alone: [], together: relief, in_the_way: [], one_is_enough: false });
  expect(more).toContain('more than one way to take several away: all of them are enough.');
});

test('nothing stands in the way of a plan that was found', async () => {
  const { best, obstacles } = JSON.parse(await searched({}, '--json'));
  expect(best).not.toBeNull();
  expect(obstacles).toBeNull();
});
