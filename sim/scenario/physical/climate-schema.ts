/** Schema of the air: that of the line, and that in which a crop's days hold. */

import * as z from 'zod';
import { field } from '../expectations.js';
import { between, date, looseMap, map } from '../fields.js';
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

const humidity = between(HUMIDITY, 'Relative humidity while the lamps burn [%].', 'per cent', 'humidity: 65');
const nightHumidity = between(
  HUMIDITY,
  'Relative humidity while the lamps do not burn; as by day if not given [%].',
  'per cent',
  'night_humidity: 70',
);
const altitudeM = between({ least: -500, most: 6000 }, 'Height above the sea [m].', 'm', 'altitude_m: 300');

/** Keys of the air that a spell can have of its own. */
export const DATED_KEYS = [
  'air_c',
  'night_c',
  'humidity',
  'night_humidity',
  'co2',
  'altitude_m',
  'germination_c',
] as const;

const spell = map(
  {
    from: date('First day of the spell.', 'from'),
    to: date('Last day of the spell.', 'to'),
    air_c: airC.optional(),
    night_c: nightC.optional(),
    humidity: humidity.optional(),
    night_humidity: nightHumidity.optional(),
    co2: co2.optional(),
    altitude_m: altitudeM.optional(),
    germination_c: germinationC.optional(),
  },
  'A spell with other air; what is left out is as usual.',
  '{from: 2027-08-01, to: 2027-08-31, air_c: 27}',
);

export const climate = map(
  {
    air_c: airC,
    night_c: nightC.optional(),
    humidity: humidity.optional(),
    night_humidity: nightHumidity.optional(),
    co2: co2.default(400),
    altitude_m: altitudeM.default(0),
    germination_c: germinationC.optional(),
    dated: field(
      z.array(spell).min(1).max(100),
      'Spells with other air, first and last day included; days (with days_at) and water go by it.',
      {
        expected: 'a list of 1 to 100 spells, each with the keys from and to and what is other air then',
        example: 'dated: [{from: 2027-08-01, to: 2027-08-31, air_c: 27}]',
      },
    ).optional(),
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
