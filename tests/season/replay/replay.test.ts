/** The whole of a replay, as it is printed. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isoOfDay } from '../../../sim/models/dates.js';
import { PICKED, SOWN } from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import type { Plan, Sowing } from '../../../sim/models/plan.js';
import { readLog } from '../../../sim/season/log/read.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { replaySeason } from '../../../sim/season/replay/replay.js';
import type { ReplayResult } from '../../../sim/season/replay/result.js';
import type { CadenceChange } from '../../../sim/season/replay/what-if.js';
import { EXAMPLES, planOf, SHELF, SHELF_LOG } from '../../support/examples.js';
import { copyOf } from '../../support/laws.js';
import { simulatedLog } from '../../support/simulated-log.js';

function replayOf(rows: readonly LogRow[], plan: Plan, options?: { change: CadenceChange }): ReplayResult {
  const replayed = replaySeason(
    rows,
    plan.stages.map(({ name }) => name),
    plan,
    options,
  );
  if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
  return replayed.value;
}

const home = planOf(SHELF);

describe.each(['home-shelf', 'kitchen-garden', 'school-club'])('a simulated season of %s', (name) => {
  const plan = planOf(`${EXAMPLES}${name}.yaml`);
  const season = copyOf(new Line(plan).run(5, 1));
  const change = { every: 4, on: null, seeds: null };
  const result = replayOf(simulatedLog(plan, 5, 1), plan, { change });

  test('has the picks of each week and the seeds that the simulator counts', () => {
    expect(result.weeks.map(({ heads }) => heads)).toEqual([...season.weekPicks]);
    expect(result.counts).toMatchObject({ sown: season.counts[SOWN], picked: season.counts[PICKED] });
    expect(result.whole).toBe(true);
  });

  test('comes out again when it is simulated with its own sowings and its own luck', () => {
    expect(result.what_if).toMatchObject({ faithful: true, again: season.counts[PICKED] });
  });

  test('would have given something else with another cadence, the weeks adding up', () => {
    const { weeks, picked, sown } = result.what_if!;
    expect(weeks.reduce((sum, { would }) => sum + would, 0)).toBe(picked.would);
    expect(weeks.map(({ was }) => was)).toEqual(result.weeks.map(({ heads }) => heads));
    expect(sown.would).not.toBe(sown.was);
  });

  test('has hole-days that add up', () => {
    for (const { ledger, hole_days, standing } of result.stages) {
      expect(ledger.occupied + ledger.cleaning + ledger.empty).toBe(hole_days + ledger.beyond);
      expect(standing.reduce((sum, plants) => sum + plants, 0)).toBe(ledger.occupied);
    }
  });
});

describe('another cadence', () => {
  const rows = simulatedLog(home, 5, 1);

  test('that is the plan itself gives the season itself', () => {
    const { what_if } = replayOf(rows, home, { change: { every: 3, on: null, seeds: 10 } });
    expect(what_if!.weeks.every(({ was, would }) => was === would)).toBe(true);
    expect(what_if!.resampled).toBe(0);
  });

  test('takes its seeds from the plan if only days are named, and its days if only seeds are', () => {
    const of = (change: CadenceChange) => replayOf(rows, home, { change }).what_if!;
    expect(of({ every: null, on: ['mon'], seeds: null }).seeds).toEqual({ butterhead: 10 });
    // A Monday a week for 26 weeks.
    expect(of({ every: null, on: ['mon'], seeds: 12 }).sown.would).toBeLessThanOrEqual(26 * 12);
    // 61 sowings of one seed each, of which some fall due while away and none lacks a cell.
    expect(of({ every: null, on: null, seeds: 1 }).sown.would).toBe(61);
  });

  test('takes the seeds of the plan, not those that were sown', () => {
    const few = {
      ...home,
      crops: [{ ...home.crops[0]!, sowing: { ...home.crops[0]!.sowing, seeds: 6 } as Sowing }],
    };
    const result = replayOf(simulatedLog(few, 5, 1), home, { change: { every: 3, on: null, seeds: null } });
    expect(result.what_if!.seeds).toEqual({ butterhead: 10 });
    expect(result.what_if!.sown.would).toBeGreaterThan(result.what_if!.sown.was);
  });

  test('says when the line was not run as the rules say', () => {
    // Picks are kept back for a week: the simulator would have picked all that was ready.
    const late = rows.map((row) => {
      if (row.action !== 'pick' || row.date > '2027-05-01') return row;
      return { ...row, date: new Date(Date.parse(row.date) + 7 * 86_400_000).toISOString().slice(0, 10) };
    });
    late.sort((a, b) => a.date.localeCompare(b.date));
    const { what_if } = replayOf(late, home, { change: { every: 3, on: null, seeds: null } });
    expect(what_if!.picked.was).toBe(new Line(home).run(5, 1).counts[PICKED]);
    expect(what_if!.faithful).toBe(false);
  });
});

describe('a log of more plants than the scenario has holes', () => {
  /** The line of the log with fewer finishing channels. */
  const smaller = (channels: number): Plan => ({
    ...home,
    stages: home.stages.map((one) => (one.name === 'finishing' ? { ...one, channels } : one)),
  });
  const rows = simulatedLog(home, 5, 1);

  test('says in which stage, from when, and how many at most', () => {
    const { crowded, stages } = replayOf(rows, smaller(2));
    const { standing, holes } = stages[2]!;
    expect(holes).toBe(18);
    const day = standing.findIndex((plants) => plants > 18);
    expect(crowded).toEqual([
      { stage: 'finishing', holes: 18, from: isoOfDay(home.start, day), most: Math.max(...standing) },
    ]);
  });

  test('says nothing of the kind where all had a hole', () => {
    expect(replayOf(rows, home).crowded).toEqual([]);
  });
});

