/**
 * A YAML document as plain values, with the place of every value and key in the text.
 *
 * Done here and not by the parser, because duplicate keys, aliases, merge keys (`<<`) and keys that are no words
 * must become faults with a line, in time that grows with the length of the file and no faster.
 */

import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type LineCounter,
  type Node,
  visit,
  type YAMLMap,
} from 'yaml';
import { type Fault, type FaultDraft, faultAt, foundText, type Path, wordText } from './faults.js';

/** Values that a file may expand to through aliases. A text of the longest allowed length has about half as many. */
const MOST_VALUES = 1_000_000;
/** Levels of maps and lists, aliases followed. */
const MOST_LEVELS = 100;

/** A key of a map and the value beside it. */
interface Entry {
  key: Node;
  value: Node | null;
}

/** The values of a file and where they stand. */
export class Tree {
  /** The file as plain values: maps without prototype, lists, texts, numbers, booleans, null. */
  readonly value: unknown;
  /** What is wrong with the tree itself: duplicate keys, keys that are no words, endless aliases. */
  readonly faults: Fault[] = [];

  readonly #document: Document;
  readonly #lines: LineCounter;
  readonly #anchored = new Map<Node, Node | null>();
  readonly #entries = new Map<YAMLMap, Map<string, Entry>>();
  #count = 0;

  constructor(document: Document, lines: LineCounter) {
    this.#document = document;
    this.#lines = lines;
    this.#findAnchors();
    try {
      this.value = this.#valueOf(document.contents as Node | null, [], 0);
    } catch (error) {
      if (!(error instanceof TooMuch)) throw error;
      this.value = undefined;
      this.faults = [error.fault];
    }
  }

  /** A draft with the line and column at which it points. */
  locate(draft: FaultDraft): Fault {
    return faultAt(this.position(draft.path, draft.at), draft);
  }

  /**
   * Line and column (1-based) of a value, of its key, or of the map around it. What is not in the file is where the
   * nearest thing around it is.
   */
  position(path: Path, at: FaultDraft['at']): { line: number; column: number } {
    let node = this.#target(this.#document.contents as Node | null);
    let key: Node | null = node;
    let parent: Node | null = node;
    for (const step of path) {
      if (!(isMap(node) || isSeq(node))) break;
      parent = node;
      const entry: Entry | undefined = isMap(node)
        ? this.#entriesOf(node, []).get(String(step))
        : { key: node.items[Number(step)] as Node, value: node.items[Number(step)] as Node };
      if (entry?.key === undefined) break;
      key = entry.key;
      // An alias without an anchor stands for nothing, but it stands somewhere.
      node = this.#target(entry.value) ?? entry.value ?? entry.key;
    }
    return this.#positionOf(at === 'value' ? node : at === 'key' ? key : parent);
  }

  #positionOf(node: Node | null): { line: number; column: number } {
    const { line, col } = this.#lines.linePos(node?.range?.[0] ?? 0);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  }

