/** Litres that plants use, what the tank goes through, and what a pump that stops does. */

import type { Takes } from '../../../sim/study/takes/takes.js';
import { WATER_CAUTION } from '../../words/cautions.js';
import { type Bounds, COUNT, counted, figureText, fixed, intervalText } from '../../words/numbers.js';
import { type Block, figure, table } from '../section.js';

/** Whole litres and days from here on. */
const LARGE = 10;

function litres(value: number): string {
  return `${figureText(value, fixed(value >= LARGE ? 0 : 1))} L`;
}

/** One line: the tank's lowest level, or what spills if anything does. @param days of a season */
export function waterBlocks({ water, tank }: Takes, days: number): string[] {
  const parts = [
    ...(water === undefined ? [] : [dailyText(water, days)]),
    ...(tank?.spill_l
      ? [`${litres(tank.spill_l)} spill when the pump stops`]
      : tank?.lowest_l == null
        ? []
        : [`tank at its lowest ${litres(tank.lowest_l.mean)}`]),
  ];
  return parts.length === 0 ? [] : [`Water: ${parts.join('; ')}.`];
}

/** `2.1 to 4.7 L a day (good to a factor of 1.5)` */
function dailyText({ used_l, good_to_factor: factor }: NonNullable<Takes['water']>, days: number): string {
  const aDay = used_l.mean / days;
  if (factor === null) return `${litres(aDay)} a day, scaled to your meter`;
  const range: Bounds = { low: aDay / factor, high: aDay * factor };
  return `${intervalText(range, fixed(1))} L a day (good to a factor of ${factor})`;
}

function spillText(spill: number): string {
  return `When the pump stops, ${litres(spill)} spill: more runs back than the tank has room for.`;
}

export function waterDetails({ water, tank }: Takes, days: number): Block[] {
  if (water === undefined && tank === undefined) return [];
  return [
    ...(water === undefined ? [] : waterTable(water, days)),
    ...(tank === undefined ? [] : tankBlocks(tank, days, water?.good_to_factor ?? null)),
    WATER_CAUTION,
  ];
}

function waterTable(water: NonNullable<Takes['water']>, days: number): Block[] {
  const { used_l, transpired_l, picked_l, standing_l, thrown_out_l } = water;
  const row = (what: string, { mean }: { readonly mean: number }) => [what, figure(mean, COUNT, 'L')];
  return [
    `Plants use ${dailyText(water, days)}.`,
    table([
      row('used in a season', used_l),
      row('given off by leaves', transpired_l),
      row('in what is picked', picked_l),
      row('in plants that stand at the end', standing_l),
      row('in what is thrown out', thrown_out_l),
    ]),
  ];
}

function tankBlocks(tank: NonNullable<Takes['tank']>, days: number, factor: number | null): Block[] {
  const { topped_up_l, drained_l, lowest_l, most_between_visits_l, ec_good_days } = tank;
  const { days_to_low, spill_l, dry_hours } = tank;
  const good = factor === null ? '' : ` (litres good to a factor of ${factor})`;
  return [
    ...(topped_up_l === null
      ? []
      : [
          `The tank is topped up with ${litres(topped_up_l.mean)} in a season; ${litres(drained_l!.mean)} are drained for new fillings. At its lowest it holds ${litres(lowest_l!.mean)}, ${litres(most_between_visits_l!.mean)} used since the visit before${good}.`,
        ]),
    ...(days_to_low === null
      ? []
      : [
          `Full, and with every hole growing, it runs low in ${daysRange(days_to_low, factor)}. Plants of this plan do not suffer where it does; yours would.`,
        ]),
    ...(ec_good_days === null ? [] : [ecText(ec_good_days.mean, days)]),
    ...(spill_l === null
      ? ['What runs back when the pump stops is not known: channel_size of every stage tells it.']
      : [spill_l > 0 ? spillText(spill_l) : 'When the pump stops, what runs back finds room in the tank.']),
    ...(dry_hours === null
      ? []
      : [
          `After that the thirstiest plant wilts in ${hoursText(dry_hours.on)} with the lamps on, ${hoursText(dry_hours.off)} with them off. That is a judgement, no measured hours were found: do not count on them.`,
        ]),
  ];
}

function daysRange(days: number, factor: number | null): string {
  const form = fixed(days >= LARGE ? 0 : 1);
  if (factor === null) return `${figureText(days, form)} days`;
  return `${intervalText({ low: days / factor, high: days * factor }, form)} days (${figureText(days, form)}, good to a factor of ${factor})`;
}

function ecText(good: number, days: number): string {
  return good >= days
    ? 'Its conductivity stays within 30 % of that of a new filling all season, as far as can be told without measuring: measure it.'
    : `Its conductivity can be told for ${counted(Math.floor(good), 'day')} only; from then on it may be more than 30 % off a new filling: measure it.`;
}

function hoursText([low, high]: readonly [number, number]): string {
  return `${intervalText({ low, high }, fixed(1))} hours`;
}
