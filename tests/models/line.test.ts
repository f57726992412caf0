/**
 * The rules of the line, one test a rule, on lines so small that a reader follows every number on paper. Logs are
 * `day deed plant @hole`; holes are counted through all stages from 0.
 */

import { describe, expect, test } from 'vitest';
import { TICK } from '../../sim/engine/clock.js';
import {
  BLOCKED,
  CLEANING,
  COUNTS,
  type CountName,
  DEAD,
  FILLING,
  GROWING,
  HELD,
  STATE_COUNT,
  UNATTENDED,
  UNSUPPLIED,
  UNTENDED,
} from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { CropPlan, Growing, Plan, Visits, Want } from '../../sim/models/plan.js';
import { log } from '../support/logs.js';
import { crop, grow, line, stage, time, visitDays } from '../support/plans.js';

function due(days: readonly number[], seeds = 1): CropPlan['sowing'] {
  return { kind: 'due', days, seeds };
}

function on(...days: number[]): Visits {
  return { kind: 'days', days };
}

const fixed = (days: number, rest: Partial<Growing> = {}): Growing => grow(time(days), rest);

/** One stage, one crop. */
function tray(holes: number, growing: Growing, sowing: CropPlan['sowing'], rest: Partial<Plan> = {}): Plan {
  return line([stage('tray', holes)], [crop([growing], sowing)], { weeks: 2, ...rest });
}

function ledger(plan: Plan, s: number, state: number): number {
  return new Line(plan).run(1, 0).ledger[s * STATE_COUNT + state]!;
}

function counts(plan: Plan): Partial<Record<CountName, number>> {
  const season = new Line(plan).run(1, 0);
  const all = COUNTS.map((name, i) => [name, season.counts[i]!] as const);
  return Object.fromEntries(all.filter(([, count]) => count > 0));
}

describe('time', () => {
  test('somebody who is always there acts at the instant of every change', () => {
    expect(log(new Line(tray(1, fixed(2.5), due([0.25]))))).toEqual([
      '0.25 sow 0 @0',
      '2.75 ripen 0 @0',
      '2.75 pick 0 @0',
    ]);
  });

  test('between visits plants ripen, and wait', () => {
    const plan = tray(1, fixed(2.5), due([0]), { visits: visitDays(2) });
    expect(log(new Line(plan))).toEqual(['0 sow 0 @0', '2.5 ripen 0 @0', '3 pick 0 @0']);
    expect(ledger(plan, 0, UNATTENDED)).toBe(0.5);
  });

  test('a visit sees what ripens at the very instant at which it begins', () => {
    const plan = tray(1, fixed(3), due([0]), { visits: visitDays(2) });
    expect(log(new Line(plan))).toEqual(['0 sow 0 @0', '3 ripen 0 @0', '3 pick 0 @0']);
    expect(ledger(plan, 0, UNATTENDED)).toBe(0);
  });

  test('days without a visit are waited out', () => {
    const plan = tray(1, fixed(2.5), due([0]), { visits: on(0, 1, 2, 9, 10) });
    expect(log(new Line(plan))).toEqual(['0 sow 0 @0', '2.5 ripen 0 @0', '9 pick 0 @0']);
  });

  test('without any visit nothing is ever sown', () => {
    const plan = tray(1, fixed(3), due([0]), { visits: on() });
    expect(log(new Line(plan))).toEqual([]);
    expect(ledger(plan, 0, FILLING)).toBe(14);
  });

  test('what would happen at the end of the season does not happen', () => {
    expect(log(new Line(tray(1, fixed(14), due([0]))))).toEqual(['0 sow 0 @0']);
    expect(counts(tray(1, fixed(14), due([0])))).toEqual({ sown: 1, standing: 1 });
    expect(counts(tray(1, fixed(14 - TICK), due([0])))).toEqual({ sown: 1, picked: 1, picked_out: 1 });
  });

  test('a sowing and a visit on the day after the last do not happen either', () => {
    const plan = tray(2, fixed(10), due([0, 14]), { visits: on(0, 14) });
    expect(log(new Line(plan))).toEqual(['0 sow 0 @0', '10 ripen 0 @0']);
    expect(counts(plan)).toEqual({ sown: 1, standing: 1 });
    expect(ledger(plan, 0, UNATTENDED)).toBe(4);
  });

  test('a season that ends while plants are ready, dead and growing counts them as they stand', () => {
    const plan = line(
      [stage('tray', 3)],
      [
        crop([fixed(10)], due([0]), { name: 'ready' }),
        crop([fixed(10)], due([0]), { name: 'failed', germination: 0 }),
        crop([fixed(30)], due([0]), { name: 'growing' }),
      ],
      { weeks: 2, visits: on(0) },
    );
    expect(counts(plan)).toEqual({ sown: 3, failed: 1, standing: 2 });
    expect([GROWING, DEAD, UNATTENDED].map((state) => ledger(plan, 0, state))).toEqual([34, 4, 4]);
  });
});

