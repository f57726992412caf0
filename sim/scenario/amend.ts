/**
 * Sets keys in the text of a scenario and leaves everything else as it was written: comments, order, layout.
 *
 * The text of the one value is replaced, or one key is put in; no line is written anew without need. An alias (*usual) stands
 * for what its anchor holds, so before something is changed below an alias, or below what an alias stands for, the alias is
 * replaced by a copy: the other place keeps its values. JSON stays JSON.
 *
 * Each change is checked by reading the text back. Where a way of writing is too unusual for a replacement in the text
 * (keys behind `?`, for one), the parser's own writer sets the key, which keeps the comments but not the layout.
 */

import {
  type Alias,
  Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  visit,
  type YAMLMap,
} from 'yaml';
import { type Path, pathText } from './faults.js';
import { parseYaml } from './syntax.js';
import { Tree } from './tree.js';
import { isMap as isPlainMap, listOf, valueAt } from './values.js';

/** A key to set. */
export interface Amendment {
  /** Keys and places in lists (from 0). Maps on the way that are missing are made, items of lists are not. */
  readonly path: readonly (string | number)[];
  /** A number, a text, true or false, or a list or map of such. */
  readonly value: unknown;
}

/**
 * The scenario with some keys set.
 * @param text of a scenario, YAML or JSON, that reads without fault
 * @throws RangeError if the text is no YAML, or a path leads through what is neither a map nor an item of a list
 */
export function amendScenario(text: string, changes: readonly Amendment[]): string {
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  let amended = text.slice(mark.length);
  for (const change of changes) amended = amend(amended, change);
  return mark + amended;
}

function amend(text: string, { path, value }: Amendment): string {
  const { document, tree } = parsed(text);
  const wanted = withValue(tree.value, path, value, path);
  const spliced = splice(text, document, path, value);
  if (spliced !== null && readsAs(spliced, wanted)) return spliced;
  const written = rewrite(document, path, value);
  if (readsAs(written, wanted)) return written;
  // Nothing of the text is left then but its values.
  return anew(wanted);
}

function parsed(text: string): { document: Document; tree: Tree } {
  const read = parseYaml(text);
  if (Array.isArray(read)) throw new RangeError('a scenario to be amended must be YAML');
  return { document: read.document, tree: new Tree(read.document, read.lines) };
}

/** Whether a text has exactly these values. */
function readsAs(text: string, wanted: unknown): boolean {
  const read = parseYaml(text);
  if (Array.isArray(read)) return false;
  const tree = new Tree(read.document, read.lines);
  return tree.faults.length === 0 && JSON.stringify(sorted(tree.value)) === JSON.stringify(sorted(wanted));
}

/** With the keys of maps in one order. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (!isPlainMap(value)) return value;
  return Object.keys(value)
    .sort()
    .map((key) => [key, sorted(value[key])]);
}

/** The plain values with one set; maps that are missing are made. @param whole the path from the top, for the message */
function withValue(data: unknown, path: Path, value: unknown, whole: Path): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (Array.isArray(data) && typeof step === 'number' && step >= 0 && step < data.length) {
    return data.map((item, i) => (i === step ? withValue(item, rest, value, whole) : item));
  }
  if ((isPlainMap(data) || data === undefined || data === null) && typeof step === 'string') {
    return {
      ...(data ?? {}),
      [step]: withValue((data as Record<string, unknown>)?.[step], rest, value, whole),
    };
  }
  throw new RangeError(`there is nothing to set at ${pathText(whole)}`);
}

/* ---- in the text ---- */

