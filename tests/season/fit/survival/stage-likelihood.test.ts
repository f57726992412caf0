/**
 * The likelihood of a stage against formulas written out for small records. Likelihoods are compared by their
 * differences between parameters: constants (in how many ways plants can be picked) are left out of them.
 */

import { describe, expect, test } from 'vitest';
import { fittedLaw } from '../../../../sim/season/fit/survival/laws.js';
import type { Group, StageRecord } from '../../../../sim/season/fit/survival/record.js';
import { StageLikelihood } from '../../../../sim/season/fit/survival/stage-likelihood.js';

const TRIALS = [
  { mean: 14, cv: 0.15, loss: 0.08 },
  { mean: 13, cv: 0.15, loss: 0.08 },
  { mean: 15, cv: 0.2, loss: 0.03 },
  { mean: 14.5, cv: 0.1, loss: 0.2 },
];

type Trial = (typeof TRIALS)[number];

const lawOf = ({ mean, cv }: Trial) => fittedLaw('lognormal', mean, cv);
/** Chance of being ready by an age, of a plant that is not lost. */
const readyBy = (trial: Trial, age: number): number => (age > 0 ? lawOf(trial).share(age) : 0);
const lostBy = (trial: Trial, age: number): number => (age > 0 ? lawOf(trial).endedBy(age) : 0);

function values(record: StageRecord, germination = 1, unit = 1 / 16, cleared = 1): number[] {
  const likelihood = new StageLikelihood(record, 1, unit);
  return TRIALS.map((trial) =>
    likelihood.value([{ law: lawOf(trial), loss: trial.loss, germination, cleared }], 0),
  );
}

/** Every difference to the first trial must be that of the formula. */
function hold(found: readonly number[], formula: (trial: Trial) => number, error: number): void {
  for (const [i, trial] of TRIALS.entries()) {
    const expected = Math.log(formula(trial)) - Math.log(formula(TRIALS[0]!));
    expect(Math.abs(found[i]! - found[0]! - expected)).toBeLessThan(error);
  }
}

const visitsOn = (days: readonly number[], short: readonly number[] = []) =>
  days.map((day) => ({ day, short: short.includes(day) }));

const group = (rest: Partial<Group>): Group => ({
  kind: 0,
  entries: [{ day: 0, count: 1 }],
  ready: [],
  dead: [],
  standing: 0,
  ...rest,
});

describe('with holes left over at every visit', () => {
  test('moved, died and standing plants count between the visits around them', () => {
    const record = {
      visits: visitsOn([0, 4, 11, 14, 18]),
      groups: [
        group({
          entries: [{ day: 0, count: 7 }],
          ready: [
            { visit: 3, count: 3 },
            { visit: 4, count: 1 },
          ],
          dead: [{ visit: 2, count: 1 }],
          standing: 2,
        }),
      ],
    };
    hold(
      values(record),
      (trial) => {
        const lives = 1 - trial.loss;
        const moved3 = lives * (readyBy(trial, 14) - readyBy(trial, 11));
        const moved4 = lives * (readyBy(trial, 18) - readyBy(trial, 14));
        const died = trial.loss * (lostBy(trial, 11) - lostBy(trial, 4));
        const stands = lives * (1 - readyBy(trial, 18)) + trial.loss * (1 - lostBy(trial, 18));
        return moved3 ** 3 * moved4 * died * stands ** 2;
      },
      1e-9,
    );
  });

  test('a cleared seed either failed at the end of its time or died before', () => {
    const germination = 0.9;
    const record = {
      visits: visitsOn([0, 10, 14]),
      groups: [
        group({
          entries: [{ day: 0, count: 2 }],
          ready: [{ visit: 2, count: 1 }],
          dead: [{ visit: 1, count: 1 }],
        }),
      ],
    };
    hold(
      values(record, germination),
      (trial) =>
        (1 - trial.loss) *
        (readyBy(trial, 14) - readyBy(trial, 10)) *
        (germination * trial.loss * lostBy(trial, 10) + (1 - germination) * readyBy(trial, 10)),
      1e-9,
    );
  });

  test('where what is dead is cleared now and then only, a clearing bounds its end from above', () => {
    // Chances written out visit by visit for one plant that is seen on days 5, 10 and 14.
    const [germination, cleared] = [0.9, 0.3];
    const record = {
      visits: visitsOn([0, 5, 10, 14]),
      groups: [group({ entries: [{ day: 0, count: 2 }], dead: [{ visit: 3, count: 1 }], standing: 1 })],
    };
    hold(
      values(record, germination, 1 / 16, cleared),
      (trial) => {
        const lostOf = (by: (trial: Trial, age: number) => number, least: number): number =>
          (by(trial, 5) - by(trial, 0)) * least ** 2 +
          (by(trial, 10) - by(trial, 5)) * least +
          (by(trial, 14) - by(trial, 10));
        const [died, failed] = [germination * trial.loss, 1 - germination];
        const dead = died * lostOf(lostBy, 0.7) + failed * lostOf(readyBy, 0.7);
        const unseen = 0.7 * dead;
        const alive =
          germination * ((1 - trial.loss) * (1 - readyBy(trial, 14)) + trial.loss * (1 - lostBy(trial, 14))) +
          failed * (1 - readyBy(trial, 14));
        return cleared * dead * (unseen + alive);
      },
      1e-9,
    );
  });

  test('of a batch that came in on two dates every way of telling the plants apart counts', () => {
    const record = {
      visits: visitsOn([0, 3, 14, 17]),
      groups: [
        group({
          entries: [
            { day: 0, count: 1 },
            { day: 3, count: 1 },
          ],
          ready: [
            { visit: 2, count: 1 },
            { visit: 3, count: 1 },
          ],
        }),
      ],
    };
    hold(
      values(record),
      (trial) => {
        const early = (from: number, to: number): number => readyBy(trial, to) - readyBy(trial, from);
        const firstThenSecond = early(3, 14) * early(14 - 3, 17 - 3);
        const secondThenFirst = early(0, 14 - 3) * early(14, 17);
        return (1 - trial.loss) ** 2 * (firstThenSecond + secondThenFirst);
      },
      1e-9,
    );
  });

  test('kinds do not concern each other', () => {
    const mine = group({ ready: [{ visit: 1, count: 1 }] });
    const record = (other: Group[]) => ({ visits: visitsOn([0, 14]), groups: [mine, ...other] });
    const alone = new StageLikelihood(record([]), 2, 1 / 4);
    const beside = new StageLikelihood(record([{ ...mine, kind: 1 }]), 2, 1 / 4);
    const chances = [14, 20].map((mean) => ({
      law: fittedLaw('gamma', mean, 0.2),
      loss: 0,
      germination: 1,
      cleared: 1,
    }));
    expect(beside.kindsTogether).toBe(false);
    expect(beside.value(chances, 0)).toBe(alone.value(chances, 0));
  });
});

