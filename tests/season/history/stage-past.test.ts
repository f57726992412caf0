/**
 * Pasts that agree with the log come up as often as they are likely. The chances are worked out by hand; rounds follow on each
 * other, so of many only every fifth is counted, and 5 standard errors are allowed.
 */

import { describe, expect, test } from 'vitest';
import { openStream, stream } from '../../../sim/engine/random.js';
import type { Growing } from '../../../sim/models/plan.js';
import { GrowthLaw } from '../../../sim/season/history/growth-law.js';
import type { Growth } from '../../../sim/season/history/growths.js';
import { type Fate, StagePast } from '../../../sim/season/history/stage-past.js';
import { exponential, grow, observed, time } from '../../support/plans.js';

const COUNTED = 4000;
const APART = 5;

/** A plant of batch 0; it stands, unless it is said how it left and at which visit. */
function plant(from: number, left: Partial<Growth> = {}): Growth {
  return { count: 1, batch: 0, crop: 0, phase: 0, visit: -1, end: 'standing', from, queued: false, ...left };
}

interface Told {
  readonly growth: Growth;
  readonly fate: Fate;
  readonly at: number;
  readonly overdue: boolean;
}

/**
 * What is told of the plants that stand, in many pasts.
 * @param growing of crop 0
 * @param short places of visits at which holes were short
 * @param others growing of crop 1
 */
function pastsOf(
  growths: readonly Growth[],
  visits: readonly number[],
  growing: Growing,
  {
    short = [] as readonly number[],
    germination = 1,
    others = null as Growing | null,
    unlogged = false,
  } = {},
): Told[][] {
  const limited = Uint8Array.from(visits, (_, i) => (short.includes(i) ? 1 : 0));
  const last = visits.length - 1;
  const seen = growths.map((growth) => {
    const visit = growth.end === 'standing' ? last : growth.visit;
    const tied =
      growth.end === 'standing' ? limited[last] === 1 : limited[visit] === 1 || limited[visit - 1] === 1;
    return { ...growth, visit, queued: growth.end !== 'dead' && tied };
  });
  const courses = [new GrowthLaw(growing, germination), new GrowthLaw(others ?? growing, germination)];
  const past = new StagePast(
    { growths: seen, firstVisit: 0 },
    ({ crop }) => courses[crop]!,
    visits,
    limited,
    unlogged,
    stream(3, 0, ['pasts']),
  );
  return Array.from({ length: COUNTED }, () => {
    for (let i = 0; i < APART; i++) past.round();
    const told: Told[] = [];
    past.tell((growth, fate, at, overdue) => told.push({ growth, fate, at, overdue }));
    return told;
  });
}

/** The share of pasts in which something holds is the chance. */
function expectShare(
  pasts: readonly Told[][],
  holds: (past: readonly Told[]) => boolean,
  chance: number,
): void {
  const share = pasts.filter(holds).length / pasts.length;
  expect(Math.abs(share - chance)).toBeLessThan(5 * Math.sqrt((chance * (1 - chance)) / pasts.length));
}

