/** What is wrong with a season log, as data. How a person sees it is up to the sections. */

import { nearest } from '../../models/nearest.js';
import type { ALL_COLUMNS } from './rows.js';

export type Column = (typeof ALL_COLUMNS)[number];

/** One fault of a log. */
export interface LogFault {
  /** Line of the file on which the row begins, the header being line 1. */
  readonly line: number;
  /** Name of the column as in the contract, or the file's own name for one that is not; null for the whole row. */
  readonly column: string | null;
  /** What stands there. */
  readonly found: string;
  /** What may stand there. */
  readonly expected: string;
  /** The nearest valid name; null if none is near. */
  readonly nearest: string | null;
  /** What to do: whole sentences; empty if there is nothing special to say. */
  readonly advice: string;
  /** Further lines with the very same slip. They are counted, not told one by one. */
  readonly more: number;
}

/** Something that can be read but is probably not meant. */
export interface LogWarning {
  readonly line: number;
  readonly column: string | null;
  /** A whole sentence. */
  readonly message: string;
}

/** One fault of several rows: it is told of the first. @param rows at least one */
export function faultOfRows(
  rows: readonly { readonly line: number }[],
  told: Pick<LogFault, 'column' | 'found' | 'expected' | 'advice'>,
): LogFault {
  return { line: rows[0]!.line, ...told, nearest: null, more: rows.length - 1 };
}

export interface LogFaultDraft {
  readonly line: number;
  readonly column: string | null;
  readonly found: string;
  readonly expected: string;
  /** The names that may stand there. */
  readonly names?: () => readonly string[];
  /** The word that is to be near one of them. */
  readonly word?: string;
  readonly advice?: string;
  /** Faults with the same kind and column are one slip: the first is told, the others are counted. */
  readonly kind?: string;
  readonly more?: number;
}

/** With more faults than this, nobody reads on to the nearest name, and looking for it costs. */
const MOST_WITH_NEAREST = 100;

/** Gathers the faults of a log, in the order of finding. */
export class LogFaults {
  readonly #faults: LogFault[] = [];
  readonly #kinds = new Map<string, number>();

  get count(): number {
    return this.#faults.length;
  }

  add(draft: LogFaultDraft): void {
    if (draft.kind !== undefined) {
      const key = `${draft.column} ${draft.kind}`;
      const same = this.#kinds.get(key);
      if (same !== undefined) {
        const first = this.#faults[same]!;
        this.#faults[same] = { ...first, more: first.more + 1 };
        return;
      }
      this.#kinds.set(key, this.#faults.length);
    }
    const { line, column, found, expected, names, word, advice = '', more = 0 } = draft;
    const looks = word !== undefined && names !== undefined && this.#faults.length < MOST_WITH_NEAREST;
    const near = looks ? nearest(word, names()) : null;
    this.#faults.push({ line, column, found, expected, nearest: near, advice, more });
  }

  /** By line; what is on one line stays in the order of finding. */
  sorted(): LogFault[] {
    return withoutEchoes([...this.#faults].sort((a, b) => a.line - b.line));
  }
}

/** One field, one fault: what is wrong with it by itself is also wrong against the other rows. */
export function withoutEchoes(faults: readonly LogFault[]): LogFault[] {
  const seen = new Set<string>();
  return faults.filter(({ line, column }) => {
    const place = `${line} ${column}`;
    if (column !== null && seen.has(place)) return false;
    seen.add(place);
    return true;
  });
}

/** A field as a fault names it: in quotes, on one line, cut to a length that fits into a sentence. */
export function fieldText(text: string): string {
  if (text === '') return 'nothing';
  return JSON.stringify(text.length > 60 ? `${text.slice(0, 60)}…` : text);
}
