/**
 * Sets keys in the text of a scenario and leaves everything else as it was written: comments, order, blanks.
 *
 * A value that stands in the text is replaced there, character for character; a key that is not there yet is put behind the
 * last one of its map. Only where that cannot be done (the value runs over several lines, an alias stands in the way) is
 * the document written anew by the YAML library, which keeps comments and order but not every blank; there, aliases and merges
 * that the change runs through are written out. Each result is read again, as a scenario is, and must say what it should.
 */

import { isDeepStrictEqual } from 'node:util';
import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  stringify,
  visit,
  type YAMLMap,
} from 'yaml';
import { failure, type Result, success } from '../models/result.js';
import type { Fault } from './faults.js';
import { parseYaml } from './syntax.js';
import { keyWord, MERGE, Tree } from './tree.js';
import { isMap as isPlainMap, valueAt } from './values.js';

export interface Amendment {
  readonly path: readonly (string | number)[];
  /** Plain data; undefined takes the key out. */
  readonly value: unknown;
}

/**
 * The text of a scenario with other values, and all else as it was written.
 *
 * @returns faults if the text cannot be parsed, or a path leads where nothing can be set
 */
export function amendScenario(text: string, changes: readonly Amendment[]): Result<string, Fault> {
  let amended = text;
  for (const change of changes) {
    const result = amendedBy(change, amended);
    if (!result.ok) return result;
    amended = result.value;
  }
  return success(amended);
}

function amendedBy(change: Amendment, text: string): Result<string, Fault> {
  const said = read(text);
  if (!said.ok) return said;
  const { document, tree, value } = said.value;
  const { path } = change;
  if (change.value === undefined && valueAt(value, path) === undefined) return success(text);
  if (leads(value, path)) {
    const wanted = withValue(value, change);
    const spliced = splice(text, document, change);
    if (spliced !== null && says(spliced, wanted)) return success(spliced);
    const written = isJson(text) ? `${JSON.stringify(wanted, null, 2)}\n` : rewritten(document, change);
    if (says(written, wanted)) return success(written);
  }
  const found = 'no place for what is to be set';
  return failure([tree.locate({ path, at: 'parent', found, expected: 'a map or a list that can hold it' })]);
}

/** What a text says to whoever reads it, aliases and merges followed, and where it says it. */
function read(text: string): Result<{ document: Document; tree: Tree; value: unknown }, Fault> {
  const parsed = parseYaml(text);
  if (!parsed.ok) return parsed;
  const { document, lines } = parsed.value;
  const tree = new Tree(document, lines);
  if (tree.faults.length > 0) return failure(tree.faults);
  // A plain copy: the maps of a tree have no prototype.
  return success({ document, tree, value: structuredClone(tree.value) });
}

function says(text: string, wanted: unknown): boolean {
  const said = read(text);
  return said.ok && isDeepStrictEqual(said.value.value, wanted);
}

