/** What is never mentioned again: on a line so small that a reader can follow it. */

import { expect, test } from 'vitest';
import { cohortsOf } from '../../../sim/season/history/cohorts.js';
import { lossesForWantOfRoom, seasonBehind } from '../../../sim/season/history/season-behind.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf } from '../../support/replayed.js';

/** Tray 4 d, then 8 d wide; somebody there every day. */
const lineOf = (wide: number) =>
  line([stage('tray', 10), stage('wide', wide)], [crop([grow(time(4)), grow(time(8))], every(56, 56, 10))], {
    weeks: 8,
    visits: visitDays(8),
  });

/** The season behind rows, known up to a day. */
function loggedOf(wide: number, days: number, ...texts: string[]) {
  const plan = lineOf(wide);
  return seasonOf(plan, rowsOf(plan, texts), days);
}

/** Plants that still stand wide, by the day from which on the log tells of them. */
function standingWide({ cohorts }: ReturnType<typeof seasonBehind>): Record<number, number> {
  return Object.fromEntries(
    cohorts[1]!.flatMap(({ seen, stays }) =>
      stays.filter(({ end }) => end === 'standing').map(({ count }) => [seen, count]),
    ),
  );
}

test('of a batch whose plants came on two days only those are gone that have stood too long', () => {
  const behind = seasonBehind(loggedOf(20, 15, '0 sow B1 10 tray', '4 move B1 5 wide', '9 move B1 5 wide'));
  expect(behind.unseen).toMatchObject([{ day: 12, count: 5, stage: 1, loss: 'died' }]);
  expect(standingWide(behind)).toEqual({ 9: 5 });
});

test('of those that were found standing, whoever must be gone if it came on the last day that it can have', () => {
  const stand = (days: string): string => `2 stand B1 5 wide since 2027-01-0${days}`;
  const behindAt = (days: number, since: string) =>
    seasonBehind(loggedOf(20, days, stand(since), '2 sow B2 1 tray'));
  // Since day 0 to day 1: 9 days old at most on day 9.
  expect(standingWide(behindAt(9, '4..2027-01-05'))).toEqual({ 2: 5 });
  const behind = behindAt(11, '4..2027-01-05');
  expect(standingWide(behind)).toEqual({});
  expect(behind.unseen.find(({ stage: s }) => s === 1)).toMatchObject({ day: 9, count: 5 });
});

test('as long as there is room, what is overdue stands as the log says', () => {
  const texts = ['0 sow B1 5 tray', '4 move B1 5 wide', '9 sow B2 5 tray', '13 move B2 5 wide'];
  const lossesIn = (wide: number) => {
    const logged = loggedOf(wide, 15, ...texts);
    return lossesForWantOfRoom(logged, cohortsOf(logged));
  };
  expect(lossesIn(10)).toEqual([]);
  expect(lossesIn(9)).toMatchObject([{ batch: 0, stage: 1, day: 12, count: 5 }]);
});
