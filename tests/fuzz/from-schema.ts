/**
 * Values that a JSON Schema describes: ordinary ones most often, now and then one at a limit. What the schema of the scenario
 * gains later is made without a word here.
 */

import fc from 'fast-check';
import { WORDS } from './words.js';

/** As much of JSON Schema as the scenario's uses. */
export interface JsonSchema {
  readonly type?: string;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: JsonSchema | boolean;
  readonly items?: JsonSchema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly anyOf?: readonly JsonSchema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
}

/** Items of a list where the schema allows more, so that most of what is made is small. */
const USUAL_ITEMS = 2;

export function valueFor(schema: JsonSchema): fc.Arbitrary<unknown> {
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.enum !== undefined) return fc.constantFrom(...schema.enum);
  if (schema.anyOf !== undefined) return fc.oneof(...schema.anyOf.map(valueFor));
  switch (schema.type) {
    case 'object':
      return mapOf(schema);
    case 'array':
      return listOf(schema);
    case 'integer':
      return wholeOf(schema);
    case 'number':
      return numberOf(schema);
    case 'boolean':
      return fc.boolean();
    case 'string':
      return textOf(schema);
    default:
      // Else a key of a kind that is new to the scenario would never be tried.
      throw new Error(`no values are known for ${JSON.stringify(schema)}`);
  }
}

function mapOf({ properties = {}, required = [], additionalProperties }: JsonSchema): fc.Arbitrary<unknown> {
  const own = fc.record(
    Object.fromEntries(Object.entries(properties).map(([key, schema]) => [key, valueFor(schema)])),
    { requiredKeys: [...required] },
  );
  if (typeof additionalProperties !== 'object') return own;
  return fc.dictionary(fc.constantFrom(...WORDS), valueFor(additionalProperties), {
    minKeys: 1,
    maxKeys: USUAL_ITEMS,
  });
}

function listOf({ items = {}, minItems = 0, maxItems = Infinity }: JsonSchema): fc.Arbitrary<unknown> {
  const item = valueFor(items);
  const upTo = (most: number) => {
    const size = { minLength: minItems, maxLength: Math.min(maxItems, Math.max(minItems, most)) };
    // Of words there is each once, as nearly everywhere.
    return items.type === 'string' ? fc.uniqueArray(item, size) : fc.array(item, size);
  };
  return fc.oneof(
    { weight: 8, arbitrary: upTo(USUAL_ITEMS) },
    { weight: 1, arbitrary: upTo(3 * USUAL_ITEMS) },
  );
}

function wholeOf({
  minimum = -Number.MAX_SAFE_INTEGER,
  maximum = Number.MAX_SAFE_INTEGER,
}: JsonSchema): fc.Arbitrary<unknown> {
  const upTo = (more: number) => fc.integer({ min: minimum, max: Math.min(maximum, minimum + more) });
  return fc.oneof(
    { weight: 60, arbitrary: upTo(9) },
    { weight: 20, arbitrary: upTo(60) },
    { weight: 1, arbitrary: fc.constant(maximum) },
    { weight: 1, arbitrary: fc.integer({ min: minimum, max: maximum }) },
  );
}

/** Numbers so small that what is reckoned from them may be none any more. */
const TINY = [5e-324, 1e-308, 1e-300, 1e-16, 2 ** -25, 2 ** -24, 1.3e-8, 1e-3];

function numberOf(schema: JsonSchema): fc.Arbitrary<unknown> {
  const least = schema.minimum ?? schema.exclusiveMinimum ?? 0;
  const most = schema.maximum ?? Number.MAX_VALUE;
  const within = (value: number) =>
    value <= most && value >= least && !(value === least && schema.minimum === undefined);
  const limits = [least, most, most * (1 - 2 ** -53), ...TINY.map((step) => least + step)].filter(within);
  const step = Math.min(0.25, (most - least) / 40);
  return fc.oneof(
    { weight: 30, arbitrary: fc.integer({ min: 1, max: 40 }).map((steps) => least + steps * step) },
    { weight: 1, arbitrary: fc.constantFrom(...limits) },
  );
}

/** Days from the first of January 2027. */
const DATES = { min: -20, max: 120 };

function textOf({ format, pattern }: JsonSchema): fc.Arbitrary<unknown> {
  if (format === 'date') {
    const near = fc
      .integer(DATES)
      .map((day) => new Date(Date.UTC(2027, 0, 1 + day)).toISOString().slice(0, 10));
    return fc.oneof({ weight: 20, arbitrary: near }, { weight: 1, arbitrary: fc.constantFrom(...FAR_DATES) });
  }
  const right = pattern === undefined ? WORDS : WORDS.filter((word) => new RegExp(pattern, 'u').test(word));
  return fc.constantFrom(...right);
}

const FAR_DATES = ['0001-01-01', '1969-12-31', '2000-02-29', '2927-01-04', '9999-12-31'];
