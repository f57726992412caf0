import { describe, expect, test } from 'vitest';
import { scenarioJsonSchema, scenarioKeyTable } from '../../sim/scenario/schema.js';
import { CELLAR, readWell } from './cellar.js';

/** As much of a JSON Schema as is looked at here. */
interface JsonSchema {
  [key: string]: unknown;
  properties: Record<string, JsonSchema>;
  items: JsonSchema;
  anyOf: { required: string[] }[];
}

describe('the JSON Schema', () => {
  const schema = scenarioJsonSchema() as JsonSchema;

  test('names its draft and the keys that a file must have', () => {
    expect(schema['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema['title']).toBe('Scenario of a growing line');
    expect(schema['required']).toEqual(['start', 'weeks', 'stages', 'crops']);
    expect(schema['additionalProperties']).toBe(false);
  });

  test('knows every key of a correct file', () => {
    const known = new Set(Object.keys(schema.properties));
    for (const key of Object.keys(readWell(CELLAR).value.scenario)) expect(known).toContain(key);
    const stage = schema.properties['stages']?.items;
    for (const key of Object.keys(readWell(CELLAR).value.scenario.stages[2]!))
      expect(stage?.properties).toHaveProperty(key);
  });

  test('carries limits, defaults and meanings with units', () => {
    expect(schema.properties['weeks']).toMatchObject({
      type: 'integer',
      minimum: 1,
      maximum: 520,
      description: 'Length of a season [weeks].',
    });
    expect(schema.properties['seed']?.['default']).toBe(1);
  });

  test('offers the four ways to sow', () => {
    const ways = schema.properties['crops']?.items.properties['sow']?.anyOf;
    expect(ways?.map((way) => way.required)).toEqual([
      ['every', 'seeds'],
      ['on', 'seeds'],
      ['dates', 'seeds'],
      ['refill'],
    ]);
  });

  test('is plain JSON', () => {
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
  });
});

describe('the table of keys', () => {
  const rows = scenarioKeyTable();

  test('has every key once, with a meaning and what is expected', () => {
    expect(new Set(rows.map((row) => row.key)).size).toBe(rows.length);
    for (const row of rows) {
      expect(row.meaning, row.key).toMatch(/\S/);
      expect(row.expected, row.key).toMatch(/\S/);
    }
  });

  test('says what the faults say', () => {
    expect(rows.find((row) => row.key === 'crops[].stages.<stage>.spread')).toEqual({
      key: 'crops[].stages.<stage>.spread',
      meaning:
        'Standard deviation of that time over its mean. Needed for lognormal, gamma, weibull and triangular.',
      expected: 'a number from 0 to 2 (standard deviation over mean)',
    });
  });

  test('begins with the keys of the file in their order', () => {
    expect(rows.map((row) => row.key).filter((key) => /^\w+$/.test(key))).toEqual([
      'title',
      'start',
      'weeks',
      'seed',
      'visits',
      'away',
      'stages',
      'crops',
      'want',
      'climate',
      'water',
      'tank',
      'tiers',
      'work',
      'prices',
      'log',
    ]);
  });
});