describe('a plant that stands', () => {
  test('is not ready before the last visit that left holes free, and then as its law has it beyond its age', () => {
    const pasts = pastsOf([plant(0)], [0, 4, 8], grow(exponential(10)));
    expect(pasts.every(([one]) => one!.at > 8)).toBe(true);
    expectShare(pasts, ([one]) => one!.at <= 13, 1 - Math.exp(-0.5));
  });

  test('will die with the chance that is left of it: 0.5 x 0.4 against 0.5 for living on', () => {
    const pasts = pastsOf([plant(0)], [0, 6], grow(time(10), { loss: 0.5 }));
    expectShare(pasts, ([one]) => one!.fate === 'die', 2 / 7);
    for (const [one] of pasts) {
      if (one!.fate === 'ripen') expect(one!.at).toBe(10);
      else expect(one!.at > 6 && one!.at < 10).toBe(true);
    }
  });

  test('as a seed proves a failed one with the chance of the seeds, when its time is over', () => {
    const pasts = pastsOf([plant(0)], [0, 6], grow(time(10)), { germination: 0.8 });
    expectShare(pasts, ([one]) => one!.fate === 'fail', 0.2);
    expect(pasts.every(([one]) => one!.at === 10)).toBe(true);
  });

  test('may be a seed that failed long ago, where failed seeds are not logged: 0.2 against 0.8 x e^-0.6', () => {
    const pasts = pastsOf([plant(0)], [0, 6], grow(exponential(10)), { germination: 0.8, unlogged: true });
    const fails = 0.2 / (0.2 + 0.8 * Math.exp(-0.6));
    expectShare(pasts, ([one]) => one!.fate === 'fail', fails);
    // Of those that fail 1 in e^0.6 has not failed yet; the others are cleared right away.
    expectShare(pasts, ([one]) => one!.fate === 'fail' && one!.at > 6.001, fails * Math.exp(-0.6));
  });

  test('may have died long ago, where deaths are not logged: 0.5 against 0.5', () => {
    const pasts = pastsOf([plant(0)], [0, 6], grow(time(10), { loss: 0.5 }), { unlogged: true });
    expectShare(pasts, ([one]) => one!.fate === 'die', 0.5);
    // 0.4 of those that die do so after day 6.
    expectShare(pasts, ([one]) => one!.fate === 'die' && one!.at > 6.001, 0.2);
  });

  test('has not been ready for longer than it keeps', () => {
    // Holes were short at the visit of day 9: it may be ready, but not since before day 7.
    const pasts = pastsOf([plant(0)], [0, 9], grow(exponential(10), { keeps: 2 }), { short: [0, 1] });
    expect(Math.min(...pasts.map(([one]) => one!.at))).toBeGreaterThanOrEqual(7);
    expectShare(pasts, ([one]) => one!.at <= 9, 1 - Math.exp(-0.2));
  });

  test('has grown by date: six usual days and, at half the pace, two more are seven', () => {
    const spells = [{ from: 6, beyond: 12, times: 2 }];
    // By day 13 growth of 10: 6, 6/2 and 1.
    const pasts = pastsOf([plant(0)], [0, 4, 8], grow(exponential(10), { spells }));
    expect(pasts.every(([one]) => one!.at > 8)).toBe(true);
    expectShare(pasts, ([one]) => one!.at <= 13, 1 - Math.exp(-0.3));
    // Ready by growth of 10, so on day 13; it dies with the chance that is left of it: 0.5 x 0.3 against 0.5.
    const sure = pastsOf([plant(0)], [0, 8], grow(time(10), { loss: 0.5, spells }));
    expectShare(sure, ([one]) => one!.fate === 'die', 0.3 / 1.3);
    for (const [one] of sure) {
      if (one!.fate === 'ripen') expect(one!.at).toBe(13);
      else expect(one!.at > 8 && one!.at < 13).toBe(true);
    }
    // On day 12 it has grown 9 and may stand; without the spell it could not.
    expect(pastsOf([plant(0)], [0, 12], grow(time(10), { spells }))[0]![0]!.overdue).toBe(false);
  });

  test('for longer than its law allows is told, and taken to be ready right after the last visit', () => {
    const [past] = pastsOf([plant(0)], [0, 12], grow(time(10)));
    expect(past![0]!.overdue).toBe(true);
    expect(past![0]!.at).toBeGreaterThan(12);
    expect(past![0]!.at).toBeLessThan(12.001);
    expect(pastsOf([plant(0)], [0, 9], grow(time(10)))[0]![0]!.overdue).toBe(false);
  });
});

describe('a plant that left', () => {
  /** What is told of the first of some growths, in many pasts. */
  function left(growths: readonly Growth[], visits: readonly number[], growing: Growing, germination = 1) {
    const law = new GrowthLaw(growing, germination);
    const none = new Uint8Array(visits.length);
    const past = new StagePast(
      { growths, firstVisit: 0 },
      () => law,
      visits,
      none,
      false,
      openStream(4, 0, ['left']),
    );
    return Array.from({ length: COUNTED }, () => {
      for (let i = 0; i < APART; i++) past.round();
      const told: { readonly ready: boolean; readonly at: number; readonly from: number }[] = [];
      past.tellLeft((_, ready, at, from) => told.push({ ready, at, from }));
      return told[0]!;
    });
  }
  const shareOf = (told: ReturnType<typeof left>, holds: (one: (typeof told)[number]) => boolean): number =>
    told.filter(holds).length / told.length;
  const bound = (chance: number): number => 5 * Math.sqrt((chance * (1 - chance)) / COUNTED);

  test('became ready since the visit before, as its law has it', () => {
    const told = left([plant(0, { end: 'on', visit: 2 })], [0, 4, 8], grow(exponential(10)));
    expect(told.every(({ ready, at, from }) => ready && at > 4 && at <= 8 && from === 0)).toBe(true);
    const chance = (1 - Math.exp(-0.2)) / (1 - Math.exp(-0.4));
    expect(Math.abs(shareOf(told, ({ at }) => at <= 6) - chance)).toBeLessThan(bound(chance));
  });

  test('and came on either day, if another of its batch stands: times of 3, 5 or 7 days, 2/9 against 1/9', () => {
    const growths = [plant(0, { end: 'on', visit: 3 }), plant(2, { visit: 3 })];
    const told = left(growths, [0, 2, 4, 5], grow(observed(3, 5, 7)));
    expect(Math.abs(shareOf(told, ({ from }) => from === 0) - 2 / 3)).toBeLessThan(bound(2 / 3));
  });

  test('dead died between two visits; a seed that failed did so when its time was over', () => {
    const gone = [plant(0, { end: 'dead', visit: 2 })];
    const died = left(gone, [0, 4, 8], grow(exponential(10), { loss: 0.5 }));
    expect(died.every(({ ready, at }) => !ready && at > 4 && at <= 8)).toBe(true);
    const failed = left(gone, [0, 4, 8], grow(time(7)), 0.8);
    expect(failed.every(({ ready, at }) => !ready && at === 7)).toBe(true);
  });

  test('said to have been thrown away, and not ready for long enough, was dead', () => {
    const growing = grow(time(7), { keeps: 2 });
    expect(left([plant(0, { end: 'discarded', visit: 2 })], [0, 6, 12], growing)[0]).toMatchObject({
      ready: true,
      at: 7,
    });
    expect(left([plant(0, { end: 'discarded', visit: 2 })], [0, 6, 8], growing)[0]!.ready).toBe(false);
  });
});

