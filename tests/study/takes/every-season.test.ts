/**
 * What a season takes, the fast way, against every plant followed by itself (tests/support/plant-by-plant.ts), on any line with any luck;
 * and what must add up. `IN_FULL=1` tries 2000 lines, every run some of them.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { quantileOf } from '../../../sim/engine/tally.js';
import { Line } from '../../../sim/models/line/line.js';
import { lineMatter } from '../../../sim/models/physical/line-matter.js';
import { holesOf, type Plan, seasonDays } from '../../../sim/models/plan.js';
import { Tallies } from '../../../sim/seasons/tallies.js';
import { type Amounts, amountsOf } from '../../../sim/study/takes/amounts.js';
import { arbitraryDatedPlan, arbitraryFullPlan } from '../../support/arbitrary-physical.js';
import { expectNear } from '../../support/near.js';
import { takenBy } from '../../support/plant-by-plant.js';
import { repeats } from '../../support/repeats.js';
import { recordSeason } from '../../support/stays.js';
import { TANK } from '../../support/told.js';

const LINES = repeats(60, 2000);

/** Both ways have the same equations and 16 digits; they add up thousands of stays in another order. */
const SAME = 1e-9;

function amountsOfSeason(plan: Plan): Required<Amounts> {
  const tallies = new Tallies(plan);
  tallies.add(new Line(plan).run(plan.seed, 0));
  return amountsOf({ plan, tallies, whole: tallies }) as Required<Amounts>;
}

function onEveryLine(
  law: (plan: Plan, amounts: Required<Amounts>) => void,
  plans: readonly fc.Arbitrary<Plan>[] = [arbitraryFullPlan(), arbitraryDatedPlan()],
): void {
  for (const some of plans) {
    const property = fc.property(some, (plan) => law(plan, amountsOfSeason(plan)));
    fc.assert(property, { seed: 20270104, numRuns: LINES });
  }
}

function sum(parts: readonly number[]): number {
  return parts.reduce((all, part) => all + part, 0);
}

/** Near, where the whole of which it is a part says how near. */
function expectPart(found: number, known: number, whole: number, what: string): void {
  expect(Math.abs(found - known), `${what}: ${found} for ${known}`).toBeLessThanOrEqual(
    SAME * Math.abs(whole),
  );
}

describe('against every plant by itself', () => {
  test.each([
    ['in one air', arbitraryFullPlan()],
    ['where air and growth change by date', arbitraryDatedPlan()],
  ])('light on leaves and on gaps, water, tank, minutes and money are the same %s', (_, plans) => {
    onEveryLine(
      (plan, amounts) => {
        const { physical, visits } = plan;
        const { courses } = lineMatter(plan)!;
        const always = visits.kind === 'always';
        // Whoever follows plants takes a tank and work for granted.
        const work = { sowS: 0, moveS: 0, pickS: 0, clearS: 0, cleanS: 0, visitMin: 0, tankMin: 0 };
        const told = always ? { ...physical!, tank: TANK, work } : physical!;
        const taken = takenBy(
          recordSeason(plan, plan.seed),
          told,
          courses as NonNullable<(typeof courses)[number]>[],
        );
        for (const [s, { mol }] of amounts.light.stages.entries()) {
          const all = sum(Object.values(taken.light[s]!));
          for (const [part, known] of Object.entries(taken.light[s]!))
            expectPart(mol![part]!, known, all, part);
          if (taken.light[s]!['leaves']! > 1e-6 * all)
            expectNear(mol!['leaves']!, taken.light[s]!['leaves']!, SAME, 'leaves');
        }
        const { litres } = taken;
        const { water } = amounts;
        const pairs = {
          transpired: [water.transpired_l, litres.transpired],
          picked: [water.picked_l, litres.picked],
          standing: [water.standing_l, litres.standing],
          thrownOut: [water.thrown_out_l, litres.thrownOut],
          seeds: [water.seeds_l, litres.seeds],
          used: [water.used_l, litres.used],
        };
        for (const [what, [found, known]] of Object.entries(pairs))
          expectPart(found!, known!, litres.used + litres.seeds, what);
        if (always) return;
        expectPart(amounts.tank.topped_up_l!, taken.tank.toppedUpL, taken.tank.toppedUpL + 1, 'topped up');
        expectPart(amounts.tank.drained_l!, taken.tank.drainedL, taken.tank.toppedUpL + 1, 'drained');
        expectPart(
          amounts.tank.most_between_visits_l!,
          taken.tank.mostBetweenVisitsL,
          litres.used + litres.seeds,
          'most used',
        );
        expectPart(amounts.tank.lowest_l!, taken.tank.lowestL, physical!.tank!.fullL, 'lowest');
        expect(amounts.tank.ec_good_days).toBe(taken.tank.ecGoodDays(seasonDays(plan)));
        for (const [deed, known] of Object.entries(taken.minutes)) {
          expectNear(amounts.work.minutes[deed as keyof typeof taken.minutes], known, SAME, deed);
        }
        const sorted = [...taken.visitMinutes].sort((a, b) => a - b);
        for (const [p, found] of Object.entries(amounts.work.visit_min ?? {})) {
          const known = quantileOf(Number(p.slice(1)) / 100, sorted.length, (rank) => sorted[rank]!);
          expectNear(found, known, SAME, `a visit, ${p}`);
        }
        expect(amounts.work.visit_min === null).toBe(sorted.length === 0);
        const { costs, total, revenue } = taken.money;
        for (const [part, known] of Object.entries(costs)) {
          expectPart(amounts.money.cost[part as keyof typeof costs]!, known!, total, part);
        }
        expectPart(amounts.money.cost.total, total, total, 'total');
        expectNear(amounts.money.revenue!, revenue!, SAME, 'revenue');
      },
      [plans],
    );
  });
});

