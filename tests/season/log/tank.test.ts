import { describe, expect, test } from 'vitest';
import { appendRow, type Typed } from '../../../sim/season/log/append.js';
import { readLog, type SeasonLog } from '../../../sim/season/log/read.js';

const STAGES = ['nursery', 'finishing'];
const NINE = 'date,action,crop,batch,stage,channel,count,grams,note';
const HEADER = `${NINE},litres,ec`;
const SOW = '2027-01-04,sow,leaf,B1,,,6,,,,';
const MOVE = '2027-01-18,move,,B1,finishing,,5,,,,';

function csv(...rows: string[]): string {
  return `${[HEADER, ...rows].join('\n')}\n`;
}

function logOf(text: string): SeasonLog {
  const reading = readLog(text, STAGES);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.value;
}

function faultsOf(text: string) {
  const reading = readLog(text, STAGES);
  return reading.ok ? [] : reading.faults;
}

describe('rows of the tank', () => {
  test('are read beside those of plants, which stay what they are', () => {
    const { rows, tank, warnings, standing } = logOf(
      csv(
        SOW,
        '2027-01-08,tank,,,,,,,,12.5,1.6',
        '2027-01-11,Tank,,,,,,,changed; new salts,40,',
        '2027-01-11,tank,,,,,,,CHANGED,,2',
        MOVE,
        '2027-01-19,tank,,,,,,,,0,0',
      ),
    );
    expect(tank).toEqual([
      { line: 3, date: '2027-01-08', action: 'tank', litres: 12.5, ec: 1.6, changed: false, note: null },
      {
        line: 4,
        date: '2027-01-11',
        action: 'tank',
        litres: 40,
        ec: null,
        changed: true,
        note: 'changed; new salts',
      },
      { line: 5, date: '2027-01-11', action: 'tank', litres: null, ec: 2, changed: true, note: 'CHANGED' },
      { line: 7, date: '2027-01-19', action: 'tank', litres: 0, ec: 0, changed: false, note: null },
    ]);
    const without = logOf(csv(SOW, MOVE));
    expect(rows.map((row) => ({ ...row, line: 0 }))).toEqual(
      without.rows.map((row) => ({ ...row, line: 0 })),
    );
    expect(standing.batches()).toEqual(without.standing.batches());
    expect(warnings).toEqual([]);
  });

  test('a log without the two columns, or with them empty, has none', () => {
    const plain = `${[NINE, SOW, MOVE].map((row) => row.replace(/,,$/, '')).join('\n')}\n`;
    expect(logOf(plain).tank).toEqual([]);
    expect(logOf(csv(SOW, MOVE)).tank).toEqual([]);
    expect(logOf(csv(SOW, MOVE)).rows).toEqual(logOf(plain).rows);
  });

  test('the columns may stand anywhere, one of them alone, and be written as a spreadsheet does', () => {
    const text = [
      '\uFEFF"EC";"date";"action";"crop";"batch";"stage";"count";"Litres"',
      '"";"4.1.2027";"sow";"leaf";"B1";"";"6";""',
      '"1,6";"8.1.2027";"tank";"";"";"";"";"12,5"',
      ';;;;;;;',
    ].join('\r\n');
    expect(logOf(text).tank).toMatchObject([{ line: 3, date: '2027-01-08', litres: 12.5, ec: 1.6 }]);
    const alone = 'date,action,crop,batch,stage,count,ec\n2027-01-08,tank,,,,,1.6\n';
    expect(logOf(alone).tank).toMatchObject([{ litres: null, ec: 1.6 }]);
    // The note alone is enough for a new filling.
    expect(logOf(`${NINE}\n2027-01-08,tank,,,,,,,changed\n`).tank).toMatchObject([
      { litres: null, ec: null, changed: true },
    ]);
  });

  test('what can be read but is hardly meant is asked about, once for all rows', () => {
    const rows = ['5', '5.1', '20', '6'].map((ec) => `2027-01-08,tank,,,,,,,,,${ec}`);
    const note = '2027-01-08,tank,,,,,,,filter changed,3,';
    expect(logOf(csv(...rows, note)).warnings).toEqual([
      {
        line: 3,
        column: 'ec',
        message: 'ec: 5.1 mS/cm is too much for leaf crops. uS/cm? Then write 0.0051. So on 2 more lines.',
      },
      {
        line: 6,
        column: 'note',
        message:
          'note: "filter changed" is not read as a new filling. If it was one, write "changed; filter changed".',
      },
    ]);
    expect(logOf(csv('2027-01-08,tank,,,,,,,unchanged,3,')).warnings).toEqual([]);
  });
});

