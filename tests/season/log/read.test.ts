import { describe, expect, test } from 'vitest';
import type { LogFault } from '../../../sim/season/log/faults.js';
import { readLog } from '../../../sim/season/log/read.js';
import type { LogRow } from '../../../sim/season/log/rows.js';

const STAGES = ['germination', 'nursery', 'finishing'];
const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note';

/** A short season in order, from seed to pick. */
const SEASON = [
  '2027-01-04,sow,butterhead,B1,germination,,10,,',
  '2027-01-11,move,,B1,nursery,N1,8,,',
  '2027-01-11,lose,,B1,germination,,2,,never sprouted',
  '2027-01-25,move,,B1,finishing,F3,8,,',
  '2027-02-15,pick,,B1,finishing,F3,4,610.5,',
  '2027-02-15,clean,,,finishing,F3,4,,',
];

function csv(...rows: string[]): string {
  return `${[HEADER, ...rows].join('\n')}\n`;
}

function rowsOf(text: string, stages: readonly string[] | null = STAGES): readonly LogRow[] {
  const reading = readLog(text, stages);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.value.rows;
}

function faultsOf(text: string, stages: readonly string[] | null = STAGES): readonly LogFault[] {
  const reading = readLog(text, stages);
  expect(reading.ok).toBe(false);
  return reading.ok ? [] : reading.faults;
}

/** The dates of a log whose rows differ in nothing else. */
function datesOf(...dates: string[]): string[] {
  return rowsOf(csv(...sowings(...dates))).map(({ date }) => date);
}

function sowings(...dates: string[]): string[] {
  return dates.map((date, i) => `${date},sow,butterhead,B${i},,,6,,`);
}

