/** The form of what a study was asked: as the commands ask it, and nothing that they would refuse. */

import * as z from 'zod';
import { SEARCH_LIMITS } from '../../sim/calls/search.js';
import { WEEKDAYS } from '../../sim/models/dates.js';
import { CHANNELS, EVERY, HEADS, type Limits, SEED, SEEDS } from '../../sim/models/limits.js';
import { gridSize } from '../../sim/scenario/grid.js';
import { LIT } from '../../sim/scenario/light.js';
import { SEASONS } from '../../sim/seasons/how-many.js';
import { ORDERS } from '../../sim/study/compare.js';
import { COST_KINDS } from '../../sim/study/search/candidates.js';
import {
  type Assignment,
  type CompareAssignment,
  MOST_COMPARED,
  MOST_DEALT,
  MOST_SEARCHED,
  type RunAssignment,
  SEEDS_A_WEEK,
  type SearchAssignment,
  type SizeAssignment,
} from './assignment.js';

/** A form for each key and for no other. */
type Form<Data> = Record<keyof Data, z.ZodType>;

const whole = ({ least, most }: Limits) => z.int().min(least).max(most);
const number = ({ least, most }: Limits) => z.number().min(least).max(most);

const source = z.strictObject({ name: z.string(), text: z.string() });
const stages = z.array(z.strictObject({ stage: z.string(), counts: z.array(whole(CHANNELS)).min(1) }));
const weekdays = z.array(z.enum(WEEKDAYS)).min(1);
const everyOrOn = [z.strictObject({ every: number(EVERY) }), z.strictObject({ on: weekdays })] as const;

const common = {
  sources: z.tuple([source]),
  seed: whole(SEED),
  seasons: whole(SEASONS),
};

const run = z.strictObject({ command: z.literal('run'), ...common } satisfies Form<RunAssignment>);

/** For some stages by their names, or for all lit ones. */
const ofStages = (limits: Limits) => z.union([number(limits), z.record(z.string(), number(limits))]);

const variation = z.strictObject({
  cadence: z.union([...everyOrOn, z.strictObject({ refill: z.literal(true) })]).optional(),
  seeds: whole(SEEDS).optional(),
  seedsAWeek: whole(SEEDS_A_WEEK).optional(),
  visits: z.union([z.enum(['daily', 'always']), weekdays]).optional(),
  ppfd: ofStages(LIT.ppfd).optional(),
  hours: ofStages(LIT.hours).optional(),
});

const compare = z
  .strictObject({
    command: z.literal('compare'),
    ...common,
    sources: z.array(source).min(1),
    variations: z.array(variation),
    by: z.enum(ORDERS).nullable(),
  } satisfies Form<CompareAssignment>)
  .refine(({ sources, variations }) => sources.length * Math.max(1, variations.length) <= MOST_COMPARED);

const between = z.array(z.string());

const size = z.strictObject({
  command: z.literal('size'),
  ...common,
  layout: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('around') }),
    z.strictObject({ kind: z.literal('channels'), stages: stages.min(1) }),
    z.strictObject({ kind: z.literal('split'), channels: whole({ least: 2, most: MOST_DEALT }), between }),
    z.strictObject({ kind: z.literal('area'), m2: z.number().positive().max(MOST_DEALT), between }),
  ]),
} satisfies Form<SizeAssignment>);

const grid = z
  .strictObject({
    cadences: z.array(z.union(everyOrOn)),
    seeds: z.array(whole(SEEDS)),
    channels: stages,
    visits: z.array(z.union([z.literal('daily'), weekdays])),
  } satisfies Form<SearchAssignment['grid']>)
  .refine((limits) => gridSize(limits) <= MOST_SEARCHED);

const search = z.strictObject({
  command: z.literal('search'),
  ...common,
  seasons: whole(SEARCH_LIMITS.first),
  heads: whole(HEADS),
  weeksMet: number(SEARCH_LIMITS.weeksMet),
  least: z.enum(COST_KINDS),
  confidence: number(SEARCH_LIMITS.confidence),
  near: number(SEARCH_LIMITS.near),
  runners: whole(SEARCH_LIMITS.runners),
  grid,
  around: z.boolean(),
} satisfies Form<SearchAssignment>);

export const assignment: z.ZodType<Assignment> = z.discriminatedUnion('command', [
  run,
  compare,
  size,
  search,
]) as z.ZodType<Assignment>;
