import { expect, test } from 'vitest';
import { firstCountedWeek, settledDay } from '../../../sim/study/search/weeks.js';
import { always, crop, every, exponential, grow, line, stage, time, visitDays } from '../../support/plans.js';

const STAGES = [stage('nursery', 10), stage('finishing', 10)];

test('a line has settled after its first sowing, mean times, two standard deviations and the longest gap', () => {
  const lettuce = crop([grow(time(10, 0.3)), grow(time(20, 0.2))], { kind: 'due', days: [4, 11], seeds: 1 });
  // Visits on days 0, 3, 7, 10, ...: at most 4 days apart. Standard deviations 3 d and 4 d make 5 d.
  const plan = line(STAGES, [lettuce], { weeks: 20, visits: visitDays(20, [1, 0, 0, 1, 0, 0, 0]) });
  expect(settledDay(plan)).toBeCloseTo(4 + 30 + 2 * 5 + 4, 9);
  expect(firstCountedWeek([plan])).toBe(7);
});

test('the wait for the first visit counts as a gap', () => {
  const plan = line(STAGES, [crop([grow(time(7)), grow(time(7))], every(7, 140, 1))], {
    weeks: 20,
    visits: { kind: 'days', days: [30, 31, 32] },
  });
  expect(settledDay(plan)).toBe(44);
});

test('it settles with its slowest crop, but for crops that are not sown', () => {
  const sowing = every(7, 140, 1);
  const quick = crop([grow(time(7)), grow(time(7))], sowing);
  const slow = crop([grow(time(7)), grow(time(21))], sowing);
  const unsown = crop([grow(time(7)), grow(time(70))], { kind: 'due', days: [], seeds: 1 });
  const refilled = crop([grow(time(7)), grow(exponential(10))], { kind: 'refill' });
  const day = (...crops: Parameters<typeof line>[1]): number =>
    settledDay(line(STAGES, crops, { weeks: 20, visits: always }));
  expect(day(quick, slow, unsown)).toBe(28);
  expect(day(refilled)).toBeCloseTo(17 + 2 * 10, 9);
});

test('it never does if nobody comes or nothing is sown', () => {
  const leaf = crop([grow(time(7)), grow(time(7))], every(7, 140, 1));
  expect(settledDay(line(STAGES, [leaf], { weeks: 20, visits: { kind: 'days', days: [] } }))).toBe(Infinity);
  const unsown = { ...leaf, sowing: { kind: 'due', days: [], seeds: 1 } } as const;
  expect(settledDay(line(STAGES, [unsown], { weeks: 20 }))).toBe(Infinity);
});

test('the first week that counts is the first that begins when the slowest plan has settled', () => {
  const settling = (days: number) =>
    line(STAGES, [crop([grow(time(days)), grow(time(1))], every(7, 140, 1))], { weeks: 20 });
  expect(firstCountedWeek([settling(13)])).toBe(2);
  expect(firstCountedWeek([settling(13.5)])).toBe(3);
  expect(firstCountedWeek([settling(13), settling(30), settling(20)])).toBe(5);
});