describe('of two plants of a batch that came on different days one left, and which one', () => {
  test('is told by times of 3, 5 or 7 days: 2/9 against 1/9', () => {
    /*
     * Left from day 4 to 5. The one of day 0 if its time is 5 (1/3) and the other's is 5 or 7 (2/3); the one of day 2 if its
     * time is 3 (1/3) and the other's 7 (1/3). Then the one that stands is ready on day 7 (2 + 5, or 0 + 7) or 9 (2 + 7):
     * P(9) = 2/3 x 1/2.
     */
    const growths = [plant(0, { end: 'on', visit: 3 }), plant(2)];
    const pasts = pastsOf(growths, [0, 2, 4, 5], grow(observed(3, 5, 7)));
    expectShare(pasts, ([one]) => one!.at === 9, 1 / 3);
    expectShare(pasts, ([one]) => one!.at === 7, 2 / 3);
  });

  test('is told by its moment too, where holes were short before: 4/9 against 1/9', () => {
    /*
     * Left on day 6, ready by then; on day 4 no hole was free, so it may have been ready since day 3. The one of day 0 if its
     * time is 3 or 5 (2/3) and the other's is 5 or 7 (2/3); the one of day 2 if its time is 3 (1/3) and the other's 7 (1/3).
     * The one that stands is ready on day 9 if it came on day 2 and its time is 7: 4/5 x 1/2.
     */
    const growths = [plant(0, { end: 'on', visit: 3 }), plant(2)];
    const pasts = pastsOf(growths, [0, 2, 4, 6], grow(observed(3, 5, 7)), { short: [2] });
    expectShare(pasts, ([one]) => one!.at === 9, 2 / 5);
    expectShare(pasts, ([one]) => one!.at === 7, 3 / 5);
  });

  test('is told by a death: the older one had more days to die on, and less time left', () => {
    /*
     * One of two died from day 4 to 8, times of 10 d, half are lost. Came on day 0: it died at an age from 4 to 8, density
     * 1/10: 0.5 x 0.4; the other one, of day 5, then stands at age 3: 0.5 + 0.5 x 0.7. Came on day 5: it died at an age
     * of up to 3: 0.5 x 0.3; the other then stands at age 8: 0.5 + 0.5 x 0.2.
     */
    const older = 0.2 * 0.85;
    const younger = 0.15 * 0.6;
    const growths = [plant(0, { end: 'dead', visit: 2 }), plant(5)];
    const pasts = pastsOf(growths, [0, 4, 8], grow(time(10), { loss: 0.5 }));
    // Stands and lives: ready on day 15 if the older one died, on day 10 if the younger one did.
    expectShare(pasts, ([one]) => one!.fate === 'ripen' && one!.at === 15, (0.2 * 0.5) / (older + younger));
    expectShare(pasts, ([one]) => one!.fate === 'ripen' && one!.at === 10, (0.15 * 0.5) / (older + younger));
  });
});

