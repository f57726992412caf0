import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Answers,
  readAway,
  readCrop,
  readHeads,
  readStages,
  readVisits,
} from '../../../cli/new/answers.js';
import { KINDS } from '../../../cli/new/kinds.js';
import { QUESTIONS } from '../../../cli/new/questions.js';
import { comingMonday, scenarioData, scenarioText, sowingFor } from '../../../cli/new/scenario-text.js';
import type { Result } from '../../../sim/models/result.js';
import { readScenario } from '../../../sim/scenario/read.js';
import { scenarioSchema } from '../../../sim/scenario/schema.js';
import { WORDS } from '../../fuzz/words.js';
import { anySign } from '../../support/any-sign.js';

function value<Value>(read: Result<Value, string>): Value {
  if (!read.ok) throw new Error(read.faults.join('\n'));
  return read.value;
}

function faults(read: Result<unknown, string>): readonly string[] {
  if (read.ok) throw new Error(`taken: ${JSON.stringify(read.value)}`);
  return read.faults;
}

const THREE = value(readStages('1 tray of 40, 2 channels of 24, 8 channels of 9'));

describe('what stands there', () => {
  test.each([
    '1 tray of 40, 2 channels of 24, 8 channels of 9',
    '1 tray of 40 holes; 2 channels with 24; 8 NFT channels of 9 holes each',
    '1 tray of 40 and 2 channels of 24 and 8 of 9',
    '1x40, 2 x 24,8*9',
    'germination: 1 tray of 40, nursery: 2 x 24, finishing : 8 channels of 9',
  ])('%s', (text) => {
    expect(value(readStages(text))).toEqual([
      { name: 'germination', channels: 1, holes: 40 },
      { name: 'nursery', channels: 2, holes: 24 },
      { name: 'finishing', channels: 8, holes: 9 },
    ]);
  });

  test('stages without a name have the usual ones', () => {
    const names = (text: string) => value(readStages(text)).map(({ name }) => name);
    expect(names('1 x 9')).toEqual(['finishing']);
    expect(names('1 x 9, 2 x 9')).toEqual(['nursery', 'finishing']);
    expect(names('1x9, 1x9, 1x9, 1x9')).toEqual(['germination', 'nursery 1', 'nursery 2', 'finishing']);
    expect(names('seedlings: 1 x 9, 2 x 9')).toEqual(['seedlings', 'finishing']);
  });

  test('what cannot be is told in the words of a scenario', () => {
    expect(faults(readStages('1 tray of 0'))).toEqual([
      'stage 1, holes: found 0; expected a whole number from 1 to 1000000 (holes per channel).',
    ]);
    expect(faults(readStages('a: 1 x 9, a: 1 x 9'))).toEqual([
      'stage 2, name: found "a" a second time; expected a name that no other stage has.',
    ]);
    expect(faults(readStages('3000 x 1000'))).toEqual([
      'stages: found 3000000 holes in all (channels times holes); expected at most 2000000 holes in the whole line.',
    ]);
    expect(faults(readStages('1 tray, 2 x 24'))).toEqual([
      'Found "1 tray"; expected a number of trays or channels and the holes of each, such as 2 channels of 24.',
    ]);
    expect(faults(readStages(' ')).length).toBe(1);
  });
});

describe('what grows', () => {
  test.each(['bok 7 14 21', 'bok: 7 + 14 + 21 days', 'bok, 7, 14, 21', 'bok 7 days 14 days 21 days'])(
    '%s',
    (text) => {
      expect(value(readCrop(text, THREE))).toEqual({ name: 'bok', days: [7, 14, 21], origin: null });
    },
  );

  test('a name of the list has its usual days, in any number of stages up to four, and the same time in all', () => {
    for (const { name, days } of KINDS) {
      const sum = days.reduce((all, stay) => all + stay, 0);
      for (const stages of ['1x9', '1x9,1x9', '1x9,1x9,1x9', '1x9,1x9,1x9,1x9']) {
        const crop = value(readCrop(name.toUpperCase(), value(readStages(stages))));
        expect(crop.days.reduce((all, stay) => all + stay, 0)).toBe(sum);
        expect(crop.origin).not.toBeNull();
      }
    }
  });

  test('a name may have a number and spaces in it', () => {
    expect(value(readCrop('oak leaf no. 2 red 7 14.5 21', THREE))).toMatchObject({
      name: 'oak leaf no. 2 red',
      days: [7, 14.5, 21],
    });
  });

  test('what lacks or is too much is counted, and a slip of a name is recognised', () => {
    expect(faults(readCrop('basl', THREE))).toEqual([
      'Found no days behind "basl"; expected one kind, and its days in each stage (germination, nursery and finishing): 3 numbers. Did you mean basil?',
    ]);
    expect(faults(readCrop('basil 7', THREE))[0]).toContain('Found 1 number behind "basil"');
    expect(faults(readCrop('7 14 21', THREE))[0]).toContain('one kind');
    expect(faults(readCrop('bok 7 0 9000', THREE))).toEqual([
      'crop 1, nursery, days: found 0; expected a number above 0 and at most 3650 (days).',
      'crop 1, finishing, days: found 9000; expected a number above 0 and at most 3650 (days).',
    ]);
  });
});

