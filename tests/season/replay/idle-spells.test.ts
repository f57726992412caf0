/** Why holes stood empty, on a line that can be followed on paper. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dayFrom } from '../../../sim/models/dates.js';
import { type Draws, RandomDraws } from '../../../sim/models/growth.js';
import type { Plan } from '../../../sim/models/plan.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import type { IdleSpell } from '../../../sim/season/replay/idle-spells.js';
import { replaySeason } from '../../../sim/season/replay/replay.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf, workedOut } from '../../support/replayed.js';
import { type LogOptions, simulatedLog } from '../../support/simulated-log.js';

const WEEKS = 6;
const DAYS = 7 * WEEKS;

/**
 * A seed a day, 3 days in the tray, 7 in the bed, a visit every day: the tray holds 3 from day 2 on, the bed 7 from day 9
 * on, and no hole is ever empty after that.
 */
const full = line(
  [stage('tray', 3), stage('bed', 7)],
  [crop([grow(time(3)), grow(time(7))], every(1, DAYS, 1))],
  { weeks: WEEKS, visits: visitDays(WEEKS) },
);

const without = (from: number, to: number, days: readonly number[]): number[] =>
  days.filter((day) => day < from || day > to);
const allDays = Array.from({ length: DAYS }, (_, day) => day);

/** The plan with visits or sowings on some days only. */
const visitedOn = (plan: Plan, days: readonly number[]): Plan => ({
  ...plan,
  visits: { kind: 'days', days },
});
const sownOn = (plan: Plan, days: readonly number[], seeds = 1): Plan => ({
  ...plan,
  crops: [{ ...plan.crops[0]!, sowing: { kind: 'due', days, seeds } }],
});

/** The spells of the log that a season of `done` would leave, judged by the plan. */
function spellsOf(plan: Plan, done: Plan = plan, options: LogOptions = {}): readonly IdleSpell[] {
  return spellsIn(plan, simulatedLog(done, 1, 0, options));
}

function spellsIn(plan: Plan, rows: readonly LogRow[]): readonly IdleSpell[] {
  return workedOut(seasonOf(plan, rows)).idle;
}

/** Stage, first and last day, hole-days and kind of cause, in the order of stages and days. */
function short(plan: Plan, spells: readonly IdleSpell[]): string[] {
  const day = (iso: string): number => dayFrom(plan.start, iso);
  const place = ({ stage: name }: IdleSpell): number => plan.stages.findIndex((one) => one.name === name);
  return [...spells]
    .sort((a, b) => place(a) - place(b) || day(a.from) - day(b.from))
    .map(
      ({ stage: name, from, to, hole_days, cause }) =>
        `${name} ${day(from)}-${day(to)} ${hole_days} ${cause.kind}`,
    );
}

const FILLING = ['tray 0-1 3 filling', 'bed 0-8 42 filling'];

test('a line that is sown as it needs has empty holes only while it fills', () => {
  // Tray: 2 + 1. Bed: 7 on days 0 to 2, then 6, 5, 4, 3, 2, 1.
  expect(short(full, spellsOf(full))).toEqual(FILLING);
});

