/**
 * The film of a season. Its states are told from what a recorder hears; that they are right is proved by adding them up
 * over time: the areas are the ledger of the line, to the last digit (times lie on a grid, see sim/engine/clock.ts).
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { toGrid } from '../../../sim/engine/clock.js';
import {
  BLOCKED,
  CLEANING,
  DEAD,
  FILLING,
  GROWING,
  HELD,
  PICKED,
  SOWN,
  STATE_COUNT,
  STATES,
  UNATTENDED,
  UNSUPPLIED,
  UNTENDED,
} from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import { type Growing, holesOf, type Plan, seasonDays } from '../../../sim/models/plan.js';
import { FilmRecorder, filmBuffers, filmOf } from '../../../sim/study/film/film.js';
import { blankFilm, Film } from '../../../sim/study/film/film-data.js';
import { HoleStates } from '../../../sim/study/film/film-states.js';
import { arbitraryPlan, type Limits } from '../../support/arbitrary-plan.js';
import { type Note, Notes } from '../../support/logs.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';

/** Fixed, so that a failure comes again; fast-check shrinks it to a small plan. */
const SEED = 20270104;

function onEveryPlan(law: (plan: Plan) => void, limits?: Limits, numRuns = 150): void {
  fc.assert(fc.property(arbitraryPlan(limits), law), { seed: SEED, numRuns });
}

/** `expect` for inner loops. */
function demand(condition: boolean, message: string): void {
  if (!condition) throw new Error(message);
}

/** Hole-days in each state, added up over all stretches in which nothing changes. */
function ledgerOfStates(plan: Plan, seed: number, season: number): number[] {
  const areas = new Array<number>(plan.stages.length * STATE_COUNT).fill(0);
  const counts = new Uint32Array(areas.length);
  let until = 0;
  const states = new HoleStates(plan, (from, to) => {
    demand(from === until && to > from, `from ${from} to ${to}, after ${until}`);
    until = to;
    states.putCounts(counts, 0);
    counts.forEach((holes, i) => {
      areas[i]! += holes * (to - from);
    });
  });
  new Line(plan).run(seed, season, states);
  states.end();
  demand(until === seasonDays(plan), `ended at ${until}`);
  return areas;
}

describe('the states of the holes, added up over time, are the ledger of the season', () => {
  test('on every line, to the last digit', () => {
    onEveryPlan(
      (plan) => {
        expect(ledgerOfStates(plan, plan.seed, 3)).toEqual([...new Line(plan).run(plan.seed, 3).ledger]);
      },
      {},
      400,
    );
  });

  test('when somebody is always there', () => {
    onEveryPlan(
      (plan) => {
        expect(ledgerOfStates(plan, plan.seed, 0)).toEqual([...new Line(plan).run(plan.seed, 0).ledger]);
      },
      { always: true },
      200,
    );
  });

  test('when cleaning takes a time that is not on the grid, or less than a tick', () => {
    const withCleaning = (plan: Plan, days: number): Plan => ({
      ...plan,
      stages: plan.stages.map((one) => ({ ...one, cleanDays: days })),
    });
    onEveryPlan((either) => {
      for (const days of [1 / 3, 1e-9]) {
        const plan = withCleaning(either, days);
        expect(ledgerOfStates(plan, 1, 0)).toEqual([...new Line(plan).run(1, 0).ledger]);
      }
    });
  });

  test('and between them these lines bring about every state', () => {
    const seen = new Set<number>();
    onEveryPlan((plan) => {
      new Line(plan).run(plan.seed, 3).ledger.forEach((days, i) => {
        if (days > 0) seen.add(i % STATE_COUNT);
      });
    });
    expect(seen.size).toBe(STATES.length);
  });
});