describe('a log as it should be', () => {
  test('each row says what was done, and what it left out is filled in', () => {
    const none = { channel: null, grams: null, note: null };
    const b1 = { crop: 'butterhead', batch: 'B1' };
    expect(rowsOf(csv(...SEASON))).toEqual([
      { ...none, ...b1, line: 2, date: '2027-01-04', action: 'sow', stage: 'germination', count: 10 },
      {
        ...none,
        ...b1,
        line: 3,
        date: '2027-01-11',
        action: 'move',
        stage: 'nursery',
        count: 8,
        channel: 'N1',
      },
      {
        ...none,
        ...b1,
        line: 4,
        date: '2027-01-11',
        action: 'lose',
        stage: 'germination',
        count: 2,
        note: 'never sprouted',
      },
      {
        ...none,
        ...b1,
        line: 5,
        date: '2027-01-25',
        action: 'move',
        stage: 'finishing',
        count: 8,
        channel: 'F3',
      },
      {
        ...none,
        ...b1,
        line: 6,
        date: '2027-02-15',
        action: 'pick',
        stage: 'finishing',
        count: 4,
        channel: 'F3',
        grams: 610.5,
      },
      {
        ...none,
        crop: '',
        batch: '',
        line: 7,
        date: '2027-02-15',
        action: 'clean',
        stage: 'finishing',
        count: 4,
        channel: 'F3',
      },
    ]);
  });

  test('what stands after the last row comes with it', () => {
    const reading = readLog(csv(...SEASON), STAGES);
    expect(reading.ok && reading.value.standing.batches()).toMatchObject([
      { standing: [0, 0, 4], picked: 4, lost: 2 },
    ]);
  });

  test('sow and pick may leave their stage out', () => {
    const rows = rowsOf(
      csv(...SEASON)
        .replace('B1,germination,,10', 'B1,,,10')
        .replace('pick,,B1,finishing', 'pick,,B1,'),
    );
    expect([rows[0]!.stage, rows[4]!.stage]).toEqual(['germination', 'finishing']);
  });

  test('a header alone is a log of no rows', () => {
    expect(rowsOf(`${HEADER}\n`)).toEqual([]);
    expect(rowsOf(HEADER)).toEqual([]);
  });

  test('a last row without its end of line counts', () => {
    expect(rowsOf(csv(...SEASON).trimEnd())).toEqual(rowsOf(csv(...SEASON)));
  });

  test('empty lines and rows of nothing but separators, as spreadsheets leave them, are no rows', () => {
    const rows = rowsOf(csv(SEASON[0]!, '', ',,,,,,,,', SEASON[1]!));
    expect(rows.map(({ line }) => line)).toEqual([2, 5]);
  });

  test('columns may stand in any order and any case, and optional ones may be missing', () => {
    const text = 'Count;BATCH;crop;Date;stage;ACTION\n10;B1;butterhead;2027-01-04;;Sow\n';
    expect(rowsOf(text)).toMatchObject([
      { count: 10, batch: 'B1', date: '2027-01-04', action: 'sow', grams: null },
    ]);
  });

  test.each([
    ['comma', ','],
    ['semicolon', ';'],
    ['tab', '\t'],
  ])('a %s may stand between the columns', (_, separator) => {
    expect(rowsOf(csv(...SEASON).replaceAll(',', separator))).toEqual(rowsOf(csv(...SEASON)));
  });

  test.each([
    ['\r\n', 'CRLF'],
    ['\r', 'CR'],
  ])('lines may end in %j', (end) => {
    expect(rowsOf(csv(...SEASON).replaceAll('\n', end))).toEqual(rowsOf(csv(...SEASON)));
  });

  test('a byte order mark is no part of the first name', () => {
    expect(rowsOf(`\uFEFF${csv(...SEASON)}`)).toEqual(rowsOf(csv(...SEASON)));
  });

  test('a field in quotes holds separators, quotes and ends of line, and the lines below keep their numbers', () => {
    const rows = rowsOf(
      csv(
        '2027-01-04,sow,butterhead,B1,,,10,,"pale, ""leggy""\r\nand thin"',
        '"2027-01-05","sow","butterhead","B2",,,"6",,',
      ),
    );
    expect(rows.map(({ line, note }) => [line, note])).toEqual([
      [2, 'pale, "leggy"\nand thin'],
      [4, null],
    ]);
  });

  test('spaces around fields and their quotes are no part of them', () => {
    const text = csv('2027-01-04, sow ,butterhead, B1 ,,,6 ,, "pale, leggy" ');
    expect(rowsOf(text)).toMatchObject([{ action: 'sow', batch: 'B1', count: 6, note: 'pale, leggy' }]);
  });

  test('with semicolons between the columns, grams may have a decimal comma', () => {
    const text = csv(...SEASON)
      .replaceAll(',', ';')
      .replace('610.5', '610,5');
    expect(rowsOf(text)[4]!.grams).toBe(610.5);
  });
});