describe('sowing', () => {
  test('what fell due since the last visit is sown on the next', () => {
    const plan = tray(9, fixed(30), due([1, 1.25, 4.5], 2), { visits: on(0, 2, 5) });
    expect(log(new Line(plan))).toEqual([
      '2 sow 0 @0',
      '2 sow 1 @1',
      '2 sow 2 @2',
      '2 sow 3 @3',
      '5 sow 4 @4',
      '5 sow 5 @5',
    ]);
  });

  test('of what fell due since the last visit only the latest is sown where missed sowings are dropped', () => {
    const dropped = { ...due([0, 1, 2.5, 4, 9, 10], 2), missed: 'dropped' as const };
    const plan = tray(20, fixed(40), dropped, { visits: on(0, 3, 4, 5, 8) });
    // Due on 1 and 2.5: only the latter is sown on day 3. What falls due on 9 and 10, after the last visit, counts as nothing.
    expect(log(new Line(plan)).filter((event) => event.includes('sow'))).toEqual([
      '0 sow 0 @0',
      '0 sow 1 @1',
      '3 sow 2 @2',
      '3 sow 3 @3',
      '4 sow 4 @4',
      '4 sow 5 @5',
    ]);
    expect(counts(plan)).toEqual({ sown: 6, unsown: 2, standing: 6 });
  });

  test('what is dropped counts as unsown, with what finds no cell', () => {
    const dropped = { ...due([0, 1, 2], 5), missed: 'dropped' as const };
    expect(counts(tray(3, fixed(40), dropped, { visits: on(2) }))).toEqual({
      sown: 3,
      unsown: 12,
      standing: 3,
    });
  });

  test('into a tray with too few free cells goes what fits; the rest is unsown, not kept for later', () => {
    const plan = tray(3, fixed(5), due([0, 4, 5], 2));
    expect(log(new Line(plan), ['sow'])).toEqual([
      '0 sow 0 @0',
      '0 sow 1 @1',
      '4 sow 2 @2',
      // On day 5 two cells are empty again, the last one to be left is the first to be filled.
      '5 sow 3 @1',
      '5 sow 4 @0',
    ]);
    expect(counts(plan)).toEqual({ sown: 5, unsown: 1, picked: 5, picked_out: 5 });
  });

  test('into a full tray nothing is sown', () => {
    expect(counts(tray(1, fixed(30), due([0, 1, 2], 4)))).toEqual({ sown: 1, unsown: 11, standing: 1 });
  });

  test('crop by crop in the order of the plan: the first takes the cells that there are', () => {
    const growing = [fixed(30)];
    const plan = line(
      [stage('tray', 4)],
      [crop(growing, due([0], 3), { name: 'a' }), crop(growing, due([0], 3), { name: 'b' })],
      { weeks: 2 },
    );
    const season = new Line(plan);
    const crops: number[] = [];
    season.run(1, 0, {
      onEvent(_t, _deed, _plant, crop) {
        crops.push(crop);
      },
    });
    expect(crops).toEqual([0, 0, 0, 1]);
    expect(counts(plan)).toEqual({ sown: 4, unsown: 2, standing: 4 });
  });
});

