/** A season's own luck gives the season itself when the plan is unchanged, and little else when it is changed. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Moments } from '../../../sim/engine/tally.js';
import { daysEvery } from '../../../sim/models/cadence.js';
import { withGrowings } from '../../../sim/models/growings.js';
import { DISCARDED, PICKED, SHORT, SOWN, UNSOWN, WANTED } from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import { type Growing, type Plan, seasonDays } from '../../../sim/models/plan.js';
import { arbitraryPlan, type Limits } from '../../support/arbitrary-plan.js';
import { copyOf } from '../../support/laws.js';
import { notesOf } from '../../support/logs.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { luckOf } from '../../support/replayed.js';
import { simulatedLog } from '../../support/simulated-log.js';

const SEED = 20270104;

function onEveryLine(law: (plan: Plan, seed: number) => void, limits: Limits, numRuns: number): void {
  const lines = arbitraryPlan(limits).filter(({ visits }) => visits.kind === 'days');
  fc.assert(fc.property(lines, fc.nat(1e6), law), { seed: SEED, numRuns });
}

describe('with the plan unchanged', () => {
  test('the season comes out again: picks, sowings, discards and wants', () =>
    onEveryLine(
      (plan, seed) => {
        const was = copyOf(new Line(plan).run(seed, 0));
        const luck = luckOf(plan, seed, 0);
        // Another seed and season: nothing is drawn any more.
        const again = new Line(plan, luck).run(seed + 1, 3);
        expect(again.weekPicks).toEqual(was.weekPicks);
        for (const count of [SOWN, UNSOWN, PICKED, DISCARDED, WANTED, SHORT])
          expect(again.counts[count]).toBe(was.counts[count]);
        expect(luck.beyond()).toBe(0);
      },
      { cuts: false },
      500,
    ));

  test('it does so where growth goes by date: what was seen is growth, and takes the days that it took', () => {
    const spells = [
      { from: 5, beyond: 12, times: 1.7 },
      { from: 16, beyond: 26, times: 0.6 },
    ];
    onEveryLine(
      (usual, seed) => {
        const byDate = (growing: Growing): Growing => ({ ...growing, spells });
        const plan = { ...usual, crops: usual.crops.map((one) => withGrowings(one, byDate)) };
        const was = copyOf(new Line(plan).run(seed, 0));
        const again = new Line(plan, luckOf(plan, seed, 0)).run(seed + 1, 3);
        expect(again.weekPicks).toEqual(was.weekPicks);
        for (const count of [SOWN, UNSOWN, PICKED, DISCARDED, WANTED, SHORT])
          expect(again.counts[count]).toBe(was.counts[count]);
      },
      { cuts: false },
      150,
    );
  });

  test('its log is the same too, row for row, but for the order within a date', () =>
    onEveryLine(
      (plan, seed) => {
        const luck = luckOf(plan, seed, 0);
        const count = (rows: ReturnType<typeof simulatedLog>): Map<string, number> => {
          const counts = new Map<string, number>();
          for (const row of rows) {
            // Plants of several batches that are alike may change places.
            const key = [row.date, row.action, row.crop, row.stage, row.note].join(' ');
            counts.set(key, (counts.get(key) ?? 0) + row.count);
          }
          return counts;
        };
        expect(count(simulatedLog(plan, seed, 0, luck))).toEqual(count(simulatedLog(plan, seed, 0)));
      },
      { cuts: false },
      200,
    ));

  test('with several cuts it does so in all but 3 of 100 lines: the log does not tell which pick was the last', () => {
    const lines = new Moments();
    onEveryLine(
      (plan, seed) => {
        if (plan.crops.every(({ cuts }) => cuts === 1)) return;
        const was = copyOf(new Line(plan).run(seed, 0));
        const again = new Line(plan, luckOf(plan, seed, 0)).run(seed, 0);
        lines.add(was.weekPicks.every((picks, week) => picks === again.weekPicks[week]) ? 1 : 0);
      },
      {},
      500,
    );
    expect(lines.count).toBeGreaterThan(200);
    expect(lines.mean).toBeGreaterThan(0.97);
  });
});

describe('with another cadence', () => {
  /** A line in which nothing is held up for long, a visit every other day. */
  const plan = line(
    [stage('tray', 40), stage('nursery', 60), stage('finishing', 90)],
    [
      crop(
        [grow(time(6, 0.15)), grow(time(13, 0.15), { loss: 0.05 }), grow(time(20, 0.12))],
        every(4, 182, 12),
        {
          germination: 0.9,
        },
      ),
    ],
    { weeks: 26, visits: visitDays(26, [1, 0]) },
  );
  const changed: Plan = {
    ...plan,
    crops: [{ ...plan.crops[0]!, sowing: { kind: 'due', days: daysEvery(6, seasonDays(plan)), seeds: 12 } }],
  };

  test('what it gives is what the true luck of the season would have given, but for a few heads', () => {
    const truth = new Moments();
    const off = new Moments();
    for (let season = 0; season < 24; season++) {
      const was = new Line(plan).run(SEED, season).counts[PICKED]!;
      const would = new Line(changed).run(SEED, season).counts[PICKED]!;
      const told = new Line(changed, luckOf(plan, SEED, season)).run(1, 0).counts[PICKED]!;
      truth.add(would - was);
      off.add(told - would);
    }
    // A third fewer sowings cost far more heads than the log's rounding of times to visits can hide.
    expect(truth.mean).toBeLessThan(-50);
    // Rounding is not to lean to one side by more than 1 head in 20 of what the change costs.
    expect(Math.abs(off.mean)).toBeLessThan(Math.abs(truth.mean) / 20);
    expect(Math.sqrt(off.variance)).toBeLessThan(Math.abs(truth.mean) / 10);
  });

  test('plants beyond those seen get the fates of some that were seen, the same ones for the same seed', () => {
    const more: Plan = {
      ...plan,
      crops: [
        { ...plan.crops[0]!, sowing: { kind: 'due', days: daysEvery(3, seasonDays(plan)), seeds: 12 } },
      ],
    };
    const luck = luckOf(plan, SEED, 0);
    const first = notesOf(new Line(more, luck), 5);
    expect(luck.beyond()).toBeGreaterThan(0.1);
    expect(notesOf(new Line(more, luckOf(plan, SEED, 0)), 5)).toEqual(first);
    expect(notesOf(new Line(more, luck), 6)).not.toEqual(first);
    const seen = new Set([0, 1, 2].flatMap((s) => [...luck.drawsOf(0, s).times].map((days) => days % 1)));
    const ripened = first.filter(({ deed }) => deed === 'ripen');
    expect(ripened.every(({ t }) => seen.has(t % 1))).toBe(true);
  });

  test('a crop that was never seen in a stage draws from its plan', () => {
    const luck = luckOf({ ...plan, weeks: 1, visits: visitDays(1, [1, 0]) }, SEED, 0);
    // In one week nothing comes into finishing.
    const draws = luck.drawsOf(0, 2);
    draws.start(1, 0);
    const times = Array.from({ length: 20 }, () => draws.times[draws.take()]!);
    expect(new Set(times).size).toBe(20);
  });
});
