/**
 * What a season takes from one moment to another: held against every single plant of the whole season; and the same where the season is
 * taken up in the middle.
 */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { GROWING, STATE_COUNT } from '../../../sim/models/ledger.js';
import { Line, planDraws } from '../../../sim/models/line/line.js';
import { cropCourse } from '../../../sim/models/physical/crop-course.js';
import { lineMatter, pickL, plantL } from '../../../sim/models/physical/line-matter.js';
import { holesOf, type Plan, seasonDays } from '../../../sim/models/plan.js';
import { TakesColumns } from '../../../sim/models/takes.js';
import { toldOf } from '../../support/all-told.js';
import { arbitraryDatedPlan } from '../../support/arbitrary-physical.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { type Note, Notes } from '../../support/logs.js';
import { takenBy } from '../../support/plant-by-plant.js';
import { recordSeason } from '../../support/stays.js';
import { afterTaking, openingAt } from '../../support/taken-up.js';

const SEED = 20270405;

/** Notes, and what was taken by each of some moments. */
class Ear extends Notes {
  readonly taken: Float64Array[] = [];
  readonly takesAt: readonly number[];

  constructor(takesAt: readonly number[]) {
    super();
    this.takesAt = takesAt;
  }

  onTakes(t: number, taken: Float64Array): void {
    expect(t).toBe(this.takesAt[this.taken.length]);
    this.taken.push(Float64Array.from(taken));
  }

  /** What was taken between each of the moments and the next. */
  get spans(): number[][] {
    return this.taken.slice(1).map((taken, i) => [...taken].map((figure, k) => figure - this.taken[i]![k]!));
  }
}

/** Every fifth day from one on, and the end. */
function momentsFrom(day: number, plan: Plan): number[] {
  const end = seasonDays(plan);
  const days = Array.from({ length: end - day }, (_, i) => day + i + 1);
  return days.filter((one, i) => i % 5 === 0 || one === end);
}

const anyPlan = arbitraryPlan().map((bare): Plan => {
  const { plan, physical } = toldOf(bare);
  return { ...plan, physical };
});

/** A whole season, what every plant of it took, and its rest, taken up after the visit of a day. */
function heard(plan: Plan, day: number) {
  const moments = momentsFrom(day, plan);
  const record = recordSeason(plan, plan.seed);
  const whole = new Ear(moments);
  new Line(plan).run(plan.seed, 0, whole);
  const { opening, taken } = openingAt(plan, whole.rows, day, record.stays);
  const luck = planDraws(plan);
  const drawsOf = (c: number, s: number) => afterTaking(luck(c, s), taken[c]![s]!);
  const rest = new Ear(moments);
  const line = new Line(plan, { drawsOf });
  // Nothing is left behind by a season that the line has run before.
  line.run(plan.seed, 1);
  const season = line.run(plan.seed, 0, rest, opening);
  return { moments, record, whole, rest, season, opening };
}

/** Litres that were used in a span: what went into the plants and through them. */
function usedL(plan: Plan, columns: TakesColumns, span: readonly number[]): number {
  const matter = lineMatter(plan)!;
  const inPicks = plan.crops.reduce((l, _, c) => l + span[columns.picked(c)]! * pickL(matter, c), 0);
  const inSeeds = plan.crops.reduce(
    (l, _, c) => l + span[columns.sown(c)]! * plantL(matter, c, matter.courses[c]!.curves[0]!.fromG),
    0,
  );
  const given = plan.stages.reduce((l, _, s) => l + span[columns.transpired(s)]!, 0);
  return given + inPicks + span[columns.standing]! + span[columns.thrownOut]! - inSeeds;
}

/** Plants that left a hole that is cleaned then. */
function cleanedBy(plan: Plan, rows: readonly Note[], isIn: (t: number) => boolean): number {
  const picks = new Map<number, number>();
  let cleaned = 0;
  for (const { t, deed, plant, crop, stage } of rows) {
    if (deed === 'pick') picks.set(plant, (picks.get(plant) ?? 0) + 1);
    const leaves =
      deed === 'move' || deed === 'clear' || deed === 'discard'
        ? true
        : deed === 'pick' && picks.get(plant) === plan.crops[crop]!.cuts;
    const left = deed === 'move' ? stage - 1 : stage;
    if (leaves && isIn(t) && plan.stages[left]!.cleanDays > 0) cleaned++;
  }
  return cleaned;
}