describe('what must add up, in every season', () => {
  test('the parts of the light of a stage are its holes x days x area x light of a day', () => {
    onEveryLine((plan, { light }) => {
      for (const [s, stage] of plan.stages.entries()) {
        const { ppfd, hours } = plan.physical!.stages[s]!.lamps!;
        const paid = holesOf(stage) * seasonDays(plan) * (stage.holeAreaCm2! / 1e4) * ppfd * hours * 0.0036;
        const parts = Object.values(light.stages[s]!.mol!) as number[];
        expect(parts).toHaveLength(10);
        expectNear(sum(parts), paid, SAME);
        for (const part of parts) expect(part).toBeGreaterThanOrEqual(-SAME * paid);
      }
    });
  });

  test('litres used are given off, in what was picked, stands or was thrown out, less what was in the seeds', () => {
    onEveryLine((_, { water }) => {
      const { used_l, transpired_l, picked_l, standing_l, thrown_out_l, seeds_l } = water;
      expectPart(
        used_l,
        transpired_l + picked_l + standing_l + thrown_out_l - seeds_l,
        used_l + seeds_l,
        'used',
      );
    });
  });

  test('what the tank got, less what was used and drained, is the change of its level', () => {
    onEveryLine((plan, { tank, water }) => {
      if (plan.visits.kind === 'always') return;
      // Full after the last visit, so it lacks at the end what was used since.
      const days = plan.visits.days.filter((day) => day < seasonDays(plan));
      const sinceLast = water.used_l - (tank.topped_up_l! - tank.drained_l!);
      const change = tank.topped_up_l! - water.used_l - tank.drained_l!;
      expectPart(change, -sinceLast, water.used_l + 1, 'level');
      expect(sinceLast).toBeGreaterThanOrEqual(-SAME * (water.used_l + water.seeds_l));
      expect(sinceLast).toBeLessThanOrEqual(
        tank.most_between_visits_l! + SAME * (water.used_l + water.seeds_l),
      );
      if (days.length === 0) expect(tank.topped_up_l).toBe(0);
    });
  });

  test('the parts of the cost are the cost', () => {
    onEveryLine((_, { money }) => {
      const { total, ...parts } = money.cost;
      expectNear(sum(Object.values(parts).map((part) => part ?? 0)), total, SAME);
    });
  });
});
