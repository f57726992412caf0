/** Openings of any season, stopped anywhere: what stands by the log, and states that the line can go on from. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isoOfDay } from '../../../sim/models/dates.js';
import type { InitialState } from '../../../sim/models/initial-state.js';
import { type EventObserver, Line } from '../../../sim/models/line/line.js';
import { type Plan, seasonDays } from '../../../sim/models/plan.js';
import { InitialStates } from '../../../sim/season/ahead/initial-states.js';
import { todayOf } from '../../../sim/season/ahead/today.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { Standing } from '../../../sim/season/log/standing.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { columnsOf, openingOf } from '../../support/openings.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';
import { at, taken } from '../../support/standings.js';

/** The season of a plan, its log up to a day, and openings from it; null for plans without visit days. */
function stopped(plan: Plan, pick: number) {
  if (plan.visits.kind === 'always' || plan.visits.days.length === 0) return null;
  const day = 1 + (pick % (seasonDays(plan) - 1));
  const rows = simulatedLog(plan, plan.seed, 0, { until: day });
  const reading = todayOf(rows, plan, isoOfDay(plan.start, day));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return { day, rows, today: reading.value, openings: new InitialStates(reading.value, 1) };
}

/** Picks on each day from `from` on. */
function picksFrom(run: Line, from: number, opening: InitialState | null): string[] {
  const picks: string[] = [];
  const recorder: EventObserver = {
    onEvent: (t, deed, _plant, crop) => {
      if (deed === 'pick' && t >= from) picks.push(`${t} ${crop}`);
    },
  };
  run.run(run.plan.seed, 0, recorder, opening);
  return picks;
}

function standingOf(rows: readonly LogRow[], plan: Plan): Standing {
  const standing = new Standing(plan.stages.map(({ name }) => name));
  for (const row of rows) expect(taken(standing, row)).toBeNull();
  return standing;
}

test('of every batch as many plants stand in every stage as the log says', () => {
  let plants = 0;
  fc.assert(
    fc.property(arbitraryPlan({ cuts: false }), fc.nat(1000), (plan, pick) => {
      const season = stopped(plan, pick);
      if (season === null) return;
      const standing = standingOf(season.rows, plan);
      season.today.season.batches.forEach(({ name }, batch) => {
        plan.stages.forEach((stage, s) => {
          const stood = season.openings.stand?.plants;
          const mine = stood?.batch.filter((one, i) => one === batch && stood.stage[i] === s) ?? [];
          expect(mine).toHaveLength(at(standing, name, stage.name));
          plants += mine.length;
        });
      });
    }),
    { seed: 1, numRuns: 200 },
  );
  expect(plants).toBeGreaterThan(200);
});

test('the line goes on from every opening: none puts two plants into one hole or lets something happen in the past', () => {
  let runs = 0;
  fc.assert(
    fc.property(arbitraryPlan(), fc.nat(1000), (plan, pick) => {
      const season = stopped(plan, pick);
      if (season === null) return;
      const going = new Line(plan);
      for (let k = 0; k < 3; k++) {
        const opening = openingOf(season.openings, k);
        expect(() => going.run(1, k, null, opening)).not.toThrow();
        if (opening !== null && opening.plants.at.length > 0) runs++;
      }
    }),
    { seed: 2, numRuns: 300 },
  );
  expect(runs).toBeGreaterThan(200);
});