/** @returns null if the text is written in a way that is not provided for */
function splice(text: string, document: Document, path: Path, value: unknown): string | null {
  const json = isJson(text);
  const way = wayTo(document.contents as Node | null, path);
  const alias = way.alias ?? aliasInto(document, way);
  if (alias !== null) {
    const copy = valueOfAlias(alias, document);
    const next = copy === undefined ? null : replaced(text, alias, written(copy, json));
    return next === null ? null : again(next, path, value);
  }
  const rest = path.slice(way.steps);
  if (rest.length === 0) return replaceValue(text, way, written(value, json));
  const map = way.nodes.at(-1)!;
  if (!isMap(map)) return null;
  // What the map has taken over (<<) is copied into its own key, which goes before.
  const key = String(rest[0]);
  const merged = valueAt(mergedValues(map, document), [key]);
  const own = withValue(merged, rest.slice(1), value, path);
  const entry = `${written(key, json)}: ${written(own, json)}`;
  return map.flow === true ? intoFlowMap(text, map, entry) : intoBlockMap(text, map, entry);
}

function again(text: string, path: Path, value: unknown): string | null {
  const read = parseYaml(text);
  return Array.isArray(read) ? null : splice(text, read.document, path, value);
}

/** How far a path leads. */
interface Way {
  /** Nodes from the top to the last one that was reached. */
  readonly nodes: Node[];
  /** The key beside each node; null at the top and in lists. */
  readonly keys: (Node | null)[];
  /** Steps of the path that were gone. */
  readonly steps: number;
  /** An alias that stands in the way, or at the end. */
  readonly alias: Alias | null;
}

function wayTo(top: Node | null, path: Path): Way {
  const nodes: Node[] = [];
  const keys: (Node | null)[] = [];
  let node = top;
  let key: Node | null = null;
  for (let steps = 0; ; steps++) {
    if (node === null) return { nodes, keys, steps: steps - 1, alias: null };
    if (isAlias(node)) return { nodes, keys, steps, alias: node };
    nodes.push(node);
    keys.push(key);
    const step = path[steps];
    if (step === undefined) return { nodes, keys, steps, alias: null };
    if (isMap(node)) {
      const pair = pairOf(node, String(step));
      if (pair === undefined) return { nodes, keys, steps, alias: null };
      key = pair.key as Node;
      node = (pair.value as Node | null) ?? null;
    } else if (isSeq(node)) {
      key = null;
      node = (node.items[Number(step)] as Node | undefined) ?? null;
    } else return { nodes, keys, steps, alias: null };
  }
}

/** The entry of a map by its key; a key that is no text counts as it is written. */
function pairOf(map: YAMLMap, word: string): Pair | undefined {
  return map.items.find(({ key }) => {
    if (!isScalar(key)) return false;
    return (typeof key.value === 'string' ? key.value : (key.source ?? String(key.value))) === word;
  });
}

/** An alias elsewhere that stands for something on the way, or for something below its end; null if there is none. */
function aliasInto(document: Document, { nodes }: Way): Alias | null {
  const touched = new Set<unknown>(nodes);
  const last = nodes.at(-1);
  if (last !== undefined) {
    visit(last, {
      Node: (_, node) => {
        touched.add(node);
      },
    });
  }
  let found: Alias | null = null;
  visit(document, {
    Alias: (_, alias) => {
      if (!touched.has(alias.resolve(document))) return undefined;
      found = alias;
      return visit.BREAK;
    },
  });
  return found;
}

function valueOfAlias(alias: Alias, document: Document): unknown {
  const node = alias.resolve(document);
  return node === undefined ? undefined : plain(node, document);
}

/** The values of a node, merged keys (<<) filled in. */
function plain(node: unknown, document: Document): unknown {
  if (isAlias(node)) return valueOfAlias(node, document);
  if (isSeq(node)) return node.items.map((item) => plain(item, document));
  if (isMap(node)) return { ...(mergedValues(node, document) as object), ...ownValues(node, document) };
  return isScalar(node) ? node.value : null;
}

function ownValues(map: YAMLMap, document: Document): Record<string, unknown> {
  const entries = map.items.filter(({ key }) => isScalar(key) && key.value !== '<<');
  return Object.fromEntries(
    entries.map(({ key, value }) => {
      const { value: word, source } = key as { value: unknown; source?: string };
      return [typeof word === 'string' ? word : (source ?? String(word)), plain(value, document)];
    }),
  );
}