describe('germination', () => {
  test('a seed that fails keeps its cell until its time is over, and only then is seen to have failed', () => {
    const plan = line([stage('tray', 1)], [crop([fixed(5)], due([0, 3, 5]), { germination: 0 })], {
      weeks: 2,
    });
    expect(log(new Line(plan))).toEqual([
      '0 sow 0 @0',
      '5 fail 0 @0',
      '5 clear 0 @0',
      '5 sow 1 @0',
      '10 fail 1 @0',
      '10 clear 1 @0',
    ]);
    expect(counts(plan)).toEqual({ sown: 2, unsown: 1, failed: 2 });
    expect(ledger(plan, 0, GROWING)).toBe(10);
    expect(ledger(plan, 0, DEAD)).toBe(0);
  });

  test('a failed seed keeps its cell until a visit clears it', () => {
    const plan = line([stage('tray', 1)], [crop([fixed(5)], due([0, 6, 8]), { germination: 0 })], {
      weeks: 2,
      visits: on(0, 4, 8),
    });
    expect(log(new Line(plan))).toEqual([
      '0 sow 0 @0',
      '5 fail 0 @0',
      '8 clear 0 @0',
      '8 sow 1 @0',
      '13 fail 1 @0',
    ]);
    expect(ledger(plan, 0, DEAD)).toBe(3 + 1);
    expect(counts(plan)).toEqual({ sown: 2, unsown: 1, failed: 2 });
  });

  test('only the first stage asks whether a seed sprouts', () => {
    const plan = line(
      [stage('tray', 100), stage('nursery', 100)],
      [crop([fixed(2), fixed(2)], due([0], 100), { germination: 0.5 })],
      { weeks: 2 },
    );
    const { failed, picked, lost } = counts(plan);
    expect(failed! + picked!).toBe(100);
    expect(lost).toBeUndefined();
  });
});

describe('losses', () => {
  const doomed = { loss: 1 };

  test('a plant that is lost dies at a moment of its time, evenly spread over it', () => {
    const n = 4000;
    const plan = tray(n, fixed(10, doomed), due([0], n));
    let sum = 0;
    let deaths = 0;
    new Line(plan).run(1, 0, {
      onEvent(t, deed) {
        if (deed !== 'die') return;
        expect(t > 0 && t < 10).toBe(true);
        deaths++;
        sum += t;
      },
    });
    expect(deaths).toBe(n);
    // Uniform on 0..10: mean 5, standard deviation 10/sqrt(12); 4 standard errors.
    expect(Math.abs(sum / n - 5)).toBeLessThan((4 * 10) / Math.sqrt(12 * n));
  });

  test('so many are lost as the loss says, stage by stage', () => {
    const n = 10_000;
    const plan = line(
      [stage('tray', n), stage('nursery', n)],
      [crop([fixed(2, { loss: 0.1 }), fixed(2, { loss: 0.3 })], due([0], n))],
      { weeks: 2 },
    );
    const { lost, picked } = counts(plan);
    expect(lost! + picked!).toBe(n);
    // Binomial with 0.9 x 0.7; 4 standard errors.
    expect(Math.abs(picked! / n - 0.63)).toBeLessThan(4 * Math.sqrt((0.63 * 0.37) / n));
  });

  test('a dead plant blocks its hole until a visit clears it', () => {
    const plan = tray(1, fixed(3, doomed), due([0, 1, 7]), { visits: on(0, 7) });
    const heard = log(new Line(plan), ['sow', 'clear']);
    expect(heard).toEqual(['0 sow 0 @0', '7 clear 0 @0', '7 sow 1 @0']);
    const death = Number(log(new Line(plan), ['die'])[0]!.split(' ')[0]);
    const second = Number(log(new Line(plan), ['die'])[1]!.split(' ')[0]);
    expect(ledger(plan, 0, DEAD)).toBe(7 - death + (14 - second));
    expect(ledger(plan, 0, GROWING)).toBe(death + (second - 7));
    expect(counts(plan)).toEqual({ sown: 2, unsown: 1, lost: 2 });
  });
});

