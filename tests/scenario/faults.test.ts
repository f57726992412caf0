import { describe, expect, test } from 'vitest';
import { CELLAR, cellarWith, faultLines, faultsOf } from './cellar.js';

const KEYS =
  'one of the keys title, start, weeks, seed, visits, away, stages, crops, want, climate, water, tank, tiers, work, prices, log';
const WEEKS = 'a whole number from 1 to 520 (weeks)';
const HOLES = 'a whole number from 1 to 1000000 (holes per channel)';
const DATE = 'an existing date as YYYY-MM-DD (year 1900 to 2999, month, day)';
const SPREAD = 'a number from 0 to 2 (standard deviation over mean)';
const SHARE = 'a share from 0 to 1';
const WEEKDAY = 'a weekday: mon, tue, wed, thu, fri, sat or sun';
const WEEKDAYS = 'a list of 1 to 7 weekdays: mon, tue, wed, thu, fri, sat or sun';
const VISITS = 'daily, always or a list of weekdays (mon, tue, wed, thu, fri, sat, sun)';
const SOW = 'exactly one of the keys every, on, dates (each with seeds) or refill: true';
const SHAPE = 'one of the shapes lognormal, gamma, weibull, triangular, exponential, fixed or observed';
const DAYS = 'a number above 0 and at most 3650 (days)';
const STAGE = 'a stage of the line: germination, nursery, finishing';
const NAME = 'a name of 1 to 60 characters on one line that begins with a letter or a digit';
const TITLE = 'a text of 1 to 200 characters on one line, without control characters';
const CADENCE = '{every: 3, seeds: 10}';
const HEAD = '    head_g: 150\n';

