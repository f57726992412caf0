/** Schema of channels and of the tiers of a rack that bear them. */

import * as z from 'zod';
import { CHANNELS } from '../../models/limits.js';
import { field } from '../expectations.js';
import { above0, between, map, name, whole } from '../fields.js';
import { AMOUNT, MOST } from './limits.js';

export const channelSize = map(
  {
    length_cm: above0(100_000, 'Length of a channel, inside [cm].', 'cm', 'length_cm: 120'),
    width_cm: above0(100_000, 'Width of a channel, inside [cm].', 'cm', 'width_cm: 10'),
    height_cm: above0(100_000, 'Height of a channel to its brim, inside [cm].', 'cm', 'height_cm: 5'),
    film_mm: between(AMOUNT, 'Depth of the water that runs in it [mm].', 'mm', 'film_mm: 2').default(2),
    kg: between(AMOUNT, 'Mass of an empty channel [kg].', 'kg', 'kg: 2'),
  },
  'Size of one channel of the stage.',
  'channel_size: {length_cm: 120, width_cm: 10, height_cm: 5, kg: 2}',
);

const tier = map(
  {
    name: name('Name of the tier; its stage and a number if not given.').optional(),
    stage: field(z.string(), 'The stage whose channels stand on the tier.', {
      expected: 'the name of a stage',
      example: 'stage: finishing',
    }),
    channels: whole(CHANNELS, 'Channels that stand on the tier.', 'channels', { example: 'channels: 4' }),
    rated_kg: above0(MOST, 'What the label of the tier allows [kg].', 'kg', 'rated_kg: 60').optional(),
    lamps_kg: between(
      AMOUNT,
      'Lamps that hang from the tier or stand on it [kg].',
      'kg',
      'lamps_kg: 6',
    ).default(0),
    other_kg: between(AMOUNT, 'What else the tier bears [kg].', 'kg', 'other_kg: 2').default(0),
    plug_g: between(AMOUNT, 'Mass of a wet plug [g].', 'g', 'plug_g: 30').default(30),
  },
  'A tier of a rack.',
  '{stage: finishing, channels: 4, rated_kg: 60}',
);

export const tiers = field(z.array(tier).min(1).max(200), 'The tiers of the racks that bear the channels.', {
  expected: 'a list of 1 to 200 tiers',
  example: 'tiers: [{stage: finishing, channels: 4, rated_kg: 60}]',
});
