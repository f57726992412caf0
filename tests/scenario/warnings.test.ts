import { expect, test } from 'vitest';
import { cellarWith, warningLines } from './cellar.js';

const WANT = 'want: {heads: 6, on: [tue, fri]}';

test('a day on which heads are wanted and nobody ever comes is warned of', () => {
  expect(warningLines(cellarWith(['[tue, fri]', '[mon, tue]']))).toEqual([
    '21:28 want.on[1] | There is never a visit on tue: nobody is there to pick, so all heads wanted that day are short.',
  ]);
});

test('a day that away takes out of the whole season is warned of', () => {
  const lines = warningLines(
    cellarWith(
      ['[tue, fri]', '[mon, thu]'],
      ['{from: 2027-02-08, to: 2027-02-14}', '{from: 2027-01-05, to: 2027-07-03}'],
    ),
  );
  expect(lines.map((line) => line.split(' | ')[0])).toEqual(['21:28 want.on[1]']);
});

test('with visits: always somebody is always there', () => {
  const text = cellarWith(
    ['[mon, thu, sat]', 'always'],
    ['away: [{from: 2027-02-08, to: 2027-02-14}]\n', ''],
  );
  expect(warningLines(text)).toEqual([]);
});

test('dates of sowing outside the season are warned of', () => {
  const sow = '{dates: [2027-01-03, 2027-01-04, 2027-07-04, 2027-07-05], seeds: 10}';
  // 26 weeks from 2027-01-04 end with 2027-07-04.
  expect(warningLines(cellarWith(['{every: 3, seeds: 10}', sow], [WANT, '']))).toEqual([
    '14:19 crops[0].sow.dates[0] | 2027-01-03 is before the start of the season: not sown.',
    '14:55 crops[0].sow.dates[3] | 2027-07-05 is after the end of the season: not sown.',
  ]);
});

test('a season no longer than the mean times of a crop is warned of', () => {
  expect(warningLines(cellarWith(['weeks: 26', 'weeks: 6'], [WANT, '']))).toEqual([
    '18:7 crops[0].stages | butterhead needs 42 days on average, the season has 42: hardly anything will be picked before its end.',
  ]);
  expect(warningLines(cellarWith(['weeks: 26', 'weeks: 7'], [WANT, '']))).toEqual([]);
});

test('an absence that has no day of the season is warned of', () => {
  const away = (from: string, to: string) =>
    warningLines(
      cellarWith(['{from: 2027-02-08, to: 2027-02-14}', `{from: ${from}, to: ${to}}`], [WANT, '']),
    );
  // 26 weeks from 2027-01-04 end with 2027-07-04.
  expect(away('2026-12-24', '2027-01-03')).toEqual([
    '6:8 away[0] | 2026-12-24 to 2027-01-03 is before the start of the season: it changes nothing.',
  ]);
  expect(away('2027-07-05', '2027-07-20')).toEqual([
    '6:8 away[0] | 2027-07-05 to 2027-07-20 is after the end of the season: it changes nothing.',
  ]);
  expect(away('2026-12-24', '2027-01-04')).toEqual([]);
  expect(away('2027-07-04', '2027-07-20')).toEqual([]);
  expect(away('2026-12-24', '2027-07-20')).toEqual([]);
});

test('more seeds at a time than the first stage has cells are warned of', () => {
  const sown = (sow: string) => warningLines(cellarWith(['{every: 3, seeds: 10}', sow], [WANT, '']));
  expect(sown('{every: 3, seeds: 41}')).toEqual([
    '14:28 crops[0].sow.seeds | 41 seeds of butterhead are sown at a time, and germination has 40 cells: 1 or more of them cannot be sown.',
  ]);
  expect(sown('{every: 3, seeds: 40}')).toEqual([]);
  expect(sown('{refill: true}')).toEqual([]);
});