/** Each: what is claimed, what is replaced by what in the correct file, the faults. */
const CASES: Record<string, [title: string, from: string, to: string, ...faults: string[]][]> = {
  titles: [
    [
      'a title is on one line',
      'title: Cellar line',
      'title: "Keller\\nrm -rf"',
      `1:8 title | "Keller\\nrm -rf" | ${TITLE} | null`,
    ],
    [
      'a title holds nothing that a terminal would obey',
      'title: Cellar line',
      'title: "a\\eb"',
      `1:8 title | "a\\u001bb" | ${TITLE} | null`,
    ],
    [
      'a title ends somewhere',
      'title: Cellar line',
      `title: ${'x'.repeat(201)}`,
      `1:8 title | "${'x'.repeat(60)}…" | ${TITLE} | null`,
    ],
    ['a title is not empty', 'title: Cellar line', 'title: ""', `1:8 title | "" | ${TITLE} | null`],
    [
      'a title has no half of a character, which no file can hold',
      'title: Cellar line',
      'title: "a\\ud800b"',
      `1:8 title | "a\\ud800b" | ${TITLE} | null`,
    ],
    [
      'nor has a name, which is to stand in a log',
      'name: butterhead',
      'name: "a\\ufffdb"',
      `12:11 crops[0].name | "a\ufffdb" | ${NAME} | null`,
    ],
  ],
  keys: [
    [
      'a log is the path of a file',
      'weeks: 26',
      'weeks: 26\nlog: "-"',
      '4:6 log | "-" | the path of a file, as seen from the folder of the scenario | null',
    ],
    [
      'a log is one path',
      'weeks: 26',
      'weeks: 26\nlog: [2027.csv]',
      '4:6 log | a list of 1 | the path of a file, as seen from the folder of the scenario | null',
    ],
    [
      'an unknown key is pointed at, with the nearest valid one',
      'weeks: 26',
      'weks: 26',
      `3:1 weks | the key weks | ${KEYS} | weeks`,
    ],
    [
      'an unknown key that is like no other has no nearest',
      'seed: 7',
      'light: 7',
      `4:1 light | the key light | ${KEYS} | null`,
    ],
    [
      'an unknown key deep in the file is pointed at',
      'hole_area_cm2: 100',
      'area_cm2: 100',
      '9:45 stages[1].area_cm2 | the key area_cm2 | one of the keys name, channels, holes, hole_area_cm2, clean_days, ppfd, hours, watts, efficacy, reaches, channel_size | hole_area_cm2',
    ],
    [
      'a missing key is reported at the map that lacks it',
      ', holes: 24',
      '',
      `9:5 stages[1].holes | nothing | ${HOLES} | null`,
    ],
    [
      'a key at the top that is missing is reported at the top',
      'weeks: 26\n',
      '',
      `1:1 weeks | nothing | ${WEEKS} | null`,
    ],
    [
      'a key a second time is pointed at',
      'weeks: 26',
      'weeks: 26\nweeks: 27',
      '4:1 weeks | the key weeks a second time (first in line 3) | every key once | null',
    ],
    [
      'a key with nothing behind it is an empty value',
      'weeks: 26',
      'weeks:',
      `3:7 weeks | an empty value | ${WEEKS} | null`,
    ],
    [
      'a list as a key is refused',
      'seed: 7',
      '? [a, b]\n: 7',
      '4:3  | a list as a key | a word as a key | null',
    ],
    [
      'a key that no map can keep is refused',
      'seed: 7',
      '__proto__: 7',
      '4:1  | "__proto__" as a key | a word as a key | null',
    ],
    [
      'a key that every JavaScript object has is unknown all the same',
      'seed: 7',
      'constructor: 7',
      `4:1 constructor | the key constructor | ${KEYS} | null`,
    ],
  ],
  numbers: [
    ['a text is no number', 'weeks: 26', 'weeks: "26"', `3:8 weeks | "26" | ${WEEKS} | null`],
    ['a list is no number', 'weeks: 26', 'weeks: [26]', `3:8 weeks | a list of 1 | ${WEEKS} | null`],
    ['true is no number', 'weeks: 26', 'weeks: true', `3:8 weeks | true | ${WEEKS} | null`],
    ['weeks have an upper limit', 'weeks: 26', 'weeks: 521', `3:8 weeks | 521 | ${WEEKS} | null`],
    ['holes must not be negative', 'holes: 9', 'holes: -9', `10:43 stages[2].holes | -9 | ${HOLES} | null`],
    [
      'holes must not be fractions',
      'holes: 9',
      'holes: 9.5',
      `10:43 stages[2].holes | 9.5 | ${HOLES} | null`,
    ],
    ['NaN is no number', 'holes: 9', 'holes: .nan', `10:43 stages[2].holes | NaN | ${HOLES} | null`],
    [
      'infinity is no number',
      'holes: 9',
      'holes: .inf',
      `10:43 stages[2].holes | Infinity | ${HOLES} | null`,
    ],
    [
      'a number too large for a double is infinity',
      'days: 7',
      'days: 1e999',
      `18:27 crops[0].stages.germination.days | Infinity | ${DAYS} | null`,
    ],
    [
      'days must be above 0',
      'days: 7',
      'days: 0',
      `18:27 crops[0].stages.germination.days | 0 | ${DAYS} | null`,
    ],
    [
      'a seed above 2^53 - 1 could not be told from its neighbours',
      'seed: 7',
      'seed: 9007199254740993',
      '4:7 seed | 9007199254740992 | a whole number from 0 to 9007199254740991 | null',
    ],
    [
      'germination is a share',
      'germination: 0.92',
      'germination: 92',
      `13:18 crops[0].germination | 92 | ${SHARE} | null`,
    ],
    [
      'keeps must not be negative',
      'keeps: 4',
      'keeps: -1',
      '18:51 crops[0].stages.germination.keeps | -1 | a number of at least 0 (days) | null',
    ],
    [
      'cleaning ends somewhere',
      'clean_days: 1}',
      'clean_days: 1e308}',
      '10:78 stages[2].clean_days | 1e+308 | a number from 0 to 3650 (days) | null',
    ],
    [
      'a head weighs less than a ton',
      'head_g: 150',
      'head_g: 1e308',
      '16:13 crops[0].head_g | 1e+308 | a number above 0 and at most 1000000 (g) | null',
    ],
    [
      'the line has at most 2 000 000 holes in all',
      'channels: 8, holes: 9',
      'channels: 100000, holes: 20',
      '8:3 stages | 2000088 holes in all (channels times holes) | at most 2000000 holes in the whole line | null',
    ],
  ],
  'growth time': [
    [
      'a spread of 5 is refused',
      'spread: 0.12, loss: 0.03',
      'spread: 5, loss: 0.03',
      `19:35 crops[0].stages.nursery.spread | 5 | ${SPREAD} | null`,
    ],
    [
      'a misspelt shape has a nearest one',
      'shape: gamma',
      'shape: gama',
      `20:72 crops[0].stages.finishing.shape | "gama" | ${SHAPE} | gamma`,
    ],
    [
      'lognormal needs days',
      'days: 7, ',
      '',
      `18:20 crops[0].stages.germination.days | nothing | ${DAYS} | null`,
    ],
    [
      'lognormal needs a spread',
      'spread: 0.10, ',
      '',
      `18:20 crops[0].stages.germination.spread | nothing | ${SPREAD} | null`,
    ],
    [
      'a misspelt key is one fault, not also a missing one',
      'spread: 0.10',
      'spred: 0.10',
      '18:30 crops[0].stages.germination.spred | the key spred | one of the keys days, spread, shape, observed, loss, keeps, ready_g, days_at | spread',
    ],
    [
      'exponential takes no spread but 1',
      'spread: 0.10',
      'spread: 0.10, shape: exponential',
      '18:38 crops[0].stages.germination.spread | 0.1 | no spread (or 1) with the shape exponential | null',
    ],
    [
      'fixed takes no spread but 0',
      'spread: 0.10',
      'spread: 0.10, shape: fixed',
      '18:38 crops[0].stages.germination.spread | 0.1 | no spread (or 0) with the shape fixed | null',
    ],
    [
      'a triangle must not begin below 0 days',
      'spread: 0.10',
      'spread: 0.41, shape: triangular',
      '18:38 crops[0].stages.germination.spread | 0.41 | a number from 0 to below 0.408 with the shape triangular (standard deviation over mean) | null',
    ],
    [
      'observed needs its list',
      'days: 7, spread: 0.10',
      'shape: observed',
      '18:20 crops[0].stages.germination.observed | nothing | a list of at least one observed time (days) | null',
    ],
    [
      'observed takes no days',
      'days: 7, spread: 0.10',
      'observed: [6, 8], days: 7',
      '18:39 crops[0].stages.germination.days | the key days with observed times | no days with the shape observed (the observed times say it) | null',
    ],
    [
      'observed takes no spread',
      'days: 7, spread: 0.10',
      'observed: [6, 8], spread: 0.1',
      '18:39 crops[0].stages.germination.spread | the key spread with observed times | no spread with the shape observed (the observed times say it) | null',
    ],
    [
      'observed times are above 0',
      'days: 7, spread: 0.10',
      'observed: [6, 0]',
      `18:35 crops[0].stages.germination.observed[1] | 0 | ${DAYS} | null`,
    ],
    [
      'observed times are not empty',
      'days: 7, spread: 0.10',
      'observed: []',
      '18:31 crops[0].stages.germination.observed | an empty list | a list of at least one observed time (days) | null',
    ],
    [
      'another shape takes no observed times',
      'days: 7, spread: 0.10',
      'observed: [6], shape: gamma',
      '18:21 crops[0].stages.germination.observed | the key observed with the shape gamma | observed only with shape: observed | null',
    ],
    [
      'a number is not yet a growth time',
      'germination: {days: 7, spread: 0.10, keeps: 4}',
      'germination: 7',
      '18:20 crops[0].stages.germination | 7 | one or more of the keys days, spread, loss, keeps, shape, observed, ready_g or days_at | null',
    ],
  ],
  dates: [
    [
      'a date must exist',
      'start: 2027-01-04',
      'start: 2027-02-30',
      `2:8 start | "2027-02-30" | ${DATE} | null`,
    ],
    [
      '29 February needs a leap year',
      'start: 2027-01-04',
      'start: 2027-02-29',
      `2:8 start | "2027-02-29" | ${DATE} | null`,
    ],
    [
      'a date is written year first',
      'start: 2027-01-04',
      'start: 04/01/2027',
      `2:8 start | "04/01/2027" | ${DATE} | null`,
    ],
    ['a year is no date', 'start: 2027-01-04', 'start: 2027', `2:8 start | 2027 | ${DATE} | null`],
    [
      'a date has no time of day',
      'start: 2027-01-04',
      'start: 2027-01-04T06:00:00Z',
      `2:8 start | "2027-01-04T06:00:00Z" | ${DATE} | null`,
    ],
    [
      'away must not end before it begins',
      'to: 2027-02-14',
      'to: 2027-02-07',
      '6:31 away[0].to | "2027-02-07", before from | a date that is not before 2027-02-08 | null',
    ],
    [
      'away is a list',
      'away: [{from: 2027-02-08, to: 2027-02-14}]',
      'away: {from: 2027-02-08, to: 2027-02-14}',
      '6:7 away | keys and values (a map) | a list of absences, each with the keys from and to | null',
    ],
    [
      'away has no meaning with visits: always',
      '[mon, thu, sat]',
      'always',
      '6:1 away | the key away with visits: always | no away with visits: always (away needs visit days) | null',
    ],
  ],
  'visits and want': [
    [
      'a word that is not daily or always is refused',
      '[mon, thu, sat]',
      'dayly',
      `5:9 visits | "dayly" | ${VISITS} | daily`,
    ],
    [
      'a weekday outside a list is refused',
      '[mon, thu, sat]',
      'monday',
      `5:9 visits | "monday" | ${VISITS} | null`,
    ],
    ['a number is no visit', '[mon, thu, sat]', '3', `5:9 visits | 3 | ${VISITS} | null`],
    [
      'a map is no visit',
      '[mon, thu, sat]',
      '{mon: true}',
      `5:9 visits | keys and values (a map) | ${VISITS} | null`,
    ],
    [
      'a list of visits is not empty',
      '[mon, thu, sat]',
      '[]',
      `5:9 visits | an empty list | ${VISITS} | null`,
    ],
    [
      'a misspelt weekday has a nearest one',
      '[mon, thu, sat]',
      '[mon, thr, sat]',
      `5:15 visits[1] | "thr" | ${WEEKDAY} | thu`,
    ],
    [
      'a weekday written out has a nearest one',
      '[mon, thu, sat]',
      '[Monday, thu, sat]',
      `5:10 visits[0] | "Monday" | ${WEEKDAY} | mon`,
    ],
    [
      'a weekday a second time is refused',
      '[mon, thu, sat]',
      '[mon, thu, mon]',
      '5:20 visits[2] | "mon" a second time | every weekday once | null',
    ],
    ['want.on must not be empty', '[tue, fri]', '[]', `21:22 want.on | an empty list | ${WEEKDAYS} | null`],
    [
      'want needs heads',
      'heads: 6, ',
      '',
      '21:7 want.heads | nothing | a whole number from 1 to 1000000000 (heads) | null',
    ],
  ],
  sow: [
    [
      'none of the four ways is refused',
      CADENCE,
      '{seeds: 10}',
      `14:10 crops[0].sow | none of every, on, dates, refill | ${SOW} | null`,
    ],
    [
      'two of the four ways are refused',
      CADENCE,
      '{every: 3, on: [mon], seeds: 10}',
      `14:10 crops[0].sow | every and on at once | ${SOW} | null`,
    ],
    [
      'all four ways at once are refused',
      CADENCE,
      '{every: 3, on: [mon], dates: [2027-01-04], refill: true, seeds: 10}',
      `14:10 crops[0].sow | every and on and dates and refill at once | ${SOW} | null`,
    ],
    [
      'a misspelt way is one fault',
      CADENCE,
      '{evry: 3, seeds: 10}',
      '14:11 crops[0].sow.evry | the key evry | one of the keys every, seeds, missed, on, dates, refill | every',
    ],
    [
      'refill: false is refused',
      CADENCE,
      '{refill: false}',
      '14:19 crops[0].sow.refill | false | true (or one of every, on, dates with seeds instead of refill) | null',
    ],
    [
      'refill takes no seeds',
      CADENCE,
      '{refill: true, seeds: 10}',
      '14:25 crops[0].sow.seeds | the key seeds | only the key refill | null',
    ],
    [
      'what a visit sows of missed sowings is one of two words',
      CADENCE,
      '{every: 3, seeds: 10, missed: drop}',
      '14:40 crops[0].sow.missed | "drop" | made_up (all that fell due is sown) or dropped (only the latest sowing) | dropped',
    ],
    ['a number is no way to sow', CADENCE, '3', `14:10 crops[0].sow | 3 | ${SOW} | null`],
    ['a crop needs sow', `    sow: ${CADENCE}`, '    ', `12:5 crops[0].sow | nothing | ${SOW} | null`],
    [
      'every must be above 0',
      'every: 3',
      'every: 0',
      '14:18 crops[0].sow.every | 0 | a number from 0.01 to 3650 (days) | null',
    ],
    [
      'seeds are needed',
      ', seeds: 10}  #',
      '}  #',
      '14:10 crops[0].sow.seeds | nothing | a whole number from 1 to 1000000 (seeds) | null',
    ],
    [
      'sow.on must be a list',
      CADENCE,
      '{on: mon, seeds: 10}',
      `14:15 crops[0].sow.on | "mon" | ${WEEKDAYS} | null`,
    ],
    [
      'a misspelt weekday of sowing has a nearest one',
      CADENCE,
      '{on: [mon, wde], seeds: 10}',
      `14:21 crops[0].sow.on[1] | "wde" | ${WEEKDAY} | wed`,
    ],
    [
      'a date of sowing must exist',
      CADENCE,
      '{dates: [2027-04-31], seeds: 10}',
      `14:19 crops[0].sow.dates[0] | "2027-04-31" | ${DATE} | null`,
    ],
    [
      'a date of sowing must not stand twice',
      CADENCE,
      '{dates: [2027-04-30, 2027-04-30], seeds: 10}',
      '14:31 crops[0].sow.dates[1] | "2027-04-30" a second time | every date once | null',
    ],
  ],
  'stages and crops': [
    [
      'a stage that the line does not have has a nearest one',
      'nursery: {days',
      'nursry: {days',
      `19:7 crops[0].stages.nursry | the stage nursry | ${STAGE} | nursery`,
    ],
    [
      'a stage of the line must be there',
      '      nursery: {days: 14, spread: 0.12, loss: 0.03, keeps: 7}\n',
      '',
      '18:7 crops[0].stages.nursery | nothing | an entry for each stage of the line | null',
    ],
    [
      'two stages must not share a name',
      'name: nursery',
      'name: finishing',
      '10:12 stages[2].name | "finishing" a second time | a name that no other stage has | null',
      '19:7 crops[0].stages.nursery | the stage nursery | a stage of the line: germination, finishing | null',
    ],
    [
      'two crops must not share a name',
      'want:',
      '  - {name: butterhead, sow: {refill: true}, stages: {germination: {days: 1, spread: 0}, nursery: {days: 1, spread: 0}, finishing: {days: 1, spread: 0}}}\nwant:',
      '21:12 crops[1].name | "butterhead" a second time | a name that no other crop has | null',
    ],
    ['a name is a text', 'name: nursery', 'name: 2', `9:12 stages[1].name | 2 | ${NAME} | null`],
    [
      'a name has no space at its end',
      'name: nursery',
      'name: "nursery "',
      `9:12 stages[1].name | "nursery " | ${NAME} | null`,
    ],
    [
      'cuts above 1 need regrow',
      'cuts: 1',
      'cuts: 3',
      '12:5 crops[0].regrow | nothing | one or more of the keys days, spread, loss, shape or observed | null',
    ],
    [
      'regrow needs cuts above 1',
      HEAD,
      `${HEAD}    regrow: {days: 12, spread: 0.15}\n`,
      '17:5 crops[0].regrow | the key regrow with one cut | regrow only with cuts above 1 | null',
    ],
    [
      'regrow is a growth time too',
      HEAD,
      `${HEAD}    regrow: {days: 12}\n`,
      '17:5 crops[0].regrow | the key regrow with one cut | regrow only with cuts above 1 | null',
      `17:13 crops[0].regrow.spread | nothing | ${SPREAD} | null`,
    ],
    [
      'cuts are whole',
      'cuts: 1',
      'cuts: 1.5',
      '15:11 crops[0].cuts | 1.5 | a whole number from 1 to 50 (picks per plant) | null',
    ],
  ],
};