describe('a wrong row of the tank is told with its line and column', () => {
  const tank = (litres: string, ec: string, note = '') => `2027-01-08,tank,,,,,,,${note},${litres},${ec}`;
  test.each<[row: string, fault: object]>([
    [tank('-1', ''), { column: 'litres', found: '"-1"', expected: expect.stringContaining('at least 0') }],
    [tank('a lot', ''), { column: 'litres', found: '"a lot"' }],
    [tank('12 l', ''), { column: 'litres', advice: 'Write the number of litres without a unit.' }],
    [tank('"12,5"', ''), { column: 'litres', advice: expect.stringContaining('with a point') }],
    [tank('1e3', ''), { column: 'litres' }],
    [tank('', '20.1'), { column: 'ec', found: '"20.1"', expected: expect.stringContaining('0 to 20 mS/cm') }],
    [tank('', '1600'), { column: 'ec', advice: 'uS/cm? Then write 1.6.' }],
    [tank('', '1.6 mS/cm'), { column: 'ec', advice: 'Write the number of mS/cm without a unit.' }],
    [tank('', ''), { column: 'litres', found: 'nothing', advice: '' }],
    [tank('', '', 'looked in'), { column: 'litres', found: 'nothing' }],
    ['2027-01-08,tank,leaf,,,,,,,3,', { column: 'crop', found: '"leaf"' }],
    ['2027-01-08,tank,,B1,,,,,,3,', { column: 'batch', found: '"B1"' }],
    ['2027-01-08,tank,,,nursery,,,,,3,', { column: 'stage', found: '"nursery"' }],
    ['2027-01-08,tank,,,,N1,,,,3,', { column: 'channel', found: '"N1"' }],
    ['2027-01-08,tank,,,,,1,,,3,', { column: 'count', found: '"1"' }],
    ['2027-01-08,tank,,,,,,5,,3,', { column: 'grams', found: '"5"' }],
    [
      '2027-01-03,tank,,,,,,,,3,',
      { column: 'date', expected: expect.stringContaining('order of their dates') },
    ],
    [',tank,,,,,,,,3,', { column: 'date', found: 'nothing' }],
    ['2027-02-30,tank,,,,,,,,3,', { column: 'date' }],
    ['2047-01-08,tank,,,,,,,,3,', { column: 'date', expected: expect.stringContaining('520 weeks') }],
    ['2027-01-08,lose,,B1,nursery,,1,,,3,', { column: 'litres', advice: 'Give the tank a row of its own.' }],
    ['2027-01-08,clean,,,nursery,,1,,,,1.6', { column: 'ec', found: '"1.6"' }],
    [`2027-01-08,tank,,,,,,,,12,5,`, { column: null, found: '12 fields' }],
  ])('%s', (row, fault) => {
    expect(faultsOf(csv(SOW, row))).toMatchObject([{ line: 3, ...fault }]);
  });

  test('beside semicolons, what may be thousands is asked about, and the advice can be followed', () => {
    const text = (ec: string) => `date;action;crop;batch;stage;count;ec\n2027-01-08;tank;;;;;${ec}\n`;
    expect(faultsOf(text('1.625'))).toMatchObject([
      { column: 'ec', advice: 'Is it 1625 or 1,625? Write it so.' },
    ]);
    expect(faultsOf(text('1625'))).toMatchObject([{ column: 'ec', advice: 'uS/cm? Then write 1,625.' }]);
    expect(logOf(text('1,625')).tank).toMatchObject([{ ec: 1.625 }]);
  });

  test('a file that lacks the columns is said to', () => {
    expect(faultsOf(`${NINE}\n2027-01-08,tank,,,,,,,\n`)).toMatchObject([
      { line: 2, column: 'litres', advice: 'The header has no column litres or ec.' },
    ]);
  });

  test('a slip of every row is told once', () => {
    const rows = Array.from({ length: 4 }, () => '2027-01-08,tank,,,,,1,,,3,');
    expect(faultsOf(csv(SOW, ...rows))).toMatchObject([{ line: 3, column: 'count', more: 3 }]);
  });
});

