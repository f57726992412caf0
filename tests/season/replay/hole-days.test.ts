/** A season simulated, written as a log, replayed: every state of the ledger that a log can tell is the same. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  BLOCKED,
  CLEANING,
  DEAD,
  FILLING,
  GROWING,
  HELD,
  STATE_COUNT,
  UNATTENDED,
  UNSUPPLIED,
  UNTENDED,
} from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import type { Plan } from '../../../sim/models/plan.js';
import { arbitraryPlan, type Limits } from '../../support/arbitrary-plan.js';
import { crop, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { replayed, rowsOf, seasonOf, workedOut } from '../../support/replayed.js';

const SEED = 20270104;

/** Three seasons of each of many lines with visits on days. */
function onEverySeason(law: (plan: Plan, seed: number, season: number) => void, limits: Limits = {}): void {
  const lines = arbitraryPlan(limits).filter(({ visits }) => visits.kind === 'days');
  fc.assert(
    fc.property(lines, fc.nat(1e6), (plan, seed) => {
      for (let season = 0; season < 3; season++) law(plan, seed, season);
    }),
    { seed: SEED, numRuns: 150 },
  );
}

describe('of every season with one pick per plant', () => {
  const oneCut: Limits = { cuts: false };

  test('occupied, cleaning and empty are the sums of their states in the simulated ledger', () =>
    onEverySeason((plan, seed, season) => {
      const told = replayed(plan, seed, season).holeDays;
      const { ledger } = new Line(plan).run(seed, season);
      plan.stages.forEach((_, s) => {
        const sum = (...states: number[]): number =>
          states.reduce((days, k) => days + ledger[s * STATE_COUNT + k]!, 0);
        expect(told[s]).toMatchObject({
          occupied: sum(GROWING, DEAD, UNATTENDED, BLOCKED, HELD),
          cleaning: sum(CLEANING),
          empty: sum(FILLING, UNTENDED, UNSUPPLIED),
          beyond: 0,
        });
      });
    }, oneCut));

  test('filling is that of the ledger in the first stage, and at least that of the ledger in the others', () =>
    onEverySeason((plan, seed, season) => {
      const told = replayed(plan, seed, season).holeDays;
      const { ledger } = new Line(plan).run(seed, season);
      expect(told[0]!.filling).toBe(ledger[FILLING]);
      told.forEach(({ filling }, s) => {
        expect(filling).toBeGreaterThanOrEqual(ledger[s * STATE_COUNT + FILLING]!);
      });
    }, oneCut));

  test('at least as many hole-days as are told for certain held growing plants', () =>
    onEverySeason((plan, seed, season) => {
      const told = replayed(plan, seed, season).holeDays;
      const { ledger } = new Line(plan).run(seed, season);
      told.forEach(({ growing_at_least }, s) => {
        expect(growing_at_least).not.toBeNull();
        expect(growing_at_least!).toBeLessThanOrEqual(ledger[s * STATE_COUNT + GROWING]!);
      });
    }, oneCut));
});

test('with several cuts every stage but the last is told exactly', () =>
  onEverySeason((plan, seed, season) => {
    const told = replayed(plan, seed, season).holeDays;
    const { ledger } = new Line(plan).run(seed, season);
    for (let s = 0; s < plan.stages.length - 1; s++) {
      const taken = [GROWING, DEAD, UNATTENDED, BLOCKED].reduce(
        (days, k) => days + ledger[s * STATE_COUNT + k]!,
        0,
      );
      expect(told[s]).toMatchObject({ occupied: taken, cleaning: ledger[s * STATE_COUNT + CLEANING] });
    }
  }));