/** What a map takes over by `<<`. */
function mergedValues(map: YAMLMap, document: Document): unknown {
  const sources = map.items
    .filter(({ key }) => isScalar(key) && key.value === '<<')
    .map(({ value }) => plain(value, document));
  return Object.assign(
    {},
    ...sources.flatMap((source) => (Array.isArray(source) ? listOf(source) : [source])).reverse(),
  );
}

/** Whether the whole text is JSON. */
function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** A value on one line. */
function written(value: unknown, json: boolean): string {
  if (json) return JSON.stringify(value);
  return new Document(value, { schema: 'core' })
    .toString({ collectionStyle: 'flow', flowCollectionPadding: false, lineWidth: 0 })
    .trimEnd();
}

function replaced(text: string, node: Node, by: string): string | null {
  const range = node.range;
  return range ? text.slice(0, range[0]) + by + text.slice(range[1]) : null;
}

function replaceValue(text: string, { nodes, keys }: Way, by: string): string | null {
  const node = nodes.at(-1);
  const range = node?.range;
  if (!range) return null;
  const [start, end] = range;
  const key = keys.at(-1);
  const block = (isMap(node) || isSeq(node)) && node.flow !== true;
  // A map or list that began on a line of its own gives way to one on the line of its key.
  const keyEnd = key?.range?.[1];
  if (block && keyEnd !== undefined && /^\s*:\s*$/.test(text.slice(keyEnd, start))) {
    const tail = /\s*$/.exec(text.slice(start, end))![0];
    return `${text.slice(0, keyEnd)}: ${by}${tail}${text.slice(end)}`;
  }
  // An empty value stands right behind its colon.
  const gap = /[:\-,[{]$/.test(text.slice(0, start)) && start === end ? ' ' : '';
  return text.slice(0, start) + gap + by + text.slice(end);
}

/** Behind the last entry. */
function intoFlowMap(text: string, map: YAMLMap, entry: string): string | null {
  if (!map.range) return null;
  const last = map.items.at(-1);
  if (last === undefined) return `${text.slice(0, map.range[0])}{${entry}}${text.slice(map.range[1])}`;
  const end = ((last.value as Node | null) ?? (last.key as Node)).range?.[1];
  return end === undefined ? null : `${text.slice(0, end)}, ${entry}${text.slice(end)}`;
}

/**
 * On a line of its own: at the end of the file for the map at the top; else behind the last entry that ends on its line, or
 * before the first if there is none.
 */
function intoBlockMap(text: string, map: YAMLMap, entry: string): string | null {
  const first = (map.items[0]?.key as Node | undefined)?.range?.[0];
  if (first === undefined) return null;
  const indent = ' '.repeat(first - (text.lastIndexOf('\n', first - 1) + 1));
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  if (indent === '') return `${text}${text.endsWith('\n') ? '' : newline}${entry}${newline}`;
  const simple = map.items.findLast(
    ({ value }) => isScalar(value) || ((isMap(value) || isSeq(value)) && value.flow === true),
  );
  const end = (simple?.value as Node | undefined)?.range?.[1];
  if (end === undefined) return `${text.slice(0, first)}${entry}${newline}${indent}${text.slice(first)}`;
  const lineEnd = text.indexOf('\n', end);
  if (lineEnd < 0) return `${text}${newline}${indent}${entry}${newline}`;
  return `${text.slice(0, lineEnd + 1)}${indent}${entry}${newline}${text.slice(lineEnd + 1)}`;
}

/* ---- by the parser's writer ---- */

/** The whole document written anew, aliases replaced by copies. */
function rewrite(document: Document, path: Path, value: unknown): string {
  visit(document, {
    Alias: (_, alias) => document.createNode(valueOfAlias(alias, document) ?? null) as Node,
  });
  document.setIn([...path], value);
  return document.toString({ flowCollectionPadding: false, lineWidth: 0 });
}

function anew(value: unknown): string {
  return new Document(value, { schema: 'core' }).toString({ lineWidth: 0 });
}
