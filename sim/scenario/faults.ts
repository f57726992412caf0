/**
 * What is wrong with a scenario file, as data. How a person sees it is up to the sections.
 *
 * A check writes a `Draft`: what is wrong and the path at which it is. Only the tree of the file knows lines and
 * columns; it turns drafts into faults.
 */

/** One fault of a scenario file. */
export interface Fault {
  /** 1-based. */
  line: number;
  /** 1-based, in characters. */
  column: number;
  /** Where in the tree, e.g. `crops[0].stages.nursery.spread`; empty for the file as a whole. */
  path: string;
  /** What stands there. */
  found: string;
  /** What may stand there. */
  expected: string;
  /** The nearest valid key or word; null if none is near. */
  nearest: string | null;
  /** What to do, or an example: whole sentences. */
  advice?: string;
}

/** Something that reads well but is probably not meant. */
export interface Warning {
  path: string;
  /** 1-based. */
  line: number;
  /** 1-based, in characters. */
  column: number;
  message: string;
  /** What can hurt somebody there; left out if nothing can. */
  caution?: Caution;
}

/** What a caution is about: what a shelf bears, water beside mains power. */
export type Caution = 'load' | 'water';

/** A warning before its line is known. */
export interface WarningDraft {
  path: Path;
  message: string;
  caution?: Caution;
}

/** Steps from the top of the file to a value: keys and places in lists (from 0). */
export type Path = readonly (string | number)[];

/** A fault before its line is known. */
export interface FaultDraft {
  path: Path;
  /** Whether the value, its key, or (for what is missing) the map around it is to be pointed at. */
  at: 'value' | 'key' | 'parent';
  found: string;
  expected: string;
  nearest?: string | null;
  advice?: string | undefined;
}

/** The fault of a draft whose line and column are known. */
export function faultAt(
  { line, column }: Pick<Fault, 'line' | 'column'>,
  { path, found, expected, nearest = null, advice }: Omit<FaultDraft, 'at'>,
): Fault {
  const fault = { line, column, path: pathText(path), found, expected, nearest };
  return advice === undefined ? fault : { ...fault, advice };
}

const PLAIN_KEY = /^[\p{L}\p{N}_-]+$/u;

/** A path as text: `crops[0].stages.nursery`; keys with other signs in quotes: `stages["left wall"]`. */
export function pathText(path: Path): string {
  let text = '';
  for (const step of path) {
    if (typeof step === 'number') text += `[${step}]`;
    else if (!PLAIN_KEY.test(step)) text += `[${wordText(step)}]`;
    else text += text === '' ? wordText(step) : `.${wordText(step)}`;
  }
  return text;
}

/** A key or a name as a fault names it: as it is if it is a plain word, else in quotes. */
export function wordText(word: string): string {
  return PLAIN_KEY.test(word) ? shortened(word) : JSON.stringify(shortened(word));
}

/** Order of two faults (or warnings) in the file: by line, column, path. */
export function byPosition(a: Fault | Warning, b: Fault | Warning): number {
  return a.line - b.line || a.column - b.column || (a.path < b.path ? -1 : a.path > b.path ? 1 : 0);
}

/** A value of a file as a fault names it: `-3`, `"thu"`, `a list of 2`, `keys and values (a map)`, `an empty value`. */
export function foundText(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'an empty value';
  if (typeof value === 'string') return JSON.stringify(shortened(value));
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`;
  if (typeof value === 'object')
    return Object.keys(value).length === 0 ? 'empty braces (a map)' : 'keys and values (a map)';
  return String(value);
}

/** A text cut to a length that fits into a sentence. */
function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