for (const [subject, cases] of Object.entries(CASES)) {
  describe(subject, () => {
    test.each(cases)('%s', (_title, from, to, ...faults) => {
      expect(faultLines(cellarWith([from, to]))).toEqual(faults);
    });
  });
}

test('who breaks the line of a title is told what to leave out', () => {
  const [fault] = faultsOf(cellarWith(['title: Cellar line', 'title: |\n  Cellar\n  line']));
  expect(fault).toMatchObject({ path: 'title', advice: 'Leave out line breaks, tabs and escapes.' });
});

describe('whole parts of a file', () => {
  const upToCrops = CELLAR.slice(0, CELLAR.indexOf('crops:'));

  test('a file needs crops', () => {
    expect(faultLines(upToCrops)).toEqual(['1:1 crops | nothing | a list of 1 to 50 crops | null']);
  });

  test('a file needs at least one crop', () => {
    expect(faultLines(`${upToCrops}crops: []\n`)).toEqual([
      '11:8 crops | an empty list | a list of 1 to 50 crops | null',
    ]);
  });

  test('a file needs at least one stage', () => {
    const text = `${CELLAR.slice(0, CELLAR.indexOf('stages:'))}stages: []\n${CELLAR.slice(CELLAR.indexOf('crops:'))}`;
    expect(faultLines(text)).toEqual(['7:9 stages | an empty list | a list of 1 to 20 stages | null']);
  });

  test('an empty file has one fault', () => {
    const fault = '1:1  | an empty file | the keys start, weeks, stages and crops | null';
    expect(faultLines('')).toEqual([fault]);
    expect(faultLines('# only a comment\n')).toEqual([fault]);
  });

  test('a file that is no map has one fault', () => {
    expect(faultLines('- 1\n- 2\n')).toEqual([
      '1:1  | a list of 2 | the keys start, weeks, stages and crops | null',
    ]);
    expect(faultLines('\nlettuce\n')).toEqual([
      '2:1  | "lettuce" | the keys start, weeks, stages and crops | null',
    ]);
  });
});

