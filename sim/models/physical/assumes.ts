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
  return physical?.waterMetered ? null : LITRES_FACTOR;
}

const NEVER_IN_COSTS =
  'cooling, drying the air, pumps, the first filling of the tank, rent, packing, transport and tax';

/** What the sum of the costs leaves out. @param untold words of the parts that this scenario does not tell (`untoldCosts`) */
export function leftOut(untold: readonly string[]): string {
  return untold.length === 0
    ? NEVER_IN_COSTS
    : `what is not told here (${untold.join(', ')}), ${NEVER_IN_COSTS}`;
}

const COSTS_LEAVE_OUT = 'Costs leave out ';

/** Is it the sentence that tells what costs leave out? */
export function isLeftOut(sentence: string): boolean {
  return sentence.startsWith(COSTS_LEAVE_OUT);
}

/** Of a whole season. */
export const STARTS_EMPTY = 'A season starts empty, so a head costs more in a short one.';

/**
 * @param factor of the litres; null if a meter has scaled them
 * @param untold words of the parts of the costs that are not told
 */
export function assumptions(told: Told, factor: number | null, untold: readonly string[]): string[] {
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
    [money, `${COSTS_LEAVE_OUT}${leftOut(untold)}.`],
    [money, STARTS_EMPTY],
    [light || water || tank || load || mass || money || told.work, TAKES_CAUTION],
    [load, LOAD_CAUTION],
  ];
  return sentences.filter(([holds]) => holds).map(([, sentence]) => sentence);
}
