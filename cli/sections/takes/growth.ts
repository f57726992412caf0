/** Kilograms, what plants weigh from stage to stage, and how well they use their light. */

import type { Takes } from '../../../sim/study/takes/takes.js';
import { counted, figureText, fixed, intervalText } from '../../words/numbers.js';
import { type Block, figure, table, words } from '../section.js';

/** Light use efficiencies beyond these are doubted (g of plant per mol on leaves). */
const PLAUSIBLE = { low: 0.5, high: 1.6 };

/** `1.7 kg a week.` */
export function massText({ mass }: Takes, weeks: number): string | null {
  return mass === undefined ? null : `Picked: ${figureText(mass.picked_kg.mean / weeks, fixed(1))} kg a week.`;
}

export function growthDetails(takes: Takes, weeks: number): Block[] {
  const { growth = [] } = takes;
  const mass = massText(takes, weeks);
  if (growth.length === 0) return mass === null ? [] : [mass];
  const used = growth.flatMap(({ efficiency, regrow_efficiency: again }) =>
    again === null ? efficiency : [...efficiency, again],
  );
  const doubted = used.filter((e) => e < PLAUSIBLE.low || e > PLAUSIBLE.high);
  return [
    ...(mass === null ? [] : [mass]),
    table(
      growth.flatMap(({ crop, ready_g, ratio }) =>
        ready_g.map((grams, i) => [
          words({ name: crop }, ` after ${counted(i + 1, 'stage')}`),
          figure(grams, { as: 'digits', digits: 2 }, 'g'),
          figure(ratio[i], fixed(2)),
        ]),
      ),
      { head: ['a plant that is ready', 'fresh', 'days now over days told'] },
    ),
    `Grams of dry plant for a mol of light on leaves: ${used.map((e) => figureText(e, fixed(2))).join(', ')}.${
      doubted.length === 0
        ? ''
        : ` Outside ${intervalText(PLAUSIBLE, fixed(1))} something told is doubtful: days, light, or grams.`
    }`,
  ];
}
