/**
 * What a result says, and not yet how: sections with a title, of sentences, tables with typed cells, and pictures. A renderer
 * makes text of any width of them; nothing here is padded, cut or broken into lines.
 */

import type { Estimate } from '../../sim/seasons/sections.js';
import type { Bounds, Form } from '../words/numbers.js';

export interface Section {
  readonly kind: 'section';
  /** null: its blocks stand by themselves. */
  readonly title: string | Whole | null;
  readonly blocks: readonly Block[];
  /** Whether its blocks stand a line apart. */
  readonly apart?: boolean;
}

/** A sentence is a plain string; a section within a section is a part of it. */
export type Block = string | Whole | Command | Code | Table | Plane | Key | Section;

/** A sentence whose words are never broken, because a name of a file is among them that somebody may copy. */
export interface Whole {
  readonly kind: 'whole';
  readonly text: string;
}

/** What somebody may copy and run: one line, however long it is. */
export interface Command {
  readonly kind: 'command';
  readonly text: string;
}

/** Lines of a scenario file, in the notation of which a line may go on after each comma. */
export interface Code {
  readonly kind: 'code';
  readonly lines: readonly string[];
}

export interface Table {
  readonly kind: 'table';
  /** Over the columns; a line break in it is kept. */
  readonly head?: readonly Cell[];
  /** All as long as the first. The first column says what a row is of. */
  readonly rows: readonly (readonly Cell[])[];
  /** What its bars mean: told only where they are drawn. */
  readonly bars?: Key;
}

/** What signs stand for. */
export interface Key {
  readonly kind: 'key';
  readonly signs: readonly (readonly [sign: string, meaning: string])[];
}

/** A string is a text; null is a figure that there is none of. */
export type Cell = string | null | Words | Figure | Doubtful | Interval | Day | Task | Bar;

/** A text with names in it, which may be told shorter where there is little room. */
export interface Words {
  readonly kind: 'words';
  readonly parts: readonly (string | Name)[];
}

export interface Name {
  readonly name: string;
}

export interface Figure {
  readonly kind: 'figure';
  readonly value: number;
  readonly form: Form;
  /** Words behind it; those of a column begin below each other. */
  readonly unit: string;
  /** What it could be at most, behind a stroke: `18.6/24.0`. */
  readonly outOf: number | null;
}

/** A figure that is not sure. */
export interface Doubtful {
  readonly kind: 'doubtful';
  readonly value: number;
  readonly form: Form;
}

export interface Interval extends Bounds {
  readonly kind: 'interval';
  readonly form: Form;
}

export interface Day {
  readonly kind: 'date';
  readonly iso: string;
  /** Without weekday and year. */
  readonly short: boolean;
}

/** What is to be done, and ticked off then. */
export interface Task {
  readonly kind: 'task';
  readonly text: string;
}

/** A piece of a bar, from one share to another; then in another sign up to a third. All from 0 to 1. */
export interface Bar {
  readonly kind: 'bar';
  readonly from: number;
  readonly to: number;
  readonly upTo: number;
}

/** Marks on a plane; where two fall on one place the later one is seen. At least one. */
export interface Plane {
  readonly kind: 'plane';
  readonly marks: readonly Mark[];
  readonly x: Axis;
  readonly y: Axis;
}

export interface Mark {
  readonly x: number;
  readonly y: number;
  readonly sign: string;
  /** What it is of, told where somebody can point at it. */
  readonly of?: string;
  /** Whether a line leads through it and the others that say so, from left to right, where lines can be drawn. */
  readonly joined?: boolean;
}

export interface Axis {
  readonly least: number;
  readonly most: number;
  readonly form: Form;
  /** What is told along it; empty if the title says it. */
  readonly label: string;
}

/** What a result says as rows of CSV: the first one names the columns; numbers in full, null where there is none. */
export type Rows = readonly (readonly (string | number | null)[])[];

/** What a result says as days of a calendar, each with an event for the whole day. */
export interface Calendar {
  readonly title: string;
  /** Of what it is the calendar, in letters and digits: with it, the events of a later one are known again. */
  readonly id: string;
  /** Day on which it was made. ISO 8601, as all dates. */
  readonly from: string;
  /** Higher in a later one. */
  readonly revision: number;
  readonly days: readonly {
    readonly date: string;
    readonly summary: string;
    readonly lines: readonly string[];
  }[];
}

/** The cells of a figure in such a row: its mean and the ends of its interval. */
export function estimateCells(of: Estimate | null | undefined): Rows[number] {
  return [of?.mean ?? null, of?.low ?? null, of?.high ?? null];
}

/** Longest name that is told in full in a table. */
export const MOST_NAME = 24;

export function section(title: Section['title'], ...blocks: readonly Block[]): Section {
  return { kind: 'section', title, blocks };
}

/** A section of sections that stand a line apart. */
export function chapter(title: string, ...parts: readonly Section[]): Section {
  return { kind: 'section', title, blocks: parts, apart: true };
}

export function whole(text: string): Whole {
  return { kind: 'whole', text };
}

export function command(text: string): Command {
  return { kind: 'command', text };
}

export function code(...lines: Code['lines']): Code {
  return { kind: 'code', lines };
}

export function table(rows: Table['rows'], rest: Pick<Table, 'head' | 'bars'> = {}): Table {
  return { kind: 'table', rows, ...rest };
}

/** @returns a plane from the least to the most of the marks; down or left to `from`, if given */
export function plane(marks: Plane['marks'], x: Along, y: Along): Plane {
  const axis = (values: readonly number[], { form, label, from }: Along): Axis => {
    return { least: from ?? Math.min(...values), most: Math.max(...values), form, label };
  };
  const [xs, ys] = [marks.map((mark) => mark.x), marks.map((mark) => mark.y)];
  return { kind: 'plane', marks, x: axis(xs, x), y: axis(ys, y) };
}

type Along = Pick<Axis, 'form' | 'label'> & { readonly from?: number };

export function key(...signs: Key['signs']): Key {
  return { kind: 'key', signs };
}

export function words(...parts: Words['parts']): Words {
  return { kind: 'words', parts };
}

export function name(of: string): Words {
  return words({ name: of });
}

/** @returns null if there is no such value */
export function figure(
  value: number | null | undefined,
  form: Form,
  unit = '',
  outOf: number | null = null,
): Figure | null {
  return value == null ? null : { kind: 'figure', value, form, unit, outOf };
}

/** @returns nothing if there is no such interval */
export function interval({ low, high }: Ends, form: Form): Interval | '' {
  return low === null || high === null ? '' : { kind: 'interval', low, high, form };
}

/** The ends of an interval; null where too few seasons tell it. */
export interface Ends {
  readonly low: number | null;
  readonly high: number | null;
}

export function day(iso: string, short = false): Day {
  return { kind: 'date', iso, short };
}

export function doubtful(value: number, form: Form): Doubtful {
  return { kind: 'doubtful', value, form };
}

export function task(text: string): Task {
  return { kind: 'task', text };
}

/** @param to where it ends; it begins at `from`, and goes on in another sign to `upTo` */
export function bar(to: number, { from = 0, upTo = to } = {}): Bar {
  return { kind: 'bar', from, to, upTo };
}
