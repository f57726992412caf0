/** A correct file in which everything is told of light, air, water, shelves, work and prices: the line of support/clockwork.ts. */

import { edited } from '../cellar.js';

export const RACK = `title: test line
start: 2027-01-04
weeks: 12
seed: 1
visits: [mon, thu]
stages:
  - {name: tray, channels: 1, holes: 12, hole_area_cm2: 25, ppfd: 160, hours: 18, watts: 12,
     channel_size: {length_cm: 50, width_cm: 30, height_cm: 6, film_mm: 3, kg: 1.2}}
  - {name: channel, channels: 3, holes: 4, hole_area_cm2: 400, clean_days: 2, ppfd: 240, hours: 16, efficacy: 2.6, reaches: 0.85,
     channel_size: {length_cm: 120, width_cm: 10, height_cm: 5, kg: 2}}
crops:
  - name: lettuce
    head_g: 120
    sow: {every: 7, seeds: 3}
    stages:
      tray: {days: 12.5, shape: fixed, days_at: {ppfd: 140, air_c: 22, night_c: 18, germination_c: 20}}
      channel: {days: 20.25, shape: fixed, days_at: {ppfd: 200, air_c: 22, night_c: 18}}
  - name: basil
    head_g: 30
    dry: 0.08
    sla_cm2_g: 300
    seed_mg: 1.5
    emerge_days: 5
    left: 0.4
    cuts: 2
    regrow: {days: 11.5, shape: fixed}
    sow: {every: 14, seeds: 2}
    stages:
      tray: {days: 15.75, shape: fixed}
      channel: {days: 18.5, shape: fixed, days_at: {hours: 14}}
climate: {air_c: 23.5, night_c: 20, humidity: 60, night_humidity: 70, co2: 500, germination_c: 27, altitude_m: 300}
water: {scale: 1.2}
tank: {litres: 52, full_l: 46, low_l: 15, ec: 1.5, top_up_ec: 2.8, pipes_l: 3, change_days: 16}
tiers:
  - {name: top, stage: channel, channels: 2, rated_kg: 40, lamps_kg: 5}
  - {name: seedlings, stage: tray, channels: 1, other_kg: 2, plug_g: 15}
work: {}
prices: {kwh: 0.3, water_m3: 4, nutrients_l: 0.01, seed: {lettuce: 0.03, basil: 0.02}, plug: 0.08, hour: 15, hole_day: 0.004,
  other_day: 0.2, head: {lettuce: 2.5}, kg: {basil: 30}}
`;

/** The correct file with pieces replaced, each of which must be in it. */
export function rackWith(...edits: readonly (readonly [from: string, to: string])[]): string {
  return edited(RACK, edits);
}

/** Edits after which days are those of the line. */
export const WITHOUT_DAYS_AT = [
  [', days_at: {ppfd: 140, air_c: 22, night_c: 18, germination_c: 20}', ''],
  [', days_at: {ppfd: 200, air_c: 22, night_c: 18}', ''],
  [', days_at: {hours: 14}', ''],
] as const;
