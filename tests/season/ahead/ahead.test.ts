/** What lies ahead: on lines without chance the real rest of the season, and in words that a reader can check on paper. */

import { describe, expect, test } from 'vitest';
import { isoOfDay } from '../../../sim/models/dates.js';
import type { Plan } from '../../../sim/models/plan.js';
import { type AheadResult, lookAhead, weeksNeeded } from '../../../sim/season/ahead/ahead.js';
import type { Forecast } from '../../../sim/season/ahead/forecast.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';

const WEEKS = 40;

/** Tray of 6 cells, 4 d; 4 wide holes, 10 d; 2 seeds every 7 days; somebody there every day; nothing left to chance. */
function plan(rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('tray', 6), stage('wide', 4)],
    [crop([grow(time(4)), grow(time(10))], every(7, 7 * WEEKS, 2))],
    { weeks: WEEKS, visits: visitDays(WEEKS), ...rest },
  );
}

/** From a day of the season that the plan would have by itself; its visit is still to be made. */
async function from(
  day: number,
  one: Plan,
  { weeks = 4, futures = 3, rows = simulatedLog(one, 1, 0, { until: day }) as readonly LogRow[] } = {},
): Promise<AheadResult> {
  const reading = await lookAhead(one, rows, { today: isoOfDay(one.start, day), weeks, futures });
  if (reading === null || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
}

/** All futures agree. */
function surely(value: number): Forecast {
  const whole = Math.round(value);
  return { mean: value, se: 0, p10: value, p50: value, p90: value, low: whole, high: whole, share: 1 };
}

describe('heads in the next weeks', () => {
  test('are those that come, where nothing is left to chance', async () => {
    // Sown on days 0, 7, 14 ...; wide from 4, 11, 18 ...; picked on 14, 21, 28 ... From day 19: 21, 28, 35, 42.
    const { weeks } = await from(19, plan());
    expect(weeks.map(({ start }) => start)).toEqual(['2027-01-23', '2027-01-30', '2027-02-06', '2027-02-13']);
    for (const week of weeks)
      expect(week).toMatchObject({ ready: surely(2), picked: surely(2), wanted: null });
  });

  test('are ready before they are picked, if nobody comes; what is wanted is told', async () => {
    // Visits on days 0, 7, 14 ... only: sown on 0, moved on 7, ready on 17; the next sown on 7, moved on 14, ready on 24.
    const weekly = plan({
      visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]),
      want: { heads: 1, days: [21, 28] },
    });
    const { weeks } = await from(12, weekly, { weeks: 2 });
    expect(weeks[0]).toMatchObject({ ready: surely(2), picked: surely(0), wanted: 0 });
    expect(weeks[1]).toMatchObject({ ready: surely(2), picked: surely(1), wanted: 1 });
  });
});

describe('holes', () => {
  test('that will stand empty: the mean of each week, and when it begins', async () => {
    // On day 19 four stand wide (two from 11, two from 18). Two leave on 21, two come on 25: empty 2 from 21 to 25.
    const { stages, now } = await from(20, plan());
    expect(now[1]).toEqual({ name: 'wide', holes: 4, plants: 4, cleaning: 0 });
    expect(stages[1]).toMatchObject({ name: 'wide', holes: 4, empty_now: 0 });
    expect(stages[1]!.empty.slice(0, 2)).toEqual([surely(8 / 7), surely(8 / 7)]);
    expect(stages[1]!.first_empty).toEqual({
      chance: 1,
      p10: '2027-01-25',
      p50: '2027-01-25',
      p90: '2027-01-25',
    });
  });

  test('that stand empty from one week into the next count in both', async () => {
    // Sown once, visits on Mondays: two stand wide from day 7 to 21. From day 17: 2 empty for 4 days, 4 for 3, then 4.
    const once = plan({
      visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]),
      crops: [crop([grow(time(4)), grow(time(10))], every(7 * WEEKS, 7 * WEEKS, 2))],
    });
    const { stages } = await from(17, once, { weeks: 2 });
    expect(stages[1]!.empty).toEqual([surely(20 / 7), surely(4)]);
  });

  test('that are cleaned are not empty', async () => {
    // Two days of cleaning: free again on 23, two come on 25.
    const { stages } = await from(20, plan({ stages: [stage('tray', 6), stage('wide', 4, 2)] }));
    expect(stages[1]!.empty[0]).toEqual(surely(4 / 7));
    expect(stages[1]!.first_empty).toMatchObject({ p50: '2027-01-27' });
  });
});

