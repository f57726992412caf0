/** Walking a zod schema by path and in full: what the faults and the table of keys have in common. */

import * as z from 'zod';
import type { Path } from './faults.js';
import { isMap } from './values.js';

/** One line of the table of keys. */
export interface KeyRow {
  /** e.g. `crops[].stages.<stage>.days` */
  key: string;
  /** What it is, with its unit. */
  meaning: string;
  /** What may stand there. */
  expected: string;
}

/** A schema without the wrappers that make it optional or give it a default. */
export function bare(schema: z.ZodType): z.ZodType {
  let inner = schema;
  while (inner instanceof z.ZodOptional || inner instanceof z.ZodDefault) inner = inner.unwrap() as z.ZodType;
  return inner;
}

/** The schema at a path; undefined where the scenario has no such place. */
export function schemaAt(root: z.ZodType, path: Path): z.ZodType | undefined {
  let schema: z.ZodType | undefined = bare(root);
  for (const step of path) {
    schema = stepInto(schema, step);
    if (schema === undefined) return undefined;
  }
  return schema;
}

function stepInto(schema: z.ZodType, step: string | number): z.ZodType | undefined {
  if (schema instanceof z.ZodUnion) {
    for (const branch of schema.options) {
      const next = stepInto(bare(branch as z.ZodType), step);
      if (next !== undefined) return next;
    }
    return undefined;
  }
  if (typeof step === 'number') {
    return schema instanceof z.ZodArray ? bare(schema.element as z.ZodType) : undefined;
  }
  if (schema instanceof z.ZodRecord) return bare(schema.valueType as z.ZodType);
  if (!(schema instanceof z.ZodObject && Object.hasOwn(schema.shape, step))) return undefined;
  return bare(schema.shape[step]);
}

/** The keys that a map with this schema may have; of a union those of all its branches. */
export function keysOf(schema: z.ZodType | undefined): string[] {
  if (schema instanceof z.ZodObject) return Object.keys(schema.shape);
  if (!(schema instanceof z.ZodUnion)) return [];
  return [...new Set(schema.options.flatMap((branch) => keysOf(bare(branch as z.ZodType))))];
}

/**
 * The branches of a union that `value` is meant for: of maps those with a key that no other branch has and that is
 * there, of lists and words the one for a list or a word. Empty if it fits none, several if it mixes them.
 */
export function branchesFor(union: z.ZodUnion, value: unknown): number[] {
  const branches = union.options.map((branch) => bare(branch as z.ZodType));
  const chosen: number[] = [];
  for (const [index, branch] of branches.entries()) {
    if (branch instanceof z.ZodObject) {
      const others = branches.flatMap((other) => (other === branch ? [] : keysOf(other)));
      const own = keysOf(branch).filter((key) => !others.includes(key));
      if (isMap(value) && own.some((key) => Object.hasOwn(value, key))) chosen.push(index);
    } else if (branch instanceof z.ZodArray) {
      if (Array.isArray(value)) chosen.push(index);
    } else if (typeof value === 'string') {
      chosen.push(index);
    }
  }
  return chosen;
}

/** Every key below a schema, in its order. */
export function keyRows(root: z.ZodType, expected: (schema: z.ZodType) => string): KeyRow[] {
  const rows = new Map<string, KeyRow>();
  walk(bare(root), '', (key, schema) => {
    // A key that several branches of a union share is one key.
    if (rows.has(key)) return;
    rows.set(key, { key, meaning: schema.description ?? '', expected: expected(schema) });
  });
  return [...rows.values()];
}

function walk(schema: z.ZodType, prefix: string, visit: (key: string, schema: z.ZodType) => void): void {
  if (schema instanceof z.ZodUnion) {
    for (const branch of schema.options) walk(bare(branch as z.ZodType), prefix, visit);
  } else if (schema instanceof z.ZodArray) {
    walk(bare(schema.element as z.ZodType), `${prefix}[]`, visit);
  } else if (schema instanceof z.ZodRecord) {
    const key = `${prefix}.<stage>`;
    const value = bare(schema.valueType as z.ZodType);
    visit(key, value);
    walk(value, key, visit);
  } else if (schema instanceof z.ZodObject) {
    for (const [name, wrapped] of Object.entries(schema.shape)) {
      const key = prefix === '' ? name : `${prefix}.${name}`;
      const value = bare(wrapped as z.ZodType);
      visit(key, value);
      walk(value, key, visit);
    }
  }
}