describe('luck', () => {
  const N = 4000;
  /** Largest chance correlation: 4 standard errors of 1 / sqrt(n). */
  const none = (n: number): number => 4 / Math.sqrt(n);

  function correlation(a: readonly number[], b: readonly number[]): number {
    const mean = (xs: readonly number[]): number => xs.reduce((sum, x) => sum + x, 0) / xs.length;
    const [ma, mb] = [mean(a), mean(b)];
    const products = mean(a.map((x, i) => (x - ma) * (b[i]! - mb)));
    return products / Math.sqrt(mean(a.map((x) => (x - ma) ** 2)) * mean(b.map((x) => (x - mb) ** 2)));
  }

  /** Days that each plant grew in each stage and how that ended, by plant number; all are sown on day 0. */
  function growth(plan: Plan, s: number): { days: number; deed: string }[] {
    const entered = new Map<number, number>();
    const grown: { days: number; deed: string }[] = [];
    new Line(plan).run(1, 0, {
      onEvent(t, deed, plant, _crop, stage) {
        if (stage !== s) return;
        if (deed === 'sow' || deed === 'move') entered.set(plant, t);
        if (deed === 'ripen' || deed === 'die' || deed === 'fail') {
          grown[plant] = { days: t - entered.get(plant)!, deed };
        }
      },
    });
    return grown;
  }

  const uneven = (rest: Partial<Growing> = {}): Growing => grow(time(3, 0.3), rest);

  test('the moment of loss is evenly spread over the time, however small the loss', () => {
    const plan = tray(N, fixed(10, { loss: 0.25 }), due([0], N));
    const deaths = growth(plan, 0).filter(({ deed }) => deed === 'die');
    const mean = deaths.reduce((sum, { days }) => sum + days, 0) / deaths.length;
    expect(deaths.length).toBeGreaterThan(N / 5);
    expect(Math.abs(mean - 5)).toBeLessThan((4 * 10) / Math.sqrt(12 * deaths.length));
  });

  test('who is lost has nothing to do with the time that it needed', () => {
    // Those that are not lost tell: their mean time is that of all.
    const plan = tray(N, uneven({ loss: 0.5 }), due([0], N), { weeks: 4 });
    const ripe = growth(plan, 0).filter(({ deed }) => deed === 'ripen');
    const mean = ripe.reduce((sum, { days }) => sum + days, 0) / ripe.length;
    expect(Math.abs(mean - 3)).toBeLessThan((4 * 0.9) / Math.sqrt(ripe.length));
  });

  test('whether a seed sprouts has nothing to do with the time that it needs', () => {
    const crops = [crop([uneven()], due([0], N), { germination: 0.5 })];
    const seeds = growth(line([stage('tray', N)], crops, { weeks: 4 }), 0);
    const sprouted = seeds.map(({ deed }) => (deed === 'ripen' ? 1 : 0));
    expect(sprouted.reduce<number>((sum, n) => sum + n, 0)).toBeGreaterThan(N / 3);
    const days = seeds.map((seed) => seed.days);
    expect(Math.abs(correlation(sprouted, days))).toBeLessThan(none(N));
  });

  test('stages, crops and regrowths each have luck of their own', () => {
    const two = (name: string): CropPlan =>
      crop([uneven(), uneven()], due([0], N), { name, cuts: 2, regrow: uneven() });
    const plan = line([stage('nursery', 2 * N), stage('finishing', 2 * N)], [two('a'), two('b')], {
      weeks: 6,
    });
    // By order of entry, in which the k-th draws are taken.
    const rows = new Map<string, number[]>();
    const since = new Map<number, [string, number, number]>();
    const places = new Map<string, number>();
    const picked = new Set<number>();
    new Line(plan).run(1, 0, {
      onEvent(t, deed, plant, crop, stage) {
        // After the second pick a plant is gone.
        if (deed === 'pick' && picked.has(plant)) return;
        if (deed === 'pick') picked.add(plant);
        if (deed === 'sow' || deed === 'move' || deed === 'pick') {
          const row = `crop ${crop}, ${deed === 'pick' ? 'regrowth' : `stage ${stage}`}`;
          const place = places.get(row) ?? 0;
          places.set(row, place + 1);
          since.set(plant, [row, place, t]);
        } else if (deed === 'ripen') {
          const [row, place, from] = since.get(plant)!;
          if (!rows.has(row)) rows.set(row, []);
          rows.get(row)![place] = t - from;
        }
      },
    });
    const all = [...rows.values()];
    expect(all.map((row) => row.length)).toEqual(new Array(6).fill(N));
    for (let i = 0; i < all.length; i++) {
      for (let j = i + 1; j < all.length; j++) {
        expect(Math.abs(correlation(all[i]!, all[j]!))).toBeLessThan(none(N));
      }
    }
  });
});