describe('at visits with too few holes', () => {
  test('of one batch: as many had become ready as left, or more', () => {
    // Five plants; two holes at day 12, holes for all at day 16. So two or more were ready by 12 and all that
    // left by 16.
    const record = {
      visits: visitsOn([0, 8, 12, 16], [12]),
      groups: [
        group({
          entries: [{ day: 0, count: 5 }],
          ready: [
            { visit: 2, count: 2 },
            { visit: 3, count: 2 },
          ],
          standing: 1,
        }),
      ],
    };
    hold(
      values(record),
      (trial) => {
        const lives = 1 - trial.loss;
        const before = readyBy(trial, 12) - readyBy(trial, 8);
        const after = readyBy(trial, 16) - readyBy(trial, 12);
        const ways = 6 * before ** 2 * after ** 2 + 4 * before ** 3 * after + before ** 4;
        const stands = lives * (1 - readyBy(trial, 16)) + trial.loss * (1 - lostBy(trial, 16));
        return lives ** 4 * ways * stands;
      },
      // What two grids leave of the error of cells of an eighth of a day.
      1e-4,
    );
  });

  test('of one plant: it became ready in the day between two daily visits, also where that is one cell of the grid', () => {
    const record = {
      visits: visitsOn([0, 13, 14], [14]),
      groups: [group({ ready: [{ visit: 2, count: 1 }] })],
    };
    const found = values(record, 1, 1 / 4);
    for (const [i, trial] of TRIALS.entries()) {
      const chance = (1 - trial.loss) * (readyBy(trial, 14) - readyBy(trial, 13));
      expect(found[i]).toBeCloseTo(Math.log(chance), 9);
    }
  });

  test('what was tried before makes no difference', () => {
    const record = {
      visits: visitsOn([0, 8, 12, 16, 20], [12, 16]),
      groups: [
        group({
          entries: [{ day: 0, count: 5 }],
          ready: [
            { visit: 2, count: 2 },
            { visit: 3, count: 2 },
            { visit: 4, count: 1 },
          ],
        }),
      ],
    };
    const likelihood = new StageLikelihood(record, 1, 1 / 4);
    // Times so narrow that each leaves other fronts to look at.
    const value = (mean: number): number =>
      likelihood.value([{ law: fittedLaw('lognormal', mean, 0.03), loss: 0, germination: 1, cleared: 1 }], 0);
    const first = value(11);
    value(15);
    value(19);
    expect(value(11)).toBe(first);
  });

  test('a visit at which nobody found a hole says nothing', () => {
    const left = group({ entries: [{ day: 0, count: 2 }], ready: [{ visit: 3, count: 2 }] });
    const with12 = values({ visits: visitsOn([0, 8, 12, 16], [12]), groups: [left] });
    const without12 = values({
      visits: visitsOn([0, 8, 16]),
      groups: [{ ...left, ready: [{ visit: 2, count: 2 }] }],
    });
    for (const i of TRIALS.keys()) expect(with12[i]).toBeCloseTo(without12[i]!, 12);
  });

  test('of two batches: those that left had been ready longer than all that stayed, whatever their batch', () => {
    // Batch A from day 0, B from day 2. At 14 two of A and one of B found holes; at 18 all the rest that were
    // ready did.
    const record = {
      visits: visitsOn([0, 2, 14, 18], [14]),
      groups: [
        group({
          entries: [{ day: 0, count: 3 }],
          ready: [
            { visit: 2, count: 2 },
            { visit: 3, count: 1 },
          ],
        }),
        group({
          entries: [{ day: 2, count: 2 }],
          ready: [
            { visit: 2, count: 1 },
            { visit: 3, count: 1 },
          ],
        }),
      ],
    };
    hold(
      values(record),
      (trial) => {
        // The front is where the last of the three became ready: its density times the chance of the rest,
        // over all fronts by midpoints of 4000 parts of the 12 days before the visit.
        const a = (t: number): number => readyBy(trial, t);
        const b = (t: number): number => readyBy(trial, t - 2);
        const product = (t: number): number => (a(t) - a(2)) ** 2 * b(t);
        let sum = 0;
        const step = 12 / 4000;
        for (let t = 2 + step / 2; t < 14; t += step) {
          const density = (product(t + step / 2) - product(t - step / 2)) / step;
          sum += density * (a(18) - a(t)) * (b(18) - b(t)) * step;
        }
        return (1 - trial.loss) ** 5 * sum;
      },
      1e-4,
    );
  });

  test('of mixed batches: near the sum over every way of telling the plants apart', () => {
    // Two batches that came in on days 0 and 3 (two and two plants) and on 3 and 7; short of holes at 15 and
    // at 18.
    const record = {
      visits: visitsOn([0, 3, 7, 15, 18, 22], [15, 18]),
      groups: [
        group({
          entries: [
            { day: 0, count: 2 },
            { day: 3, count: 2 },
          ],
          ready: [
            { visit: 3, count: 2 },
            { visit: 4, count: 1 },
            { visit: 5, count: 1 },
          ],
        }),
        group({
          entries: [
            { day: 3, count: 2 },
            { day: 7, count: 2 },
          ],
          ready: [
            { visit: 3, count: 1 },
            { visit: 4, count: 1 },
            { visit: 5, count: 2 },
          ],
        }),
      ],
    };
    const formula = (trial: Trial): number => {
      // The same few ages occur over and over.
      const known = new Map<number, number>();
      const by = (entry: number, t: number): number => {
        const age = t - entry;
        const found = known.get(age) ?? readyBy(trial, age);
        known.set(age, found);
        return found;
      };
      /**
       * Chance that both batches left as they did, their plants ready between the given ends, by counting.
       */
      const chanceOf = (intervals: readonly (readonly [number, number])[]): number => {
        const batch = (entries: readonly number[], counts: readonly number[]): number => {
          const go = (v: number, n: number, left: readonly number[]): number => {
            if (v === counts.length) return 1;
            if (n === counts[v]) return go(v + 1, 0, left);
            const [from, to] = intervals[v]!;
            let sum = 0;
            for (const [j, plants] of left.entries()) {
              if (plants === 0) continue;
              const chance = Math.max(0, by(entries[j]!, to) - by(entries[j]!, from));
              sum += chance * go(v, n + 1, left.with(j, plants - 1));
            }
            return sum;
          };
          return go(0, 0, [2, 2]);
        };
        return batch([0, 3], [2, 1, 1]) * batch([3, 7], [1, 1, 2]);
      };
      const step = 1 / 8;
      const h = step / 2;
      /**
       * That the last to leave at 15 and at 18 were ready in the cells about two fronts: growth by both ends.
       */
      const cell = (f1: number, f2: number): number => {
        const ending = (end1: number, end2: number): number =>
          chanceOf([
            [7, end1],
            [f1, end2],
            [f2, 22],
          ]);
        return (
          ending(f1 + h, f2 + h) - ending(f1 - h, f2 + h) - ending(f1 + h, f2 - h) + ending(f1 - h, f2 - h)
        );
      };
      let sum = 0;
      for (let f1 = 7 + step / 2; f1 < 15; f1 += step) {
        for (let f2 = f1 + step; f2 < 18; f2 += step) sum += cell(f1, f2);
      }
      return (1 - trial.loss) ** 8 * sum;
    };
    // Paths of fronts stand for all fronts: an approximation (cutoff-paths.ts). It must stay below a tenth of
    // the fall that an interval turns on (1.92).
    hold(values(record), formula, 0.19);
  });
});