describe('a row of the tank is added', () => {
  const NOTHING: Typed = {
    date: '2027-01-20',
    action: 'tank',
    ...{ crop: '', batch: '', stage: '', channel: '', count: '', grams: '', note: '', litres: '', ec: '' },
  };
  const line = { stages: STAGES, crops: [{ name: 'leaf', cuts: 1 }] };
  const append = (text: string, row: Partial<Typed>) => appendRow(text, { ...NOTHING, ...row }, line, STAGES);
  const whole = (text: string, row: Partial<Typed>): string => {
    const added = append(text, row);
    if (!added.ok) throw new Error(JSON.stringify(added.faults));
    return (added.value.widened ?? text) + added.value.text;
  };

  test.each<[name: string, text: string, row: Partial<Typed>, after: string]>([
    [
      'to a log that has the columns: behind it, and nothing else changes',
      csv(SOW),
      { litres: '12.5', ec: '1.6' },
      `${csv(SOW)}2027-01-20,tank,,,,,,,,12.5,1.6\n`,
    ],
    [
      'to a log of nine columns: each row keeps its bytes and gets two empty fields',
      `${NINE}\r\n2027-01-04,sow,leaf,B1,,,6,, "a ""b"",\r\n\r\nc"\r\n\r\n,,,,,,,,\r\n2027-01-05 , lose,,B1,nursery,,1,,`,
      { ec: '1.6' },
      `${HEADER}\r\n2027-01-04,sow,leaf,B1,,,6,, "a ""b"",\r\n\r\nc",,\r\n\r\n,,,,,,,,\r\n2027-01-05 , lose,,B1,nursery,,1,,,,\r\n2027-01-20,tank,,,,,,,,,1.6\r\n`,
    ],
    [
      'to a log of own columns that has one of the two',
      'EC\taction\tdate\tcrop\tbatch\tstage\tcount\tnote\tweather\n\tsow\t2027-01-04\tleaf\tB1\t\t6\t\train\n',
      { litres: '3', ec: '1.6', note: 'changed' },
      'EC\taction\tdate\tcrop\tbatch\tstage\tcount\tnote\tweather\tlitres\n\tsow\t2027-01-04\tleaf\tB1\t\t6\t\train\t\n1.6\ttank\t2027-01-20\t\t\t\t\tchanged\t\t3\n',
    ],
    [
      'beside semicolons with a decimal comma',
      `\uFEFF${NINE.replaceAll(',', ';')}\n4.1.2027;sow;leaf;B1;;;6;;\n`,
      { litres: '12.5', ec: '1.6' },
      `\uFEFF${HEADER.replaceAll(',', ';')}\n4.1.2027;sow;leaf;B1;;;6;;;;\n20.1.2027;tank;;;;;;;;12,5;1,6\n`,
    ],
    ['as the first of a log', '', { litres: '40' }, `${HEADER}\n2027-01-20,tank,,,,,,,,40,\n`],
    ['behind a header alone', NINE, { litres: '40' }, `${HEADER}\n2027-01-20,tank,,,,,,,,40,\n`],
    ['in any letters', '', { action: 'Tank', litres: '40' }, `${HEADER}\n2027-01-20,tank,,,,,,,,40,\n`],
  ])('%s', (_, text, row, after) => {
    expect(whole(text, row)).toBe(after);
    expect(logOf(after).tank).toMatchObject([{ date: '2027-01-20', action: 'tank' }]);
  });

  test('a row of plants leaves the log as wide as it is, and cannot be of an earlier day than the tank', () => {
    const sow = { action: 'sow', crop: 'leaf', count: '4' };
    expect(whole(csv(SOW), sow)).toBe(`${csv(SOW)}2027-01-20,sow,leaf,B2,nursery,,4,,,,\n`);
    const nine = `${NINE}\n`;
    expect(append(nine, sow)).toMatchObject({ value: { widened: null } });
    expect(append(csv(SOW, '2027-01-21,tank,,,,,,,,3,'), sow)).toMatchObject({
      faults: [{ column: 'date', expected: expect.stringContaining('2027-01-21 or later') }],
    });
  });

  test('what it was and what of it is strange is handed back', () => {
    expect(append(csv(SOW), { ec: '7', note: 'changed' })).toMatchObject({
      value: {
        row: { action: 'tank', ec: 7, changed: true, litres: null },
        batch: null,
        warnings: [{ line: 3, column: 'ec' }],
      },
    });
  });

  const bare = 'date,action,crop,batch,stage,count\n2027-01-04,sow,leaf,B1,,6\n';
  const full = [NINE, ...Array.from({ length: 90 }, (_, i) => `own ${i}`)].join(',');
  test.each<[text: string, row: Partial<Typed>, fault: object]>([
    [csv(SOW), {}, { column: 'litres', found: 'nothing' }],
    [csv(SOW), { litres: '-1' }, { column: 'litres', found: '"-1"' }],
    [csv(SOW), { ec: '1600' }, { column: 'ec', advice: 'uS/cm? Then write 1.6.' }],
    [
      csv(SOW),
      { litres: '3', count: '3' },
      { column: 'count', expected: expect.stringContaining('nothing') },
    ],
    [csv(SOW), { litres: '3', batch: 'B1' }, { column: 'batch' }],
    [
      bare,
      { litres: '3', channel: 'N1' },
      { column: 'channel', expected: expect.stringContaining('tank row') },
    ],
    [
      bare,
      { litres: '3', note: 'changed' },
      { column: 'note', expected: 'nothing, for the log has no column note' },
    ],
    [
      bare,
      { action: 'lose', batch: 'B1', count: '1', ec: '2' },
      { column: 'ec', advice: 'Give the tank a row of its own.' },
    ],
    [`${full}\n`, { litres: '3' }, { found: 'a header of 101 columns' }],
  ])('or it is refused: %#', (text, row, fault) => {
    expect(append(text, row)).toMatchObject({ ok: false, wrong: 'row', faults: [fault] });
  });
});