describe('the pictures', () => {
  test('add up to the ledger where everything happens at the start of a day', () => {
    onEveryPlan(
      (quarters) => {
        const plan = inWholeDays(quarters);
        const film = filmOf(plan, { seed: plan.seed, season: 1 });
        // Each picture stands for the day that it begins; the last one begins none.
        const areas = new Array<number>(plan.stages.length * STATE_COUNT).fill(0);
        for (let day = 0; day < film.days; day++) {
          plan.stages.forEach((_, s) => {
            film.countsAt(day, s).forEach((holes, k) => {
              areas[s * STATE_COUNT + k]! += holes;
            });
          });
        }
        expect(areas).toEqual([...new Line(plan).run(plan.seed, 1).ledger]);
        plan.stages.forEach((_, s) => {
          expect([...film.countsAt(film.days, s)]).toEqual([...film.countsAt(film.days - 1, s)]);
        });
      },
      { onGrid: true, losses: false },
    );
  });

  test('show every hole as what happened to it and its plants says', () => {
    onEveryPlan((plan) => {
      const notes = new Notes();
      new Line(plan).run(plan.seed, 2, notes);
      const film = filmOf(plan, { seed: plan.seed, season: 2 });
      const holes = new Holes(plan, notes.rows);
      for (let day = 0; day < film.frames; day++) {
        const states = holes.statesAt(day);
        const shown = film.statesAt(day);
        for (let hole = 0; hole < film.holeCount; hole++) {
          demand(
            shown[hole] === states[hole],
            `hole ${hole} on day ${day}: ${STATES[shown[hole]!]}, not ${STATES[states[hole]!]}`,
          );
        }
      }
    });
  });

  test('are counted right: so many holes in each state, all holes of the stage together', () => {
    onEveryPlan((plan) => {
      const film = filmOf(plan, { seed: plan.seed, season: 0 });
      for (let day = 0; day < film.frames; day++) {
        const shown = film.statesAt(day);
        film.stages.forEach(({ firstHole, holes }, s) => {
          const counts = new Array<number>(STATE_COUNT).fill(0);
          for (const state of shown.subarray(firstHole, firstHole + holes)) counts[state]!++;
          expect([...film.countsAt(day, s)]).toEqual(counts);
          expect(counts.reduce((sum, n) => sum + n, 0)).toBe(holesOf(plan.stages[s]!));
        });
      }
    }, {});
  });

  test('change by what was dealt between them: who comes in and who goes', () => {
    onEveryPlan(
      (plan) => {
        const film = filmOf(plan, { seed: plan.seed, season: 0 });
        let standing = 0;
        for (let day = 0; day < film.frames; day++) {
          const { sown, picked, discarded, cleared } = film.workAt(day);
          standing += sown - picked - discarded - cleared;
          let held = 0;
          film.stages.forEach((_, s) => {
            const counts = film.countsAt(day, s);
            for (const state of [GROWING, DEAD, UNATTENDED, BLOCKED, HELD]) held += counts[state]!;
          });
          expect(held, `day ${day}`).toBe(standing);
        }
      },
      { cuts: false },
    );
  });

  test('tell as dealt what was done after the picture before and up to this one', () => {
    onEveryPlan((plan) => {
      const notes = new Notes();
      const { counts } = new Line(plan).run(plan.seed, 0, notes);
      const film = filmOf(plan, { seed: plan.seed, season: 0 });
      for (let day = 0; day < film.frames; day++) {
        const done = notes.rows.filter(({ t }) => t > day - 1 && t <= day);
        const number = (deed: Note['deed']): number => done.filter((note) => note.deed === deed).length;
        expect(film.workAt(day)).toEqual({
          sown: number('sow'),
          moved: plan.stages.map(
            (_, s) => done.filter(({ deed, stage }) => deed === 'move' && stage === s).length,
          ),
          picked: number('pick'),
          discarded: number('discard'),
          cleared: number('clear'),
        });
        expect(film.picksUpTo(day)).toBe(
          notes.rows.filter(({ t, deed }) => deed === 'pick' && t <= day).length,
        );
      }
      expect(film.picksUpTo(film.days)).toBe(counts[PICKED]);
    }, {});
  });
});