test('days of visits, in short, in full, in any order', () => {
  expect(value(readVisits('sat, Monday + Thursdays'))).toEqual(['mon', 'thu', 'sat']);
  expect(value(readVisits('Every day'))).toBe('daily');
  expect(value(readVisits('mon tue wed thu fri sat sun'))).toBe('daily');
  expect(faults(readVisits('mon tru'))).toEqual([
    'Found "tru"; expected weekdays: mon, tue, wed, thu, fri, sat or sun, or daily. Did you mean thu?',
  ]);
  expect(faults(readVisits('mon mon'))).toEqual(['Found mon a second time; expected every weekday once.']);
});

test('heads', () => {
  expect(value(readHeads(' 12 heads a week'))).toBe(12);
  for (const text of ['0', '-1', '1.5', 'many', '', '1e3', '2000000000'])
    expect(faults(readHeads(text))).toEqual(['It must be a whole number from 1 to 1000000000.']);
});

test('absences', () => {
  expect(value(readAway('2027-02-08..2027-02-14, 2027-05-01 to 2027-05-03 2027-06-01'))).toEqual([
    { from: '2027-02-08', to: '2027-02-14' },
    { from: '2027-05-01', to: '2027-05-03' },
    { from: '2027-06-01', to: '2027-06-01' },
  ]);
  expect(value(readAway('none'))).toEqual([]);
  expect(faults(readAway('2027-02-30'))[0]).toMatch(
    /^Found "2027-02-30"; expected .* 2027-02 has the days 01 to 28\.$/,
  );
  expect(faults(readAway('2027-02-14..2027-02-08'))).toEqual([
    'absence 1, to: found "2027-02-08", before from; expected a date that is not before 2027-02-14. Swap from and to?',
  ]);
});

test('the season begins on the Monday that comes, be it today', () => {
  expect(comingMonday('2027-01-04')).toBe('2027-01-04');
  expect(comingMonday('2027-01-05')).toBe('2027-01-11');
  expect(comingMonday('2027-01-10')).toBe('2027-01-11');
});

test('any text is taken, or refused in sentences', () => {
  const piece = fc.oneof(
    fc.constantFrom(...WORDS, ' of ', ' x ', ', ', ': ', '..', 'tray', 'daily'),
    fc.string({ unit: anySign }),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
      for (const { read } of QUESTIONS) {
        const answer = read(pieces.join(''), { stages: THREE });
        if (!answer.ok) expect(answer.faults.every((fault) => /[.?]$/.test(fault))).toBe(true);
      }
    }),
    { numRuns: 300 },
  );
});

test('whatever was answered, the file says it, and nothing is wrong in it', () => {
  const name = fc.oneof(
    fc.constantFrom(...WORDS, 'true', 'Null', 'no', '7', 'a: b', '- a', '{a}', '#a'),
    fc.string({ unit: anySign }),
  );
  const date = fc.date({ min: new Date('1900-01-01'), max: new Date('2999-12-31'), noInvalidDate: true });
  const iso = date.map((day) => day.toISOString().slice(0, 10));
  const answers = fc.record({
    names: fc.uniqueArray(name, { minLength: 1, maxLength: 5 }),
    sizes: fc.array(fc.tuple(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 300 })), {
      minLength: 5,
      maxLength: 5,
    }),
    days: fc.array(fc.double({ min: 1e-7, max: 3650, noNaN: true }), { minLength: 5, maxLength: 5 }),
    crop: name,
    visits: fc.oneof(fc.constant('daily'), fc.subarray(['mon', 'wed', 'thu', 'sun'], { minLength: 1 })),
    heads: fc.integer({ min: 1, max: 1_000_000_000 }),
    away: fc.array(fc.tuple(iso, iso), { maxLength: 3 }),
    start: iso,
    asked: fc.boolean(),
    file: name,
  });
  fc.assert(
    fc.property(answers, ({ names, sizes, days, crop, visits, heads, away, start, asked, file }) => {
      const given = {
        stages: names.map((one, s) => ({ name: one, channels: sizes[s]![0], holes: sizes[s]![1] })),
        crop: { name: crop, days: days.slice(0, names.length), origin: null },
        visits,
        heads,
        away: away.map((span) => span.sort()).map(([from, to]) => ({ from, to })),
      } as Answers;
      const expected = scenarioSchema.safeParse(scenarioData(given, start, { refill: true }));
      // Names that no scenario may have are refused where they are answered.
      fc.pre(expected.success);
      const sowing = sowingFor(given, start);
      const read = readScenario(scenarioText(given, { start, asked, sowing, file }));
      if (!read.ok) throw new Error(JSON.stringify(read.faults));
      const { on, seeds } = sowing;
      expect(read.value.scenario).toEqual(scenarioSchema.parse(scenarioData(given, start, { on, seeds })));
    }),
    { numRuns: 300 },
  );
});
