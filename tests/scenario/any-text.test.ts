import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { readScenario } from '../../sim/scenario/read.js';
import { anySign } from '../support/any-sign.js';
import { CELLAR, readWell } from './cellar.js';

/** Whatever the text, it is read or has faults that say where, what and what else. */
function expectPlanOrFaults(text: string): void {
  const reading = readScenario(text);
  if (reading.ok) {
    expect(reading.value.plan.stages.length).toBeGreaterThan(0);
    return;
  }
  expect(reading.faults.length).toBeGreaterThan(0);
  let last = 0;
  for (const { line, column, found, expected } of reading.faults) {
    expect(line).toBeGreaterThanOrEqual(Math.max(1, last));
    expect(column).toBeGreaterThanOrEqual(1);
    expect(found).toMatch(/\S/);
    expect(expected).toMatch(/\S/);
    last = line;
  }
}

/** Of each kind, the same everywhere; tests/fuzz/reading.test.ts feeds the same reader many more, and .ci/run more again. */
const LUCK = { numRuns: 150, seed: 1 };
const LINES = CELLAR.split('\n');

/** Pieces of YAML that break things, among others. */
const piece = fc.constantFrom(
  '',
  '-',
  '- -',
  '[',
  ']',
  '{',
  '}',
  ':',
  '? ',
  '&a',
  '*a',
  '<<: *a',
  '!!set',
  '|',
  '>',
  '"',
  "'",
  '#',
  '\t',
  '%',
  '---',
  '...',
  '.nan',
  '.inf',
  '-1',
  '0',
  '1e999',
  '0.5',
  'null',
  '~',
  'true',
  '"12"',
  '2027-02-30',
  '[]',
  '{}',
  '[[]]',
  '{a: 1}',
  'mon',
  '__proto__',
  '[mon, mon]',
  '\u0000',
  '\uFFFD',
  '\r',
  '\uD800',
  'always',
  'daily',
  'observed: [1]',
  'shape: fixed',
  'refill: true',
  'every: 3',
);

test('any text is read or has a fault', () => {
  const text = fc.oneof(
    fc.string({ unit: anySign, maxLength: 200 }),
    fc.array(piece).map((pieces) => pieces.join(' ')),
  );
  fc.assert(fc.property(text, expectPlanOrFaults), LUCK);
});

test('a correct file with a line changed is read or has a fault', () => {
  const change = fc.tuple(
    fc.nat(LINES.length - 1),
    fc.constantFrom('delete', 'replace', 'append', 'repeat'),
    piece,
  );
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
      const lines: (string | undefined)[] = [...LINES];
      for (const [at, how, text] of changes) {
        if (how === 'delete') lines[at] = undefined;
        else if (how === 'replace') lines[at] = text;
        else lines[at] = `${lines[at]}${how === 'append' ? ` ${text}` : `\n${lines[at]}`}`;
      }
      expectPlanOrFaults(lines.filter((line) => line !== undefined).join('\n'));
    }),
    LUCK,
  );
});

test('a correct file with some words and numbers changed is read or has a fault', () => {
  const words = CELLAR.split(/([\w.-]+)/);
  const change = fc.tuple(fc.nat(words.length - 1), piece);
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
      const changed = [...words];
      for (const [at, text] of changes) changed[at] = text;
      expectPlanOrFaults(changed.join(''));
    }),
    LUCK,
  );
});

test('a correct file with any values in some of its places is read or has a fault', () => {
  const value = fc.anything({ withNullPrototype: false, maxDepth: 2 });
  const keys = Object.keys(parse(CELLAR));
  fc.assert(
    fc.property(fc.constantFrom(...keys), fc.jsonValue(), value, (key, json, anything) => {
      expectPlanOrFaults(JSON.stringify({ ...parse(CELLAR), [key]: json }));
      const text = JSON.stringify({ ...parse(CELLAR), crops: [{ ...parse(CELLAR).crops[0], [key]: json }] });
      expectPlanOrFaults(text);
      expectPlanOrFaults(String(JSON.stringify(anything)));
    }),
    { ...LUCK, numRuns: LUCK.numRuns / 2 },
  );
});

test('the order of keys in the file does not change the plan', () => {
  const expected = readWell(CELLAR).value.plan;
  fc.assert(
    fc.property(fc.infiniteStream(fc.nat(1000)), (numbers) => {
      const shuffled = stringify(shuffleKeys(parse(CELLAR), numbers));
      expect(readWell(shuffled).value.plan).toEqual(expected);
    }),
    { ...LUCK, numRuns: 50 },
  );
});

/** The same value with the keys of every map in another order. */
function shuffleKeys(value: unknown, numbers: Iterator<number>): unknown {
  if (Array.isArray(value)) return value.map((item) => shuffleKeys(item, numbers));
  if (typeof value !== 'object' || value === null) return value;
  const ranked = Object.entries(value).map(([key, item]) => ({
    key,
    item,
    rank: numbers.next().value as number,
  }));
  ranked.sort((a, b) => a.rank - b.rank);
  return Object.fromEntries(ranked.map(({ key, item }) => [key, shuffleKeys(item, numbers)]));
}
