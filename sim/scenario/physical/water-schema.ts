/** Schema of the tank, and of the water model's scale. */

import { above0, between, looseMap, map } from '../fields.js';
import { AMOUNT, MOST } from './limits.js';

const EC = { least: 0, most: 10_000 };

export const water = looseMap(
  {
    scale: between(
      { least: 0.01, most: 100 },
      'Litres by your meter over litres by the model. Not given: 1, and litres are good to a factor of 1.5.',
      '',
      'scale: 1.2',
    ).optional(),
  },
  'How the water that plants take is reckoned.',
  'water: {scale: 1.2}',
);

export const tank = map(
  {
    litres: above0(MOST, 'What the tank can hold [L].', 'litres', 'litres: 120'),
    full_l: above0(
      MOST,
      'Level to which a visit tops up, with the pump running [L].',
      'litres',
      'full_l: 100',
    ),
    low_l: between(AMOUNT, 'Level below which the pump draws air [L].', 'litres', 'low_l: 20'),
    ec: between(EC, 'Conductivity of a new filling at 25 degC [mS/cm].', 'mS/cm', 'ec: 1.5').optional(),
    top_up_ec: between(
      EC,
      'Conductivity of what is topped up, at 25 degC [mS/cm].',
      'mS/cm',
      'top_up_ec: 1.5',
    ).optional(),
    uptake_ec: between(
      EC,
      'Conductivity of what the plants take up, at 25 degC [mS/cm].',
      'mS/cm',
      'uptake_ec: 1.8',
    ).optional(),
    pipes_l: between(
      AMOUNT,
      'Water in the pipes that comes back when the pump stops [L].',
      'litres',
      'pipes_l: 3',
    ).default(0),
    held_ml: between(
      AMOUNT,
      'Water that plug and roots of a plant hold when nothing flows [mL].',
      'mL',
      'held_ml: 20',
    ).default(20),
    change_days: between(
      { least: 1, most: 3650 },
      'The tank is emptied and filled anew at the first visit after so many days; never if not given [days].',
      'days',
      'change_days: 21',
    ).optional(),
  },
  'The tank from which the line is fed.',
  'tank: {litres: 120, full_l: 100, low_l: 20}',
);
