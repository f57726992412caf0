/** What the build puts in the place of what packages ask, so that the dashboard opens sooner: it must say the same. */

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { ALONE } from '../../scripts/quick-start.mjs';

test('of every single unit of text it says whether it is an emoji as the sequences of emoji do', () => {
  // TypeScript knows this flag for newer targets only; Node 20 has it.
  const sets = 'v';
  const sequence = new RegExp('^\\p{RGI_Emoji}$', sets);
  const units = Array.from({ length: 0x10000 }, (_, code) => String.fromCharCode(code));
  expect(units.filter((unit) => ALONE.test(unit))).toEqual(units.filter((unit) => sequence.test(unit)));
  expect(ALONE.test('\u2728')).toBe(true);
});

test('the built program asks so, and nothing by fetch', () => {
  const parts = readdirSync('dist').filter((name) => name.endsWith('.js') && name.startsWith('part-'));
  const texts = parts.map((name) => readFileSync(`dist/${name}`, 'utf8'));
  expect(texts.some((text) => text.includes(JSON.stringify(ALONE.source)))).toBe(true);
  // A part with a function of its own of that name asks for nothing else by it: the builder would have given that function another.
  const asking = texts.filter((text) => /\bfetch\(/.test(text) && !/\bfunction fetch\(/.test(text));
  expect(asking.map((text) => text.length)).toEqual([]);
});

test('what is loaded at every start lies in a few files, not in one for each pair of commands that share something', () => {
  const loaded = new Set<string>();
  const load = (name: string): void => {
    if (loaded.has(name)) return;
    loaded.add(name);
    const text = readFileSync(`dist/${name}`, 'utf8');
    for (const [, part] of text.matchAll(/(?:\bfrom|\bimport)"\.\/(part-\w+\.js)"/g)) load(part!);
  };
  load('evensow.js');
  expect(loaded.size).toBeGreaterThan(1);
  expect(loaded.size).toBeLessThan(10);
});