describe('where holes were short', () => {
  test('of two alike one went: the other was ready too with the chance p/(2 - p)', () => {
    // At least one was ready by day 7: 1 - (1 - p)^2; both: p^2.
    const p = 1 - Math.exp(-0.7);
    const growths = [plant(0, { end: 'on', visit: 1 }), plant(0)];
    const pasts = pastsOf(growths, [0, 7], grow(exponential(10)), { short: [1] });
    expectShare(pasts, ([one]) => one!.at <= 7, p / (2 - p));
  });

  test('who went at one visit was ready before who went at the next, and before who still stands', () => {
    /*
     * Three alike; one went on day 4, one on day 8, one stands. With A = ready by 4, B = from 4 to 8: the three in order of
     * readiness r1 < r2 < r3 have r1 <= 4 and r2 <= 8. P(r3 <= 8 | that) by counting three exponential times (rate 1/10).
     */
    const [a, b] = [1 - Math.exp(-0.4), 1 - Math.exp(-0.8)];
    // At least one by 4 and at least two by 8, of three: all by 8 and not none by 4; or two by 8 of which one by 4 at least.
    const all = b ** 3 - (b - a) ** 3;
    const two = 3 * (1 - b) * (b ** 2 - (b - a) ** 2);
    const growths = [plant(0, { end: 'on', visit: 1 }), plant(0, { end: 'on', visit: 2 }), plant(0)];
    const pasts = pastsOf(growths, [0, 4, 8], grow(exponential(10)), { short: [1, 2] });
    expectShare(pasts, ([one]) => one!.at <= 8, all / (all + two));
  });

  test('other batches count as well: the one that stands came later, and yet may have been ready', () => {
    /*
     * Batch 0 came on day 0 and went on day 6, batch 1 came on day 2 and stands. Ready by day 6: r0 = X, r1 = 2 + Y, X and Y
     * exponential with rate 1/10. Given r0 <= 6 and r0 < r1: P(r1 <= 6) = P(r0 < r1 <= 6)/(that + P(r0 <= 6) P(r1 > 6)).
     */
    const e = Math.exp;
    // Integral of f1(s) F0(s) over s from 2 to 6: f1 = e^-(s-2)/10 / 10, F0 = 1 - e^-s/10.
    const both = 1 - e(-0.4) - (e(0.2) / 2) * (e(-0.4) - e(-1.2));
    const one = (1 - e(-0.6)) * e(-0.4);
    const growths = [plant(0, { end: 'on', visit: 1 }), plant(2, { batch: 1 })];
    const pasts = pastsOf(growths, [0, 6], grow(exponential(10)), { short: [1] });
    expectShare(pasts, ([standing]) => standing!.at <= 6, both / (both + one));
  });

  test('what was thrown away as ready for too long keeps nobody waiting who stands', () => {
    /*
     * Keeps 2 d, holes short on days 3 and 6. Thrown away on day 6: ready by day 4. Went on day 3: ready before it. Who stands
     * was not thrown away, so it was not ready before day 4; from then on its time has no memory.
     */
    const growths = [plant(0, { end: 'on', visit: 1 }), plant(0, { end: 'discarded', visit: 2 }), plant(0)];
    const pasts = pastsOf(growths, [0, 3, 6], grow(exponential(10), { keeps: 2 }), { short: [1, 2] });
    expect(Math.min(...pasts.map(([standing]) => standing!.at))).toBeGreaterThanOrEqual(4);
    expectShare(pasts, ([standing]) => standing!.at <= 6, 1 - Math.exp(-0.2));
  });
});

test('a plant of another crop that was thrown away, as it keeps for a day only, says nothing of one that keeps', () => {
  // It was ready from day 2 to 5; nobody went on days 3 and 6, when holes were short.
  const growths = [plant(0, { batch: 1, crop: 1, end: 'discarded', visit: 2 }), plant(0)];
  const others = grow(exponential(10), { keeps: 1 });
  const pasts = pastsOf(growths, [0, 3, 6], grow(exponential(10)), { short: [1, 2], others });
  expectShare(pasts, ([standing]) => standing!.at <= 6, 1 - Math.exp(-0.6));
  expectShare(pasts, ([standing]) => standing!.at <= 2, 1 - Math.exp(-0.2));
});

test('exchanges keep how many came on each day', () => {
  const growths = [
    plant(0, { end: 'on', visit: 2 }),
    plant(0),
    plant(2, { end: 'dead', visit: 2 }),
    plant(2),
    plant(3),
  ];
  // Times of 20 d: ready 20 d after the day on which it came, so the day can be seen.
  const pasts = pastsOf(growths, [0, 3, 6], grow(observed(5, 6, 20), { loss: 0.3 }));
  for (const past of pasts) {
    const days = past.filter(({ fate, at }) => fate === 'ripen' && at >= 20).map(({ at }) => at - 20);
    expect(days.filter((day) => day === 0).length).toBeLessThanOrEqual(2);
    expect(days.filter((day) => day === 2).length).toBeLessThanOrEqual(2);
    expect(days.filter((day) => day === 3).length).toBeLessThanOrEqual(1);
  }
});
