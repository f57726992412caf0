/** What the tank's rows tell in a grower's words: litres by the meter, conductivity by the readings. */

import type { FitResult } from '../../sim/season/fit/fit.js';
import type { FittedFigure } from '../../sim/season/fit/fitted-figure.js';
import type {
  LeftOutSpell,
  MeterDoubt,
  MeteredTank,
  MeteredWater,
} from '../../sim/season/fit/meter/metered.js';
import type { LeftOutWhy } from '../../sim/season/fit/meter/spells.js';
import { dateText } from '../words/dates.js';
import { COUNT, counted, type Form, figureText, intervalText, listed, thousands } from '../words/numbers.js';
import { type Section, section } from './section.js';

const FIGURE: Form = { as: 'digits', digits: 3 };

/** None where nothing is told of the tank. */
export function meterSections({ water, tank }: FitResult): Section[] {
  const sentences = [...(water ? waterSentences(water) : []), ...(tank ? tankSentences(tank) : [])];
  return sentences.length === 0 ? [] : [section('The tank, by your meters', ...sentences)];
}

/** `1.39 (95 %: 1.37 to 1.41)`, in brackets if it is not sure */
function toldFigure({ value, low, high, good }: FittedFigure): string {
  const figure = figureText(value, FIGURE);
  return `${good ? figure : `(${figure})`} (95 %: ${intervalText({ low, high }, FIGURE)})`;
}

function litres(value: number): string {
  return `${figureText(value, COUNT)} L`;
}

function waterSentences(water: MeteredWater): string[] {
  const { scale, spells, days, left_out, doubts } = water;
  return [
    ...(scale === null
      ? []
      : [
          `Leaves gave off ${toldFigure(scale)} times the litres that the model tells of them: water.scale. From ${counted(spells, 'spell')} between two top-ups, ${counted(days, 'day')}, ${litres(water.litres)} topped up, of which ${litres(water.in_plants_l)} stay in plants.`,
        ]),
    ...leftOutText(left_out),
    ...doubts.map((doubt) => doubtText(doubt, 'water.scale')),
  ];
}

function tankSentences({ uptake_ec, readings, fillings, doubts }: MeteredTank): string[] {
  return [
    ...(uptake_ec === null
      ? []
      : [
          `Plants took up water of ${toldFigure(uptake_ec)} mS/cm: tank.uptake_ec. From ${counted(readings, 'reading')} in ${counted(fillings, 'filling')}.`,
        ]),
    ...doubts.map((doubt) => doubtText(doubt, 'tank.uptake_ec')),
  ];
}

/** Spells are named one by one up to so many. */
const MOST_NAMED = 3;

const LEFT_OUT: Readonly<Record<LeftOutWhy, string>> = {
  gap: 'so long that a row may be missing in between',
  drained: 'up to a new filling, since what was used of the old one nobody knows',
  not_full: 'from a new filling that did not fill the tank',
  too_much: 'with more topped up than the tank holds: look for a slip in the litres',
  untold: 'before the first or behind the last row of plants',
  other_air: 'in other air than usual, by climate.dated: the model is held to the usual air',
};

function leftOutText(left: readonly LeftOutSpell[]): string[] {
  if (left.length === 0) return [];
  const reasons = (Object.keys(LEFT_OUT) as LeftOutWhy[]).flatMap((why) => {
    const some = left.filter((spell) => spell.why === why);
    if (some.length === 0) return [];
    const named = why !== 'drained' && why !== 'other_air' && some.length <= MOST_NAMED;
    const dates = named
      ? ` (${listed(some.map(({ from, to }) => `${dateText(from)} to ${dateText(to)}`))})`
      : '';
    return [`${thousands(some.length)} ${LEFT_OUT[why]}${dates}`];
  });
  return [`Spells left out: ${reasons.join('; ')}.`];
}

/** @param key that is in doubt */
function doubtText(doubt: MeterDoubt, key: 'water.scale' | 'tank.uptake_ec'): string {
  switch (doubt.why) {
    case 'untold_line':
      return key === 'water.scale'
        ? `Nothing for ${key}: the scenario must tell head_g of crops, hole_area_cm2 and ppfd of stages, and climate with humidity.`
        : `Nothing for ${key}: the scenario must tell top_up_ec of its tank.`;
    case 'unknown_crops':
      return `${key} is not sure: crops that the scenario does not have took water too.`;
    case 'few_top_ups':
      return `Too little for ${key}: it takes at least ${doubt.fewest} spells between two rows with litres, with plants in the line.`;
    case 'few_readings':
      return `Too little for ${key}: it takes at least ${doubt.fewest} rows with litres and ec, besides the first of each filling.`;
    case 'wide_meter':
      return `Too little for ${key}: the upper end of the interval is ${doubt.factor} times the lower or more.`;
    case 'far_off':
      return `${key} is further from what is usual than plants are: look for a leak, other units, rows that are missing.`;
    case 'left_out':
      return `${key} is not sure: more than half of the days between top-ups are left out. Log the tank at each visit at which it is topped up.`;
    case 'same_readings':
      return `${key} is not sure: all readings are alike, however much was used. Were they read before topping up? Were salts added besides?`;
    case 'refused_log':
      return `${key} is not sure: the log does not fit the scenario.`;
  }
}