describe('keeping', () => {
  /** A nursery hole whose plant waits for a finishing hole that is taken until day 50. */
  function waiting(keeps: number, visits: Visits): Plan {
    return line(
      [stage('nursery', 1), stage('finishing', 1)],
      [crop([fixed(2, { keeps }), fixed(50)], due([0, 2]))],
      { weeks: 2, visits },
    );
  }

  test('a visit leaves a plant that has been ready for exactly as long as it keeps', () => {
    // Plant 0 takes the finishing hole on day 2; plant 1 is ready on day 4.
    const plan = waiting(3, visitDays(2));
    expect(log(new Line(plan), ['discard'])).toEqual(['8 discard 1 @0']);
    expect(counts(plan)).toEqual({ sown: 2, discarded: 1, standing: 1 });
    expect(ledger(plan, 0, BLOCKED)).toBe(4);
  });

  test('with somebody always there it goes at the instant at which it has kept long enough', () => {
    const plan = waiting(2.5, { kind: 'always' });
    expect(log(new Line(plan), ['ripen', 'discard'])).toEqual([
      '2 ripen 0 @0',
      '4 ripen 1 @0',
      '6.5 discard 1 @0',
    ]);
    expect(ledger(plan, 0, BLOCKED)).toBe(2.5);
  });

  test('for ever is for ever', () => {
    expect(counts(waiting(Infinity, { kind: 'always' }))).toEqual({ sown: 2, standing: 2 });
  });

  test('what has stood too long is cleared before anything is picked or moved', () => {
    const late = tray(1, fixed(2.5, { keeps: 0.25 }), due([0]), { visits: visitDays(2) });
    expect(log(new Line(late))).toEqual(['0 sow 0 @0', '2.5 ripen 0 @0', '3 discard 0 @0']);
    const justInTime = tray(1, fixed(2.5, { keeps: 0.5 }), due([0]), { visits: visitDays(2) });
    expect(log(new Line(justInTime))).toEqual(['0 sow 0 @0', '2.5 ripen 0 @0', '3 pick 0 @0']);
  });

  test('the hole of a discarded plant is sown on the same visit', () => {
    const plan = tray(1, fixed(2.5, { keeps: 0.25 }), due([0, 3]), { visits: visitDays(2) });
    expect(log(new Line(plan), ['discard', 'sow'])).toEqual([
      '0 sow 0 @0',
      '3 discard 0 @0',
      '3 sow 1 @0',
      '6 discard 1 @0',
    ]);
  });

  test('each crop in each stage keeps as long as it keeps there', () => {
    const plan = line(
      [stage('nursery', 3), stage('finishing', 1)],
      [
        crop([fixed(1), fixed(50)], due([0]), { name: 'first' }),
        crop([fixed(1, { keeps: 4 }), fixed(50)], due([1]), { name: 'long' }),
        crop([fixed(1, { keeps: 1 }), fixed(50)], due([2]), { name: 'short' }),
      ],
      { weeks: 2 },
    );
    // On day 1 plant 0 leaves hole 0 and plant 1 is sown into it; both wait from days 2 and 3 on.
    expect(log(new Line(plan), ['discard'])).toEqual(['4 discard 2 @1', '6 discard 1 @0']);
  });
});

describe('cuts and regrowth', () => {
  const leafy = (cuts: number, regrow: Growing): Plan =>
    line([stage('bed', 1)], [crop([fixed(3)], due([0, 5, 7]), { cuts, regrow })], { weeks: 2 });

  test('a crop of three cuts stays in its hole, is ready again after each regrowth, and leaves after the last', () => {
    const plan = leafy(3, fixed(2));
    expect(log(new Line(plan))).toEqual([
      '0 sow 0 @0',
      '3 ripen 0 @0',
      '3 pick 0 @0',
      '5 ripen 0 @0',
      '5 pick 0 @0',
      '7 ripen 0 @0',
      '7 pick 0 @0',
      '7 sow 1 @0',
      '10 ripen 1 @0',
      '10 pick 1 @0',
      '12 ripen 1 @0',
      '12 pick 1 @0',
    ]);
    expect(counts(plan)).toEqual({ sown: 2, unsown: 1, picked: 5, picked_out: 1, standing: 1 });
  });

  test('a plant may be lost while it regrows; what was picked is picked', () => {
    const plan = leafy(3, fixed(2, { loss: 1 }));
    // Picked on day 3, lost by day 5; the seed of day 5 finds the hole free, that of day 7 does not.
    expect(counts(plan)).toEqual({ sown: 2, unsown: 1, picked: 2, lost: 2 });
  });

  test('a regrown head that is not wanted spoils like any other', () => {
    const plan = line(
      [stage('bed', 1)],
      [crop([fixed(3, { keeps: 1 })], due([0]), { cuts: 2, regrow: fixed(2, { keeps: 1 }) })],
      {
        weeks: 2,
        want: { heads: 1, days: [3] },
      },
    );
    expect(log(new Line(plan), ['pick', 'discard'])).toEqual(['3 pick 0 @0', '6 discard 0 @0']);
  });
});