test('all faults of a file are reported at once, in the order of the file', () => {
  const text = cellarWith(
    ['2027-01-04\n', '2027-02-30\n'],
    ['weeks: 26', 'weeks: "26"\nweeks: 3'],
    ['[mon, thu, sat]', '[mon, thr, sat]'],
    ['to: 2027-02-14', 'to: 2027-02-01'],
    ['holes: 24', 'holes: -24'],
    ['every: 3', 'every: 3, on: [mon]'],
    ['cuts: 1', 'cuts: 2'],
    ['nursery: {days: 14, spread: 0.12', 'nursry: {days: 14, spread: 5'],
    ['heads: 6', 'head: 6'],
  );
  expect(faultsOf(text).map(({ line, path }) => `${line} ${path}`)).toEqual([
    '2 start',
    '3 weeks',
    '4 weeks',
    '6 visits[1]',
    '7 away[0].to',
    '10 stages[1].holes',
    '13 crops[0].regrow',
    '15 crops[0].sow',
    '20 crops[0].stages.nursry',
    '20 crops[0].stages.nursry.spread',
    '22 want.head',
  ]);
});

describe('advice', () => {
  test.each([
    ['weeks: 26', 'weeks: "26"', 'Take the quotes away: 26.'],
    ['weeks: 26', 'weeks: 26 weeks', 'Write the number without its unit: 26.'],
    ['weeks: 26', 'weeks: many', 'Example: weeks: 26'],
    ['loss: 0.03', 'loss: 3%', 'Write a share of 1: 0.03.'],
    ['germination: 0.92', 'germination: 92', 'For 92 % write 0.92.'],
    ['germination: 0.92', 'germination: "0,92"', 'Write a point for the comma: 0.92.'],
    [
      'spread: 0.10',
      'spread: 5',
      'Spread is the standard deviation divided by the mean, e.g. 0.12 for 12 %.',
    ],
    ['keeps: 4', 'keeps: .inf', 'Leave keeps out for plants that stay good for ever.'],
    ['start: 2027-01-04', 'start: 2027-02-30', '2027-02 has the days 01 to 28.'],
    ['start: 2027-01-04', 'start: 04/01/2027', 'Example: 2027-01-04 for the 4th of January 2027.'],
    ['[mon, thu, sat]', 'monday', 'Write a list, also for a single day: [mon].'],
    ['[mon, thu, sat]', 'always', 'Use visits: daily, or leave away out.'],
    [
      'cuts: 1',
      'cuts: 3',
      'A plant with cuts: 3 grows again after a pick. Example: regrow: {days: 12, spread: 0.15, loss: 0.01}',
    ],
    ['name: nursery', 'name: 2', 'Put it in quotes: "2".'],
  ])('instead of %s, %s: %s', (from, to, advice) => {
    expect(faultsOf(cellarWith([from, to])).map((fault) => fault.advice)).toEqual([advice]);
  });
});
