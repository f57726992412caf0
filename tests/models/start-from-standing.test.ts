/** A season that is taken up in the middle, from what stands after a visit, is the rest of the whole season. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Draws } from '../../sim/models/growth.js';
import type { Cleaning, InitialState } from '../../sim/models/initial-state.js';
import { DISCARDED, LOST, PICKED, SOWN, STANDING, STATE_COUNT } from '../../sim/models/ledger.js';
import { Line, planDraws } from '../../sim/models/line/line.js';
import { holesOf, type Plan, seasonDays } from '../../sim/models/plan.js';
import { arbitraryPlan } from '../support/arbitrary-plan.js';
import { copyOf } from '../support/laws.js';
import { type Note, Notes } from '../support/logs.js';
import { columnsOf, type StandingPlant } from '../support/openings.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';
import { afterTaking, openingAt } from '../support/taken-up.js';

/** A note in one line; plants by the numbers of the whole season. */
function told({ t, deed, plant, crop: c, stage: s }: Note, number: (plant: number) => number): string {
  return `${String(t).padStart(12, '0')} ${deed} ${String(number(plant)).padStart(5, '0')} ${c} ${s}`;
}

/** The whole season, and what is left of it from a day on. */
function wholeAndRest(plan: Plan, day: number) {
  const whole = new Notes();
  const season = copyOf(new Line(plan).run(plan.seed, 0, whole));
  const { opening, numbers, taken, sown } = openingAt(plan, whole.rows, day);
  const luck = planDraws(plan);
  const luckOf = (c: number, s: number): Draws => afterTaking(luck(c, s), taken[c]![s]!);
  const rest = new Notes();
  const restSeason = copyOf(new Line(plan, { drawsOf: luckOf }).run(plan.seed, 0, rest, opening));
  const number = (plant: number): number => numbers[plant] ?? sown + plant - numbers.length;
  // What happens at one instant by itself has no order that matters.
  return {
    season,
    restSeason,
    opening,
    restNotes: rest.rows,
    wholeTold: whole.rows
      .filter(({ t }) => t > day)
      .map((note) => told(note, (plant) => plant))
      .sort(),
    restTold: rest.rows.map((note) => told(note, number)).sort(),
  };
}

function visitsOf(plan: Plan): readonly number[] {
  return plan.visits.kind === 'days' ? plan.visits.days : [];
}