describe('picking', () => {
  const three = (want: Want | null, rest: Partial<Plan> = {}): Plan =>
    tray(3, fixed(3), due([0], 3), { want, ...rest });

  test('without a want all that is ready is picked', () => {
    expect(log(new Line(three(null)), ['pick'])).toEqual(['3 pick 0 @0', '3 pick 1 @1', '3 pick 2 @2']);
  });

  test('with a want no more than is wanted that day; the rest is held; what is missing is short', () => {
    const plan = three({ heads: 2, days: [3, 5, 8] });
    expect(log(new Line(plan), ['pick'])).toEqual(['3 pick 0 @0', '3 pick 1 @1', '5 pick 2 @2']);
    expect(counts(plan)).toEqual({ sown: 3, picked: 3, picked_out: 3, wanted: 6, short: 3 });
    expect(ledger(plan, 0, HELD)).toBe(2);
  });

  test('what was short one day is not made up for the next', () => {
    const plan = three({ heads: 2, days: [2, 4] });
    expect(log(new Line(plan), ['pick'])).toEqual(['4 pick 0 @0', '4 pick 1 @1']);
    expect(counts(plan)).toMatchObject({ wanted: 4, short: 2, standing: 1 });
  });

  test('heads that are wanted on a day without a visit are short', () => {
    const plan = three({ heads: 1, days: [4, 5] }, { visits: on(0, 3, 5) });
    expect(log(new Line(plan), ['pick'])).toEqual(['5 pick 0 @0']);
    expect(counts(plan)).toMatchObject({ wanted: 2, short: 1, picked: 1 });
  });

  test('with somebody always there a head may ripen at any time of the day on which it is wanted', () => {
    const plan = tray(2, fixed(3), due([0.5, 1]), { want: { heads: 2, days: [3] } });
    // Plant 0 is ready on day 3.5; plant 1 on day 4, when nothing is wanted any more.
    expect(log(new Line(plan), ['pick'])).toEqual(['3.5 pick 0 @0']);
    expect(ledger(plan, 0, HELD)).toBe(10);
  });

  test('two days in a row are two wants', () => {
    const plan = three({ heads: 1, days: [3, 4, 5] });
    expect(log(new Line(plan), ['pick'])).toEqual(['3 pick 0 @0', '4 pick 1 @1', '5 pick 2 @2']);
  });

  test('longest ready first, whatever the crop', () => {
    const plan = line(
      [stage('bed', 3)],
      [crop([fixed(5)], due([0]), { name: 'slow' }), crop([fixed(2)], due([0, 1]), { name: 'quick' })],
      { weeks: 2, want: { heads: 1, days: [6, 7, 8] } },
    );
    expect(log(new Line(plan), ['pick'])).toEqual(['6 pick 1 @1', '7 pick 2 @2', '8 pick 0 @0']);
  });

  test('of two that are ready at one instant the lower number goes first, though the other was known of before', () => {
    // Both are ready on day 5; plant 1 came into the last stage on day 1, plant 0 on day 3.
    const stages = [stage('nursery', 2), stage('finishing', 2)];
    const crops = [
      crop([fixed(3), fixed(2)], due([0]), { name: 'a' }),
      crop([fixed(1), fixed(4)], due([0]), { name: 'b' }),
    ];
    const want = { heads: 1, days: [6, 7] };
    const plan = line(stages, crops, { weeks: 2, want });
    expect(log(new Line(plan), ['ripen']).slice(2)).toEqual(['5 ripen 1 @2', '5 ripen 0 @3']);
    expect(log(new Line(plan), ['pick'])).toEqual(['6 pick 0 @3', '7 pick 1 @2']);
    // The same within one crop.
    const observed = { shape: 'observed', days: 2.5, spread: 0.2, times: [2, 3] } as const;
    for (let seed = 0; seed < 20; seed++) {
      const one = line([stage('bed', 8)], [crop([grow(observed)], due([0, 1, 2], 2))], {
        weeks: 2,
        want: { heads: 1, days: [6, 7, 8, 9, 10, 11] },
      });
      const ready = new Map<number, number>();
      const picked: number[] = [];
      new Line(one).run(seed, 0, {
        onEvent(t, deed, plant) {
          if (deed === 'ripen') ready.set(plant, t);
          if (deed === 'pick') picked.push(plant);
        },
      });
      const sorted = [...ready.keys()].sort((a, b) => ready.get(a)! - ready.get(b)! || a - b);
      expect(picked).toEqual(sorted);
    }
  });
});

