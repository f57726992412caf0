/** Whatever text is read, it is understood or told what is wrong with it. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { amount } from './amount.js';
import { anyLog, rightLog } from './logs.js';
import { readAnyLog, readAnyScenario } from './reading.js';
import { anyText, rightText } from './scenarios.js';

/** Share of cases in which something was read. */
function shareRead<Case>(cases: fc.Arbitrary<Case>, read: (given: Case) => unknown, usual: number): number {
  let all = 0;
  let understood = 0;
  fc.assert(
    fc.property(cases, (given) => {
      all++;
      if (read(given) !== null) understood++;
    }),
    amount(usual),
  );
  return understood / all;
}

test('a scenario is read, or has faults that say where they are, in the order of the file', () => {
  const share = shareRead(anyText, readAnyScenario, 500);
  // Neither kind is tried too seldom.
  expect(share).toBeGreaterThan(0.1);
  expect(share).toBeLessThan(0.6);
});

test('most scenarios that are made to be right are', () => {
  expect(shareRead(rightText, readAnyScenario, 200)).toBeGreaterThan(0.7);
});

test('a log is read, or has faults that say in which line they are, beside any line and beside none', () => {
  const plans = fc.sample(rightText, { numRuns: 30, seed: 3 }).map(readAnyScenario);
  const beside = fc.tuple(anyLog, fc.constantFrom(...plans));
  const share = shareRead(beside, ([log, plan]) => readAnyLog(log.besides(plan), plan), 2000);
  expect(share).toBeGreaterThan(0.1);
  expect(share).toBeLessThan(0.6);
  const right = fc.tuple(rightLog, fc.constantFrom(...plans));
  expect(shareRead(right, ([log, plan]) => readAnyLog(log.besides(plan), plan), 500)).toBeGreaterThan(0.4);
});