describe('a line that can be followed on paper', () => {
  /*
   * Two seeds on day 0, one on day 2, two on day 4; visits on even days but for day 8. Tray: 3 cells, 3 days. Bed: 2
   * channels of one hole, 5 days, cleaned for 1 day. One head is wanted, on day 10.
   *
   * day 0  plants 0 and 1 into cells 0 and 1
   * day 2  plant 2 into cell 2
   * day 3  0 and 1 are ready, nobody comes: the bed's empty holes are untended
   * day 4  0 and 1 into the bed (holes 3, 4); plants 3 and 4 into the cells that they left
   * day 5  2 is ready
   * day 6  2 is seen; the bed is full: blocked
   * day 7  3 and 4 are ready and nobody is there on day 8 either
   * day 9  0 and 1 are ready
   * day 10 one is wanted: plant 0 is picked, hole 3 is cleaned until day 11, plant 1 is held; 2, 3 and 4 are blocked
   * day 12 hole 3 is taken back into use; 2 moves into it from cell 2
   */
  const plan = line(
    [stage('tray', 3), { ...stage('bed', 1, 1), channels: 2 }],
    [
      crop([grow(time(3)), grow(time(5))], { kind: 'due', days: [0], seeds: 2 }),
      crop([grow(time(3)), grow(time(5))], { kind: 'due', days: [2], seeds: 1 }, { name: 'second' }),
      crop([grow(time(3)), grow(time(5))], { kind: 'due', days: [4], seeds: 2 }, { name: 'third' }),
    ],
    {
      weeks: 2,
      visits: { kind: 'days', days: [0, 2, 4, 6, 10, 12] },
      want: { heads: 1, days: [10] },
    },
  );
  const film = filmOf(plan, { seed: 1, season: 0 });
  const shown = (day: number): string => [...film.statesAt(day)].map((state) => STATES[state]).join(' ');

  test.each([
    [0, 'growing growing unsupplied filling filling'],
    [1, 'growing growing unsupplied filling filling'],
    [2, 'growing growing growing filling filling'],
    [3, 'unattended unattended growing untended untended'],
    [4, 'growing growing growing growing growing'],
    [5, 'growing growing unattended growing growing'],
    [6, 'growing growing blocked growing growing'],
    [7, 'unattended unattended blocked growing growing'],
    [8, 'unattended unattended blocked growing growing'],
    [9, 'unattended unattended blocked unattended unattended'],
    [10, 'blocked blocked blocked cleaning held'],
    [11, 'blocked blocked blocked cleaning held'],
    [12, 'blocked blocked unsupplied growing held'],
    [13, 'blocked blocked unsupplied growing held'],
    [14, 'blocked blocked unsupplied growing held'],
  ])('on day %i: %s', (day, states) => {
    expect(shown(day)).toBe(states);
  });

  test('with the visits and what was dealt at them', () => {
    expect(film.frames).toBe(15);
    const visits = Array.from({ length: film.frames }, (_, day) => day).filter((day) => film.isVisit(day));
    expect(visits).toEqual([0, 2, 4, 6, 10, 12]);
    const nothing = { sown: 0, moved: [0, 0], picked: 0, discarded: 0, cleared: 0 };
    expect(film.workAt(0)).toEqual({ ...nothing, sown: 2 });
    expect(film.workAt(4)).toEqual({ ...nothing, sown: 2, moved: [0, 2] });
    expect(film.workAt(6)).toEqual(nothing);
    expect(film.workAt(10)).toEqual({ ...nothing, picked: 1 });
    expect(film.workAt(12)).toEqual({ ...nothing, moved: [0, 1] });
    expect([9, 10, 14].map((day) => film.picksUpTo(day))).toEqual([0, 1, 1]);
  });

  test('where holes are numbered through all stages and channels', () => {
    expect(film.holeCount).toBe(5);
    expect(film.stages.map(({ firstHole, holes }) => [firstHole, holes])).toEqual([
      [0, 3],
      [3, 2],
    ]);
  });

  test('where one plant waits and two holes are empty, the lower-numbered one is untended', () => {
    const one = line([stage('tray', 1), stage('bed', 3)], [crop([grow(time(3)), grow(time(9))], due(0, 5))], {
      weeks: 2,
      visits: { kind: 'days', days: [0, 4, 5, 10] },
    });
    // The first plant ripens on day 3 and moves on day 4; the second is sown on day 5 and ripens on day 8.
    const states = filmOf(one, { seed: 1, season: 0 });
    expect([...states.statesAt(4)]).toEqual([UNSUPPLIED, GROWING, UNSUPPLIED, UNSUPPLIED]);
    expect([...states.statesAt(8)]).toEqual([UNATTENDED, GROWING, UNTENDED, UNSUPPLIED]);
  });

  test('with somebody always there every day but the end is a visit', () => {
    const tended = filmOf({ ...plan, visits: { kind: 'always' } }, { seed: 1, season: 0 });
    expect(tended.isVisit(0)).toBe(true);
    expect(tended.isVisit(13)).toBe(true);
    expect(tended.isVisit(14)).toBe(false);
  });
});