describe('on paper', () => {
  /** Two stages of 4 and 6 holes, two weeks, a visit every day; finishing holes rest for 2 days. */
  const plan = line(
    [stage('nursery', 4), stage('finishing', 6, 2)],
    [crop([grow(time(3)), grow(time(5))], { kind: 'due', days: [0], seeds: 4 })],
    { weeks: 2, visits: visitDays(2) },
  );
  const told = (...texts: string[]) => workedOut(seasonOf(plan, rowsOf(plan, texts))).holeDays;

  test('four sown on day 0 and moved on day 3, three picked on day 8 and one that stands', () => {
    const [nursery, finishing] = told('0 sow B1 4 nursery', '3 move B1 4 finishing', '8 pick B1 3 finishing');
    // 4 holes x 3 days; the other 11 days are empty.
    expect(nursery).toMatchObject({ occupied: 12, cleaning: 0, empty: 44, filling: 0 });
    // 4 x 5 days and 1 x 6; 3 holes rest for 2 days; 6 holes x 3 days before the first came; 84 hole-days in all.
    expect(finishing).toMatchObject({ occupied: 26, cleaning: 6, empty: 52, filling: 18 });
  });

  test('whoever stands after a visit that left holes free was not ready then', () => {
    const [nursery] = told('0 sow B1 4 nursery', '3 move B1 3 finishing', '7 move B1 1 finishing');
    // Three were not ready on day 2, one not on day 6: 3 x 2 + 6.
    expect(nursery!.growing_at_least).toBe(12);
  });

  test('a plant found dead was growing at the visit before; one thrown away may have waited for a hole', () => {
    const full = { ...plan, stages: [stage('nursery', 4), stage('finishing', 3)] };
    const found = (note: string): number => {
      const rows = ['0 sow B1 4 nursery', '3 move B1 3 finishing', `9 lose B1 1 nursery ${note}`];
      return workedOut(seasonOf(full, rowsOf(full, rows))).holeDays[0]!.growing_at_least!;
    };
    // Three moved on day 3 and were not ready on day 2. From day 3 on finishing was full.
    expect(found('died of damp')).toBe(3 * 2 + 8);
    expect(found('overgrown')).toBe(3 * 2 + 2);
  });

  test('holes of a clean row are out of use until plants come into their channel, and count once', () => {
    const rows = (...rest: string[]) =>
      told('0 sow B1 4 nursery', '3 move B1 4 finishing @A', '8 pick B1 4 finishing @A', ...rest)[1];
    // Without it 4 holes rest for the plan's 2 days.
    expect(rows()).toMatchObject({ occupied: 20, cleaning: 8 });
    // With it all 6 rest until something comes into channel A, which nothing does: 6 x 6 days.
    expect(rows('8 clean - 6 finishing @A')).toMatchObject({ occupied: 20, cleaning: 36 });
    expect(
      rows(
        '8 clean - 6 finishing @A',
        '8 sow B2 4 nursery',
        '11 move B2 3 finishing @B',
        '12 move B2 1 finishing @A',
      ),
    ).toMatchObject({
      // 20 from before, 3 from day 11 and 1 from day 12 on.
      occupied: 20 + 9 + 2,
      // 6 holes on days 8 to 10; on day 11 three of them are needed for channel B; on day 12 channel A is in use.
      cleaning: 18 + 3,
    });
  });

  test('holes that plants left count once if a clean row names them too', () => {
    const wide = { ...plan, stages: [plan.stages[0]!, stage('finishing', 12, 2)] };
    const rows = [
      '0 sow B1 4 nursery',
      '3 move B1 4 finishing',
      '8 pick B1 4 finishing',
      '8 clean - 4 finishing',
    ];
    // 4 holes from day 8 to the end of day 13; the 2 days of the plan are in it.
    expect(workedOut(seasonOf(wide, rowsOf(wide, rows))).holeDays[1]).toMatchObject({ cleaning: 24 });
  });

  test('holes that were needed before their time stay in use when they are left', () => {
    const free = { ...plan, stages: [plan.stages[0]!, stage('finishing', 6)] };
    const rows = [
      '0 sow B1 4 nursery',
      '3 move B1 4 finishing @A',
      '8 pick B1 4 finishing @A',
      '8 clean - 6 finishing @A',
      '8 sow B2 4 nursery',
      '11 move B2 3 finishing @B',
      '12 lose B2 3 finishing died',
    ];
    // 6 holes on days 8 to 10. On day 11 three are needed; from then on the other three rest to the end.
    expect(workedOut(seasonOf(free, rowsOf(free, rows))).holeDays[1]).toMatchObject({ cleaning: 18 + 9 });
  });

  test('where more comes in than is free, holes are taken to be used before their cleaning is over', () => {
    const slow = { ...plan, stages: [plan.stages[0]!, stage('finishing', 4, 5)] };
    const [, finishing] = workedOut(
      seasonOf(
        slow,
        rowsOf(slow, [
          '0 sow B1 4 nursery',
          '3 move B1 4 finishing',
          '3 sow B2 3 nursery',
          '8 pick B1 4 finishing',
          '9 move B2 3 finishing',
        ]),
      ),
    ).holeDays;
    // 4 holes rest on day 8; from day 9 on 3 are taken, and the last one rests to the end of day 12.
    expect(finishing).toMatchObject({ occupied: 20 + 15, cleaning: 4 + 4, empty: 12 + 1, beyond: 0 });
  });

  test('plants beyond the holes of the plan are told, not hidden', () => {
    const [nursery] = told('0 sow B1 4 nursery', '5 sow B2 4 nursery', '7 lose B1 4 nursery died');
    // On days 5 and 6 eight plants stand in 4 holes; no hole is ever empty.
    expect(nursery).toMatchObject({ occupied: 4 * 7 + 4 * 9, empty: 0, beyond: 8 });
  });
});
