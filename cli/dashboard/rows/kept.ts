/** What is told of a kept plan. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import { figureNamed } from '../../../sim/study/figures/figures.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { formOf } from '../../words/figures.js';
import { countText, figureText, thousands } from '../../words/numbers.js';

/** Figures of a kept plan, in the order in which they are told. */
export const KEPT_FIGURES = (['usual_week', 'bad_week', 'heads_a_week'] as const).map(figureNamed);

/** The figures, seeds a week, holes. */
export function cellsOf(scenario: Scenario, result: RunResult | null): string[] {
  return [
    ...KEPT_FIGURES.map((figure) => {
      const value = result?.figures[figure.name];
      return value ? figureText(value.mean, formOf(figure)) : '-';
    }),
    result === null ? '-' : countText(result.counts.sown.mean / scenario.weeks),
    thousands(scenario.stages.reduce((sum, { channels, holes }) => sum + channels * holes, 0)),
  ];
}