describe('the log of an example season', () => {
  const text = readFileSync(SHELF_LOG, 'utf8');
  const read = readLog(
    text,
    home.stages.map(({ name }) => name),
    home.crops,
  );
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const result = replayOf(read.value.rows, home);
  const causes = result.idle.map(({ cause }) => cause);

  test('reads without a warning and fits its scenario', () => {
    expect(read.value.warnings).toEqual([]);
    expect(result.stages.map(({ ledger }) => ledger.beyond)).toEqual([0, 0, 0]);
  });

  test('has a fortnight in April on which nobody came', () => {
    expect(result.missed_visits.at(0)).toBe('2027-04-05');
    expect(result.missed_visits.at(-1)).toBe('2027-04-17');
    expect(causes).toContainEqual({
      kind: 'absent',
      since: '2027-04-03',
      until: '2027-04-19',
      planned: false,
    });
  });

  test('has plants that were overgrown by then', () => {
    expect(causes).toContainEqual(expect.objectContaining({ kind: 'thrown_away', date: '2027-04-19' }));
  });

  test('has a batch that failed and a channel out of use', () => {
    expect(causes).toContainEqual(expect.objectContaining({ kind: 'batch_failed', batch: 'B20', lost: 9 }));
    const rest = result.idle.find(({ cause }) => cause.kind === 'cleaning');
    expect(rest).toMatchObject({ from: '2027-05-06', to: '2027-05-19', holes: 9, hole_days: 126 });
  });

  test('has sowings left out in May and in the week away', () => {
    const below = causes.flatMap((cause) =>
      cause.kind === 'too_little_sown' ? (cause.sowings?.below_plan ?? []) : [],
    );
    expect(below).toContain('2027-05-13');
    expect(below).toContain('2027-05-17');
  });

  test('without its scenario has the same picks, and the most that ever stood for holes', () => {
    const alone = readLog(text, null);
    if (!alone.ok) throw new Error(JSON.stringify(alone.faults));
    const replayed = replaySeason(alone.value.rows, alone.value.stages, null);
    if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
    expect(replayed.value.counts.picked).toBe(result.counts.picked);
    expect(replayed.value.stages.map(({ name }) => name)).toEqual(['germination', 'nursery', 'finishing']);
    replayed.value.stages.forEach(({ holes, standing }, s) => {
      expect(holes).toBe(Math.max(...standing));
      expect(holes).toBeLessThanOrEqual(result.stages[s]!.holes);
    });
  });
});

test('a log that breaks off is replayed up to its last row', () => {
  const rows = simulatedLog(home, 5, 1, { until: 90 });
  const whole = simulatedLog(home, 5, 1);
  const result = replayOf(rows, home, { change: { every: 3, on: null, seeds: 10 } });
  expect(result.whole).toBe(false);
  expect(result.days).toBeLessThanOrEqual(90);
  expect(result.weeks.length).toBe(Math.ceil(result.days / 7));
  const picked = whole.filter(({ action, date }) => action === 'pick' && date <= result.end);
  expect(result.counts.picked).toBe(picked.reduce((sum, { count }) => sum + count, 0));
  expect(result.what_if!.picked.would).toBe(result.counts.picked);
});