describe('dates as spreadsheets write them', () => {
  test.each<[name: string, written: string[], read: string[]]>([
    ['year first', ['2027-1-4', '2027/01/05', '2027.1.6'], ['2027-01-04', '2027-01-05', '2027-01-06']],
    [
      'with points the day is first',
      ['4.1.2027', '05.01.2027', '6.1.27'],
      ['2027-01-04', '2027-01-05', '2027-01-06'],
    ],
    ['a 13th shows that the day is first', ['4/1/2027', '13/1/2027'], ['2027-01-04', '2027-01-13']],
    ['a 13th shows that the month is first', ['1/4/2027', '1/13/2027'], ['2027-01-04', '2027-01-13']],
    [
      'what tells may come last',
      ['01/02/2027', '02/02/2027', '31/12/2027'],
      ['2027-02-01', '2027-02-02', '2027-12-31'],
    ],
    ['the same either way', ['1/1/2027', '02-02-2027'], ['2027-01-01', '2027-02-02']],
    ['a leap day', ['29.02.2028'], ['2028-02-29']],
  ])('%s', (_, written, read) => {
    expect(datesOf(...written)).toEqual(read);
  });

  test('a file that leaves open which is the day is refused once, with advice', () => {
    const faults = faultsOf(csv(...sowings('4/1/2027', '5/1/2027', '6/1/2027')));
    expect(faults).toMatchObject([{ line: 2, column: 'date', more: 2 }]);
    expect(faults[0]!.found).toContain('"4/1/2027", which may be day first or month first');
    expect(faults[0]!.advice).toContain('YYYY-MM-DD');
  });

  test('a file that mixes both orders is refused once, with both places', () => {
    const faults = faultsOf(csv(...sowings('13/1/2027', '2/2/2027', '2/14/2027')));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ line: 4, column: 'date' });
    expect(faults[0]!.found).toContain(
      '"2/14/2027", which can only be month first, after "13/1/2027" on line 2',
    );
  });

  test("a spreadsheet's day numbers are refused once, with advice", () => {
    // 46391 counts the days from 1899-12-30 to 2027-01-04.
    expect(faultsOf(csv(...sowings('46391', '46392')))).toMatchObject([
      { line: 2, column: 'date', found: '"46391"', more: 1, advice: expect.stringContaining('spreadsheet') },
    ]);
  });

  test.each([
    ['2027-02-29', '2027-02 has the days 01 to 28'],
    ['31.4.2027', '2027-04 has the days 01 to 30'],
    ['2027-13-01', 'months 01 to 12'],
    ['2027-01-04 08:30', 'Write the date without the time: 2027-01-04'],
    ['27-01-04', ''],
    ['4 Jan 2027', ''],
    ['', ''],
    ['1875-01-04', ''],
  ])('%j is no date', (written, advice) => {
    const [fault] = faultsOf(csv(...sowings(written)));
    expect(fault).toMatchObject({
      line: 2,
      column: 'date',
      found: written === '' ? 'nothing' : JSON.stringify(written),
    });
    expect(fault!.advice).toContain(advice);
  });

  test('a row that is earlier than the one before names both', () => {
    expect(faultsOf(csv(...sowings('2027-01-04', '2028-01-05', '2027-01-06', '2027-01-07')))).toMatchObject([
      { line: 4, column: 'date', found: '"2027-01-06", although line 3 is later (2028-01-05)' },
    ]);
  });

  test('a log from the newest to the oldest row is one fault', () => {
    const faults = faultsOf(csv(...[...SEASON].reverse()));
    expect(faults).toMatchObject([{ column: 'date', advice: expect.stringContaining('sort them by date') }]);
  });
});

