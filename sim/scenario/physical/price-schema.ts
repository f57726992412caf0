/** Schema of prices, in the grower's own money. */

import * as z from 'zod';
import { field, numberAdvice } from '../expectations.js';
import { between, looseMap } from '../fields.js';

const PRICE = { least: 0, most: 1_000_000_000 };

function price(meaning: string, key: string, example: string) {
  return between(PRICE, meaning, 'your money', `${key}: ${example}`).optional();
}

/** A price of all crops, or one of each by its name. */
function byCrop(meaning: string, key: string, example: string) {
  const one = between(PRICE, 'The price of this crop.', 'your money', `${key}: ${example}`);
  const names = field(z.record(z.string(), one), meaning, { expected: 'prices by crop', names: 'crop' });
  return field(z.union([one, names]), meaning, {
    expected: `a number from ${PRICE.least} to ${PRICE.most} (your money), or such numbers by crop`,
    example: `${key}: ${example}`,
    advise: numberAdvice,
  }).optional();
}

export const prices = looseMap(
  {
    kwh: price('Price of a kilowatt-hour.', 'kwh', '0.3'),
    water_m3: price('Price of a cubic metre of water.', 'water_m3', '4'),
    nutrients_l: price('Price of the nutrients in a litre of what the tank gets.', 'nutrients_l', '0.01'),
    seed: byCrop('Price of what is sown in one hole; a number, or one for each crop.', 'seed', '0.03'),
    plug: price('Price of a plug.', 'plug', '0.08'),
    hour: price('Price of an hour of work.', 'hour', '15'),
    hole_day: price('Wear and interest of one hole, a day.', 'hole_day', '0.004'),
    other_day: price('What else the line costs, a day.', 'other_day', '0.2'),
    head: byCrop('What a head earns; a number, or one for each crop.', 'head', '2.5'),
    kg: byCrop('What a kilogram earns, instead of head; a number, or one for each crop.', 'kg', '12'),
  },
  'Prices in your own money; what is not given is left out of the sums.',
  'prices: {kwh: 0.3, head: 2.5}',
);