describe('too little sown', () => {
  const done = sownOn(full, without(20, 22, allDays));
  const spells = spellsOf(full, done);

  test('nothing sown for three days empties the tray at once and the bed when the plants would have come', () => {
    expect(short(full, spells)).toEqual([
      FILLING[0],
      // 1, 2, 3, 2, 1 cells.
      'tray 20-24 9 too_little_sown',
      FILLING[1],
      // 3 plants x 7 days, from days 23, 24 and 25 on. The means have a plant wait half a day for a visit, so they look
      // for each of the three a day later: 1 hole on each of 3 days is left over.
      'bed 23-25 3 late',
      'bed 24-31 18 too_little_sown',
    ]);
  });

  test('the days are named, with what was sown and what would have been needed', () => {
    const bed = spells.find(({ stage: name, cause }) => name === 'bed' && cause.kind === 'too_little_sown');
    expect(bed?.cause).toMatchObject({
      sowings: {
        from: '2027-01-24',
        to: '2027-01-26',
        count: 3,
        sown: 0,
        below_plan: ['2027-01-24', '2027-01-25', '2027-01-26'],
        nobody_came: 0,
      },
    });
    // 7 holes for plants that stay 7.5 days by the mean: 7/7.5 a day for 3 days.
    const { sowings } = bed!.cause as Extract<IdleSpell['cause'], { kind: 'too_little_sown' }>;
    expect(sowings!.needed).toBeCloseTo((3 * 7) / 7.5, 12);
  });

  test('their worth in heads is counted in the stage that holds the line back: hole-days over those that a head takes', () => {
    // By the means the tray can give 3/3.5 heads a day, the bed 7/7.5.
    const heads = (name: string): (number | null)[] =>
      spells.filter((spell) => spell.stage === name).map((spell) => spell.heads);
    expect(heads('bed')).toEqual([null, null, null]);
    expect(heads('tray')).toEqual([expect.closeTo(9 / 3.5, 12), 0]);
  });

  test('no heads are counted if not more are wanted than the line can give', () => {
    // 3 a week are fewer than the 6 that the tray can give.
    const wanted = { ...full, want: { heads: 3, days: [13, 20, 27, 34, 41] } };
    expect(spellsOf(wanted, { ...done, want: wanted.want }).every(({ heads }) => heads === null)).toBe(true);
  });

  test('what stood empty longest comes first, filling last', () => {
    expect(spells.map(({ stage: name, cause }) => `${name} ${cause.kind}`)).toEqual([
      'bed too_little_sown',
      'tray too_little_sown',
      'bed late',
      'bed filling',
      'tray filling',
    ]);
  });

  test('a plan that sows too little every day is told without a day that falls below it', () => {
    const wide = { ...full, stages: [stage('tray', 5), stage('bed', 10)] };
    const spell = spellsOf(wide).find(
      ({ stage: name, cause }) => name === 'bed' && cause.kind === 'too_little_sown',
    );
    // One seed a day fills 7 of the bed's 10 holes.
    expect(spell).toMatchObject({ stage: 'bed', holes: 3, to: '2027-02-07' });
    expect(spell!.cause).toMatchObject({ sowings: { below_plan: [], sown: expect.any(Number) } });
  });
});

describe('nobody came', () => {
  const wide = { ...full, stages: [stage('tray', 4), stage('bed', 8)] };
  const gap = without(20, 25, allDays);
  const absence = (plan: Plan): IdleSpell | undefined =>
    spellsOf(plan, visitedOn(wide, gap)).find(
      ({ stage: name, cause }) => name === 'bed' && cause.kind === 'absent',
    );

  test('a ready seedling beside a free hole waits for six days, although visits were planned', () => {
    expect(absence(wide)).toMatchObject({
      from: '2027-01-24',
      to: '2027-01-29',
      // The bed has one hole more than plants.
      hole_days: 6,
      cause: { kind: 'absent', since: '2027-01-23', until: '2027-01-30', planned: false },
    });
  });

  test('the same as planned, if the plan has no visits then', () => {
    expect(absence(visitedOn(wide, gap))?.cause).toMatchObject({ planned: true });
  });

  test('seeds that were due and not sown in that time are put down to it, and the days to those who did not come', () => {
    const spells = spellsOf(
      { ...wide, stages: [stage('tray', 9), stage('bed', 8)] },
      {
        ...visitedOn(wide, gap),
        stages: [stage('tray', 9), stage('bed', 8)],
      },
    );
    const tray = spells.find(({ stage: name, cause }) => name === 'tray' && cause.kind === 'absent');
    // Each day one more seed is due, but the cells that seedlings still take are not empty: 1 + 2 + ... + 6, 6 at most.
    expect(tray).toMatchObject({ hole_days: 21, from: '2027-01-24', to: '2027-01-29' });
  });

  test('a usual gap between visits is no absence', () => {
    const seldom = visitedOn(
      wide,
      allDays.filter((day) => day % 3 === 0),
    );
    const spells = spellsOf(seldom);
    expect(spells.filter(({ cause }) => cause.kind === 'absent')).toEqual([]);
    // On the day of each visit nobody waits, but what comes again within a gap is one spell.
    const waits = spells.filter(
      ({ stage: name, cause }) => name === 'tray' && cause.kind === 'between_visits',
    );
    expect(waits).toHaveLength(1);
  });

  test('seedlings that are overgrown by then are missed later: thrown away', () => {
    const keeps = {
      ...wide,
      crops: [{ ...wide.crops[0]!, stages: [grow(time(3), { keeps: 1 }), grow(time(7))] }],
    };
    const spell = spellsOf(keeps, visitedOn(keeps, gap)).find(({ cause }) => cause.kind === 'thrown_away');
    // Ready on days 20, 21 and 22, and kept for one day only; on day 26 they are thrown away.
    expect(spell).toMatchObject({
      stage: 'bed',
      from: '2027-01-30',
      cause: { kind: 'thrown_away', date: '2027-01-30', stage: 'tray', plants: 3 },
    });
  });
});

