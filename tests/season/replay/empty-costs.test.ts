/** What empty holes cost in light and money, on a line that can be followed on paper. */

import { describe, expect, test } from 'vitest';
import type { LampPlan, PhysicalPlan, Prices } from '../../../sim/models/physical/plan.js';
import type { Plan } from '../../../sim/models/plan.js';
import { replaySeason } from '../../../sim/season/replay/replay.js';
import type { ReplayResult } from '../../../sim/season/replay/result.js';
import { expectNear } from '../../support/near.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';
import { lampsAndNoMore } from '../../support/told.js';

const WEEKS = 6;

/** 6 W for 16 h over 3 cells: 0.032 kWh a cell and day. */
const METERED: LampPlan = { ppfd: 150, hours: 16, power: { kind: 'metered', watts: 6 } };
/** 400 cm2 under 250 umol for 16 h, of 2.5 umol/J of which 0.8 arrive: 0.08 kWh a hole and day. */
const MADE: LampPlan = { ppfd: 250, hours: 16, power: { kind: 'made', efficacy: 2.5, reaches: 0.8 } };
const DARK: LampPlan = { ppfd: 0, hours: 0, power: null };
const PRICES: Prices = {
  kwh: 0.3,
  waterM3: null,
  nutrientsL: null,
  plug: null,
  hour: null,
  holeDay: 0.004,
  otherDay: null,
  crops: [{ seed: null, sale: null }],
};

function told(tray: LampPlan | null, bed: LampPlan | null, prices: Prices | null): PhysicalPlan {
  return lampsAndNoMore([tray, bed], { prices });
}

/**
 * A seed a day, 3 days in the tray, 7 in the bed, a visit every day: while it fills, the tray has 2 + 1 empty hole-days and the bed
 * 3 x 7 + 6 + 5 + 4 + 3 + 2 + 1; no hole is ever empty after that.
 */
const full = line(
  [
    { ...stage('tray', 3), holeAreaCm2: 25 },
    { ...stage('bed', 7), holeAreaCm2: 400 },
  ],
  [crop([grow(time(3)), grow(time(7))], every(1, 7 * WEEKS, 1))],
  { weeks: WEEKS, visits: visitDays(WEEKS) },
);
const [TRAY, BED] = [3, 42];

function replayed(physical: PhysicalPlan | null, of: Plan = full, done: Plan = of): ReplayResult {
  const plan = physical === null ? of : { ...of, physical };
  const found = replaySeason(simulatedLog(done, 1, 0), ['tray', 'bed'], plan);
  if (!found.ok) throw new Error(JSON.stringify(found.faults));
  return found.value;
}

describe('a line that only ever fills', () => {
  test('costs its empty hole-days in kWh, and at the prices of light and of a hole', () => {
    const { empty_cost, stages } = replayed(told(METERED, MADE, PRICES));
    expect(stages.map(({ ledger }) => ledger.empty)).toEqual([TRAY, BED]);
    expect(empty_cost!.hole_days).toBe(45);
    expectNear(empty_cost!.kwh!, 3 * 0.032 + 42 * 0.08, 1e-12);
    expectNear(empty_cost!.cost!, 3 * (0.032 * 0.3 + 0.004) + 42 * (0.08 * 0.3 + 0.004), 1e-12);
    expect(empty_cost!.causes).toEqual([
      { kind: 'filling', hole_days: 45, kwh: empty_cost!.kwh, cost: empty_cost!.cost },
    ]);
  });

  test('a dark stage draws nothing, but its holes wear', () => {
    const { empty_cost } = replayed(told(DARK, MADE, PRICES));
    expectNear(empty_cost!.kwh!, 42 * 0.08, 1e-12);
    expectNear(empty_cost!.cost!, 3 * 0.004 + 42 * 0.028, 1e-12);
    expect(empty_cost!.stages[0]).toEqual({ name: 'tray', kwh: 0, cost: 0.004 });
  });

  test('of a stage whose lamps are not told no kWh are told, never 0', () => {
    const { empty_cost } = replayed(told(null, MADE, PRICES));
    expect(empty_cost!.stages[0]).toEqual({ name: 'tray', kwh: null, cost: 0.004 });
    expectNear(empty_cost!.kwh!, 42 * 0.08, 1e-12);
    expect(replayed(told(null, null, PRICES)).empty_cost).toMatchObject({ hole_days: 45, kwh: null });
  });

  test('without prices it is kWh only, and with neither nothing', () => {
    expect(replayed(told(METERED, MADE, null)).empty_cost).toMatchObject({ hole_days: 45, cost: null });
    expect(replayed(told(null, null, null))).not.toHaveProperty('empty_cost');
    expect(replayed(null)).not.toHaveProperty('empty_cost');
  });
});

test('a hole that stood free for six days while nobody came costs six of its hole-days', () => {
  const [tray, bed] = full.stages;
  const wide: Plan = {
    ...full,
    stages: [
      { ...tray!, channels: 1, holesPerChannel: 4 },
      { ...bed!, channels: 1, holesPerChannel: 8 },
    ],
  };
  // The bed has one hole more than plants; nobody comes from day 20 to 25.
  const there = Array.from({ length: 7 * WEEKS }, (_, day) => day).filter((day) => day < 20 || day > 25);
  const { empty_cost, idle, stages } = replayed(told(METERED, MADE, PRICES), wide, {
    ...wide,
    visits: { kind: 'days', days: there },
  });
  const absent = idle.findIndex(({ stage: name, cause }) => name === 'bed' && cause.kind === 'absent');
  expect(empty_cost!.spells[absent]!.hole_days).toBe(6);
  expectNear(empty_cost!.spells[absent]!.kwh!, 6 * 0.08, 1e-12);
  expectNear(empty_cost!.spells[absent]!.cost!, 6 * 0.028, 1e-12);
  // 6 W over 4 cells are 0.024 kWh a cell and day. Causes have what their spells have, and all that stood empty is in one of them.
  for (const { kind, hole_days, kwh } of empty_cost!.causes) {
    const days = (of: string): number =>
      idle.reduce((sum, one) => sum + (one.stage === of && one.cause.kind === kind ? one.hole_days : 0), 0);
    expect(hole_days).toBe(days('tray') + days('bed'));
    expectNear(kwh!, days('tray') * 0.024 + days('bed') * 0.08, 1e-12);
  }
  const empty = stages.map(({ ledger }) => ledger.empty);
  expectNear(empty_cost!.kwh!, empty[0]! * 0.024 + empty[1]! * 0.08, 1e-12);
});
