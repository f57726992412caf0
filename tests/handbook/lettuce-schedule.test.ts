/**
 * Published staged schedules of lettuce, run day by day, and what Little's law makes of them.
 *
 * Rutgers University Horticultural Engineering, page "Lettuce Production": 1200 seeds a day; 12 days in the growth
 * room, where 960 seedlings are found good enough to go on; 10 days at 81 plants/m2; 14 days at 28 plants/m2. Boards of
 * 2 x 4 ft have 60 or 21 holes. Re-spaced when "21-day-old", harvested on "day 35".
 *
 * Brechner & Both, Hydroponic Lettuce Handbook (Cornell University, Controlled Environment Agriculture, undated):
 * 35 days to a head. Transplanted on day 11 (seen in a secondary copy); re-spaced on day 21, 97 and then
 * 38 plants/m2 (from memory).
 *
 * Populations and areas that follow from these are arithmetic, not published.
 *
 * Days. Here the day of sowing is day 0, and a stage of 12 days is left when 12 days are over. The Rutgers page
 * cannot mean that: 12 + 10 + 14 days end on day 36, and it prints 35; its "12 days in the growth room" count the day
 * of sowing and the day of moving, which makes 11 days over. Both readings are tested.
 */

import { describe, expect, test } from 'vitest';
import { Moments } from '../../sim/engine/tally.js';
import { BLOCKED, GROWING, PICKED, STATE_COUNT, UNSOWN } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import { holesOf, type Plan, type StagePlan } from '../../sim/models/plan.js';
import { notesOf } from '../support/logs.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';
import { expectMean, runSeason, Steady } from '../support/replications.js';

const FT2_M2 = 0.3048 ** 2;
const BOARD_M2 = 2 * 4 * FT2_M2;

const CLOSE_PER_M2 = 81;
const FINAL_PER_M2 = 28;

/** A stage with exactly as many holes as it needs, at a density [1/m2]. */
function spaced(name: string, holes: number, perM2: number): StagePlan {
  return { ...stage(name, holes), holeAreaCm2: 1e4 / perM2 };
}

const WEEKS = 12;

/** `seeds` a day, tended once a day, fixed times. */
function schedule(
  seeds: number,
  stages: readonly StagePlan[],
  days: readonly number[],
  germination = 1,
): Plan {
  const growing = days.map((d) => grow(time(d)));
  return line(stages, [crop(growing, every(1, 7 * WEEKS, seeds), { germination })], {
    weeks: WEEKS,
    visits: visitDays(WEEKS),
  });
}

/** Means over weeks 7 to 12, all full periods of a day: plants by stage, area in use [m2] and heads a day. */
function steadily(plan: Plan) {
  const { counts, ledger, days } = new Steady(plan, 6).run(0);
  expect(counts[UNSOWN]).toBe(0);
  const plants = plan.stages.map((_, s) => {
    expect(ledger[s * STATE_COUNT + BLOCKED]).toBe(0);
    return ledger[s * STATE_COUNT + GROWING]! / days;
  });
  const areas = plan.stages.map(({ holeAreaCm2 }, s) => (plants[s]! * (holeAreaCm2 ?? 0)) / 1e4);
  return { plants, areas, picks: counts[PICKED]! / days };
}

const rutgers = schedule(
  960,
  [
    stage('growth room', 960 * 12),
    spaced('close', 960 * 10, CLOSE_PER_M2),
    spaced('final', 960 * 14, FINAL_PER_M2),
  ],
  [12, 10, 14],
);

describe('Rutgers: 960 seedlings a day, 10 days close and 14 days spaced', () => {
  const { plants, areas, picks } = steadily(rutgers);

  test('9600 plants stand close and 13 440 spaced', () => {
    expect(plants).toEqual([11_520, 9600, 13_440]);
    expect(picks).toBe(960);
  });

  test('they take up 118.5 and 480.0 m2, 598.5 in all', () => {
    expect(areas[1]).toBeCloseTo(118.5, 1);
    expect(areas[2]).toBeCloseTo(480, 1);
    expect(areas[1]! + areas[2]!).toBeCloseTo(598.5, 1);
  });

  test('boards of 60 and 21 holes have the published densities', () => {
    expect(Math.round(60 / BOARD_M2)).toBe(CLOSE_PER_M2);
    expect(Math.round(21 / BOARD_M2)).toBe(FINAL_PER_M2);
  });

  /** The same on boards: `close` of 60 holes and `final` of 21. */
  const onBoards = (close: number, final: number): Plan =>
    schedule(
      960,
      [
        stage('growth room', 960 * 12),
        { ...stage('close', 60), channels: close },
        { ...stage('final', 21), channels: final },
      ],
      [12, 10, 14],
    );

  test('160 boards of 60 holes and 640 boards of 21 are just enough', () => {
    const plan = onBoards(160, 640);
    expect(plan.stages.map(holesOf)).toEqual([11_520, 9600, 13_440]);
    expect(steadily(plan).picks).toBe(960);
  });

  test.each([
    { close: 159, final: 640 },
    { close: 160, final: 639 },
  ])('$close and $final boards are not: seedlings wait, and seeds find no cell', ({ close, final }) => {
    const { counts, ledger } = runSeason(new Line(onBoards(close, final)), 0);
    expect(ledger[BLOCKED]! + ledger[STATE_COUNT + BLOCKED]!).toBeGreaterThan(0);
    expect(counts[UNSOWN]).toBeGreaterThan(0);
  });
});

