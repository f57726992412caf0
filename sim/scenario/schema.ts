/**
 * The scenario file: keys, types, units, limits. The one source of the TypeScript types, the checks, the words of the
 * faults, the JSON Schema for editors and the table of keys in the docs.
 *
 * What one field alone can tell is checked here; what two fields tell together is checked in cross-checks.ts.
 */

import * as z from 'zod';
import { CHANNELS, HEADS, SEED, WEEKS } from '../models/limits.js';
import { nearest } from '../models/nearest.js';
import { field } from './expectations.js';
import { above0, date, listAdvice, map, name, share, weekdays, whole } from './fields.js';
import { growing, MOST_DAYS, regrow } from './growing-schema.js';
import { climate } from './physical/climate-schema.js';
import { lamps } from './physical/lamp-schema.js';
import { matter } from './physical/matter-schema.js';
import { prices } from './physical/price-schema.js';
import { channelSize, tiers } from './physical/shelf-schema.js';
import { tank, water } from './physical/water-schema.js';
import { work } from './physical/work-schema.js';
import { type KeyRow, keyRows } from './schema-walk.js';
import { sow } from './sow-schema.js';

const title = field(z.string().regex(/^[^\p{Cc}\p{Cs}\ufffd]{1,200}$/u), 'Title of the scenario.', {
  expected: 'a text of 1 to 200 characters on one line, without control characters',
  advise: (value) => {
    if (typeof value === 'number' || typeof value === 'boolean') return `Put it in quotes: "${value}".`;
    // A title ends up in tables, files and calendars, and raw on somebody's terminal.
    return typeof value === 'string' && /\p{Cc}/u.test(value)
      ? 'Leave out line breaks, tabs and escapes.'
      : undefined;
  },
});

const VISIT_WORDS = ['daily', 'always'] as const;

const visits = field(
  z.union([z.enum(VISIT_WORDS), weekdays('Weekdays with a visit.', 'visits')]),
  'When somebody tends the line: daily, on weekdays, or always (at the instant of every change).',
  {
    expected: 'daily, always or a list of weekdays (mon, tue, wed, thu, fri, sat, sun)',
    example: 'visits: [mon, thu, sat]',
    nearest: (word) => nearest(word, VISIT_WORDS),
    advise: (value) =>
      typeof value === 'string' && nearest(value, VISIT_WORDS) === null ? listAdvice(value) : undefined,
  },
);

const span = map(
  {
    from: date('First date without a visit.', 'from'),
    to: date('Last date without a visit.', 'to'),
  },
  'A time in which nobody comes.',
  '{from: 2027-02-08, to: 2027-02-14}',
);

const stage = map(
  {
    name: name('Name of the stage.'),
    channels: whole(CHANNELS, 'Channels (or trays) of the stage.', 'channels', { example: 'channels: 8' }),
    holes: whole({ least: 1, most: 1_000_000 }, 'Holes per channel.', 'holes per channel', {
      example: 'holes: 24',
    }),
    hole_area_cm2: above0(10_000_000, 'Area of one hole [cm2].', 'cm2', 'hole_area_cm2: 400').optional(),
    clean_days: field(
      z.number().min(0).max(MOST_DAYS),
      'Days that a hole is out of use after a plant has left it [days].',
      {
        expected: `a number from 0 to ${MOST_DAYS} (days)`,
        example: 'clean_days: 1',
      },
    ).default(0),
    ...lamps,
    channel_size: channelSize.optional(),
  },
  'A stage of the line.',
  '{name: nursery, channels: 2, holes: 24}',
);

const crop = map(
  {
    name: name('Name of the crop.'),
    germination: share('Probability that a seed sprouts.', 'germination: 0.92').default(1),
    sow,
    cuts: whole({ least: 1, most: 50 }, 'Picks per plant.', 'picks per plant', {
      example: 'cuts: 3',
    }).default(1),
    regrow: regrow.optional(),
    head_g: above0(1_000_000, 'Fresh mass of one head or cut [g].', 'g', 'head_g: 150').optional(),
    ...matter,
    stages: field(
      z.record(z.string(), growing),
      'What the crop does in each stage, by the name of the stage.',
      {
        expected: 'an entry for each stage of the line',
        names: 'stage',
      },
    ),
  },
  'A crop.',
);

const want = map(
  {
    heads: whole(HEADS, 'Heads wanted on each of these weekdays.', 'heads', {
      example: 'heads: 6',
    }),
    on: weekdays('Weekdays on which heads are wanted.', 'on'),
  },
  'Heads that are wanted; all that is ready is picked if not given.',
  'want: {heads: 6, on: [tue, fri]}',
);

const log = field(
  z.string().regex(/^(?!-$)[^\p{Cc}\p{Cs}\ufffd]{1,1000}$/u),
  'File of the season log, beside the scenario.',
  {
    expected: 'the path of a file, as seen from the folder of the scenario',
    example: 'log: season.csv',
  },
);

/** The scenario file. */
export const scenarioSchema = map(
  {
    title: title.default('Untitled line'),
    start: date('Date of day 0.', 'start'),
    weeks: whole(WEEKS, 'Length of a season [weeks].', 'weeks', { example: 'weeks: 26' }),
    seed: whole(SEED, 'Number that chooses the luck of the season.', '').default(1),
    visits: visits.default('daily'),
    away: field(z.array(span), 'Spans of dates without a visit, first and last date included.', {
      expected: 'a list of absences, each with the keys from and to',
      example: 'away: [{from: 2027-02-08, to: 2027-02-14}]',
    }).default([]),
    stages: field(
      z.array(stage).min(1).max(20),
      'The stages, in the order in which plants pass through them.',
      {
        expected: 'a list of 1 to 20 stages',
        example: 'stages: [{name: finishing, channels: 8, holes: 9}]',
      },
    ),
    crops: field(z.array(crop).min(1).max(50), 'The crops, in the order in which they are sown.', {
      expected: 'a list of 1 to 50 crops',
    }),
    want: want.optional(),
    climate: climate.optional(),
    water: water.optional(),
    tank: tank.optional(),
    tiers: tiers.optional(),
    work: work.optional(),
    prices: prices.optional(),
    log: log.optional(),
  },
  'A staged growing line, its crops and its season.',
);

/** A scenario with its defaults filled in. */
export type Scenario = z.infer<typeof scenarioSchema>;

/** The JSON Schema (draft 2020-12) of a scenario file, for editors. */
export function scenarioJsonSchema(): object {
  return z.toJSONSchema(scenarioSchema.meta({ title: 'Scenario of a growing line' }), { io: 'input' });
}

/** Every key of a scenario file with its meaning (and unit) and what it expects, in the order of the file. */
export function scenarioKeyTable(): KeyRow[] {
  return keyRows(scenarioSchema);
}
