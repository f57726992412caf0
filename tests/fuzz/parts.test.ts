/** A part of a study that was cut, changed or made by hand is joined only if it is as it was written. */

import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Answer } from '../cli/program.js';
import { ownFolder } from '../support/folder.js';
import { amount } from './amount.js';
import { asked, endHost, SMALL_LINE } from './program.js';
import { cutAndPut, slipped, textSlip, treeSlip } from './slips.js';

const FOLDER = ownFolder();
afterAll(endHost);

const STUDIES = [
  ['run', 'line.yaml', '-n', '4'],
  ['compare', 'line.yaml', '--every', '2,3', '-n', '4'],
  ['size', 'line.yaml', '-n', '4'],
  ['search', 'line.yaml', '--heads', '2', '--every', '2,3', '--seeds', '2', '--first', '5'],
] as const;

/** Both parts of each study. */
const parts: string[][] = [];

beforeAll(async () => {
  writeFileSync(join(FOLDER, 'line.yaml'), SMALL_LINE);
  for (const study of STUDIES) {
    const both = [];
    for (const k of [1, 2]) {
      expect((await asked([...study, '--shard', `${k}/2`, '--out', 'part.json'], FOLDER)).code).toBe(0);
      both.push(readFileSync(join(FOLDER, 'part.json'), 'utf8'));
    }
    parts.push(both);
  }
});

async function mergedWords(one: string, other: string): Promise<Answer> {
  writeFileSync(join(FOLDER, 'part-1.json'), one);
  writeFileSync(join(FOLDER, 'part-2.json'), other);
  return asked(['merge', 'part-1.json', 'part-2.json', '--json'], FOLDER);
}

async function merged(one: string, other: string): Promise<number | null> {
  return (await mergedWords(one, other)).code;
}

/** A part that somebody has made by hand: its sum is right, whatever it says. */
function signed(part: unknown): string {
  const { sha256: _, ...rest } = part as Record<string, unknown>;
  const text = JSON.stringify(rest).slice(0, -1);
  return `${text},"sha256":"${createHash('sha256').update(text).digest('hex')}"}\n`;
}

const study = fc.nat(STUDIES.length - 1);

test('parts as they were written are joined', async () => {
  for (const [one, other] of parts) expect(await merged(one!, other!)).toBe(0);
});

test('a part whose arguments cannot be read any more is refused in words', async () => {
  for (const broken of ['"run\n', '"run",,', '"\\x']) {
    for (const [one, other] of parts) {
      expect(await merged(one!.replace(/(?<="typed":\[)"[a-z]+/, broken), other!)).toBe(2);
    }
  }
});

test('a part of another command, one of a thousand million parts and one of nothing are refused in words', async () => {
  const [run, , size] = parts;
  expect(await merged(run![0]!, size![1]!)).toBe(2);
  const { shard: _, ...rest } = JSON.parse(run![0]!);
  for (const changed of [
    { ...rest, shard: { k: 1, n: 1e9 } },
    { ...rest, shard: { k: 1, n: 2 }, asked: { ...rest.asked, command: 'search' } },
    { ...rest, shard: { k: 1, n: 2 }, data: null },
  ]) {
    expect(await merged(signed(changed), run![1]!)).toBe(2);
  }
});

interface Tree {
  [key: string]: Tree;
}

/** @param path keys, with dots between */
function put(tree: unknown, path: string, value: unknown): unknown {
  const copy = structuredClone(tree);
  const keys = path.split('.');
  const last = keys.pop()!;
  keys.reduce((map, key) => map[key]!, copy as Tree)[last] = value as Tree;
  return copy;
}

test.each([
  ['a count that is no whole number', 0, 'data.0.sections.0.counts.1', 1.5],
  ['more seasons than were asked for', 0, 'data.0.sections.0.seasons', 5],
  ['a spread that no numbers have', 0, 'data.0.sections.0.ledger.1', 1e9],
  ['a week of a million million heads', 0, 'data.0.sections.0.weeks.9', [1e12, 1]],
  ['a first pick after the season', 0, 'data.0.sections.0.first', [1e9, 1]],
  ['a trial of too few changes', 0, 'data.0.trials.0.picks', []],
  ['no seasons where there are some', 1, 'data.1.sections.0', null],
  ['more good weeks than there are weeks', 3, 'data.0.first.good.0', 1e6],
  ['heads that no plan brings', 3, 'data.0.first.picks.0', 1e12],
])('a part that says %s is refused, and it is told which part and where', async (_, which, path, value) => {
  const [one, other] = parts[which]!;
  const { code, err } = await mergedWords(signed(put(JSON.parse(one!), path, value)), other!);
  expect([code, err]).toEqual([
    2,
    expect.stringContaining('part-1.json, part 1 of 2, is damaged (its data '),
  ]);
  expect(err).not.toContain('part-2.json, part');
});

test.each([
  ['an order that there is not', 1, 'asked.by', 'luck'],
  ['variations that are none', 1, 'asked.variations', [{ cadence: 3 }]],
  ['no seasons', 0, 'asked.seasons', 0],
  ['a layout without its counts', 2, 'asked.layout', { kind: 'channels' }],
  ['more channels than a stage can have', 2, 'asked.layout', { kind: 'split', channels: 1e12, between: [] }],
  ['a goal that is no number', 3, 'asked.heads', 'many'],
  ['6000 plans', 3, 'asked.grid.seeds', new Array(6000).fill(2)],
])('a part that asks for %s is not as it was written', async (_, which, path, value) => {
  const [one, other] = parts[which]!.map((part) => signed(put(JSON.parse(part), path, value)));
  const { code, err } = await mergedWords(one!, other!);
  expect([code, err]).toEqual([
    2,
    expect.stringContaining('part-1.json, part 1 of 2, is not as it was written'),
  ]);
});

test('a part with a scenario that cannot be is told with its name', async () => {
  const [one, other] = parts[0]!.map((part) =>
    signed(put(JSON.parse(part), 'asked.sources.0.text', 'weeks: -3')),
  );
  const { code, err } = await mergedWords(one!, other!);
  expect([code, err]).toEqual([2, expect.stringMatching(/part-1\.json, part 1 of 2, is damaged \(.*weeks/s)]);
});

test('a part with some signs changed is refused in words, or is as it was', async () => {
  await fc.assert(
    fc.asyncProperty(study, fc.array(textSlip, { minLength: 1, maxLength: 3 }), async (which, slips) => {
      const [one, other] = parts[which]!;
      const changed = slips.reduce(cutAndPut, one!);
      expect(await merged(changed, other!)).toBe(changed.trim() === one!.trim() ? 0 : 2);
    }),
    amount(100),
  );
});

test('a part of another study, or one made by hand, is joined or refused in words', async () => {
  await fc.assert(
    fc.asyncProperty(study, study, fc.array(treeSlip, { maxLength: 2 }), async (which, second, slips) => {
      const made = slips.reduce<unknown>(slipped, JSON.parse(parts[which]![0]!));
      await merged(
        typeof made === 'object' && made !== null ? signed(made) : String(made),
        parts[second]![1]!,
      );
    }),
    amount(100),
  );
});