/** Whether a path leads through maps and lists only. Maps that are not there yet can be made. */
function leads(data: unknown, path: Amendment['path']): boolean {
  return path.every((step, i) => {
    const around = valueAt(data, path.slice(0, i));
    return Array.isArray(around) ? Number(step) in around : around === undefined || isPlainMap(around);
  });
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** The new value in the place of the old one; null if the old one is not there or is no simple piece of text. */
function splice(text: string, document: Document, { path, value }: Amendment): string | null {
  if (value === undefined) return null;
  const node = nodeAt(document, path);
  if (node === undefined) return inserted(text, document, path, value);
  if (!isNode(node) || node.range == null || node.anchor !== undefined) return null;
  if (!(isScalar(node) || (isCollection(node) && node.flow === true))) return null;
  const [from, to] = node.range;
  return text.slice(0, from) + flowText(value, isJson(text)) + text.slice(to);
}

/** What stands at a path in the text itself; undefined if nothing does, or it comes from elsewhere by an alias or a merge. */
function nodeAt(document: Document, path: Amendment['path']): unknown {
  let node: unknown = document.contents;
  for (const step of path) {
    node = isMap(node) ? pairOf(node, step)?.value : isSeq(node) ? node.items[Number(step)] : undefined;
  }
  return node;
}

/** The pair of a map whose key is a word. */
function pairOf(map: YAMLMap, word: string | number): Pair | undefined {
  return map.items.find(({ key }) => keyWord(key) === String(word));
}

/** A new key behind the last one of its map that stands on a line of its own; null if there is no such place. */
function inserted(text: string, document: Document, path: Amendment['path'], value: unknown): string | null {
  const key = path.at(-1);
  const above = path.slice(0, -1);
  const map = nodeAt(document, above);
  // A map that is not there yet comes as a whole, with the key in it.
  if (map === undefined && typeof key === 'string') return inserted(text, document, above, { [key]: value });
  if (typeof key !== 'string' || !isMap(map) || map.range == null) return null;
  const json = isJson(text);
  const pair = `${json ? JSON.stringify(key) : key}: ${flowText(value, json)}`;
  const ends = endsOf(map);
  if (map.flow === true) {
    const end = ends.at(-1);
    if (end === undefined) return null;
    return `${text.slice(0, end)}, ${pair}${text.slice(end)}`;
  }
  const end = ends.findLast((_, i) => !text.slice(startOf(map, i), ends[i]).includes('\n'));
  if (end === undefined) return null;
  // Behind what else stands on that line, as a comment does.
  const newline = text.indexOf('\n', end);
  const at = newline < 0 ? text.length : newline;
  const line = text[at - 1] === '\r' ? at - 1 : at;
  const first = startOf(map, 0);
  const indent = ' '.repeat(first - (text.lastIndexOf('\n', first - 1) + 1));
  return `${text.slice(0, line)}${text[at - 1] === '\r' ? '\r\n' : '\n'}${indent}${pair}${text.slice(line)}`;
}

/** Where each pair of a map ends in the text. */
function endsOf(map: YAMLMap): number[] {
  return map.items.map(({ key, value }) => {
    const last = isNode(value) ? value : (key as Node);
    return last.range?.[1] ?? Number.POSITIVE_INFINITY;
  });
}

/** Where a pair of a map begins in the text. */
function startOf(map: YAMLMap, i: number): number {
  return (map.items[i]!.key as Node).range?.[0] ?? 0;
}

function flowText(value: unknown, json: boolean): string {
  if (json) return JSON.stringify(value);
  return stringify(value, { collectionStyle: 'flow', flowCollectionPadding: false, lineWidth: 0 }).trimEnd();
}

function rewritten(document: Document, { path, value }: Amendment): string {
  writeOutAliases(document);
  const keys = keysOnTheWay(document, path);
  const old = document.getIn(keys, true);
  if (value === undefined) document.deleteIn(keys);
  else {
    const node = document.createNode(value, { flow: true });
    if (isNode(old)) keepComments(old, node);
    document.setIn(keys, node);
  }
  return document.toString({ lineWidth: 0, flowCollectionPadding: false });
}

/** The steps of a path as the keys of the maps that it leads through, which have their merges written out. */
function keysOnTheWay(document: Document, path: Amendment['path']): unknown[] {
  let node: unknown = document.contents;
  return path.map((step) => {
    if (!isMap(node)) {
      node = isSeq(node) ? node.items[Number(step)] : undefined;
      return step;
    }
    writeOutMerges(node);
    const pair = pairOf(node, step);
    node = pair?.value;
    return pair?.key ?? step;
  });
}

/** What a map merges becomes its own, in the place of the merge; what it has itself and what is merged first counts. */
function writeOutMerges(map: YAMLMap): void {
  const known = new Set(map.items.map(({ key }) => keyWord(key)));
  map.items = map.items.flatMap((pair) => {
    if (keyWord(pair.key) !== MERGE) return [pair];
    const sources = (isSeq(pair.value) ? pair.value.items : [pair.value]).filter(isMap);
    const added: Pair[] = [];
    for (const source of sources) {
      writeOutMerges(source);
      for (const one of source.items) {
        const word = keyWord(one.key);
        if (!known.has(word)) added.push(one);
        known.add(word);
      }
    }
    const first = added[0]?.key;
    if (isNode(first) && isNode(pair.value)) first.commentBefore = pair.value.comment ?? null;
    return added;
  });
}

function keepComments(from: Node, to: Node): void {
  if (from.comment != null) to.comment = from.comment;
  if (from.commentBefore != null) to.commentBefore = from.commentBefore;
}

/** Each alias becomes a copy of what it stands for: a change in one place must not show in another. */
function writeOutAliases(document: Document): void {
  let found = false;
  visit(document, {
    Alias: (_, alias) => {
      const node = alias.resolve(document);
      if (node === undefined) return undefined;
      found = true;
      const copy = node.clone() as Node;
      keepComments(alias, copy);
      return copy;
    },
  });
  // What was copied may hold aliases itself.
  if (found) writeOutAliases(document);
  else
    visit(document, {
      Node: (_, node) => {
        if (!isAlias(node)) delete node.anchor;
      },
    });
}

/** Plain data with another value. @param path leads through maps and lists only */
export function withValue(data: unknown, { path, value }: Amendment): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return structuredClone(value);
  if (Array.isArray(data)) {
    return data.map((item, i) => (i === key ? withValue(item, { path: rest, value }) : item));
  }
  const map = { ...(data as Record<string, unknown> | undefined) };
  const inner = withValue(map[key], { path: rest, value });
  if (inner === undefined) delete map[key];
  else map[key] = inner;
  return map;
}
