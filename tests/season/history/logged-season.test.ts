import { describe, expect, test } from 'vitest';
import { loggedSeason } from '../../../sim/season/history/logged-season.js';
import { lossKind } from '../../../sim/season/history/losses.js';
import { inferredSeason } from '../../../sim/season/replay/infer-plan.js';
import { always, crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf } from '../../support/replayed.js';
import { simulatedLog } from '../../support/simulated-log.js';

const plan = line(
  [stage('tray', 40), stage('bed', 40)],
  [crop([grow(time(4)), grow(time(9))], every(3, 70, 10), { name: 'chard' })],
  { weeks: 10, visits: visitDays(10, [1, 0, 0]) },
);

describe('what a log and a plan have to do with each other', () => {
  test('rows before and behind the season are faults, one for each side, with what to set', () => {
    const rows = rowsOf(plan, ['-3 sow A 4 tray', '-2 sow B 4 tray', '70 sow C 4 tray', '80 sow D 4 tray']);
    expect(loggedSeason(rows, plan, true)).toEqual({
      ok: false,
      faults: [
        {
          line: 2,
          column: 'date',
          found: '2027-01-01',
          expected: 'a date from 2027-01-04 to 2027-03-14, the season of the scenario',
          nearest: null,
          advice: 'Set start: 2027-01-01 in the scenario.',
          more: 1,
        },
        expect.objectContaining({
          line: 4,
          found: '2027-03-15',
          // Day 80 lies in the twelfth week.
          advice: 'Set weeks: 12 in the scenario.',
          more: 1,
        }),
      ],
    });
  });

  test('a sowing without a crop is a fault if the scenario has several', () => {
    const two = { ...plan, crops: [plan.crops[0]!, { ...plan.crops[0]!, name: 'mizuna' }] };
    const rows = rowsOf(plan, ['0 sow A 4 tray']).map((row) => ({ ...row, crop: '' }));
    expect(loggedSeason(rows, plan, true).ok).toBe(true);
    expect(loggedSeason(rows, two, true)).toMatchObject({
      ok: false,
      faults: [{ column: 'crop', expected: 'one of the crops chard, mizuna' }],
    });
  });

  test('a log that ends near the end of the season tells of all of it, one that breaks off up to its last row', () => {
    const daysWith = (last: number): number => {
      const framing = loggedSeason(rowsOf(plan, ['0 sow A 4 tray', `${last} sow B 4 tray`]), plan, true);
      return framing.ok ? framing.value.days : Number.NaN;
    };
    expect(daysWith(63)).toBe(70);
    expect(daysWith(62)).toBe(63);
    expect(daysWith(20)).toBe(21);
  });

  test('visits at every change are taken as daily visits: a log has whole dates', () => {
    const season = seasonOf({ ...plan, visits: always }, rowsOf(plan, ['0 sow A 4 tray']));
    expect(season.plan.visits).toEqual(visitDays(10));
  });
});

test.each([
  ['discarded', 'discarded'],
  ['Overgrown, no room', 'discarded'],
  ['bolted', 'discarded'],
  ['failed', 'failed'],
  ['did not sprout', 'failed'],
  ['died', 'died'],
  ['root rot', 'died'],
  ['see page 4', null],
  [null, null],
])('the note %j says: %s', (note, kind) => {
  expect(lossKind(note)).toBe(kind);
});

describe('without a scenario', () => {
  const rows = simulatedLog(plan, 1, 0);
  const season = inferredSeason(rows, ['tray', 'bed']);

  test('holes are the most that ever stood at once, visits the dates of the log, the season what the log tells of', () => {
    // Visits every third day: 10 seeds stand for 6 days in the tray (two sowings at once), 9 days in the bed (three).
    expect(season.plan.stages.map(({ holesPerChannel }) => holesPerChannel)).toEqual([20, 30]);
    expect(season.plan.visits).toEqual({ kind: 'days', days: expect.arrayContaining([0, 3, 6, 69]) });
    expect(season.days).toBe(70);
    expect(season.planned).toBe(false);
  });

  test('mean times are the stays that were seen, less the mean wait for a visit', () => {
    // Gaps of 3 days: 1.5 days of waiting on average. Both stays are the same for all.
    const [crop0] = season.plan.crops;
    expect(crop0!.name).toBe('chard');
    // The last gap, to the end of the season, is one day, so the mean is a little shorter: 23 x 9 + 1 over 2 x 70.
    const wait = (23 * 9 + 1) / (2 * 70);
    expect(crop0!.stages.map(({ time: { days } }) => days)).toEqual([
      expect.closeTo(6 - wait, 12),
      expect.closeTo(9 - wait, 12),
    ]);
    expect(crop0!.germination).toBe(1);
  });

  test('losses are the shares that were seen', () => {
    const lossy = rowsOf(plan, [
      '0 sow A 10 tray',
      '6 lose A 2 tray failed',
      '6 move A 8 bed',
      '12 lose A 1 bed died',
      '15 pick A 3 bed',
    ]);
    const [seen] = inferredSeason(lossy, ['tray', 'bed']).plan.crops;
    expect(seen!.germination).toBe(0.8);
    expect(seen!.stages.map(({ loss }) => loss)).toEqual([0, 1 / 8]);
  });
});
