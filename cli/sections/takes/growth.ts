/** Kilograms, what plants weigh from stage to stage, and how well they use their light. */

import { isUsual, USUAL_EFFICIENCY } from '../../../sim/models/physical/course.js';
import type { GrowthFigures } from '../../../sim/study/takes/standing.js';
import type { Takes } from '../../../sim/study/takes/takes.js';
import { daysText } from '../../words/dates.js';
import { figureText, fixed, intervalText, listed } from '../../words/numbers.js';
import { type Block, figure, table, words } from '../section.js';

/** `1.7 kg a week.` */
export function massText({ mass }: Takes, weeks: number): string | null {
  return mass === undefined
    ? null
    : `Picked: ${figureText(mass.picked_kg.mean / weeks, fixed(1))} kg a week.`;
}

/** What spells with other air do to the days: one sentence a crop and spell. */
export function spellTexts(growth: readonly GrowthFigures[]): string[] {
  return growth.flatMap(({ crop, ratio, dated = [] }) =>
    dated
      .map((spell) => ({
        ...spell,
        times: spell.ratio.map((then, i) => figureText(then / ratio[i]!, fixed(2))),
      }))
      .filter(({ times }) => times.some((one) => one !== figureText(1, fixed(2))))
      .map(({ from, to, times }) => {
        const stages = times.length === 1 ? '' : ', stage by stage';
        return `${daysText(from, to)}: ${crop} takes ${listed(times)} times its usual days${stages}.`;
      }),
  );
}

export function growthDetails(takes: Takes, weeks: number): Block[] {
  const { growth = [] } = takes;
  const mass = massText(takes, weeks);
  if (growth.length === 0) return mass === null ? [] : [mass];
  const used = growth.flatMap(({ efficiency, regrow_efficiency: again }) =>
    again === null ? efficiency : [...efficiency, again],
  );
  const { least: low, most: high } = USUAL_EFFICIENCY;
  const others = growth.some(({ ratio }) => ratio.some((r) => r !== 1));
  return [
    ...(mass === null ? [] : [mass]),
    table(
      growth.flatMap(({ crop, ready_g, ratio }) =>
        ready_g.map((grams, i) => [
          words({ name: crop }, `, end of stage ${i + 1}`),
          figure(grams, { as: 'digits', digits: 2 }, 'g'),
          ...(others ? [figure(ratio[i], fixed(2))] : []),
        ]),
      ),
      { head: ['', 'fresh', ...(others ? ['days now / told'] : [])] },
    ),
    ...spellTexts(growth),
    `Grams of dry plant for a mol of light on leaves: ${used.map((e) => figureText(e, fixed(2))).join(', ')}.${
      used.every(isUsual)
        ? ''
        : ` Outside ${intervalText({ low, high }, fixed(1))} something told is doubtful: days, light, or grams.`
    }`,
  ];
}
