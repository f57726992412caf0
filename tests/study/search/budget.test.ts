import { expect, test } from 'vitest';
import { budgetOf, type SearchGoal } from '../../../sim/study/search/budget.js';
import { type Candidate, rank } from '../../../sim/study/search/candidates.js';
import { crop, every, grow, line, stage, time } from '../../support/plans.js';

const GOAL: SearchGoal = {
  heads: 5,
  weeksMet: 0.9,
  least: 'holes',
  confidence: 0.95,
  near: 0.02,
  first: 20,
  runners: 3,
};

/** Plans with so many holes each. */
function ranked(...holes: number[]) {
  const candidates = holes.map((count, i): Candidate => {
    const plan = line([stage('tray', count)], [crop([grow(time(7))], every(7, 28, 1))], { weeks: 4 });
    return { name: `${i}`, settings: {}, plan, seedsAWeek: 1, visitsAWeek: 7 };
  });
  return rank(candidates, 'holes');
}

test('without equal costs the verdicts share all of the probability of a wrong pick', () => {
  const { design: standard } = budgetOf(ranked(1, 2, 3, 4), GOAL);
  expect(standard).toEqual({ q: 0.9, eps: 0.02, beta: expect.closeTo(0.05 / 4, 12), n0: 20 });
});

test('with equal costs the verdicts share half of it', () => {
  const { design: standard } = budgetOf(ranked(1, 2, 2, 4), GOAL);
  expect(standard.beta).toBeCloseTo(0.025 / 4, 12);
});

test('the rivals of all prices together share the other half: half by bets, half for what first seasons hide', () => {
  // Prices with 3, 2 and 1 plans: 2 rivals of one price, 1 of another.
  const budget = budgetOf(ranked(1, 1, 1, 2, 2, 3), GOAL);
  let spent = 0;
  for (const size of [3, 2]) {
    const { k, alpha, n0, delta } = budget.tie(size, size);
    expect([k, delta]).toEqual([size, 0.02]);
    const hidden = 0.98 ** n0;
    // In one season fewer a difference of 0.02 would hide too often.
    expect(hidden / 0.98).toBeGreaterThan(alpha / (size - 1));
    spent += alpha + hidden * (size - 1);
    expect(hidden).toBeLessThanOrEqual(alpha / (size - 1));
  }
  expect(spent).toBeLessThanOrEqual(0.025);
  expect(spent).toBeGreaterThan(0.97 * 0.025);
});

test('a rival has its share whether the others of its price meet the goal or not', () => {
  const budget = budgetOf(ranked(1, 1, 1, 1, 1), GOAL);
  const [all, two] = [budget.tie(5, 5), budget.tie(5, 2)];
  expect(two.alpha).toBeCloseTo(all.alpha / 4, 12);
  expect(two.n0).toBe(all.n0);
});
