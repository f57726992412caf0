/** What must hold of all that the program says, whatever it was fed. */

import { readFileSync } from 'node:fs';
import type { Answer } from '../cli/program.js';

/** Controls, line and paragraph separators, and what turns the direction of writing, by the names that Unicode gives them. */
const OBEYED = /(?![\n\r])[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]/u;

/** Done, wrong input, stopped. That a fault of the program ends with 1 is documented too, and is what must not be. */
const DOCUMENTED = [0, 2, 130];

/** Keys of results that may be null, by the reference of the library. */
const NULLABLE = nullableKeys();

/** @throws Error if the answer is none that is documented, or holds what no answer may */
export function judge({ code, out, err }: Answer): void {
  if (!DOCUMENTED.includes(code ?? -1)) throw new Error(`exit code ${code}: ${err}`);
  if (code === 2 && !/\S/.test(err)) throw new Error('refused without a word');
  if (code === 2 && out !== '') throw new Error(`refused, and yet answered: ${out}`);
  const sign = OBEYED.exec(out) ?? OBEYED.exec(err);
  if (sign !== null)
    throw new Error(`printed U+${sign[0].codePointAt(0)!.toString(16)}: ${sign.input.slice(0, 2000)}`);
}

/** The numbers of a document are numbers, and nothing is missing but what may be. */
export function judgeJson(out: string): void {
  const wrong = nullsIn(JSON.parse(out), []);
  if (wrong.length > 0) throw new Error(`null, which no reference tells of, at ${wrong.join(', ')}`);
}

/** @param path of keys; places in lists are none */
function nullsIn(value: unknown, path: readonly string[]): string[] {
  const [around, key] = ['', ...path].slice(-2);
  // Figures, parts of light and parts of a cost are null by their names where there is none.
  if (value === null) {
    return NULLABLE.has(key!) || ['figures', 'mol', 'cost'].includes(around!) ? [] : [path.join('.')];
  }
  // A number beyond those of JavaScript is read as infinite.
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path.join('.')];
  if (Array.isArray(value)) return value.flatMap((item) => nullsIn(item, path));
  if (typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([name, item]) => nullsIn(item, [...path, name]));
}

function nullableKeys(): Set<string> {
  const pages = ['README.md', 'evensow/namespaces/details.md'].map((page) =>
    readFileSync(new URL(`../../docs/library/${page}`, import.meta.url), 'utf8'),
  );
  const log = readFileSync(new URL('../../docs/keeping-a-log.md', import.meta.url), 'utf8');
  const keys = new Set<string>();
  for (const row of pages.join('\n').matchAll(/^\| (?:<a id="[^"]*"><\/a> )?`(\w+)\??` \|(.*)$/gm)) {
    const [, key, rest] = row;
    if (rest!.includes('`null`')) keys.add(key!);
    for (const [, inner] of rest!.matchAll(/`(\w+)`: [^;]*`null`/g)) keys.add(inner!);
  }
  for (const [, key] of log.matchAll(/`(\w+)` is null/g)) keys.add(key!);
  for (const [, key] of pages.join('\n').matchAll(/^ +(?:readonly )?(\w+)\??: .*\| null;$/gm)) keys.add(key!);
  return keys;
}
