import { expect, test } from 'vitest';
import { aboutsOf, neighbours } from '../../../../cli/dashboard/state/strip.js';
import type { Scenario } from '../../../../sim/scenario/schema.js';
import { CELLAR } from '../given.js';

type Sow = Scenario['crops'][number]['sow'];

function sown(sow: Sow, scenario = CELLAR): Scenario {
  return { ...scenario, crops: scenario.crops.map((crop) => ({ ...crop, sow })) };
}

test('what a strip can be about: no cadence where dates are given, no seeds where it is refilled', () => {
  const kinds = (scenario: Scenario, kept = 0): string[] =>
    aboutsOf(scenario, kept).map((about) => ('stage' in about ? about.stage : about.kind));
  const stages = ['finishing', 'nursery', 'germination'];
  expect(kinds(CELLAR, 1)).toEqual(['cadence', 'seeds', ...stages, 'visits', 'kept']);
  expect(kinds(sown({ dates: ['2027-01-04'], seeds: 10 }))).toEqual(['seeds', ...stages, 'visits']);
  expect(kinds(sown({ refill: true }))).toEqual([...stages, 'visits']);
});

test('the plan on the screen is always among them, unchanged, and no plan stands twice', () => {
  const plans = [
    CELLAR,
    sown({ on: ['tue'], seeds: 1 }),
    sown({ dates: ['2027-01-04'], seeds: 1 }),
    sown({ refill: true }),
  ];
  for (const plan of plans) {
    for (const visits of ['daily', 'always', ['mon']] as const) {
      const scenario: Scenario = { ...plan, visits: visits as Scenario['visits'] };
      for (const about of aboutsOf(scenario, 1)) {
        const found = neighbours(scenario, about, 5, [CELLAR]);
        expect(found.filter(({ now }) => now).map((one) => one.scenario)).toEqual([scenario]);
        expect(new Set(found.map((one) => JSON.stringify(one.scenario))).size).toBe(found.length);
        expect(found.length).toBeLessThanOrEqual(5);
      }
    }
  }
});