describe('a row that is wrong is told with its line, its column, what was found and what was expected', () => {
  test.each<[name: string, from: string, to: string, fault: Partial<LogFault>]>([
    [
      'an unknown action',
      'pick,,',
      'pikc,,',
      { line: 6, column: 'action', found: '"pikc"', nearest: 'pick' },
    ],
    ...['constructor', '__proto__'].map((word): [string, string, string, Partial<LogFault>] => [
      `a word that names something in this language, as ${word} does`,
      'pick,,',
      `${word},,`,
      { line: 6, column: 'action', found: `"${word}"`, nearest: null },
    ]),
    [
      'an unknown stage',
      'nursery',
      'nursry',
      { line: 3, column: 'stage', found: '"nursry"', nearest: 'nursery' },
    ],
    ['a stage left out', 'B1,nursery', 'B1,', { line: 3, column: 'stage', found: 'nothing' }],
    [
      'an unknown batch',
      'pick,,B1',
      'pick,,B11',
      { line: 6, column: 'batch', found: '"B11"', nearest: 'B1' },
    ],
    ['no batch', 'pick,,B1', 'pick,,', { line: 6, column: 'batch', found: 'nothing' }],
    ['a sowing of no crop', 'sow,butterhead', 'sow,', { line: 2, column: 'crop', found: 'nothing' }],
    [
      'another crop than was sown',
      'pick,,',
      'pick,buterhead,',
      { line: 6, column: 'crop', nearest: 'butterhead' },
    ],
    ['a count of none', 'N1,8', 'N1,0', { line: 3, column: 'count', found: '"0"' }],
    ['a count below none', 'N1,8', 'N1,-8', { line: 3, column: 'count', found: '"-8"' }],
    ['half a plant', 'N1,8', 'N1,7.5', { line: 3, column: 'count', found: '"7.5"', advice: '' }],
    [
      'a whole number with decimals',
      'N1,8',
      'N1,8.0',
      { column: 'count', advice: 'Write it without decimals: 8.' },
    ],
    ['a count in words', 'N1,8', 'N1,eight', { line: 3, column: 'count', found: '"eight"' }],
    ['no count', 'N1,8', 'N1,', { line: 3, column: 'count', found: 'nothing' }],
    ['negative grams', '610.5', '-610.5', { line: 6, column: 'grams', found: '"-610.5"' }],
    [
      'grams with their unit',
      '610.5',
      '610 g',
      { column: 'grams', advice: 'Write the number of grams without a unit.' },
    ],
    [
      'a decimal comma among commas',
      '610.5',
      '"610,5"',
      { column: 'grams', advice: expect.stringContaining('point') },
    ],
    [
      'more moved than stand',
      'F3,8',
      'F3,9',
      { line: 5, column: 'count', expected: 'at most 8, for so many stand in nursery' },
    ],
    [
      'more picked than stand',
      'F3,4,610',
      'F3,40,610',
      { line: 6, column: 'count', expected: 'at most 8, for so many stand in finishing' },
    ],
    ['picked from another stage', 'pick,,B1,finishing', 'pick,,B1,nursery', { line: 6, column: 'stage' }],
    [
      'too few fields',
      'N1,8,,',
      'N1,8',
      { line: 3, column: null, found: '7 fields', expected: '9 fields, as many as the header has' },
    ],
    ['too many fields', '610.5', '610,5', { line: 6, column: null, found: '10 fields' }],
    [
      'a quote inside a field',
      'never sprouted',
      '5" tray',
      { line: 4, column: null, found: expect.stringContaining('quote inside') },
    ],
    ['something behind a closing quote', 'never sprouted', '"never" sprouted', { line: 4, column: null }],
    ['a quote that is never closed', 'never sprouted', '"never sprouted', { line: 4, column: null }],
    ['a very long name', 'pick,,B1', `pick,,${'B'.repeat(61)}`, { line: 6, column: 'batch' }],
  ])('%s', (_, from, to, fault) => {
    const text = csv(...SEASON).replace(from, to);
    expect(text).not.toBe(csv(...SEASON));
    expect(faultsOf(text)).toMatchObject([fault]);
  });

  test('a batch that is sown twice', () => {
    const text = csv(SEASON[0]!, '2027-01-05,sow,butterhead,B1,,,6,,');
    expect(faultsOf(text)).toMatchObject([
      { line: 3, column: 'batch', found: '"B1", sown already (2027-01-04)' },
    ]);
  });

  test('what is picked before it is sown is told where it is sown', () => {
    const text = csv('2027-01-04,pick,,B1,,,1,,', '2027-01-04,sow,butterhead,B1,,,6,,');
    expect(faultsOf(text)[0]).toMatchObject({
      line: 2,
      column: 'batch',
      advice: 'It is sown only on line 3.',
    });
  });

  test('with semicolons, grams that may be thousands or thousandths are asked about', () => {
    const text = csv(...SEASON)
      .replaceAll(',', ';')
      .replace('610.5', '1.234');
    expect(faultsOf(text)[0]).toMatchObject({ column: 'grams', advice: 'Is it 1234 or 1,234? Write it so.' });
  });

  test("a crop that is not the scenario's", () => {
    const crops = [
      { name: 'romaine', cuts: 1 },
      { name: 'butterhead', cuts: 1 },
    ];
    expect(readLog(csv(...SEASON), STAGES, crops).ok).toBe(true);
    const reading = readLog(csv(...SEASON).replace('butterhead', 'buterhead'), STAGES, crops);
    expect(reading.ok ? [] : reading.faults).toMatchObject([
      { line: 2, column: 'crop', nearest: 'butterhead' },
    ]);
  });

  test("plants are picked as often as the scenario's crop can be", () => {
    const twice = csv(
      ...SEASON.slice(0, 4),
      ...['2027-02-15', '2027-03-01'].map((date) => `${date},pick,,B1,,,8,,`),
    );
    expect(readLog(twice, STAGES, [{ name: 'butterhead', cuts: 2 }]).ok).toBe(true);
    expect(faultsOf(twice)).toMatchObject([
      { line: 7, column: 'count', expected: expect.stringContaining('none') },
    ]);
  });
});