test('seedlings thrown away are missed in each stage when they would have stood there', () => {
  const three = line(
    [stage('tray', 4), stage('nursery', 6), stage('bed', 8)],
    [crop([grow(time(3), { keeps: 1 }), grow(time(5)), grow(time(7))], every(1, DAYS, 1))],
    { weeks: WEEKS, visits: visitDays(WEEKS) },
  );
  const spells = spellsOf(three, visitedOn(three, without(20, 25, allDays))).filter(
    ({ cause }) => cause.kind === 'thrown_away',
  );
  // Ready to go into the nursery on day 26; 5.5 days later they would have come into the bed.
  expect(short(three, spells).map((text) => text.split('-')[0])).toEqual(['nursery 26', 'bed 32']);
});

test('a batch of which nearly all seeds fail is named where its plants are missed', () => {
  const plan = line(
    [stage('tray', 30), stage('bed', 40)],
    [crop([grow(time(4)), grow(time(9))], every(3, DAYS, 10), { germination: 0.9 })],
    { weeks: WEEKS, visits: visitDays(WEEKS) },
  );
  // Seeds 50 to 59 are those of day 15; 9 of them fail.
  const luckOf = (c: number, s: number): Draws => {
    const luck = new RandomDraws(plan.crops[c]!.stages[s]!, s === 0 ? 0.9 : 1, [
      'leaf',
      plan.stages[s]!.name,
    ]);
    if (s > 0) return luck;
    let seed = 0;
    return {
      times: luck.times,
      moments: luck.moments,
      sprouts: luck.sprouts,
      start: (a, b) => luck.start(a, b),
      take: () => {
        const k = luck.take();
        luck.sprouts[k] = seed >= 50 && seed < 59 ? 0 : 1;
        seed++;
        return k;
      },
    };
  };
  const spells = spellsOf(plan, plan, { drawsOf: luckOf }).filter(
    ({ cause }) => cause.kind === 'batch_failed',
  );
  expect(spells.map(({ stage: name }) => name).sort()).toEqual(['bed', 'tray']);
  for (const { cause } of spells)
    expect(cause).toMatchObject({
      batch: 'B6',
      stage: 'tray',
      came: 10,
      lost: 9,
      expected: expect.closeTo(1),
    });
  const bed = spells.find(({ stage: name }) => name === 'bed')!;
  // Missed from day 15 + 4.5 to day 15 + 4.5 + 9.5: 8 plants beyond the one to be expected, on 9 days.
  expect(bed).toMatchObject({ from: '2027-01-24', to: '2027-02-01', holes: 8, hole_days: 72 });
});

test('a tray that is too small holds up the bed: the stage before was full', () => {
  const narrow = { ...full, stages: [stage('tray', 2), stage('bed', 7)] };
  const spells = spellsOf(narrow).filter(({ stage: name }) => name === 'bed');
  // Two plants each 3 days fill 7 x 2/3 of the bed's holes.
  expect(spells[0]).toMatchObject({ cause: { kind: 'stage_before_full', stage: 'tray' } });
  expect(spells.map(({ cause }) => cause.kind).sort()).toEqual(['end', 'filling', 'stage_before_full']);
});