describe('batches that run out of room', () => {
  test('are told with the plants that wait, where, and from when to when', async () => {
    /*
     * Two wide holes, 3 seeds a week. B3 (day 14) is ready on 18; B2 took the holes on 11 and 14 ... By the season itself: who
     * stands in the tray longer than 4 days waits.
     */
    const tight = plan({
      stages: [stage('tray', 12), stage('wide', 2)],
      crops: [crop([grow(time(4), { keeps: 6 }), grow(time(10))], every(7, 7 * WEEKS, 3))],
    });
    // B1 of day 0: two move on day 4, one waits and is thrown away on day 11, as it has been ready for 7 days.
    // B2 of day 7: ready on 11, two move on 14, one waits until it is thrown away on 18.
    const { no_room } = await from(10, tight, { weeks: 1 });
    expect(no_room.slice(0, 2)).toEqual([
      {
        batch: 'B1',
        crop: 'leaf',
        sown: '2027-01-04',
        stage: 'tray',
        chance: 1,
        // Left behind at the last visit, on day 9.
        from: '2027-01-13',
        to: '2027-01-15',
        blocked: surely(1),
        thrown_away: surely(1),
      },
      {
        batch: 'B2',
        crop: 'leaf',
        sown: '2027-01-11',
        stage: 'tray',
        chance: 1,
        from: '2027-01-15',
        to: '2027-01-21',
        // All three wait from day 11 to 14; what is thrown away on day 18 lies behind the week.
        blocked: surely(3),
        thrown_away: surely(0),
      },
    ]);
  });

  test('may still have to be sown: then the day tells which', async () => {
    // The same line two weeks on: the seedlings of day 14 are ready on 18, and the two wide holes are taken from 14 to 24.
    const tight = plan({
      stages: [stage('tray', 12), stage('wide', 2)],
      crops: [crop([grow(time(4), { keeps: 6 }), grow(time(10))], every(7, 7 * WEEKS, 3))],
    });
    const { no_room } = await from(10, tight, { weeks: 2 });
    expect(no_room.filter(({ batch }) => batch === null)).toMatchObject([
      { crop: 'leaf', sown: '2027-01-18', stage: 'tray', from: '2027-01-22', blocked: surely(3) },
    ]);
  });

  test('are none if every plant finds its hole', async () => {
    expect((await from(20, plan())).no_room).toEqual([]);
  });

  test('are not those whose heads are ready for too long because they are not wanted', async () => {
    // Sown on day 0, wide on 4, ready on 14; one is wanted on day 15, the other is thrown away on 17, ready for 3 days.
    const unwanted = plan({
      crops: [crop([grow(time(4)), grow(time(10), { keeps: 2 })], every(7 * WEEKS, 7 * WEEKS, 2))],
      want: { heads: 1, days: [15] },
    });
    const { no_room, overgrown } = await from(10, unwanted, { weeks: 2 });
    expect(no_room).toEqual([]);
    expect(overgrown).toEqual([
      {
        batch: 'B1',
        crop: 'leaf',
        sown: '2027-01-04',
        stage: 'wide',
        chance: 1,
        from: '2027-01-18',
        to: '2027-01-21',
        thrown_away: surely(1),
      },
    ]);
  });

  test('are not those that nobody comes to move in time', async () => {
    // Ready on day 4, the next visit is on day 14: ready for 10 days, 6 are too many. Holes are free all the time.
    const alone = plan({
      crops: [crop([grow(time(4), { keeps: 6 }), grow(time(10))], every(7 * WEEKS, 7 * WEEKS, 2))],
      visits: { kind: 'days', days: [0, 14, 15, 16] },
    });
    const { no_room, overgrown } = await from(1, alone, { weeks: 3 });
    expect(no_room).toEqual([]);
    expect(overgrown).toMatchObject([{ batch: 'B1', stage: 'tray', thrown_away: surely(2) }]);
  });
});

