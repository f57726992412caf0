import { expect, test } from 'vitest';
import { seedsAWeek, visitsAWeek } from '../../sim/scenario/rates.js';
import { cellarWith, readWell } from './cellar.js';

const scenario = (...edits: [string, string][]) => readWell(cellarWith(...edits)).value.scenario;

test.each([
  ['every so many days: 7 x seeds / days', '{every: 3, seeds: 12}', 28],
  ['on weekdays: seeds x weekdays', '{on: [mon, thu], seeds: 5}', 10],
  // 26 weeks from 2027-01-04 end before 2027-07-05.
  [
    'on dates: those in the season, over its weeks',
    '{dates: [2027-01-04, 2027-07-04, 2027-07-05, 2027-01-03], seeds: 13}',
    1,
  ],
])('seeds a week, sown %s', (_, sow, seeds) => {
  expect(seedsAWeek(scenario(['{every: 3, seeds: 10}', sow]))).toBeCloseTo(seeds, 12);
});

test('what is sown to refill is not known beforehand', () => {
  expect(seedsAWeek(scenario(['{every: 3, seeds: 10}', '{refill: true}']))).toBeNull();
});

test('the seeds of all crops add up', () => {
  const { crops, ...rest } = scenario(['{every: 3, seeds: 10}', '{every: 7, seeds: 10}']);
  expect(seedsAWeek({ ...rest, crops: [...crops, ...crops] })).toBe(20);
});

test('visits a week', () => {
  expect(visitsAWeek(scenario())).toBe(3);
  expect(visitsAWeek(scenario(['visits: [mon, thu, sat]', 'visits: daily']))).toBe(7);
  const always: [string, string][] = [
    ['visits: [mon, thu, sat]', 'visits: always'],
    ['away: [{from: 2027-02-08, to: 2027-02-14}]', ''],
  ];
  expect(visitsAWeek(scenario(...always))).toBeNull();
});