  /** Notes for every alias what it stands for: the anchor of its name that was set last before it. */
  #findAnchors(): void {
    const anchors = new Map<string, Node>();
    visit(this.#document, {
      Alias: (_, alias) => void this.#anchored.set(alias, anchors.get(alias.source) ?? null),
      Value: (_, node) => {
        if (node.anchor !== undefined) anchors.set(node.anchor, node);
      },
    });
  }

  /** The node itself, or what an alias stands for; null if that is nothing. */
  #target(node: Node | null): Node | null {
    return isAlias(node) ? (this.#anchored.get(node) ?? null) : node;
  }

  #valueOf(written: Node | null, path: Path, level: number): unknown {
    const node = this.#target(written);
    if (node === null) {
      if (isAlias(written)) this.#unknownAlias(written.source, written, path);
      return null;
    }
    this.#oneMore(written);
    if (level > MOST_LEVELS) this.#giveUp(written, 'brackets or lists nested too deep');
    if (isMap(node)) {
      const map: Record<string, unknown> = Object.create(null);
      for (const [key, entry] of this.#entriesOf(node, path)) {
        map[key] = this.#valueOf(entry.value, [...path, key], level + 1);
      }
      return map;
    }
    if (isSeq(node)) return node.items.map((item, i) => this.#valueOf(item as Node, [...path, i], level + 1));
    // -0 is written by nobody on purpose and would make two equal plans look different.
    return isScalar(node) ? (node.value === 0 ? 0 : node.value) : null;
  }

  /** Counts a value, so that aliases of aliases come to an end. */
  #oneMore(at: Node | null): void {
    this.#count++;
    if (this.#count > MOST_VALUES) this.#giveUp(at, `more than ${MOST_VALUES} values`);
  }

  #giveUp(at: Node | null, found: string): never {
    const expected = 'a scenario in which aliases (*) do not multiply without end';
    throw new TooMuch(faultAt(this.#positionOf(at), { path: [], found, expected }));
  }

  /** The entries of a map, the merged ones (`<<`) last and only where the map has none of its own. */
  #entriesOf(map: YAMLMap, path: Path): Map<string, Entry> {
    const known = this.#entries.get(map);
    if (known !== undefined) return known;
    const entries = new Map<string, Entry>();
    const merged: Entry[] = [];
    // Set before merging, so that a map that merges itself finds an end.
    this.#entries.set(map, entries);
    for (const pair of map.items) {
      const key = this.#target(pair.key as Node | null);
      const entry = { key: (pair.key as Node | null) ?? map, value: pair.value as Node | null };
      const word = isScalar(key) ? keyWord(key.value, key.source) : null;
      if (word === null) this.#noWord(entry.key, key, path);
      else if (word === '<<') merged.push(entry);
      else if (entries.has(word)) this.#duplicate(word, entry.key, (entries.get(word) as Entry).key, path);
      else entries.set(word, entry);
    }
    for (const entry of merged) this.#merge(entry, entries, path);
    return entries;
  }

  #merge(entry: Entry, entries: Map<string, Entry>, path: Path): void {
    const source = this.#target(entry.value);
    const maps = isSeq(source) ? source.items.map((item) => this.#target(item as Node)) : [source];
    for (const map of maps) {
      if (isMap(map)) {
        for (const [word, merged] of this.#entriesOf(map, path)) {
          this.#oneMore(entry.key);
          if (!entries.has(word)) entries.set(word, merged);
        }
        continue;
      }
      this.#fault(
        entry.key,
        [...path, '<<'],
        'a merge (<<) of what has no keys (no map)',
        'an alias of what has keys, e.g. <<: *usual',
      );
    }
  }

  #duplicate(word: string, key: Node, first: Node, path: Path): void {
    const found = `the key ${wordText(word)} a second time (first in line ${this.#positionOf(first).line})`;
    this.#fault(key, [...path, word], found, 'every key once');
  }

  #noWord(at: Node, key: Node | null, path: Path): void {
    const what =
      isScalar(key) && key.value !== null
        ? foundText(key.value)
        : isMap(key)
          ? 'keys and values (a map)'
          : 'a list';
    const found = key === null || (isScalar(key) && key.value === null) ? 'an empty key' : `${what} as a key`;
    this.#fault(at, path, found, 'a word as a key');
  }

  #unknownAlias(name: string, at: Node, path: Path): void {
    this.#fault(
      at,
      path,
      `the alias *${name} without an anchor`,
      `an anchor &${name} further up in the file`,
    );
  }

  #fault(at: Node, path: Path, found: string, expected: string): void {
    this.faults.push(faultAt(this.#positionOf(at), { path, found, expected }));
  }
}

/** A key as a word: what is written, so that the stages 1 and 007 keep their names; null if it is none. */
function keyWord(value: unknown, source: string | undefined): string | null {
  // A map keeps no key of this name, so a check could miss it.
  if (value === '__proto__' || value === null) return null;
  return typeof value === 'string' ? value : (source ?? String(value));
}

/** Ends the walk of a tree that is too large. */
class TooMuch extends Error {
  readonly fault: Fault;
  constructor(fault: Fault) {
    super(fault.found);
    this.fault = fault;
  }
}
