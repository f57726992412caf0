/** Walking a zod schema by path and in full: what the faults and the table of keys have in common. */

import * as z from 'zod';
import { expectationOf } from './expectations.js';
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

/** The branches of an either-or; none of any other schema. */
function branchesOf(schema: z.ZodType): z.ZodType[] {
  return schema instanceof z.ZodUnion ? schema.options.map((branch) => bare(branch as z.ZodType)) : [];
}

function stepInto(schema: z.ZodType, step: string | number): z.ZodType | undefined {
  if (schema instanceof z.ZodUnion) {
    const ways = branchesOf(schema).map((branch) => stepInto(branch, step));
    return ways.find((way) => way !== undefined);
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
  return schema === undefined ? [] : [...new Set(branchesOf(schema).flatMap(keysOf))];
}

/** Keys that only one branch of a union has: those that tell the branches apart. */
export function ownKeys(union: z.ZodUnion): string[] {
  const perBranch = branchesOf(union).map(keysOf);
  return keysOf(union).filter((key) => perBranch.filter((keys) => keys.includes(key)).length === 1);
}

/**
 * The branches of a union that `value` is meant for: of maps those with a key that no other branch has and that is
 * there, of lists, numbers and words the one for a list, a number or a word. Empty if it fits none, several if it mixes them.
 */
export function branchesFor(union: z.ZodUnion, value: unknown): z.ZodType[] {
  const own = ownKeys(union);
  return branchesOf(union).filter((branch) => {
    if (branch instanceof z.ZodArray) return Array.isArray(value);
    if (branch instanceof z.ZodRecord) return isMap(value);
    if (branch instanceof z.ZodNumber) return typeof value === 'number';
    if (!(branch instanceof z.ZodObject)) return typeof value === 'string';
    return isMap(value) && keysOf(branch).some((key) => own.includes(key) && Object.hasOwn(value, key));
  });
}

/** Every key below a schema, in its order. */
export function keyRows(root: z.ZodType): KeyRow[] {
  const rows = new Map<string, KeyRow>();
  for (const [key, schema] of keysBelow(bare(root), '')) {
    // A key that several branches of a union share is one key.
    if (rows.has(key)) continue;
    const expected = expectationOf(schema)?.expected ?? '';
    rows.set(key, { key, meaning: schema.description ?? '', expected });
  }
  return [...rows.values()];
}

function* keysBelow(schema: z.ZodType, prefix: string): Generator<[string, z.ZodType]> {
  for (const branch of branchesOf(schema)) yield* keysBelow(branch, prefix);
  if (schema instanceof z.ZodArray) yield* keysBelow(bare(schema.element as z.ZodType), `${prefix}[]`);
  const below: [string, unknown][] =
    schema instanceof z.ZodRecord
      ? [[`<${expectationOf(schema)?.names}>`, schema.valueType]]
      : schema instanceof z.ZodObject
        ? Object.entries(schema.shape)
        : [];
  for (const [name, wrapped] of below) {
    const key = prefix === '' ? name : `${prefix}.${name}`;
    const value = bare(wrapped as z.ZodType);
    yield [key, value];
    yield* keysBelow(value, key);
  }
}
