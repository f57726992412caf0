/**
 * What each field of the scenario expects, in grower's words: ONE text a field, used for every check on that field,
 * in the faults and in the table of keys. The texts stand beside the zod schemas, in a registry.
 */

import * as z from 'zod';

export interface Expectation {
  /** Completes "It must be …": the one text for every check on the field. */
  expected: string;
  /** A correct line of a file, e.g. `weeks: 26`. */
  example?: string;
  /** A remedy for one kind of wrong value, in sentences; undefined if there is nothing special to say. */
  advise?: (value: unknown) => string | undefined;
  /** The nearest valid word to a wrong one. */
  nearest?: (word: string) => string | null;
  /** Of a map whose keys are names: of what. */
  names?: 'stage' | 'crop';
}

const registry = z.registry<Expectation>();

/**
 * Gives a schema its meaning (for the JSON Schema and the docs) and its expectation (for the faults).
 *
 * @param meaning what the field is, with its unit
 */
export function field<S extends z.ZodType>(schema: S, meaning: string, expectation: Expectation): S {
  const described = schema.describe(meaning) as S;
  registry.add(described, expectation as never);
  return described;
}

/** The expectation of a schema that `field` made; undefined for any other. */
export function expectationOf(schema: z.ZodType): Expectation | undefined {
  return registry.get(schema) as Expectation | undefined;
}

/** Remedies for texts that were meant as numbers; undefined if `value` is none of them. */
export function numberAdvice(value: unknown): string | undefined {
  if (typeof value !== 'string') return undefined;
  const text = value.trim();
  if (/^-?\d+(\.\d+)?(e-?\d+)?$/i.test(text)) return `Take the quotes away: ${text}.`;
  if (/^-?\d+,\d+$/.test(text)) return `Write a point for the comma: ${text.replace(',', '.')}.`;
  const percent = /^(\d+(?:\.\d+)?)\s*%$/.exec(text);
  if (percent !== null) return `Write a share of 1: ${Number(percent[1]) / 100}.`;
  const withUnit = /^(-?\d+(?:\.\d+)?)\s*\p{L}+[\p{L}\d]*$/u.exec(text);
  if (withUnit !== null) return `Write the number without its unit: ${withUnit[1]}.`;
  return undefined;
}
