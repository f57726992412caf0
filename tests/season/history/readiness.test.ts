/** What a log leaves open of when plants became ready or died. */

import { describe, expect, test } from 'vitest';
import { TICK } from '../../../sim/engine/clock.js';
import type { Plan } from '../../../sim/models/plan.js';
import type { Moment } from '../../../sim/season/history/readiness.js';
import { crop, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf, workedOut } from '../../support/replayed.js';

/** Nothing else is due, so a visit without a row is no sign that nobody came. */
const once = { kind: 'due' as const, days: [0], seeds: 4 };

/** Visits on days 0, 2, 4 and so on; tray plants need 5 days on average, and keep for ever. */
const plan = line([stage('tray', 8), stage('bed', 4)], [crop([grow(time(5)), grow(time(9))], once)], {
  weeks: 4,
  visits: visitDays(4, [1, 0]),
});

/** Limits of each stay in the tray, in the order of entry. */
function moments(some: Plan, ...texts: string[]): (Moment & { count: number; end: string })[] {
  const { lots, readiness } = workedOut(seasonOf(some, rowsOf(some, texts)));
  return lots[0]!.flatMap((lot) =>
    lot.stays.map((stay) => ({ ...readiness[0]!.of(lot, stay), count: stay.count, end: stay.end })),
  );
}

const ready = (earliest: number, latest: number) => ({ ready: true, earliest, latest });

describe('a plant that moved on', () => {
  test('was not ready at the visit before if that one left holes free, and was ready by then', () => {
    expect(moments(plan, '0 sow A 3 tray', '6 move A 2 bed', '8 move A 1 bed')).toMatchObject([
      { ...ready(4 + TICK, 6), count: 2 },
      { ...ready(6 + TICK, 8), count: 1 },
    ]);
  });

  test('may have waited while the next stage was full: those who went first were ready first', () => {
    const [first, second] = moments(
      plan,
      '0 sow A 6 tray',
      '4 move A 4 bed',
      '14 pick A 2 bed',
      '14 move A 2 bed',
    );
    // The bed was full from day 4 to 14. Four were ready by then: by the mean time of 5 days all could have been.
    expect(first).toMatchObject(ready(2 + TICK, 4));
    // After day 4 nobody could go; by the mean time the other two were ready on day 5.
    expect(second).toMatchObject(ready(4 + TICK, 5));
  });

  test('was not ready for longer than it keeps', () => {
    const keeps = { ...plan, crops: [crop([grow(time(5), { keeps: 3 }), grow(time(9))], once)] };
    const [, second] = moments(
      keeps,
      '0 sow A 6 tray',
      '4 move A 4 bed',
      '14 pick A 2 bed',
      '14 move A 2 bed',
    );
    expect(second!.earliest).toBe(11);
    expect(second!.latest).toBe(11);
  });
});

describe('a plant that stands', () => {
  test('was not ready at the last visit that left holes free, and may be ready at any time after that', () => {
    expect(moments(plan, '0 sow A 1 tray')).toMatchObject([ready(26 + TICK, Infinity)]);
  });
});

describe('a plant that was thrown away', () => {
  const keeps = { ...plan, crops: [crop([grow(time(5), { keeps: 3 }), grow(time(9))], once)] };

  test('was ready for too long by then, and not yet at the visit before', () => {
    const [, second] = moments(keeps, '0 sow A 6 tray', '4 move A 4 bed', '10 lose A 2 tray overgrown');
    // On day 8 it was kept: ready on day 5 or later. On day 10 it was not: ready before day 7.
    expect(second).toMatchObject({ ...ready(5, 7 - TICK), end: 'discarded' });
  });

  test('was ready after those that had gone on before', () => {
    const slow = { ...keeps, crops: [crop([grow(time(9), { keeps: 3 }), grow(time(9))], once)] };
    const [first, second] = moments(slow, '0 sow A 6 tray', '8 move A 4 bed', '10 lose A 2 tray overgrown');
    // The mean says day 9 for all, the log: before day 7, for two were overgrown on day 10, and after day 6.
    expect(first).toMatchObject(ready(6 + TICK, 7 - 2 * TICK));
    expect(second).toMatchObject(ready(7 - TICK, 7 - TICK));
  });

  test('counts as dead if it could have gone on at every visit', () => {
    const [first] = moments(keeps, '0 sow A 1 tray', '10 lose A 1 tray overgrown');
    expect(first).toMatchObject({ ready: false, earliest: 8 + TICK, latest: 10 });
  });
});

test('a plant that died or failed did so after the visit before', () => {
  expect(moments(plan, '0 sow A 3 tray', '2 lose A 1 tray failed', '6 lose A 2 tray died')).toMatchObject([
    { ready: false, earliest: TICK, latest: 2, end: 'failed' },
    { ready: false, earliest: 4 + TICK, latest: 6, end: 'died' },
  ]);
});

test('the last stage waits for heads that are wanted as others wait for holes', () => {
  const wanted = { ...plan, stages: [stage('bed', 8)], want: { heads: 2, days: [8, 12, 16] } };
  const one = { ...wanted, crops: [crop([grow(time(5))], once)] };
  expect(moments(one, '0 sow A 4 bed', '8 pick A 2 bed', '12 pick A 1 bed')).toMatchObject([
    // Before day 8 nothing was wanted. Two were picked, as many as were wanted: the mean time says day 5.
    { ...ready(TICK, 5), count: 2 },
    // One fewer was picked on day 12 than was wanted: the last one was not ready then.
    { ...ready(5 + TICK, 12), count: 1 },
    // On day 16 two were wanted and none was picked.
    { ...ready(16 + TICK, Infinity), count: 1 },
  ]);
});
