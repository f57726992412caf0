/** `evensow ahead` and `evensow chores` on several threads, through the built program. */

import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { interrupted } from './ctrl-c.js';
import { evensow } from './program.js';

function file(name: string): string {
  return fileURLToPath(new URL(`../../scenarios/${name}`, import.meta.url));
}

const SHELF = [file('home-shelf.yaml'), file('logs/cellar-2027.csv')];

describe('futures are the same to the last digit on any number of threads', () => {
  test.each([
    // Dates that are advised, batches without room, a log that ends in July.
    { args: ['ahead', ...SHELF, '--weeks', '6'] },
    { args: ['chores', ...SHELF] },
    // From an empty line; crops that are refilled, and cut again.
    { args: ['chores', file('school-club.yaml'), '--days', '60'] },
    { args: ['chores', file('kitchen-garden.yaml'), '--days', '70'] },
  ])('$args.0 $args.1', async ({ args }) => {
    const on = async (threads: number): Promise<string> => {
      const { out, err, code } = await evensow([...args, '-n', '20', '--json', '--workers', `${threads}`]);
      expect([code, err]).toEqual([0, '']);
      return out;
    };
    const alone = await on(1);
    expect(JSON.parse(alone).futures).toBe(20);
    expect(await on(2)).toBe(alone);
    // 20 futures in six parts: one of them is smaller, and one hand has nothing to do.
    expect(await on(3)).toBe(alone);
  });
});

test('more threads than futures, or none, are told to be wrong', async () => {
  const { err, code } = await evensow(['ahead', ...SHELF, '-n', '8', '--workers', '9']);
  expect(err).toContain('--workers must not be 9. There are only 8 futures to share out. Ask for at most 8');
  expect(code).toBe(2);
  expect((await evensow(['chores', ...SHELF, '--workers', '0'])).err).toContain('--workers must not be "0".');
});

test('Ctrl-C while threads run ends the program, with nothing to show', async () => {
  const args = ['ahead', ...SHELF, '-n', '1000000', '--workers', '2'];
  const { out, err, code } = await interrupted(args, /left/);
  expect([out, code]).toEqual(['', 130]);
  expect(err).toBe('evensow: stopped before all futures were run; there is nothing to show.\n');
});