describe('a file that is no log', () => {
  test.each<[name: string, text: string, found: RegExp]>([
    ['an empty file', '', /empty file/],
    ['a file of empty lines', '\r\n\r\n', /empty file/],
    ['a byte order mark alone', '\uFEFF', /empty file/],
    ['a sentence', 'what grew this year\n', /"what grew this year"/],
    ['rows without a header', `${SEASON.join('\n')}\n`, /2027-01-04/],
    ['bytes that are not UTF-8, read as text', csv('2027-01-04,sow,\uFFFDuf,B1,,,6,,'), /not UTF-8/],
    ['a text with zero bytes', 'd\0a\0t\0e\0', /code 0/],
  ])('%s', (_, text, found) => {
    const faults = faultsOf(text);
    expect(faults).toHaveLength(1);
    expect(faults[0]!.found).toMatch(found);
  });

  test('columns that are missing are told at once, and the name that was meant', () => {
    const faults = faultsOf('date,action,bacth,stage\n');
    expect(faults.map(({ column }) => column).sort()).toEqual(['batch', 'count', 'crop']);
    expect(faults.find(({ column }) => column === 'batch')).toMatchObject({
      found: 'no column batch, but "bacth"',
    });
  });

  test('a column that stands twice is refused', () => {
    expect(faultsOf(`${HEADER},count\n`)).toMatchObject([{ line: 1, column: 'count' }]);
  });

  test('columns of other names are left out, with a warning', () => {
    const reading = readLog(`${HEADER},weather,nots\n2027-01-04,sow,leaf,B1,,,6,,,rain,\n`, STAGES);
    expect(reading.ok && reading.value.rows).toHaveLength(1);
    expect(reading.ok && reading.value.warnings.map(({ column }) => column)).toEqual(['weather', 'nots']);
  });

  test('half a row at the end of the file is refused', () => {
    const text = csv(...SEASON);
    const faults = faultsOf(text.slice(0, text.lastIndexOf(',finishing')));
    expect(faults).toMatchObject([{ line: 7, column: null, found: expect.stringContaining('half a row') }]);
  });
});

describe('one slip is one fault, and all slips are told at once', () => {
  test('three slips in three rows', () => {
    const text = csv(...SEASON)
      .replace('2027-01-04', '2027-02-30')
      .replace('nursery', 'nursry')
      .replace('610.5', 'x');
    expect(faultsOf(text).map(({ line, column }) => [line, column])).toEqual([
      [2, 'date'],
      [3, 'stage'],
      [6, 'grams'],
    ]);
  });

  test('rows of too few fields are told for each number of fields, and how many there are', () => {
    const faults = faultsOf(csv(SEASON[0]!, 'a,b', 'a', 'a,b', SEASON[1]!));
    expect(faults.map(({ line, found, more }) => [line, found, more])).toEqual([
      [3, '2 fields', 1],
      [4, '1 field', 0],
    ]);
  });

  test('two slips in one row', () => {
    const text = csv(...SEASON).replace('pick,,B1,finishing,F3,4', 'pick,,B7,finshing,F3,4');
    expect(faultsOf(text).map(({ column }) => column)).toEqual(['batch', 'stage']);
  });

  test.each([
    ['a count that cannot be read', 'germination,,10', 'germination,,ten'],
    ['a field too few', 'B1,germination,,10,,', 'B1,germination,,10'],
    ['an action that is none', 'sow,', 'sew,'],
    ['a date that is none', '2027-01-04', '2027-01-40'],
    ['a stage that is none', 'B1,germination', 'B1,germinaton'],
  ])('%s in a sowing leaves the batch known', (_, from, to) => {
    expect(faultsOf(csv(...SEASON).replace(from, to))).toMatchObject([{ line: 2 }]);
  });

  test('a quote that is never closed leaves out its own line only', () => {
    const text = csv(...SEASON).replace('2027-01-11,lose', '"2027-01-11,lose');
    expect(faultsOf(text)).toMatchObject([{ line: 4, found: expect.stringContaining('quote') }]);
  });

  test('a batch that nobody sowed is told once, and how often it is named', () => {
    const text = csv(SEASON[0]!, ...Array.from({ length: 5 }, () => '2027-01-11,move,,B7,nursery,,1,,'));
    const unknown = faultsOf(text);
    expect(unknown).toHaveLength(1);
    expect(unknown[0]).toMatchObject({ line: 3, column: 'batch', found: '"B7"' });
  });

  test('a stage that is called otherwise throughout is told once', () => {
    const rows = Array.from({ length: 9 }, () => '2027-01-11,clean,,,finish,F3,1,,');
    expect(faultsOf(csv(...rows))).toMatchObject([
      { line: 2, column: 'stage', nearest: 'finishing', more: 8 },
    ]);
  });
});