describe('moving on', () => {
  test('one visit works from the last stage to the first, so a whole line shifts by one', () => {
    const plan = line(
      [stage('a', 1), stage('b', 1), stage('c', 1)],
      [crop([fixed(2), fixed(2), fixed(2)], due([0, 2, 4, 6]))],
      { weeks: 2 },
    );
    expect(log(new Line(plan)).filter((text) => text.startsWith('6 '))).toEqual([
      '6 ripen 0 @2',
      '6 ripen 1 @1',
      '6 ripen 2 @0',
      '6 pick 0 @2',
      '6 move 1 @2',
      '6 move 2 @1',
      '6 sow 3 @0',
    ]);
  });

  test('a plant without a free hole ahead waits in its own and keeps others out of it', () => {
    const plan = line(
      [stage('nursery', 2), stage('finishing', 1)],
      [crop([fixed(2), fixed(5)], due([0, 3], 2))],
      { weeks: 2 },
    );
    expect(log(new Line(plan), ['sow', 'move', 'pick'])).toEqual([
      '0 sow 0 @0',
      '0 sow 1 @1',
      '2 move 0 @2',
      '3 sow 2 @0',
      '7 pick 0 @2',
      '7 move 1 @2',
      '12 pick 1 @2',
      '12 move 2 @2',
    ]);
    expect(counts(plan)).toEqual({ sown: 3, unsown: 1, picked: 2, picked_out: 2, standing: 1 });
    // Plant 1 from day 2 to 7, plant 2 from day 5 to 12.
    expect(ledger(plan, 0, BLOCKED)).toBe(5 + 7);
  });

  test('the hole goes to the plant that has been ready longest, whatever its crop and number', () => {
    const plan = line(
      [stage('nursery', 3), stage('finishing', 1)],
      [
        crop([fixed(4), fixed(3)], due([0]), { name: 'slow' }),
        crop([fixed(2), fixed(3)], due([0, 1]), { name: 'quick' }),
      ],
      { weeks: 2 },
    );
    // Ready on days 2 (plant 1), 3 (plant 2) and 4 (plant 0).
    expect(log(new Line(plan), ['move'])).toEqual(['2 move 1 @3', '5 move 2 @3', '8 move 0 @3']);
  });

  test('a plant that moves on begins to grow there at once', () => {
    const plan = line(
      [stage('nursery', 1), stage('finishing', 1)],
      [crop([fixed(2.5), fixed(4)], due([0]))],
      {
        weeks: 2,
        visits: on(0, 6, 11),
      },
    );
    expect(log(new Line(plan))).toEqual([
      '0 sow 0 @0',
      '2.5 ripen 0 @0',
      '6 move 0 @1',
      '10 ripen 0 @1',
      '11 pick 0 @1',
    ]);
  });
});

describe('cleaning', () => {
  const cleaned = (cleanDays: number, visits: Visits): Plan =>
    line([stage('bed', 1, cleanDays)], [crop([fixed(3)], due([0, 3, 4, 5, 6]))], { weeks: 2, visits });

  test('a hole that was left is out of use for its cleaning days, and free at that instant if somebody is there', () => {
    const plan = cleaned(2, { kind: 'always' });
    expect(log(new Line(plan), ['sow', 'pick'])).toEqual([
      '0 sow 0 @0',
      '3 pick 0 @0',
      '5 sow 1 @0',
      '8 pick 1 @0',
    ]);
    expect(ledger(plan, 0, CLEANING)).toBe(4);
    expect(counts(plan)).toMatchObject({ sown: 2, unsown: 3 });
  });

  test('a visit during cleaning finds no hole; the next one after it does', () => {
    const plan = cleaned(1.5, visitDays(2));
    // Clean on day 4.5: the seed of day 4 is too early.
    expect(log(new Line(plan), ['sow', 'pick'])).toEqual([
      '0 sow 0 @0',
      '3 pick 0 @0',
      '5 sow 1 @0',
      '8 pick 1 @0',
    ]);
    expect(ledger(plan, 0, CLEANING)).toBe(2 + 2);
  });

  test('failed seeds and discarded plants leave a hole to be cleaned as well', () => {
    const plan = line([stage('bed', 1, 2)], [crop([fixed(3)], due([0]), { germination: 0 })], { weeks: 2 });
    expect(ledger(plan, 0, CLEANING)).toBe(2);
  });

  test('a plant waits for a hole that is being cleaned', () => {
    const plan = line(
      [stage('nursery', 1), stage('finishing', 1, 1)],
      [crop([fixed(2), fixed(4)], due([0, 2]))],
      { weeks: 2 },
    );
    expect(log(new Line(plan), ['move', 'pick'])).toEqual([
      '2 move 0 @1',
      '6 pick 0 @1',
      '7 move 1 @1',
      '11 pick 1 @1',
    ]);
    expect(ledger(plan, 0, BLOCKED)).toBe(3);
  });

  test('cleaning that is not over when the season ends counts up to there', () => {
    const plan = line([stage('bed', 1, 50)], [crop([fixed(3)], due([0]))], { weeks: 2 });
    expect(ledger(plan, 0, CLEANING)).toBe(11);
  });
});

