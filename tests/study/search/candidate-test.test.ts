import { expect, test } from 'vitest';
import { CandidateTest } from '../../../sim/study/search/candidate-test.js';

test('a verdict comes when it was expected, where seasons go on as they began', () => {
  const design = { q: 0.9, eps: 0.02, beta: 0.01, n0: 20 };
  const trial = new CandidateTest(0, design, { heads: 1, from: 0, weeks: 2 });
  // A season in which both weeks are good, then one in which one of them is, over and over.
  const pair = Float64Array.of(1, 1, 1, 0);
  for (let pairs = 0; pairs < 10; pairs++) trial.add(pair, 2);
  const expected = trial.seasons + trial.left;
  expect(expected).toBeGreaterThan(60);
  while (trial.verdict === null && trial.seasons < 1000) trial.add(pair, 2);
  expect(trial.verdict).toBe('misses');
  // The sum comes 0.16 nearer to the edge of the region with each season and swings about its line by 0.125: a season more or
  // less, and they are whole.
  expect(Math.abs(trial.seasons - expected)).toBeLessThanOrEqual(2);
  expect(trial.left).toBe(0);
});
