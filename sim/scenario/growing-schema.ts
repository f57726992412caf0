/** Schema of what a crop does in one stage, and of its regrowth after a pick. */

import * as z from 'zod';
import { nearest } from '../models/nearest.js';
import { field } from './expectations.js';
import { atLeast0, share } from './fields.js';
import { growthConditions } from './physical/matter-schema.js';

export const SHAPES = [
  'lognormal',
  'gamma',
  'weibull',
  'triangular',
  'exponential',
  'fixed',
  'observed',
] as const;

/** Longest time of growing or cleaning [d]. */
export const MOST_DAYS = 3650;

const days = field(z.number().gt(0).max(MOST_DAYS), 'Mean time that a plant needs [days].', {
  expected: `a number above 0 and at most ${MOST_DAYS} (days)`,
  example: 'days: 14',
});

const spread = field(
  z.number().min(0).max(2),
  'Standard deviation of that time over its mean. Needed for lognormal, gamma, weibull and triangular.',
  {
    expected: 'a number from 0 to 2 (standard deviation over mean)',
    example: 'spread: 0.12',
    advise: (value) =>
      typeof value === 'number' && value > 2
        ? 'Spread is the standard deviation divided by the mean, e.g. 0.12 for 12 %.'
        : undefined,
  },
);

const shape = field(
  z.enum(SHAPES),
  'Shape of the distribution of that time; lognormal if not given (observed where `observed` is given).',
  {
    expected: `one of the shapes ${SHAPES.slice(0, -1).join(', ')} or observed`,
    nearest: (word) => nearest(word, SHAPES),
  },
);

const observed = field(
  z
    .array(
      field(z.number().gt(0).max(MOST_DAYS), 'One observed time [days].', {
        expected: `a number above 0 and at most ${MOST_DAYS} (days)`,
      }),
    )
    .min(1),
  'Observed times that are resampled, instead of days and spread [days].',
  { expected: 'a list of at least one observed time (days)', example: 'observed: [13, 14.5, 16]' },
);

const time = {
  days: days.optional(),
  spread: spread.optional(),
  shape: shape.optional(),
  observed: observed.optional(),
  loss: share('Probability that a plant dies in this time.', 'loss: 0.03').default(0),
};

export const growing = field(
  z.strictObject({
    ...time,
    keeps: atLeast0(
      'Days that a ready plant stays good where it stands; for ever if not given [days].',
      'days',
      {
        example: 'keeps: 7',
        advise: (value) =>
          value === Number.POSITIVE_INFINITY
            ? 'Leave keeps out for plants that stay good for ever.'
            : undefined,
      },
    ).optional(),
    ...growthConditions,
  }),
  'What the crop does in this stage.',
  {
    expected: 'one or more of the keys days, spread, loss, keeps, shape, observed, ready_g or days_at',
    example: 'nursery: {days: 14, spread: 0.12, loss: 0.03, keeps: 7}',
  },
);

export const regrow = field(
  z.strictObject(time),
  'Growth between two picks of a plant; needed with cuts above 1. A regrown plant keeps as in the last stage.',
  {
    expected: 'one or more of the keys days, spread, loss, shape or observed',
    example: 'regrow: {days: 12, spread: 0.15, loss: 0.01}',
  },
);

export type ScenarioGrowing = z.infer<typeof growing>;
export type Regrow = z.infer<typeof regrow>;