describe('where every hole-day goes', () => {
  const STATES_OF = (plan: Plan, s: number): number[] =>
    [GROWING, DEAD, UNATTENDED, BLOCKED, HELD, CLEANING, FILLING, UNTENDED, UNSUPPLIED].map((state) =>
      ledger(plan, s, state),
    );

  test('an empty stage is filling until a first plant is ready to come, then untended, then unsupplied', () => {
    const plan = line(
      [stage('nursery', 2), stage('finishing', 3)],
      [crop([fixed(2), fixed(10)], due([1], 2))],
      { weeks: 2, visits: on(1, 4, 13) },
    );
    // Sown on day 1, ready on day 3, moved on day 4 (2 days' seedlings wait unattended), picked never.
    expect(STATES_OF(plan, 0)).toEqual([4, 0, 2, 0, 0, 0, 2, 0, 20]);
    expect(STATES_OF(plan, 1)).toEqual([20, 0, 0, 0, 0, 0, 9, 2, 11]);
  });

  test('untended counts the empty holes or the plants that wait for a visit, whichever are fewer', () => {
    const plan = line(
      [stage('nursery', 5), stage('finishing', 2)],
      [crop([fixed(2), fixed(50)], due([0], 5))],
      { weeks: 2, visits: on(0, 4) },
    );
    // Two days: 2 holes for 5 plants. On day 4 two move, three are seen and blocked.
    expect(STATES_OF(plan, 0)).toEqual([10, 0, 10, 30, 0, 0, 0, 0, 20]);
    expect(STATES_OF(plan, 1)).toEqual([20, 0, 0, 0, 0, 0, 4, 4, 0]);
  });

  test('a plant is unattended until a visit sees it, then blocked, or held in the last stage', () => {
    const plan = line(
      [stage('nursery', 1), stage('finishing', 1)],
      [crop([fixed(2), fixed(3)], due([0, 3]))],
      { weeks: 2, visits: on(0, 3, 7, 9, 12), want: { heads: 1, days: [12] } },
    );
    // Plant 0: ready 2, moved 3, ready 6, seen 7 and not wanted, picked 12. Plant 1: sown 3, ready 5, seen 7, moved 12.
    expect(STATES_OF(plan, 0)).toEqual([4, 0, 3, 5, 0, 0, 0, 0, 2]);
    expect(STATES_OF(plan, 1)).toEqual([5, 0, 1, 0, 5, 0, 2, 1, 0]);
  });
});

describe('a season', () => {
  const plan = tray(2, fixed(3), due([0, 5, 11], 2));

  test('tells picks by week and the day of the first pick', () => {
    const season = new Line(plan).run(1, 0);
    expect([...season.weekPicks]).toEqual([2, 2]);
    expect(season.firstPick).toBe(3);
  });

  test('has no first pick if nothing was picked', () => {
    expect(new Line(tray(1, fixed(20), due([0]))).run(1, 0).firstPick).toBeNaN();
  });

  test('a pick on the seam of two weeks belongs to the second', () => {
    const season = new Line(tray(1, fixed(7), due([0]))).run(1, 0);
    expect([...season.weekPicks]).toEqual([0, 1]);
  });

  test('is handed out in the same object every time', () => {
    const runner = new Line(plan);
    const first = runner.run(1, 0);
    expect(runner.run(1, 1)).toBe(first);
  });

  test('numbers its plants from 0, in the order of sowing', () => {
    const runner = new Line(plan);
    runner.run(1, 0);
    const sown: number[] = [];
    runner.run(1, 1, {
      onEvent(_t, deed, plant) {
        if (deed === 'sow') sown.push(plant);
      },
    });
    expect(sown).toEqual([0, 1, 2, 3, 4, 5]);
  });

  test('forgets its recorder', () => {
    const runner = new Line(plan);
    const heard: string[] = [];
    runner.run(1, 0, {
      onEvent(_t, deed) {
        heard.push(deed);
      },
    });
    const n = heard.length;
    runner.run(1, 0);
    expect(n).toBeGreaterThan(0);
    expect(heard.length).toBe(n);
  });
});
