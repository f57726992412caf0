/** Schema of the air: that of the line, and that in which a crop's days hold. */

import { between, looseMap, map } from '../fields.js';
import { CO2, GERMINATION, HOURS, HUMIDITY, PPFD, WARMTH } from './limits.js';

const airC = between(WARMTH, 'Warmth of the air while the lamps burn [degC].', 'degC', 'air_c: 22');
const nightC = between(
  WARMTH,
  'Warmth of the air while the lamps do not burn; as by day if not given [degC].',
  'degC',
  'night_c: 18',
);
const germinationC = between(
  GERMINATION,
  'Warmth where seeds germinate; as the air by day if not given [degC].',
  'degC',
  'germination_c: 20',
);
const co2 = between(CO2, 'CO2 of the air [ppm].', 'ppm', 'co2: 800');

export const climate = map(
  {
    air_c: airC,
    night_c: nightC.optional(),
    humidity: between(
      HUMIDITY,
      'Relative humidity while the lamps burn [%].',
      'per cent',
      'humidity: 65',
    ).optional(),
    night_humidity: between(
      HUMIDITY,
      'Relative humidity while the lamps do not burn; as by day if not given [%].',
      'per cent',
      'night_humidity: 70',
    ).optional(),
    co2: co2.default(400),
    altitude_m: between(
      { least: -500, most: 6000 },
      'Height above the sea [m].',
      'm',
      'altitude_m: 300',
    ).default(0),
    germination_c: germinationC.optional(),
  },
  'The air of the line.',
  'climate: {air_c: 22, night_c: 18, humidity: 65}',
);

/** Conditions in which days hold; what is left out is as the line is. */
export const daysAt = looseMap(
  {
    ppfd: between(PPFD, 'Light at the leaves [umol m-2 s-1].', 'umol m-2 s-1', 'ppfd: 200').optional(),
    hours: between(HOURS, 'Hours of light a day [hours].', 'hours', 'hours: 16').optional(),
    air_c: airC.optional(),
    night_c: nightC.optional(),
    co2: co2.optional(),
    germination_c: germinationC.optional(),
  },
  'The conditions under which the days of this stage hold; what is left out is as the line is. The days are then reckoned for the line.',
  'days_at: {ppfd: 200, hours: 16, air_c: 22}',
);