test('a plan whose visits go on after its end is filmed to its end', () => {
  const daily = line([stage('bed', 4)], [crop([grow(time(3))], every(1, 28, 1))], {
    weeks: 2,
    visits: visitDays(4),
  });
  const film = filmOf(daily, { seed: 1, season: 0 });
  expect(film.days).toBe(14);
  expect([film.isVisit(13), film.isVisit(14)]).toEqual([true, false]);
  expect(ledgerOfStates(daily, 1, 0)).toEqual([...new Line(daily).run(1, 0).ledger]);
  // Sown one a day, picked after three: the bed holds three from day 2 on, and nobody picks on day 14.
  expect(film.countsAt(14, 0)[GROWING]).toBe(3);
  expect(film.picksUpTo(14)).toBe(11);
});

describe('a film', () => {
  const shared = line(
    [stage('tray', 12), { ...stage('bed', 10, 2), channels: 3 }],
    [crop([grow(time(6, 0.2), { loss: 0.1 }), grow(time(15, 0.2), { keeps: 4 })], every(2, 70, 5))],
    { weeks: 10, visits: visitDays(10, [1, 0, 0]) },
  );

  test('of a line of too many holes keeps the counts and nothing else', () => {
    const whole = filmOf(shared, { seed: 4, season: 2, mostHoles: 42 });
    const counts = filmOf(shared, { seed: 4, season: 2, mostHoles: 41 });
    expect(whole.holes).toHaveLength(71 * 42);
    expect(counts.holes).toBeNull();
    expect({ ...counts.data, holes: null }).toEqual({ ...whole.data, holes: null });
    expect(() => counts.statesAt(0)).toThrow(RangeError);
  });

  test('counts stages of more than 65 536 holes', () => {
    const wide = line([stage('tray', 70_000)], [crop([grow(time(30))], due(0), { germination: 1 })], {
      weeks: 1,
    });
    const film = filmOf(wide, { seed: 1, season: 0 });
    expect(film.holes).toBeNull();
    expect(film.countsAt(7, 0)[UNSUPPLIED]).toBe(69_999);
  });

  test('follows more plants than it makes room for at first', () => {
    const busy = line(
      [stage('tray', 900), stage('bed', 700, 1)],
      [crop([grow(time(2)), grow(time(3, 0.2))], every(3, 28, 900))],
      { weeks: 4, visits: visitDays(4) },
    );
    const { counts, ledger } = new Line(busy).run(1, 0);
    expect(counts[SOWN]).toBeGreaterThan(4 * 1024);
    expect(ledgerOfStates(busy, 1, 0)).toEqual([...ledger]);
    const film = filmOf(busy, { seed: 1, season: 0 });
    const notes = new Notes();
    new Line(busy).run(1, 0, notes);
    const holes = new Holes(busy, notes.rows);
    for (let day = 0; day < film.frames; day++) expect([...film.statesAt(day)]).toEqual(holes.statesAt(day));
  });

  test('goes to another thread and comes out the same', () => {
    const sent = filmOf(shared, { seed: 4, season: 2 });
    const before = everythingIn(sent);
    const buffers = filmBuffers(sent.data);
    expect(buffers).toHaveLength(4);
    const received = new Film(structuredClone(sent.data, { transfer: buffers }));
    expect(buffers.every((buffer) => buffer.byteLength === 0)).toBe(true);
    expect(everythingIn(received)).toEqual(before);
    expect(filmBuffers(filmOf(shared, { seed: 4, season: 2, mostHoles: 0 }).data)).toHaveLength(3);
  });

  test('can be taken of a line with other luck', () => {
    const never = {
      times: new Float64Array([5]),
      moments: new Float64Array([2]),
      sprouts: new Uint8Array([0]),
    };
    const luckless = new Line(shared, { drawsOf: () => ({ ...never, start: () => {}, take: () => 0 }) });
    const recorder = new FilmRecorder(shared);
    luckless.run(4, 2, recorder);
    const film = recorder.film();
    // 5 seeds on day 0, sown up on day 3 with the 5 of day 2; those of day 0 have failed by day 5.
    expect([...film.countsAt(3, 0)]).toEqual([10, 0, 0, 0, 0, 0, 0, 0, 2]);
    expect([...film.countsAt(5, 0)]).toEqual([5, 5, 0, 0, 0, 0, 0, 0, 2]);
    expect(film.picksUpTo(70)).toBe(0);
  });

  test('can be filled in by somebody else', () => {
    const data = blankFilm(shared.stages, 3, true);
    data.holes!.fill(CLEANING, 42, 84);
    data.counts.set([0, 0, 0, 0, 0, 12], 2 * STATE_COUNT);
    data.visits[1] = 1;
    const film = new Film(data);
    expect([film.days, film.frames, film.holeCount]).toEqual([3, 4, 42]);
    expect([0, 1, 2].map((day) => [film.statesAt(day)[0], film.statesAt(day)[41]])).toEqual([
      [GROWING, GROWING],
      [CLEANING, CLEANING],
      [GROWING, GROWING],
    ]);
    expect(film.countsAt(1, 0)[CLEANING]).toBe(12);
    expect(film.isVisit(1)).toBe(true);
    expect(blankFilm(shared.stages, 3, false).holes).toBeNull();
  });

  test('refuses data that do not fit, and places that are not there', () => {
    const data = blankFilm(shared.stages, 3, true);
    expect(() => new Film({ ...data, holes: new Uint8Array(4) })).toThrow('holes must have 168 entries: 4');
    expect(() => new Film({ ...data, counts: new Uint32Array(4) })).toThrow('counts must have 72 entries: 4');
    expect(() => new Film({ ...data, work: new Uint32Array(4) })).toThrow('work must have 24 entries: 4');
    expect(() => new Film({ ...data, visits: new Uint8Array(3) })).toThrow('visits must have 4 entries: 3');
    const film = new Film(data);
    expect(() => film.statesAt(4)).toThrow('day must be a whole number from 0 to 3: 4');
    expect(() => film.countsAt(0, 2)).toThrow('stage must be a whole number from 0 to 1: 2');
    expect(() => film.workAt(-1)).toThrow(RangeError);
    expect(() => film.picksUpTo(0.5)).toThrow(RangeError);
  });
});