describe('what to sow', () => {
  /** 10 d in each of 8 wide holes: 4 every 5 days fill them; the plan sows 2. */
  const thin = (seeds: number): Plan =>
    plan({
      stages: [stage('tray', 12), stage('wide', 8)],
      crops: [crop([grow(time(4)), grow(time(10))], every(5, 7 * WEEKS, seeds))],
    });

  test('closes the gap: two sowings together fill the eight holes, since a plant takes ten days', async () => {
    const { sowings } = await from(26, thin(2), { weeks: 6 });
    expect(sowings!.verdict).toBe('more');
    const seeds = sowings!.dates.map(({ advised_seeds }) => advised_seeds);
    expect(seeds).toHaveLength(8);
    expect(sowings!.dates.map(({ planned_seeds }) => planned_seeds)).toEqual(seeds.map(() => 2));
    // When the plants of one sowing come, those of the sowing before still stand: 8 together, or up to 1.25 times as many.
    for (let i = 1; i < seeds.length; i++) {
      const together = seeds[i - 1]! + seeds[i]!;
      expect(together >= 7 && together <= 11).toBe(true);
    }
    // Each of the 8 sowings brings two heads more on average, but for rounding.
    expect(sowings!.difference.mean).toBeGreaterThanOrEqual(14);
    expect(sowings!.difference.mean).toBe(sowings!.advised - sowings!.planned);
  });

  test('is left alone where the plan fills every hole', async () => {
    const { sowings } = await from(26, thin(4), { weeks: 6 });
    expect(sowings!.verdict).toBe('keep');
    expect(sowings!.difference.mean).toBeLessThanOrEqual(0);
  });

  test('is as much as there are cells, and no glut after a gap', async () => {
    // Nothing was ever sown: every hole is empty. 8 holes take in 4 plants in 5 days, so 8 seeds are the most; times 1.25.
    const { sowings } = await from(0, thin(2), { rows: [] });
    const seeds = sowings!.dates.map(({ advised_seeds }) => advised_seeds);
    expect(Math.max(...seeds)).toBeLessThanOrEqual(10);
    expect(seeds[0]).toBeGreaterThan(4);
    // Sown every 2 days they take in 1.52 (10.5 d with the wait for a visit): at most twice that, times 1.25.
    const often = plan({
      stages: [stage('tray', 12), stage('wide', 8)],
      crops: [crop([grow(time(4)), grow(time(10))], every(2, 7 * WEEKS, 1))],
    });
    const { sowings: many } = await from(0, often, { rows: [] });
    for (const { advised_seeds } of many!.dates) expect(advised_seeds).toBeLessThanOrEqual(4);
    const cells = thin(2);
    const { sowings: few } = await from(
      0,
      { ...cells, stages: [stage('tray', 3), cells.stages[1]!] },
      { rows: [] },
    );
    for (const { advised_seeds } of few!.dates) expect(advised_seeds).toBeLessThanOrEqual(3);
  });

  test('is no more than what is wanted', async () => {
    // One head a week is wanted, and 8 holes could give 5.6; the plan sows 4 every 5 days.
    const days = Array.from({ length: WEEKS }, (_, week) => 7 * week + 5);
    const wanted = { ...thin(4), want: { heads: 1, days } };
    const { sowings } = await from(0, wanted, { weeks: 6, rows: [] });
    const sum = (seeds: 'planned_seeds' | 'advised_seeds'): number =>
      sowings!.dates.reduce((all, date) => all + date[seeds], 0);
    expect(sowings!.verdict).toBe('fewer seeds');
    expect(sum('planned_seeds')).toBe(36);
    // 9 sowings, for 45 days: 6 or 7 days on which heads are wanted; the multiples go from 0.8 to 1.25.
    expect(sum('advised_seeds')).toBeGreaterThanOrEqual(Math.floor(0.8 * 6) - 1);
    expect(sum('advised_seeds')).toBeLessThanOrEqual(Math.ceil(1.25 * 7) + 1);
  });

  test('is judged by the heads of whole weeks, also where the plan ends within one', async () => {
    // A week less than it takes with all waits. Day 20 is the last but one of its week, so that a day is left over at the end.
    const weeks = weeksNeeded(plan(), 20, 4) - 1;
    const ending = plan({ weeks });
    const { sowings } = await from(20, ending);
    expect(sowings!.until).toBe(isoOfDay(ending.start, 7 * weeks - 1));
  });

  test('is not asked where nothing has a date; refilled crops are told by themselves', async () => {
    const refilled = plan({ crops: [crop([grow(time(4)), grow(time(10))], { kind: 'refill' })] });
    const { sowings, refills } = await from(20, refilled, { weeks: 1 });
    expect(sowings).toBeNull();
    expect(refills.map(({ date }) => date)).toHaveLength(7);
    expect(refills.every(({ seeds }) => seeds.se === 0)).toBe(true);
    expect(refills.reduce((sum, { seeds }) => sum + seeds.mean, 0)).toBeGreaterThan(0);
    expect((await from(20, plan())).refills).toEqual([]);
  });
});

describe('what falls due and nobody comes to sow', () => {
  test('is told with its day and seeds; what a later visit of these weeks sows is not', async () => {
    // Visits up to day 22 and on 30: due on 21 (seen then), 28 (sown on 30), 35 and 42 (no visit follows).
    const days = [...Array.from({ length: 23 }, (_, day) => day), 30];
    const { not_sown, visits, sowings } = await from(20, plan({ visits: { kind: 'days', days } }));
    expect(visits).toBe(4);
    expect(sowings!.dates.map(({ date }) => date)).toEqual(['2027-01-25', '2027-02-03']);
    expect(not_sown).toEqual([
      { due: '2027-02-08', crop: 'leaf', seeds: 2 },
      { due: '2027-02-15', crop: 'leaf', seeds: 2 },
    ]);
  });
});

