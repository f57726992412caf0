/**
 * Sets keys in the text of a scenario and leaves everything else as it was written: comments, order, blanks.
 *
 * A value that stands in the text is replaced there, character for character; a key that is not there yet is put behind the
 * last one of its map. Only where that cannot be done (the value runs over several lines, an alias stands in the way) is
 * the document written anew by the YAML library, which keeps comments and order but not every blank. Each result is
 * read again and must say what it should.
 */

import { isDeepStrictEqual } from 'node:util';
import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
  isScalar,
  type Node,
  stringify,
  visit,
  type YAMLMap,
} from 'yaml';
import { parseYaml } from './syntax.js';

export interface Amendment {
  readonly path: readonly (string | number)[];
  /** Plain data; undefined takes the key out. */
  readonly value: unknown;
}

/**
 * @param text of a scenario that reads without a syntax fault
 * @throws Error if the text cannot be parsed, or a path leads nowhere
 */
export function amendScenario(text: string, changes: readonly Amendment[]): string {
  return changes.reduce(amended, text);
}

function amended(text: string, change: Amendment): string {
  const document = parsed(text);
  const wanted = withValue(document.toJS(), change);
  const spliced = splice(text, document, change);
  if (spliced !== null && says(spliced, wanted)) return spliced;
  const written = isJson(text) ? `${JSON.stringify(wanted, null, 2)}\n` : rewritten(document, change);
  if (says(written, wanted)) return written;
  throw new Error(`the scenario cannot be changed at ${change.path.join('.')}`);
}

function parsed(text: string): Document {
  const result = parseYaml(text);
  if (Array.isArray(result)) throw new Error(`the scenario cannot be parsed: ${result[0]?.found}`);
  return result.document;
}

function says(text: string, wanted: unknown): boolean {
  const result = parseYaml(text);
  return !Array.isArray(result) && isDeepStrictEqual(result.document.toJS(), wanted);
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
  const node = document.getIn(path, true);
  if (node === undefined) return inserted(text, document, path, value);
  if (!isNode(node) || node.range == null || node.anchor !== undefined) return null;
  if (!(isScalar(node) || (isCollection(node) && node.flow === true))) return null;
  const [from, to] = node.range;
  return text.slice(0, from) + flowText(value, isJson(text)) + text.slice(to);
}

/** A new key behind the last one of its map that stands on a line of its own; null if there is no such place. */
function inserted(text: string, document: Document, path: Amendment['path'], value: unknown): string | null {
  const key = path.at(-1);
  const map = document.getIn(path.slice(0, -1), true);
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
  const old = document.getIn(path, true);
  if (value === undefined) document.deleteIn(path);
  else {
    const node = document.createNode(value, { flow: true });
    if (isNode(old)) keepComments(old, node);
    document.setIn(path, node);
  }
  return document.toString({ lineWidth: 0, flowCollectionPadding: false });
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
      return node.clone() as Node;
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

/** @throws Error if the path leads through something that is no map or list */
function withValue(data: unknown, { path, value }: Amendment): unknown {
  const [key, ...rest] = path;
  // A plain copy: what is read back has plain objects only.
  if (key === undefined) return structuredClone(value);
  if (Array.isArray(data)) {
    return data.map((item, i) => (i === key ? withValue(item, { path: rest, value }) : item));
  }
  if (data !== null && data !== undefined && typeof data !== 'object') {
    throw new Error(`there is no ${String(key)} in ${JSON.stringify(data)}`);
  }
  const map = { ...(data as Record<string, unknown>) };
  const inner = withValue(map[key], { path: rest, value });
  if (inner === undefined) delete map[key];
  else map[key] = inner;
  return map;
}