describe('without a scenario the stages are inferred', () => {
  function stagesOf(...rows: string[]): readonly string[] {
    const reading = readLog(csv(...rows), null);
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
    return reading.value.stages;
  }

  test('from where seeds are sown and the way that batches go', () => {
    expect(stagesOf(...SEASON)).toEqual(STAGES);
  });

  test('from the stage in which plants are lost, if sowings do not say', () => {
    expect(stagesOf(...SEASON.map((row) => row.replace('B1,germination,,10', 'B1,,,10')))).toEqual(STAGES);
  });

  test('from there too if the names of stages are alike', () => {
    const bare = SEASON.map((row) => row.replace('B1,germination,,10', 'B1,,,10'));
    const renamed = (first: string, second: string, third: string): readonly string[] =>
      stagesOf(
        ...bare.map((row) =>
          row.replace('germination', first).replace('nursery', second).replace('finishing', third),
        ),
      );
    expect(renamed('stage 1', 'stage 2', 'stage 3')).toEqual(['stage 1', 'stage 2', 'stage 3']);
    expect(renamed('S1', 'S2', 'S3')).toEqual(['S1', 'S2', 'S3']);
    const lost = (stage: string, times: number): string[] =>
      Array.from({ length: times }, () => `2027-01-08,lose,,B1,${stage},,1,,`);
    const more = bare.filter((row) => !row.includes('lose')).map((row) => row.replace('B1,,,10', 'B1,,,20'));
    // Nearly the name of the next stage: taken for a slip once, not when it is written again and again.
    expect(stagesOf(...[...more, ...lost('nursery A', 4)].sort())[0]).toBe('nursery A');
    expect(faultsOf(csv(...[...more, ...lost('nursery A', 1)].sort()), null)).toMatchObject([
      { column: 'stage', nearest: 'nursery' },
    ]);
  });

  test('else the first stage is called sown', () => {
    const rows = SEASON.filter((row) => !row.includes('lose')).map((row) => row.replace('germination', ''));
    expect(stagesOf(...rows)).toEqual(['sown', 'nursery', 'finishing']);
  });

  test('a line of one stage', () => {
    expect(stagesOf('2027-01-04,sow,cress,B1,,,9,,', '2027-01-14,pick,,B1,tray,,9,,')).toEqual(['tray']);
  });

  test('no stage comes after the one that is picked from', () => {
    const faults = faultsOf(csv(...SEASON, '2027-02-16,move,,B1,finshing,,1,,'), null);
    expect(faults).toMatchObject([{ line: 8, column: 'stage', found: '"finshing"', nearest: 'finishing' }]);
  });

  test('a slip in one row is a fault, not a stage', () => {
    const second = SEASON.map((row) => row.replace('B1', 'B2').replace(',nursery', ',nursry')).sort();
    const text = csv(...[...SEASON, ...second].sort());
    expect(faultsOf(text, null)[0]).toMatchObject({ column: 'stage', found: '"nursry"', nearest: 'nursery' });
  });
});