describe('what is odd about a log is told', () => {
  const SOWN: LogRow = {
    line: 2,
    date: '2027-01-04',
    action: 'sow',
    crop: 'leaf',
    batch: 'B1',
    stage: 'tray',
    channel: null,
    count: 2,
    grams: null,
    note: null,
  };

  test('plants that stand for longer than their times allow; they are taken as failed', async () => {
    // Ready on day 4 for sure; they still stand on day 6, and the tray was looked at on days 1 to 5.
    const { overdue, weeks } = await from(6, plan(), { rows: [SOWN], weeks: 2 });
    expect(overdue).toEqual([{ batch: 'B1', stage: 'tray', plants: 2, gone: 0 }]);
    // They are cleared on day 6; the sowing of day 7 is moved on 11 and picked on 21.
    expect(weeks.map(({ picked }) => picked.mean)).toEqual([0, 0]);
  });

  test('visits that were not made, by the sowings that are not in it', async () => {
    const { missed, last_visit, sowings } = await from(16, plan(), { rows: [SOWN], weeks: 1 });
    expect(last_visit).toBe('2027-01-04');
    expect(missed).toHaveLength(15);
    // What was due on days 7 and 14 is sown at the next visit, on day 16.
    expect(sowings!.dates[0]).toMatchObject({ date: '2027-01-20', planned_seeds: 4 });
  });

  test('a line that is begun late: what was due before is not made up for', async () => {
    const { sowings, missed } = await from(16, plan(), { rows: [], weeks: 1 });
    expect(missed).toEqual([]);
    // Due on days 0, 7 and 14, and again on 21.
    expect(sowings!.dates.map(({ date, planned_seeds }) => `${date} ${planned_seeds}`)).toEqual([
      '2027-01-25 2',
    ]);
  });

  test('rows that do not fit are faults', async () => {
    const reading = await lookAhead(plan(), [SOWN], { today: '2027-01-01', weeks: 1, futures: 1 });
    expect(reading).toMatchObject({ ok: false, faults: [{ line: 2, column: 'date' }] });
  });
});

describe('the future', () => {
  test('is the same for the same seed, and another one for another', async () => {
    const chancy = plan({ crops: [crop([grow(time(4, 0.2)), grow(time(10, 0.2))], every(3, 7 * WEEKS, 2))] });
    const rows = simulatedLog(chancy, 1, 0, { until: 30 });
    const ahead = (seed: number) =>
      lookAhead(chancy, rows, { today: '2027-02-03', weeks: 3, futures: 10, seed });
    const one = await ahead(1);
    expect(await ahead(1)).toEqual(one);
    expect(await ahead(2)).not.toEqual(one);
  });

  test('needs a plan that reaches until what is sown is picked', async () => {
    // From day 20, 4 weeks, and 14 days or some more until the last sowing is picked: up to day 76 at the latest.
    expect(weeksNeeded(plan(), 20, 4)).toBeGreaterThanOrEqual(Math.ceil((20 + 28 + 14) / 7));
    expect(weeksNeeded(plan(), 20, 4)).toBeLessThanOrEqual(11);
    await expect(from(20, plan({ weeks: 6 }))).rejects.toThrow('the plan must have');
    await expect(from(20, plan(), { weeks: 0 })).rejects.toThrow(RangeError);
    await expect(from(20, plan(), { futures: 0.5 })).rejects.toThrow(RangeError);
  });

  test('may be one in which nobody ever comes again', async () => {
    // Made as long as it says that it must be, it would have to be longer: the gap without visits has grown.
    const gone = (weeks: number): Plan => plan({ weeks, visits: { kind: 'days', days: [0, 1, 2] } });
    const needed = weeksNeeded(gone(6), 3, 4);
    expect(weeksNeeded(gone(needed), 3, 4)).toBeGreaterThan(needed);
    const { visits, weeks } = await from(3, gone(needed));
    expect(visits).toBe(0);
    for (const { picked } of weeks) expect(picked).toEqual(surely(0));
  });

  test('is not waited for by somebody who says stop', async () => {
    let asked = 0;
    const pause = () => Promise.resolve(++asked < 3);
    const reading = await lookAhead(plan(), [], { today: null, weeks: 1, futures: 50, pause });
    expect(reading).toBeNull();
    expect(asked).toBe(3);
  });
});
