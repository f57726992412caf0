/** Schema of what a crop is made of, and of plants that were weighed. */

import { above0, between } from '../fields.js';
import { daysAt } from './climate-schema.js';
import { MOST } from './limits.js';

export const matter = {
  dry: between(
    { least: 0.001, most: 0.999 },
    'Dry share of the fresh mass; one head dried in an oven tells it.',
    '',
    'dry: 0.05',
  ).default(0.05),
  sla_cm2_g: between(
    { least: 1, most: 10_000 },
    'Leaf area of a gram of dry leaf [cm2/g].',
    'cm2 per g',
    'sla_cm2_g: 350',
  ).default(350),
  seed_mg: between(
    { least: 0.001, most: MOST },
    'Dry mass of what is sown in one hole [mg].',
    'mg',
    'seed_mg: 1',
  ).default(1),
  emerge_days: between(
    { least: 0, most: 3650 },
    'Days until a seedling shows; by the warmth where seeds germinate if not given [days].',
    'days',
    'emerge_days: 3',
  ).optional(),
  left: between(
    { least: 0.01, most: 0.99 },
    'Share of a plant that is left to grow again after a cut.',
    '',
    'left: 0.3',
  ).default(0.3),
};

/** What a crop is like in one stage, beyond its times. */
export const growthConditions = {
  ready_g: above0(
    MOST,
    'Fresh mass of the shoot of a plant that is ready to leave the stage, where one was weighed [g].',
    'g',
    'ready_g: 4',
  ).optional(),
  days_at: daysAt.optional(),
};
