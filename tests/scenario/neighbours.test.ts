import { describe, expect, test } from 'vitest';
import { aboutsOf, type NeighbourAbout, neighbours } from '../../sim/scenario/neighbours.js';
import type { Scenario } from '../../sim/scenario/schema.js';
import { vary } from '../../sim/scenario/vary.js';
import { readExample, SHELF } from '../support/examples.js';
import { successOf } from '../support/success-of.js';

const CELLAR = readExample(SHELF).scenario;

type Sow = Scenario['crops'][number]['sow'];

function sown(sow: Sow, scenario = CELLAR): Scenario {
  return { ...scenario, crops: scenario.crops.map((crop) => ({ ...crop, sow })) };
}

/** What the first crop's sowing is in each plan, the plan itself in brackets. */
function sowings(scenario: Scenario, count = 5): unknown[] {
  return neighbours(scenario, { kind: 'cadence' }, count).map(({ scenario: plan, now }) => {
    const { sow } = plan.crops[0]!;
    const cadence = 'every' in sow ? sow.every : 'on' in sow ? sow.on.join('+') : sow;
    return now ? [cadence] : cadence;
  });
}

describe('cadences', () => {
  test('as many shorter ones as longer ones; where the ladder ends, more on the other side', () => {
    expect(sowings(sown({ every: 3, seeds: 10 }))).toEqual([1, 2, [3], 4, 5]);
    expect(sowings(sown({ every: 5, seeds: 10 }))).toEqual([3, 4, [5], 6, 7]);
    expect(sowings(sown({ every: 1, seeds: 10 }))).toEqual([[1], 2, 3, 4, 5]);
    expect(sowings(sown({ every: 21, seeds: 10 }))).toEqual([6, 7, 10, 14, [21]]);
    expect(sowings(sown({ every: 9, seeds: 10 }))).toEqual([6, 7, [9], 10, 14]);
    expect(sowings(sown({ every: 3, seeds: 10 }), 7)).toEqual([1, 2, [3], 4, 5, 6, 7]);
  });

  test('weekdays stay, one fewer and one more at a time, on days on which somebody comes', () => {
    const open: Scenario = { ...sown({ on: ['mon', 'thu'], seeds: 10 }), visits: 'daily' };
    expect(sowings(open)).toEqual([
      'mon',
      ['mon+thu'],
      'mon+thu+sat',
      'mon+tue+thu+sat',
      'mon+tue+wed+thu+sat',
    ]);
    const seldom: Scenario = { ...open, visits: ['mon', 'thu', 'fri'] };
    expect(sowings(seldom)).toEqual(['mon', ['mon+thu'], 'mon+thu+fri']);
  });

  test('of several crops all are changed, and each keeps its seeds', () => {
    const [crop] = CELLAR.crops;
    const two: Scenario = {
      ...CELLAR,
      crops: [
        { ...crop!, sow: { every: 3, seeds: 10 } },
        { ...crop!, name: 'other', sow: { every: 7, seeds: 4 } },
      ],
    };
    const plans = neighbours(two, { kind: 'cadence' }, 5).map(({ scenario }) =>
      scenario.crops.map(({ sow }) => sow),
    );
    expect(plans[1]).toEqual([
      { every: 2, seeds: 10 },
      { every: 2, seeds: 4 },
    ]);
    expect(plans[2]).toEqual(two.crops.map(({ sow }) => sow));
  });
});

test('what neighbours can differ in: no cadence where dates are given, no seeds where it is refilled', () => {
  const kinds = (scenario: Scenario): string[] =>
    aboutsOf(scenario).map((about) => ('stage' in about ? about.stage : about.kind));
  const stages = ['finishing', 'nursery', 'germination'];
  expect(kinds(CELLAR)).toEqual(['cadence', 'seeds', ...stages, 'visits']);
  expect(kinds(sown({ dates: ['2027-01-04'], seeds: 10 }))).toEqual(['seeds', ...stages, 'visits']);
  expect(kinds(sown({ refill: true }))).toEqual([...stages, 'visits']);
});

test('the plan itself is always among them, unchanged, and no plan stands twice', () => {
  const plans = [
    CELLAR,
    sown({ on: ['tue'], seeds: 1 }),
    sown({ dates: ['2027-01-04'], seeds: 1 }),
    sown({ refill: true }),
  ];
  for (const plan of plans) {
    for (const visits of ['daily', 'always', ['mon']] as const) {
      const scenario: Scenario = { ...plan, visits: visits as Scenario['visits'] };
      for (const about of aboutsOf(scenario)) {
        const found = neighbours(scenario, about, 5);
        expect(found.filter(({ now }) => now).map((one) => one.scenario)).toEqual([scenario]);
        expect(new Set(found.map((one) => JSON.stringify(one.scenario))).size).toBe(found.length);
        expect(found.length).toBeLessThanOrEqual(5);
        for (const { scenario: plan, variation, now } of found) {
          if (!now) expect(successOf(vary(scenario, variation))).toEqual(plan);
        }
      }
    }
  }
});

test('channels, seeds and visits go by steps of one', () => {
  const values = (about: NeighbourAbout, value: (scenario: Scenario) => unknown): unknown[] =>
    neighbours(CELLAR, about, 5).map(({ scenario }) => value(scenario));
  expect(values({ kind: 'channels', stage: 'nursery' }, ({ stages }) => stages[1]!.channels)).toEqual([
    1, 2, 3, 4, 5,
  ]);
  expect(values({ kind: 'seeds' }, ({ crops }) => (crops[0]!.sow as { seeds: number }).seeds)).toEqual([
    8, 9, 10, 11, 12,
  ]);
  expect(values({ kind: 'visits' }, ({ visits }) => (visits === 'daily' ? 7 : visits.length))).toEqual([
    1, 2, 3, 4, 5,
  ]);
});
