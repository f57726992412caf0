/** Whatever line is read, the books of its season are right, to the last digit. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Plan } from '../../sim/models/plan.js';
import { plantsOf } from '../../sim/seasons/workload.js';
import { ledgerAddsUp, runOf, seedsAddUp } from '../support/laws.js';
import { amount } from './amount.js';
import { readAnyScenario } from './reading.js';
import { rightText } from './scenarios.js';

/** Seldom one with many plants. */
const MOST_PLANTS = fc.oneof(
  { weight: 20, arbitrary: fc.constant(20_000) },
  { weight: 1, arbitrary: fc.constant(500_000) },
);

test('hole-days of all states are holes times days, and every seed is picked out, failed, lost, thrown away or standing', () => {
  let run = 0;
  fc.assert(
    fc.property(rightText, MOST_PLANTS, fc.nat(3), (text, most, season) => {
      const plan: Plan | null = readAnyScenario(text);
      fc.pre(plan !== null && plantsOf(plan) < most);
      const one = runOf(plan, plan.seed, season);
      ledgerAddsUp(one);
      seedsAddUp(one);
      run++;
    }),
    amount(150),
  );
  expect(run).toBeGreaterThan(amount(100).numRuns);
});
