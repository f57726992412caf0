/** What a season takes, plant by plant, on any line with any luck: every stay is recorded, and everything adds up. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  DISCARDED,
  FAILED,
  GROWING,
  LOST,
  PICKED,
  PICKED_OUT,
  SOWN,
  STANDING,
  STATE_COUNT,
} from '../../../sim/models/ledger.js';
import { cropCourse } from '../../../sim/models/physical/crop-course.js';
import type { PhysicalPlan } from '../../../sim/models/physical/plan.js';
import { holesOf, seasonDays } from '../../../sim/models/plan.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { expectNear } from '../../support/near.js';
import { takenBy } from '../../support/plant-by-plant.js';
import { type RecordedSeason, recordSeason, type Stay } from '../../support/stays.js';
import { toldOf } from '../../support/told.js';

const SEED = 20270104;
function onEverySeason(law: (season: RecordedSeason, physical: PhysicalPlan) => void): void {
  const property = fc.property(arbitraryPlan(), (bare) => {
    const { plan, physical } = toldOf(bare);
    law(recordSeason(plan, 1), physical);
  });
  fc.assert(property, { seed: SEED, numRuns: 60 });
}

test('each count is that of the stays, and each stage’s growing days too', () => {
  onEverySeason(({ plan, stays, counts, ledger }) => {
    const count = (is: (stay: Stay) => boolean): number => stays.filter(is).length;
    expect(count(({ stage, cuts }) => stage === 0 && cuts === 0)).toBe(counts[SOWN]);
    expect(count(({ ended }) => ended === 'picked' || ended === 'cut')).toBe(counts[PICKED]);
    expect(count(({ ended }) => ended === 'picked')).toBe(counts[PICKED_OUT]);
    expect(count(({ ended }) => ended === 'discarded')).toBe(counts[DISCARDED]);
    expect(count(({ grew }) => grew === 'dead')).toBe(counts[LOST]);
    expect(count(({ grew }) => grew === 'failed')).toBe(counts[FAILED]);
    expect(count(({ ended, grew }) => ended === 'standing' && grew !== 'dead' && grew !== 'failed')).toBe(
      counts[STANDING],
    );
    for (const s of plan.stages.keys()) {
      const growing = stays.filter(({ stage }) => stage === s);
      // Times lie on the grid, so their sums are exact.
      expect(growing.reduce((sum, { from, grownUntil }) => sum + grownUntil - from, 0)).toBe(
        ledger[s * STATE_COUNT + GROWING],
      );
    }
  });
});

test('light, water, tank and money add up', () => {
  let lit = 0;
  onEverySeason((season, physical) => {
    const { plan } = season;
    const courses = plan.crops.map((_, c) => {
      const course = cropCourse(plan, physical, c);
      if (!course?.ok) throw new Error(JSON.stringify(course));
      return course.value;
    });
    const { light, litres, tank, money } = takenBy(season, physical, courses);
    for (const [s, stage] of plan.stages.entries()) {
      const { ppfd, hours } = physical.stages[s]!.lamps!;
      const all = holesOf(stage) * seasonDays(plan) * (stage.holeAreaCm2! / 1e4) * ppfd * hours * 0.0036;
      const parts = Object.values(light[s]!);
      expectNear(
        parts.reduce((sum, mol) => sum + mol),
        all,
        1e-9,
      );
      expect(Math.min(...parts)).toBeGreaterThanOrEqual(-1e-9);
      lit += light[s]!['leaves']!;
    }
    const { transpired, picked, standing, thrownOut, seeds, used } = litres;
    expect(Math.abs(used - (transpired + picked + standing + thrownOut - seeds))).toBeLessThanOrEqual(
      1e-9 * (used + 1),
    );
    expect(Math.min(...litres.usedByVisit)).toBeGreaterThanOrEqual(-1e-12);
    const change = tank.levelL - physical.tank!.fullL;
    expect(Math.abs(tank.toppedUpL - used - tank.drainedL - change)).toBeLessThanOrEqual(1e-9 * (used + 1));
    const parts = Object.values(money.costs).reduce((sum: number, part) => sum + part!, 0);
    expectNear(parts, money.total, 1e-12);
  });
  expect(lit).toBeGreaterThan(0);
});