test('nor does it where the log says less than it could, or the scenario is wrong about times and losses', () => {
  let runs = 0;
  fc.assert(
    fc.property(
      arbitraryPlan(),
      fc.nat(1000),
      fc.constantFrom(0.3, 0.9, 2),
      fc.constantFrom(0, 0.5, Infinity),
      (plan, pick, factor, keeps) => {
        const season = stopped(plan, pick);
        if (season === null) return;
        const crops = plan.crops.map((one) => ({
          ...one,
          germination: 0.7,
          stages: one.stages.map(({ time: growth }) => ({
            time: { ...growth, days: factor * growth.days, times: growth.times.map((t) => factor * t) },
            loss: 0.2,
            keeps,
          })),
        }));
        const wrong = { ...plan, crops };
        // Nobody wrote down how plants were lost.
        const rows = season.rows.map((row) => ({ ...row, note: null }));
        const reading = todayOf(rows, wrong, isoOfDay(plan.start, season.day));
        if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
        const openings = new InitialStates(reading.value, 1);
        const going = new Line(wrong);
        for (let k = 0; k < 2; k++) {
          const opening = openingOf(openings, k);
          expect(() => going.run(1, k, null, opening)).not.toThrow();
          if (opening !== null && opening.plants.at.length > 0) runs++;
        }
      },
    ),
    { seed: 6, numRuns: 300 },
  );
  expect(runs).toBeGreaterThan(150);
});

test('where nothing is left to chance, every future is what really came', () => {
  let compared = 0;
  const limits = { losses: false, cuts: false, onGrid: true } as const;
  fc.assert(
    fc.property(arbitraryPlan(limits), fc.nat(1000), (arbitrary, pick) => {
      // Fixed times only: of a list of times each plant draws one.
      const crops = arbitrary.crops.map((crop) => ({
        ...crop,
        stages: crop.stages.map((growing) => ({
          ...growing,
          time: { ...growing.time, shape: 'fixed' as const, spread: 0, times: [] },
        })),
      }));
      const plan = { ...arbitrary, crops };
      const season = stopped(plan, pick);
      if (season === null) return;
      const going = new Line(plan);
      const really = picksFrom(going, season.day, null);
      for (let k = 0; k < 2; k++) {
        expect(picksFrom(going, season.day, openingOf(season.openings, k))).toEqual(really);
      }
      compared += really.length;
    }),
    { seed: 3, numRuns: 300 },
  );
  expect(compared).toBeGreaterThan(500);
});

test('the k-th opening is the same at every call and for the same seed, others differ', () => {
  const plan = line(
    [stage('tray', 12), stage('wide', 16)],
    [crop([grow(time(4, 0.2)), grow(time(10, 0.2), { loss: 0.1 })], every(2, 42, 3))],
    { weeks: 6, visits: visitDays(6) },
  );
  const one = stopped(plan, 20)!;
  const copy = (openings: InitialStates, k: number) =>
    Object.values(openingOf(openings, k)!.plants).map((column: Iterable<number>) => [...column]);
  const [first, second] = [copy(one.openings, 0), copy(one.openings, 1)];
  expect(first[0]!.length).toBeGreaterThan(0);
  expect(second).not.toEqual(first);
  expect(copy(one.openings, 0)).toEqual(first);
  expect(copy(new InitialStates(one.today, 1), 1)).toEqual(second);
  expect(copy(new InitialStates(one.today, 2), 0)).not.toEqual(first);
});

test('before the season has begun there is nothing to go on from; a day of an empty log begins with an empty line', () => {
  // Visits on Thursdays, from day 3 on.
  const plan = line([stage('tray', 12)], [crop([grow(time(4))], every(2, 42, 3))], {
    weeks: 6,
    visits: visitDays(6, [0, 0, 0, 1, 0, 0, 0]),
  });
  const opening = (date: string | null) => {
    const reading = todayOf([], plan, date);
    if (!reading.ok) throw new Error('an empty log has no faults');
    return openingOf(new InitialStates(reading.value, 1), 0);
  };
  expect(opening(null)).toBeNull();
  // Nobody was to come yet: what was due on days 0 and 2 is sown on day 3.
  expect(opening(isoOfDay(plan.start, 3))).toBeNull();
  expect(opening(isoOfDay(plan.start, 5))).toMatchObject({ day: 4.5, visitsFrom: 5, plants: columnsOf([]) });
});
