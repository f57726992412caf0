/** What zod finds wrong, in the words of the schema: one draft for each thing that somebody has to mend. */

import * as z from 'zod';
import { nearest } from '../models/nearest.js';
import { type Expectation, expectationOf, numberAdvice } from './expectations.js';
import { type FaultDraft, foundText, type Path, wordText } from './faults.js';
import { branchesFor, keysOf, ownKeys, schemaAt } from './schema-walk.js';
import { isMap, valueAt } from './values.js';

type Issue = z.core.$ZodIssue;

/** The drafts for the issues that `root` has with `data`, in no special order. */
export function issuesToFaults(root: z.ZodType, data: unknown, issues: readonly Issue[]): FaultDraft[] {
  const drafts: FaultDraft[] = [];
  const unions = new Set<string>();
  for (const issue of issues) {
    const path = issue.path as Path;
    const union = unionOn(root, path);
    if (union === null) {
      for (const draft of fieldFaults(root, data, path, issue)) drafts.push(draft);
      continue;
    }
    // What zod says about an either-or depends on how near each branch is; we judge by the branch that was meant.
    const place = JSON.stringify(union);
    if (unions.has(place)) continue;
    unions.add(place);
    for (const draft of unionFaults(root, data, union)) drafts.push(draft);
  }
  return drafts;
}

/** The draft for a key that is needed and not there. */
export function missing(root: z.ZodType, path: Path): FaultDraft {
  const { expected, example } = expectationAt(root, path);
  return { path, at: 'parent', found: 'nothing', expected, advice: exampleText(example) };
}

/** The draft for a key that a map cannot have. */
export function unknownKey(key: string, map: Path, valid: readonly string[]): FaultDraft {
  const expected = valid.length === 1 ? `only the key ${valid[0]}` : `one of the keys ${valid.join(', ')}`;
  return {
    path: [...map, key],
    at: 'key',
    found: `the key ${wordText(key)}`,
    expected,
    nearest: nearest(key, valid),
  };
}

/** The draft for a value that its field does not take. */
export function wrongValue(root: z.ZodType, path: Path, value: unknown): FaultDraft {
  const schema = schemaAt(root, path);
  const expectation = expectationAt(root, path);
  const advice =
    expectation.advise?.(value) ??
    (schema instanceof z.ZodNumber ? numberAdvice(value) : undefined) ??
    exampleText(expectation.example);
  const near = typeof value === 'string' ? (expectation.nearest?.(value) ?? null) : null;
  const { expected } = expectation;
  return { path, at: 'value', found: foundText(value), expected, nearest: near, advice };
}

function fieldFaults(root: z.ZodType, data: unknown, path: Path, issue: Issue): FaultDraft[] {
  const value = valueAt(data, path);
  if (issue.code === 'unrecognized_keys') {
    const valid = keysOf(branchMeant(schemaAt(root, path), value));
    return issue.keys.map((key) => unknownKey(key, path, valid));
  }
  return [value === undefined ? missing(root, path) : wrongValue(root, path, value)];
}

/** The path of the first either-or on the way to `path`; null if there is none. */
function unionOn(root: z.ZodType, path: Path): Path | null {
  for (let length = 1; length <= path.length; length++) {
    const start = path.slice(0, length);
    if (schemaAt(root, start) instanceof z.ZodUnion) return start;
  }
  return null;
}

/**
 * What is wrong with a value that fits no branch of an either-or: the faults of the branch that was meant, or that
 * none or several were meant.
 */
function unionFaults(root: z.ZodType, data: unknown, path: Path): FaultDraft[] {
  const union = schemaAt(root, path) as z.ZodUnion;
  const value = valueAt(data, path);
  if (value === undefined) return [missing(root, path)];
  const alternatives = ownKeys(union);
  const meant = branchesFor(union, value);
  const drafts: FaultDraft[] = [];
  for (const branch of meant) {
    for (const issue of branch.safeParse(value).error?.issues ?? []) {
      // With several branches at once, the keys of one are unknown to the other: said below, in one fault.
      if (meant.length > 1 && issue.code === 'unrecognized_keys') continue;
      const at = [...path, ...(issue.path as Path)];
      for (const draft of fieldFaults(root, data, at, issue)) drafts.push(draft);
    }
  }
  if (meant.length === 1) return drafts;
  if (!isMap(value) || alternatives.length === 0) return [wrongValue(root, path, value)];
  const valid = keysOf(union);
  const unknown = Object.keys(value).filter((key) => !valid.includes(key));
  for (const key of unknown) drafts.push(unknownKey(key, path, valid));
  // No branch has looked at the keys that they share.
  if (meant.length === 0) drafts.push(...sharedKeyFaults(root, path, value, valid));
  // A misspelt alternative is one slip, not two.
  if (meant.length === 0 && unknown.some((key) => alternatives.includes(nearest(key, valid) ?? '')))
    return drafts;
  const there = alternatives.filter((key) => Object.hasOwn(value, key));
  const found = there.length === 0 ? `none of ${alternatives.join(', ')}` : `${there.join(' and ')} at once`;
  return [...drafts, { ...wrongValue(root, path, value), found }];
}

/** Faults of the known keys of a map that is meant for no branch. */
function sharedKeyFaults(
  root: z.ZodType,
  path: Path,
  value: Record<string, unknown>,
  valid: readonly string[],
): FaultDraft[] {
  return Object.keys(value).flatMap((key) => {
    const at = [...path, key];
    const schema = valid.includes(key) ? schemaAt(root, at) : undefined;
    return schema === undefined || schema.safeParse(value[key]).success
      ? []
      : [wrongValue(root, at, value[key])];
  });
}

/** Of a union the branch that the value is meant for; any other schema as it is. */
function branchMeant(schema: z.ZodType | undefined, value: unknown): z.ZodType | undefined {
  return schema instanceof z.ZodUnion ? (branchesFor(schema, value)[0] ?? schema) : schema;
}

function expectationAt(root: z.ZodType, path: Path): Expectation {
  const schema = schemaAt(root, path);
  return (schema && expectationOf(schema)) ?? { expected: 'a key of the scenario' };
}

function exampleText(example: string | undefined): string | undefined {
  return example === undefined ? undefined : `Example: ${example}`;
}