function due(...days: number[]): Plan['crops'][number]['sowing'] {
  return { kind: 'due', days, seeds: 1 };
}

/** All that a film tells, as plain values. */
function everythingIn(film: Film): unknown {
  return Array.from({ length: film.frames }, (_, day) => ({
    states: [...film.statesAt(day)],
    counts: film.stages.map((_stage, s) => [...film.countsAt(day, s)]),
    dealt: film.workAt(day),
    picks: film.picksUpTo(day),
    visit: film.isVisit(day),
  }));
}

/** A plan whose times are quarters of a day, four times as slow: then everything happens at the start of a day. */
function inWholeDays(plan: Plan): Plan {
  const slow = (growing: Growing): Growing => ({
    ...growing,
    keeps: 4 * growing.keeps,
    time: { ...growing.time, days: 4 * growing.time.days, times: growing.time.times.map((t) => 4 * t) },
  });
  return {
    ...plan,
    weeks: 2 * plan.weeks,
    visits: plan.visits.kind === 'days' ? visitDays(2 * plan.weeks, patternOf(plan)) : plan.visits,
    stages: plan.stages.map((one) => ({ ...one, cleanDays: 4 * one.cleanDays })),
    crops: plan.crops.map((one) => ({
      ...one,
      stages: one.stages.map(slow),
      regrow: one.regrow === null ? null : slow(one.regrow),
      sowing:
        one.sowing.kind === 'due' ? { ...one.sowing, days: one.sowing.days.map((t) => 4 * t) } : one.sowing,
    })),
  };
}

