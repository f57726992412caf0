/** Hole-days and heads, by which figures are told. */

import { type HoleState, PICKED, STATE_COUNT, STATES } from '../../models/ledger.js';
import { holesOf, type Plan, type StagePlan, seasonDays } from '../../models/plan.js';
import type { Tallies } from '../../seasons/tallies.js';
import type { Sample } from './figure.js';

/** Holes x days of a season, of one stage or of all together [d]. */
export function holeDaysOf(plan: Plan, stage?: number): number {
  return stagesAt(plan, stage).reduce((sum, s) => sum + holesOf(plan.stages[s]!), 0) * seasonDays(plan);
}

/**
 * Hole-days of a season, each times its weight: what they cost or take, if that is what a hole-day of a state weighs.
 * @param weight of a hole-day [unit of the sum / d]
 * @param stage only this one; all together if left out
 */
export function weightedHoleDays(
  { plan, tallies: { ledger } }: Sample,
  weight: (state: HoleState, stage: StagePlan) => number,
  stage?: number,
): number {
  let sum = 0;
  for (const s of stagesAt(plan, stage)) {
    STATES.forEach((state, k) => {
      sum += weight(state, plan.stages[s]!) * ledger.mean(s * STATE_COUNT + k);
    });
  }
  return sum;
}

function stagesAt({ stages }: Plan, stage: number | undefined): readonly number[] {
  return stage === undefined ? [...stages.keys()] : [stage];
}

/** Heads that are wanted in the weeks from `from` on. */
export function wantedFrom({ want, weeks }: Plan, from: number): number {
  return want === null
    ? 0
    : want.heads * want.days.filter((day) => from * 7 <= day && day < weeks * 7).length;
}

/** An amount of a season for each head that is picked in it; not finite where none is. */
export function perHead({ counts }: Tallies, amount: number): number {
  return amount / counts.mean(PICKED);
}
