/** Slips: something changed in a tree of values, or in a text. */

import fc from 'fast-check';
import { WRONG } from './words.js';

type Tree = Record<string, unknown>;

/** Something wrong at some place of a tree. */
interface TreeSlip {
  /** Chooses the place. */
  readonly at: number;
  readonly how: 'put' | 'take away' | 'rename' | 'add' | 'twice';
  readonly value: unknown;
}

export const treeSlip: fc.Arbitrary<TreeSlip> = fc.record({
  at: fc.nat(),
  how: fc.constantFrom('put', 'put', 'put', 'take away', 'rename', 'add', 'twice'),
  value: fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...WRONG) },
    { weight: 1, arbitrary: fc.jsonValue() },
  ),
});

export function slipped(tree: unknown, { at, how, value }: TreeSlip): unknown {
  const places = placesIn(tree);
  if (places.length === 0) return value;
  const copy = structuredClone(tree);
  const path = places[at % places.length]!;
  const key = path.at(-1)!;
  const around = path.slice(0, -1).reduce<Tree>((map, step) => map[step] as Tree, copy as Tree);
  if (how === 'put') around[key] = value;
  else if (how === 'take away') delete around[key];
  else if (how === 'add' && Array.isArray(around)) around.push(value);
  else if (how === 'add') around[String(value)] = value;
  else if (how === 'rename') {
    around[`${key}s`] = around[key];
    delete around[key];
  } else if (Array.isArray(around)) around.push(around[key as unknown as number]);
  else around[key] = [around[key], around[key]];
  return copy;
}

function placesIn(value: unknown, path: readonly string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => [[...path, key], ...placesIn(item, [...path, key])]);
}

/** Some signs of a text that are taken away, and others that are put there. */
export interface TextSlip {
  readonly at: number;
  readonly take: number;
  readonly put: string;
}

const PUT = [
  '',
  ' ',
  '\n',
  '\t',
  ':',
  '-',
  '- ',
  '[',
  ']',
  '{',
  '}',
  ',',
  '"',
  "'",
  '#',
  '&a ',
  '*a',
  '<<: *a',
  '!!set ',
  '|',
  '>',
  '? ',
  '%',
  '---\n',
  '...\n',
  '.inf',
  '.nan',
  '~',
  '0',
  '9',
  'e',
  '.',
  '\u0000',
  '\u009b',
  '\u202e',
  '\u2028',
  '\ufeff',
  '\ud800',
  '\r',
];

export const textSlip: fc.Arbitrary<TextSlip> = fc.record({
  at: fc.nat(),
  take: fc.oneof(fc.nat(3), fc.nat(60)),
  put: fc.constantFrom(...PUT),
});

export function cutAndPut(text: string, { at, take, put }: TextSlip): string {
  const place = at % (text.length + 1);
  return text.slice(0, place) + put + text.slice(place + take);
}