/** 1 for each weekday of the first week with a visit. */
function patternOf({ visits }: Plan): number[] {
  return Array.from({ length: 7 }, (_, day) => (visits.kind === 'days' && visits.days.includes(day) ? 1 : 0));
}

/** A plant in one hole: from when to when, and what became of it there [d]. */
interface Stay {
  readonly stage: number;
  readonly from: number;
  /** Spells of being ready: several with several cuts. */
  readonly ready: { from: number; to: number }[];
  dead: number;
  to: number;
}

/**
 * What stood in every hole and what it was at any moment, read off the stays of its plants: a second way to the states,
 * that knows nothing of the order of events.
 */
class Holes {
  readonly #plan: Plan;
  readonly #stays: Stay[][];
  readonly #stageOf: number[];
  /** When a plant was first ready to come into each stage. */
  readonly #reached: number[];

  constructor(plan: Plan, notes: readonly Note[]) {
    this.#plan = plan;
    this.#stageOf = plan.stages.flatMap((one, s) => new Array<number>(holesOf(one)).fill(s));
    this.#stays = this.#stageOf.map(() => []);
    this.#reached = plan.stages.map((_, s) => {
      const first = notes.find(({ deed, stage: in_ }) =>
        s === 0 ? deed === 'sow' : deed === 'ripen' && in_ === s - 1,
      );
      return first?.t ?? Infinity;
    });
    const present = new Map<number, Stay>();
    const picks = new Map<number, number>();
    for (const { t, deed, plant, crop: c, stage: s, hole } of notes) {
      const stay = present.get(plant);
      const spell = stay?.ready.at(-1);
      if (deed === 'ripen') stay!.ready.push({ from: t, to: Infinity });
      else if (deed === 'die' || deed === 'fail') stay!.dead = t;
      else if (stay !== undefined) {
        if (spell !== undefined) spell.to = Math.min(spell.to, t);
        if (deed === 'pick') picks.set(plant, (picks.get(plant) ?? 0) + 1);
        if (deed !== 'pick' || picks.get(plant) === plan.crops[c]!.cuts) {
          stay.to = t;
          present.delete(plant);
        }
      }
      if (deed === 'sow' || deed === 'move') {
        const next: Stay = { stage: s, from: t, ready: [], dead: Infinity, to: Infinity };
        this.#stays[hole]!.push(next);
        present.set(plant, next);
      }
    }
  }

  /** The states right after the work at the start of `day`; of the last day of all, just before it. */
  statesAt(day: number): number[] {
    const end = seasonDays(this.#plan);
    const t = day === end ? end - 1e-9 : day;
    const states = this.#stays.map((_, hole) => this.#plantOrCleaning(hole, t));
    this.#plan.stages.forEach((_, s) => {
      const waiting =
        s === 0 ? 0 : states.filter((k, hole) => k === UNATTENDED && this.#stageOf[hole] === s - 1).length;
      const empty = states.flatMap((k, hole) => (k === -1 && this.#stageOf[hole] === s ? [hole] : []));
      empty.forEach((hole, i) => {
        if (this.#reached[s]! > t) states[hole] = FILLING;
        else states[hole] = i < waiting ? UNTENDED : UNSUPPLIED;
      });
    });
    return states;
  }

  /** -1 for an empty hole. */
  #plantOrCleaning(hole: number, t: number): number {
    const stays = this.#stays[hole]!;
    const last = this.#plan.stages.length - 1;
    const stay = stays.findLast(({ from }) => from <= t);
    if (stay === undefined) return -1;
    if (t < stay.to) {
      if (stay.dead <= t) return DEAD;
      const spell = stay.ready.find(({ from, to }) => from <= t && t < to);
      if (spell === undefined) return GROWING;
      if (this.#visitFrom(spell.from) > t) return UNATTENDED;
      return stay.stage === last ? HELD : BLOCKED;
    }
    const cleanDays = toGrid(this.#plan.stages[stay.stage]!.cleanDays);
    return cleanDays > 0 && this.#visitFrom(stay.to + cleanDays) > t ? CLEANING : -1;
  }

  /** The first visit at or after `t`. */
  #visitFrom(t: number): number {
    const { visits } = this.#plan;
    return visits.kind === 'always' ? t : (visits.days.find((day) => day >= t) ?? Infinity);
  }
}
