/**
 * Little's law holds on every path, not only on average: hole-days are plants times days, whatever the rules and the
 * luck (Little 1961, Stidham 1974, from memory; for a finite window in the documentation of the package
 * samplepath, "Finite-Window Flow Metrics Calculation"). All sums are exact.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BLOCKED, GROWING, HELD, PICKED, STATE_COUNT } from '../../sim/models/ledger.js';
import { arbitraryPlan } from '../support/arbitrary-plan.js';
import { littlesLaw, runOf } from '../support/laws.js';
import { crop, exponential, grow, line, stage, time, visitDays } from '../support/plans.js';

const due = (day: number, seeds = 1) => ({ kind: 'due', days: [day], seeds }) as const;

describe('on paper', () => {
  // Plants that come and go on days (0,5) (0,7) (1,6) (3,9) (4,11) (8,12).
  const visits = [
    [0, 5],
    [0, 7],
    [1, 6],
    [3, 9],
    [4, 11],
    [8, 12],
  ] as const;
  const six = line(
    [stage('holes', 6)],
    visits.map(([from, to], i) => crop([grow(time(to - from))], due(from), { name: `plant ${i}` })),
    { weeks: 2 },
  );

  test('six plants that come and go take up 34 hole-days: 6 x their mean stay of 17/3 d', () => {
    const { season } = runOf(six);
    expect(season.ledger[GROWING]).toBe(34);
    expect(season.counts[PICKED]! * (17 / 3)).toBe(34);
  });

  test('in the window from day 2 to 8 they take up 21, which is neither arrivals nor departures x mean stay', () => {
    const { notes } = runOf(six);
    const stay = new Map<number, [number, number]>();
    for (const { t, deed, plant } of notes) {
      if (deed === 'sow') stay.set(plant, [t, 0]);
      if (deed === 'pick') stay.get(plant)![1] = t;
    }
    const stays = [...stay.values()];
    const overlap = stays.map(([a, d]) => Math.max(0, Math.min(d, 8) - Math.max(a, 2)));
    expect(overlap.reduce((sum, days) => sum + days)).toBe(21);
    const total = (some: number[][]): number => some.reduce((sum, [a, d]) => sum + d! - a!, 0);
    expect(total(stays.filter(([a]) => a >= 2 && a < 8))).toBe(13);
    expect(total(stays.filter(([, d]) => d > 2 && d <= 8))).toBe(17);
  });

  test('three plants in a line of 2 holes and 1 hole: 12 hole-days of growing in each, 6 blocked, 3 outside', () => {
    const outside = grow(time(2 ** -20));
    const three = line(
      [stage('outside', 3), stage('two', 2), stage('one', 1)],
      [3, 5, 4].map((days, i) =>
        crop([outside, grow(time(days)), grow(time(4))], due(0), { name: `plant ${i}` }),
      ),
      { weeks: 3 },
    );
    const run = runOf(three);
    const { ledger } = run.season;
    // All later by the 2^-20 d that a seed needs to come in.
    const days = (deed: string, stage: number): number[] =>
      run.notes.filter((note) => note.deed === deed && note.stage === stage).map(({ t }) => t - 2 ** -20);
    expect(days('move', 1)).toEqual([0, 0, 3]);
    expect(days('move', 2)).toEqual([3, 7, 11]);
    expect(days('pick', 2)).toEqual([7, 11, 15]);
    expect(ledger[BLOCKED]).toBe(3);
    expect(ledger[STATE_COUNT + GROWING]).toBe(12);
    expect(ledger[STATE_COUNT + BLOCKED]).toBe(6);
    expect(ledger[2 * STATE_COUNT + GROWING]).toBe(12);
    expect(ledger[2 * STATE_COUNT + HELD]).toBe(0);
  });
});

describe('hole-days are the days of the plants, added up plant by plant', () => {
  const growing = [
    grow(time(7, 0.3), { loss: 0.1 }),
    grow(exponential(14), { loss: 0.2 }),
    grow(time(24, 0.2, 'gamma')),
  ];
  const sowing = { kind: 'due', days: Array.from({ length: 60 }, (_, i) => 3 * i), seeds: 9 } as const;
  const stages = [stage('germination', 30), stage('nursery', 40, 2), stage('finishing', 60)];

  test('in a crowded line that somebody tends all the time', () => {
    littlesLaw(runOf(line(stages, [crop(growing, sowing, { germination: 0.85 })], { weeks: 26 })));
  });

  test('in a crowded line that is visited twice a week', () => {
    const visits = visitDays(26, [1, 0, 0, 1, 0, 0, 0]);
    littlesLaw(runOf(line(stages, [crop(growing, sowing, { germination: 0.85 })], { weeks: 26, visits })));
  });

  test('in any line', () => {
    fc.assert(
      fc.property(arbitraryPlan(), (plan) => {
        littlesLaw(runOf(plan));
      }),
      { seed: 17, numRuns: 150 },
    );
  });
});