function onAnySeason(
  law: (told: ReturnType<typeof heard>, plan: Plan) => void,
  numRuns: number,
  plans: fc.Arbitrary<Plan> = anyPlan,
): void {
  let told = 0;
  const property = fc.property(plans, fc.nat(1000), (plan, pick) => {
    const visits = plan.visits.kind === 'days' ? plan.visits.days : [];
    const days = visits.filter((day) => day < seasonDays(plan) - 6);
    if (days.length === 0) return;
    const one = heard(plan, days[pick % days.length]!);
    if (one.opening.plants.next.length === 0) return;
    told++;
    law(one, plan);
  });
  fc.assert(property, { seed: SEED, numRuns });
  expect(told).toBeGreaterThan(numRuns / 5);
}

test('between any two moments is what every single plant took', () => {
  let litres = 0;
  onAnySeason(({ moments, record, whole }, plan) => {
    const columns = new TakesColumns(plan, lineMatter(plan)!);
    const courses = plan.crops.map((_, c) => {
      const course = cropCourse(plan, plan.physical!, c);
      if (!course?.ok) throw new Error(JSON.stringify(course));
      return course.value;
    });
    const { usedByVisit, used } = takenBy({ ...record, visits: moments }, plan.physical!, courses).litres;
    whole.spans.forEach((span, i) => {
      const found = usedL(plan, columns, span);
      // Both are sums of many parts: right to the last digits of the whole.
      expect(Math.abs(found - usedByVisit[i + 1]!)).toBeLessThanOrEqual(1e-9 * used + 1e-12);
      litres += found;
      const isIn = (t: number): boolean => moments[i]! <= t && t < moments[i + 1]!;
      const count = (...deeds: Note['deed'][]): number =>
        whole.rows.filter(({ t, deed }) => isIn(t) && deeds.includes(deed)).length;
      const ofCrops = (column: (c: number) => number): number =>
        plan.crops.reduce((sum, _, c) => sum + span[column(c)]!, 0);
      expect(ofCrops((c) => columns.sown(c))).toBe(count('sow'));
      expect(ofCrops((c) => columns.picked(c))).toBe(count('pick'));
      expect(span[columns.moved]).toBe(count('move'));
      expect(span[columns.cleared]).toBe(count('clear', 'discard'));
      expect(span[columns.cleaned]).toBe(cleanedBy(plan, whole.rows, isIn));
    });
  }, 60);
  expect(litres).toBeGreaterThan(10);
});

test.each([
  ['in one air', anyPlan],
  ['where air and growth change by date', arbitraryDatedPlan()],
])(
  'is the same where the season is taken up in the middle, and leaves catch no more than falls on growing plants: %s',
  (_, plans) => {
    let leaves = 0;
    onAnySeason(
      ({ whole, rest, season, opening, moments }, plan) => {
        const columns = new TakesColumns(plan, lineMatter(plan)!);
        const all = whole.taken.at(-1)!;
        expect(rest.spans).toHaveLength(whole.spans.length);
        rest.spans.forEach((span, i) => {
          span.forEach((figure, k) => {
            expect(Math.abs(figure - whole.spans[i]![k]!)).toBeLessThanOrEqual(
              1e-9 * Math.abs(all[k]!) + 1e-12,
            );
          });
        });
        expect(season.takes).toBeNull();
        plan.stages.forEach((stage, s) => {
          const states = season.ledger.subarray(s * STATE_COUNT, (s + 1) * STATE_COUNT);
          const onLeaves = rest.taken.at(-1)![columns.leafDays(s)]! - rest.taken[0]![columns.leafDays(s)]!;
          // A day may pass until the first moment.
          expect(onLeaves).toBeLessThanOrEqual(
            states[GROWING]! + states.subarray(2, 5).reduce((a, b) => a + b) + 1e-9,
          );
          expect(onLeaves).toBeGreaterThanOrEqual(-1e-9);
          expect(states.reduce((days, more) => days + more, 0)).toBe(
            holesOf(stage) * (seasonDays(plan) - opening.day),
          );
          leaves += onLeaves;
        });
        expect(moments[0]).toBeGreaterThan(opening.day);
      },
      60,
      plans,
    );
    expect(leaves).toBeGreaterThan(10);
  },
);