test('of two stages before that were full alike the nearest is named', () => {
  // Two holes for four days each pass on a plant every other day: half of what is sown, and of what the bed could take.
  const plan = line(
    [stage('tray', 40), stage('far', 2), stage('near', 2), stage('bed', 7)],
    [crop([grow(time(3)), grow(time(4)), grow(time(4)), grow(time(7))], every(1, DAYS, 1))],
    { weeks: WEEKS, visits: visitDays(WEEKS) },
  );
  const full = spellsOf(plan).flatMap(({ stage: name, cause }) =>
    name === 'bed' && cause.kind === 'stage_before_full' ? [cause.stage] : [],
  );
  expect(full).toEqual(['near']);
});

test("holes that no head could come from any more are put down to the season's end and cost nothing", () => {
  const spells = spellsOf(full, sownOn(full, without(33, 41, allDays)));
  // A seed of day 33 would be picked on day 33 + 3.5 + 7.5 = 44 by the means; the season has 42 days.
  const end = spells.filter(({ cause }) => cause.kind === 'end');
  expect(short(full, end)).toEqual(['tray 33-41 24 end', 'bed 36-41 21 end']);
  expect(end.map(({ heads }) => heads)).toEqual([0, null]);
});

test('a channel out for cleaning is told beside the empty holes, with its name', () => {
  const wide = { ...full, stages: [stage('tray', 3), stage('bed', 9)] };
  const rows = [...simulatedLog(wide, 1, 0), ...rowsOf(wide, ['20 clean - 2 bed @B2'])];
  rows.sort((a, b) => a.date.localeCompare(b.date));
  const spell = spellsIn(wide, rows).find(({ cause }) => cause.kind === 'cleaning');
  // It stays out of use to the end: the plants need no more than the other 7 holes.
  expect(spell).toMatchObject({
    stage: 'bed',
    from: '2027-01-24',
    to: '2027-02-14',
    holes: 2,
    hole_days: 44,
    cause: { kind: 'cleaning', channel: 'B2' },
  });
});

test('plants that need longer than planned are late, with how long they stayed', () => {
  // Planned: 3 days in the tray. In truth 5; the tray is wide enough.
  const wide = { ...full, stages: [stage('tray', 6), stage('bed', 8)] };
  const slow = { ...wide, crops: [{ ...wide.crops[0]!, stages: [grow(time(5)), grow(time(7))] }] };
  const late = spellsOf(wide, slow).find(({ stage: name, cause }) => name === 'bed' && cause.kind === 'late');
  expect(late?.cause).toEqual({ kind: 'late', stay: 5, planned_stay: 3.5 });
});

describe('of every season', () => {
  const lines = arbitraryPlan().filter(({ visits }) => visits.kind === 'days');
  const onEverySeason = (law: (plan: Plan, rows: LogRow[]) => void): void => {
    const seasons = fc.property(lines, fc.nat(1e6), (plan, seed) => {
      const rows = simulatedLog(plan, seed, 0);
      if (rows.length > 0) law(plan, rows);
    });
    fc.assert(seasons, { seed: 20270104, numRuns: 150 });
  };

  test('every empty hole of every day has one cause', () =>
    onEverySeason((plan, rows) => {
      const { idle, stages } = workedOut(seasonOf(plan, rows));
      stages.forEach(({ empty }, s) => {
        const told = idle
          .filter(({ stage: name }) => name === plan.stages[s]!.name)
          .reduce((sum, { hole_days }) => sum + hole_days, 0);
        expect(told).toBe(empty.reduce((sum, holes) => sum + holes, 0));
      });
    }));

  test('that holds without a scenario too', () =>
    onEverySeason((plan, rows) => {
      if (plan.crops.some(({ cuts }) => cuts > 1)) return;
      const names = plan.stages.map(({ name }) => name);
      const replayed = replaySeason(rows, names, null, { change: { every: 2, on: null, seeds: 3 } });
      if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
      for (const { name, ledger } of replayed.value.stages) {
        const told = replayed.value.idle
          .filter(({ stage: where }) => where === name)
          .reduce((sum, { hole_days }) => sum + hole_days, 0);
        expect(told).toBe(ledger.empty);
      }
    }));
});
