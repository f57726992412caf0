/** What was taken for granted in figures of what plans take, and what there is to mind: sentences of JSON's `assumes`. */

import type { Plan } from '../plan.js';
import { LOAD_CAUTION, TAKES_CAUTION } from './cautions.js';

/** Which figures are told. */
export interface Told {
  readonly light: boolean;
  readonly leaves: boolean;
  readonly mass: boolean;
  readonly water: boolean;
  readonly tank: boolean;
  readonly load: boolean;
  readonly work: boolean;
  readonly money: boolean;
}

/** The factor that litres are good to until a meter scales them (docs/what-it-takes.md). */
export const LITRES_FACTOR = 1.5;

/** null once the grower's own meter has scaled them. */
export function litresFactor({ physical }: Plan): number | null {
  return (physical?.waterScale ?? 1) === 1 ? LITRES_FACTOR : null;
}

/** What the sum of the costs leaves out. */
export const LEFT_OUT =
  'cooling, drying the air, pumps, the first filling of the tank, rent, packing, transport and tax';

/** Of a whole season. */
export const STARTS_EMPTY = 'A season starts empty, so a head costs more in a short one.';

/** @param factor of the litres; null if a meter has scaled them */
export function assumptions(told: Told, factor: number | null): string[] {
  const { light, leaves, mass, water, tank, load, money } = told;
  const sentences: [boolean, string][] = [
    [
      leaves,
      'Light on leaves is good to a fifth: leaf area of a gram is a usual value unless the scenario tells it.',
    ],
    [mass, 'A pick weighs what a head weighs, however long the plant waited.'],
    [
      water,
      factor === null
        ? 'Litres are scaled by water.scale, which the scenario tells.'
        : `Litres are good to a factor of ${factor} until water.scale is set by a meter.`,
    ],
    [
      tank,
      'Plants do not suffer where the tank runs low. No measured hours to wilting were found: do not count on them.',
    ],
    [money, `Costs leave out ${LEFT_OUT}.`],
    [money, STARTS_EMPTY],
    [light || water || tank || load || mass || money || told.work, TAKES_CAUTION],
    [load, LOAD_CAUTION],
  ];
  return sentences.filter(([holds]) => holds).map(([, sentence]) => sentence);
}