describe('Rutgers: 1200 seeds a day of which 960 are good enough', () => {
  test('the growth room holds 14 400 cells, because a seedling that fails keeps its cell to the end', () => {
    const plan = schedule(1200, [stage('growth room', 14_400)], [12], 0.8);
    expect(steadily(plan).plants).toEqual([14_400]);
  });

  test('960 a day go on to the boards, within the luck of 1200 coins', () => {
    const stages = [stage('growth room', 14_400), stage('close', 12_000), stage('final', 16_800)];
    const plan = schedule(1200, stages, [12, 10, 14], 0.8);
    const daily = new Map<number, number>();
    runSeason(new Line(plan), 0, {
      onEvent(t, deed, _plant, _crop, to) {
        if (deed === 'move' && to === 1) daily.set(t, (daily.get(t) ?? 0) + 1);
      },
    });
    const moved = new Moments();
    for (const seedlings of daily.values()) moved.add(seedlings);
    // Days 12 to 83; each is a fresh binomial of 1200 and 0.8, standard deviation sqrt(1200 x 0.8 x 0.2) = 13.86.
    expect(moved.count).toBe(7 * WEEKS - 12);
    expectMean(moved, 960, 0.003);
    const deviation = Math.sqrt(1200 * 0.8 * 0.2);
    expect(Math.abs(moved.variance / deviation ** 2 - 1)).toBeLessThan(4 * Math.sqrt(2 / (moved.count - 1)));
  });
});

describe('on which day a head is picked', () => {
  /** Days on which the first seed is sown, moved, moved and picked. */
  function daysOf(times: readonly number[]): number[] {
    const stages = times.map((days, s) => stage(`stage ${s + 1}`, Math.ceil(days)));
    return notesOf(new Line(schedule(1, stages, times)))
      .filter(({ plant, deed }) => plant === 0 && deed !== 'ripen')
      .map(({ t }) => t);
  }

  test('12, 10 and 14 days that are over: moved on days 12 and 22, picked on day 36', () => {
    expect(daysOf([12, 10, 14])).toEqual([0, 12, 22, 36]);
  });

  test('12 days that count the day of sowing are 11 days over: re-spaced at 21 days, picked on day 35 as printed', () => {
    expect(daysOf([12 - 1, 10, 14])).toEqual([0, 11, 21, 35]);
  });

  test('Cornell: 11, 10 and 14 days are days 11, 21 and 35 of the handbook', () => {
    expect(daysOf([11, 10, 14])).toEqual([0, 11, 21, 35]);
  });
});

/** Two spacings one after the other, after a growth room that is not counted. */
function respaced(close: number, closePerM2: number, final: number, finalPerM2: number): Plan {
  const stages = [stage('growth room', 11_000), spaced('final', 1000 * (close + final), finalPerM2)];
  if (close === 0) return schedule(1000, stages, [11, final]);
  return schedule(
    1000,
    [stages[0]!, spaced('close', 1000 * close, closePerM2), stages[1]!],
    [11, close, final],
  );
}

/** Area-days that a head takes up [m2 d]. */
function spaceTime(plan: Plan): number {
  const { areas, picks } = steadily(plan);
  return areas.reduce((sum, area) => sum + area, 0) / picks;
}

describe('area', () => {
  test('Cornell: 1000 heads a day take 103.1 m2 close, 368.4 m2 spaced, 471.5 m2 in all', () => {
    const { plants, areas } = steadily(respaced(10, 97, 14, 38));
    expect(plants.slice(1)).toEqual([10_000, 14_000]);
    expect(areas[1]).toBeCloseTo(103.1, 1);
    expect(areas[2]).toBeCloseTo(368.4, 1);
    expect(areas[1]! + areas[2]!).toBeCloseTo(471.5, 1);
  });

  test('4 in square is 96.9 plants/m2, 8 in square a quarter of that', () => {
    // One plant a square; the area of a full stage of holes that size.
    const perM2 = (inches: number): number => {
      const hole = (inches * 2.54) ** 2;
      const plan = schedule(7, [{ ...stage('pots', 98), holeAreaCm2: hole }], [14]);
      const { plants, areas } = steadily(plan);
      return plants[0]! / areas[0]!;
    };
    expect(perM2(4)).toBeCloseTo(96.9, 1);
    expect(perM2(8)).toBeCloseTo(24.2, 1);
    expect(perM2(4) / perM2(8)).toBeCloseTo(4, 10);
  });

  test('a head takes 0.6235 m2 d at Rutgers and 0.4715 m2 d at Cornell', () => {
    expect(spaceTime(respaced(10, 81, 14, 28))).toBeCloseTo(0.6235, 4);
    expect(spaceTime(respaced(10, 97, 14, 38))).toBeCloseTo(0.4715, 4);
  });

  test.each([
    { at: 'Rutgers', close: 81, final: 28, saved: 27.3 },
    { at: 'Cornell', close: 97, final: 38, saved: 25.3 },
  ])('$at: re-spacing saves $saved % against 24 days at the final spacing', ({ close, final, saved }) => {
    const twice = spaceTime(respaced(10, close, 14, final));
    const once = spaceTime(respaced(0, close, 24, final));
    expect(100 * (1 - twice / once)).toBeCloseTo(saved, 1);
  });

  test('a denser nursery, or more of the time in it, always takes less', () => {
    const byDensity = [60, 81, 97, 120].map((perM2) => spaceTime(respaced(10, perM2, 14, 28)));
    const byShare = [0, 4, 7, 10, 14].map((days) => spaceTime(respaced(days, 81, 24 - days, 28)));
    for (const values of [byDensity, byShare]) {
      for (let i = 1; i < values.length; i++) expect(values[i]).toBeLessThan(values[i - 1]!);
    }
  });
});
