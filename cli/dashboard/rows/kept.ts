/** Plans that were kept, beside the one on the screen. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import { figureNamed } from '../../../sim/study/figures.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { formOf } from '../../words/figures.js';
import { countText, figureText, thousands } from '../../words/numbers.js';
import { knobsOf } from '../state/knobs.js';
import type { State } from '../state/state.js';
import type { Meaning, Row, Signs } from '../theme.js';
import { isOut } from './difference.js';
import { cut, fittedRight, piece } from './rows.js';

export type KeptState = Pick<State, 'kept' | 'scenario' | 'figures' | 'asked' | 'answered'>;

/** Columns of the table, where nothing is told of what is different about a plan. */
export const KEPT_WIDTH = 34;
/** Columns of the names. */
const NAME = 3;
/** Figures of a kept plan, in the order of their columns. */
export const KEPT_FIGURES = (['usual_week', 'bad_week', 'heads_a_week'] as const).map(figureNamed);
const TITLES = [...KEPT_FIGURES.map(({ column }) => column), 'seeds', 'holes'];

/** A heading, the present plan, and each kept one; the last ones if not all find room. */
export function keptRows(state: KeptState, width: number, height: number, signs: Signs): Row[] {
  const { kept, scenario } = state;
  const present = isOut(state) ? null : (state.figures?.result ?? null);
  const room = Math.max(0, height - 2);
  const shown = room === 0 ? [] : kept.map((plan, i) => ({ ...plan, i })).slice(-room);
  const cells = [
    TITLES,
    cellsOf(scenario, present),
    ...shown.map(({ scenario: other, result }) => cellsOf(other, result)),
  ];
  const widths = TITLES.map((_, c) => Math.max(...cells.map((row) => row[c]!.length)));
  const takes = (gap: number): number => NAME + widths.reduce((sum, one) => sum + one + gap, 0);
  // A number is never cut: where there is no room the last columns go.
  while (takes(1) > width && widths.length > 1) widths.pop();
  const gap = takes(2) <= width ? 2 : 1;
  const names = ['', 'now', ...shown.map(({ i }) => String(i + 1))];
  const meanings: readonly Meaning[] = ['faint', 'strong'];
  const left = width - takes(gap) - 2;
  return cells
    .map((row, r): Row => {
      const text = widths.map((one, c) => fittedRight(row[c]!, one + gap)).join('');
      const plain = piece(`${names[r]!.padEnd(NAME)}${text}`, meanings[r] ?? 'plain');
      const other = shown[r - 2]?.scenario;
      if (other === undefined || left < 12) return [plain];
      const words = differing(other, scenario) || 'as now';
      return [plain, piece(`  ${cut(words, left, signs.more)}`, 'faint')];
    })
    .slice(0, height);
}

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

/** In which knobs a plan differs from another: `seeds 12, visits daily`. */
export function differing(plan: Scenario, other: Scenario): string {
  return knobsOf(plan)
    .flatMap(({ label, value }) => (value(plan) === value(other) ? [] : [`${label} ${value(plan)}`]))
    .join(', ');
}