describe('any season', () => {
  test('that is taken up after any visit goes on as it would have', () => {
    let compared = 0;
    fc.assert(
      fc.property(arbitraryPlan(), fc.nat(1000), (plan, pick) => {
        const visits = visitsOf(plan);
        if (visits.length === 0) return;
        const { wholeTold, restTold } = wholeAndRest(plan, visits[pick % visits.length]!);
        expect(restTold).toEqual(wholeTold);
        compared += restTold.length;
      }),
      { seed: 1, numRuns: 400 },
    );
    expect(compared).toBeGreaterThan(5000);
  });

  test('books exactly the hole-days that are left, state by state', () => {
    let compared = 0;
    fc.assert(
      fc.property(arbitraryPlan({ refill: false }), fc.nat(1000), (plan, pick) => {
        const mondays = visitsOf(plan).filter((day) => day % 7 === 0 && day > 0);
        if (mondays.length === 0) return;
        const day = mondays[pick % mondays.length]!;
        const { season, restSeason } = wholeAndRest(plan, day);
        // The same season, ended on that day.
        const before = new Line({ ...plan, weeks: day / 7 }).run(plan.seed, 0);
        expect(restSeason.ledger).toEqual(season.ledger.map((days, i) => days - before.ledger[i]!));
        plan.stages.forEach((one, s) => {
          const states = restSeason.ledger.subarray(s * STATE_COUNT, (s + 1) * STATE_COUNT);
          const sum = states.reduce((days, more) => days + more, 0);
          expect(sum).toBe(holesOf(one) * (seasonDays(plan) - day));
        });
        compared++;
      }),
      { seed: 2, numRuns: 400 },
    );
    expect(compared).toBeGreaterThan(100);
  });

  test('counts what happens from there on, and all that stands at the end', () => {
    fc.assert(
      fc.property(arbitraryPlan(), fc.nat(1000), (plan, pick) => {
        const visits = visitsOf(plan);
        if (visits.length === 0) return;
        const { season, restSeason, restNotes } = wholeAndRest(plan, visits[pick % visits.length]!);
        const count = (deed: Note['deed']): number => restNotes.filter((note) => note.deed === deed).length;
        expect(restSeason.counts[SOWN]).toBe(count('sow'));
        expect(restSeason.counts[LOST]).toBe(count('die'));
        expect(restSeason.counts[DISCARDED]).toBe(count('discard'));
        expect(restSeason.counts[PICKED]).toBe(count('pick'));
        expect(restSeason.counts[STANDING]).toBe(season.counts[STANDING]);
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});

/** Tray of 6 cells, 4 d; 8 wide holes, 10 d and a day of cleaning; 3 seeds every 3 days, visits daily, for 6 weeks. */
function twoStages(rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('tray', 6), stage('wide', 8, 1)],
    [crop([grow(time(4)), grow(time(10), { keeps: 1 })], every(3, 42, 3))],
    { weeks: 6, visits: visitDays(6), ...rest },
  );
}

const EMPTY: InitialState = {
  day: 20,
  visitsFrom: 21,
  plants: columnsOf([]),
  cleaning: [],
  reached: [true, true],
};

describe('on paper', () => {
  test('a deterministic season taken up on day 21 is the rest of the season', () => {
    const { wholeTold, restTold, restSeason, season } = wholeAndRest(twoStages(), 21);
    expect(restTold).toEqual(wholeTold);
    expect([...restSeason.weekPicks].slice(0, 3)).toEqual([0, 0, 0]);
    expect([...restSeason.weekPicks].slice(4)).toEqual([...season.weekPicks].slice(4));
  });

  test('a plant is picked at the first visit after it is ready, a ready one at the next visit', () => {
    const plants: StandingPlant[] = [
      { crop: 0, stage: 1, cutsLeft: 1, next: 'ripen', at: 22.5 },
      { crop: 0, stage: 1, cutsLeft: 1, next: 'ready', at: 20 },
      { crop: 0, stage: 1, cutsLeft: 1, next: 'die', at: 21.5 },
      { crop: 0, stage: 0, cutsLeft: 1, next: 'fail', at: 20.5 },
    ];
    const notes = new Notes();
    new Line(
      twoStages({ crops: [crop([grow(time(4)), grow(time(10), { keeps: 1 })], every(50, 42, 3))] }),
    ).run(1, 0, notes, { ...EMPTY, plants: columnsOf(plants) });
    expect(notes.rows.map(({ t, deed, plant }) => `${t} ${deed} ${plant}`)).toEqual([
      '20.5 fail 3',
      '21 clear 3',
      '21 pick 1',
      '21.5 die 2',
      '22 clear 2',
      '22.5 ripen 0',
      '23 pick 0',
    ]);
  });

  test('what was ready longest goes first, in whatever order the plants are listed', () => {
    const at = [19.5, 17, 20, 18];
    const plants = at.map((t): StandingPlant => ({ crop: 0, stage: 0, cutsLeft: 1, next: 'ready', at: t }));
    const notes = new Notes();
    // One wide hole: one plant goes on at a time, and is picked 10 d later; its hole is cleaned for a day.
    const plan = twoStages({ stages: [stage('tray', 6), stage('wide', 1, 1)] });
    new Line(plan).run(1, 0, notes, { ...EMPTY, plants: columnsOf(plants) });
    const moves = notes.rows.filter(({ deed }) => deed === 'move').map(({ t, plant }) => `${t} ${plant}`);
    expect(moves).toEqual(['21 1', '32 3']);
  });

  test('holes that are being cleaned come back at the first visit after', () => {
    const free: string[] = [];
    const recorder = {
      onEvent: () => {},
      onVisitEnd: (t: number, holes: Int32Array) => void free.push(`${t}: ${holes[1]}`),
    };
    const plan = twoStages({ crops: [crop([grow(time(4)), grow(time(10))], every(50, 42, 3))] });
    const cleaning: Cleaning[] = [
      { stage: 1, holes: 2, until: 21.5 },
      { stage: 1, holes: 1, until: 23 },
    ];
    new Line(plan).run(1, 0, recorder, { ...EMPTY, cleaning });
    expect(free.slice(0, 4)).toEqual(['21: 5', '22: 7', '23: 8', '24: 8']);
  });

  test('no visit is made before the day from which visits are made, and what falls due before it is sown then', () => {
    const notes = new Notes();
    // Sowings fall due on days 21, 24, 27, 30. On day 27 all six cells are taken, until day 29.
    new Line(twoStages()).run(1, 0, notes, { ...EMPTY, visitsFrom: 25 });
    const sown = notes.rows.filter(({ deed }) => deed === 'sow').map(({ t }) => t);
    expect(sown.slice(0, 9)).toEqual([25, 25, 25, 25, 25, 25, 30, 30, 30]);
  });

  test('without an opening the season is as it always was', () => {
    const one = copyOf(new Line(twoStages()).run(1, 0));
    const reused = new Line(twoStages());
    reused.run(1, 0, null, EMPTY);
    expect(copyOf(reused.run(1, 0))).toEqual(one);
  });
});

describe('what cannot be', () => {
  const plant: StandingPlant = { crop: 0, stage: 1, cutsLeft: 1, next: 'ripen', at: 25 };

  test.each([
    ['more plants than holes', { plants: columnsOf(new Array<StandingPlant>(9).fill(plant)) }, 'wide'],
    ['more cleaned holes than holes', { cleaning: [{ stage: 0, holes: 7, until: 21 }] }, 'tray'],
    [
      'a plant that is ready after the visit',
      { plants: columnsOf([{ ...plant, next: 'ready' }]) },
      'ready at 25',
    ],
    ['a plant that ripened before it', { plants: columnsOf([{ ...plant, at: 20 }]) }, 'ripen at 20'],
    ['a next visit that is over', { visitsFrom: 20 }, 'next visit'],
  ])('%s is refused', (_, wrong, words) => {
    const run = () => new Line(twoStages()).run(1, 0, null, { ...EMPTY, ...wrong });
    expect(run).toThrow(RangeError);
    expect(run).toThrow(words);
  });

  test('a line that is tended at every instant is refused', () => {
    const run = () => new Line(twoStages({ visits: { kind: 'always' } })).run(1, 0, null, EMPTY);
    expect(run).toThrow('visits are on days');
  });
});
