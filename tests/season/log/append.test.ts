import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { appendRow, type LoggedLine, type Typed } from '../../../sim/season/log/append.js';
import type { LogFault } from '../../../sim/season/log/faults.js';
import { readLog } from '../../../sim/season/log/read.js';

const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note\n';
const USUAL = ['germination', 'nursery', 'finishing'];
const BEGUN = `${HEADER}2027-01-04,sow,butterhead,B12,,,6,,\n2027-01-11,move,,B12,nursery,,5,,\n`;

function typed(row: Partial<Typed>): Typed {
  const empty = { crop: '', batch: '', stage: '', channel: '', grams: '', note: '', litres: '', ec: '' };
  return { ...empty, date: '2027-02-01', action: 'pick', count: '1', ...row };
}

function append(text: string, row: Partial<Typed>, line: LoggedLine | null = null) {
  return appendRow(text, typed(row), line, USUAL);
}

function addedTo(text: string, row: Partial<Typed>, line: LoggedLine | null = null): string {
  const appending = append(text, row, line);
  if (!appending.ok) throw new Error(JSON.stringify(appending.faults));
  return appending.value.text;
}

describe('the file stays as its owner writes it', () => {
  const pick = { action: 'pick', batch: 'B1', count: '4' };
  const sow = { action: 'sow', crop: 'leaf', count: '4' };
  test.each<[name: string, text: string, row: Partial<Typed>, added: string]>([
    [
      'semicolons, CRLF, a byte order mark, dates with points, decimal commas',
      '\uFEFFdate;action;crop;batch;stage;channel;count;grams;note\r\n4.1.2027;sow;leaf;B1;bed;;6;;\r\n',
      { ...pick, grams: '61.5' },
      '1.2.2027;pick;leaf;B1;bed;;4;61,5;\r\n',
    ],
    [
      'other order, other columns, some missing, tabs',
      'Batch\tCount\tWeather\tDate\tAction\tStage\tCrop\nB1\t6\train\t31/01/2027\tsow\tbed\tleaf\n',
      pick,
      'B1\t4\t\t01/02/2027\tpick\tbed\tleaf\n',
    ],
    [
      'month first, two digits of the year',
      'date,action,crop,batch,stage,count\n1/31/27,sow,leaf,B1,bed,6\n',
      pick,
      '2/1/27,pick,leaf,B1,bed,4\n',
    ],
    [
      'dates that are the same either way are followed by one that is plain',
      'date,action,crop,batch,stage,count\n01/01/2027,sow,leaf,B1,bed,6\n',
      pick,
      '2027-02-01,pick,leaf,B1,bed,4\n',
    ],
    [
      'no end of line behind the last row',
      `${HEADER}2027-01-04,sow,leaf,B1,bed,,6,,`,
      pick,
      '\n2027-02-01,pick,leaf,B1,bed,,4,,\n',
    ],
    ['a header alone', HEADER.trim(), sow, '\n2027-02-01,sow,leaf,B1,,,4,,\n'],
    ['nothing', '', sow, `${HEADER}2027-02-01,sow,leaf,B1,,,4,,\n`],
    ['a byte order mark alone', '\uFEFF', sow, `${HEADER}2027-02-01,sow,leaf,B1,,,4,,\n`],
    ['an empty line', '\r\n', sow, `${HEADER}2027-02-01,sow,leaf,B1,,,4,,\r\n`],
  ])('%s', (_, text, row, added) => {
    expect(addedTo(text, row)).toBe(added);
  });
});

describe('what was left out is filled in', () => {
  test('a new batch gets the next number', () => {
    expect(addedTo(BEGUN, { action: 'sow', crop: 'romaine' })).toContain('sow,romaine,B13,');
  });

  test("the stage of a sowing is written if it is the named line's, and not if it is a guess", () => {
    const line = { stages: ['tray', 'tower'], crops: [{ name: 'basil', cuts: 1 }] };
    expect(addedTo('', { action: 'sow', crop: 'basil' }, line)).toContain('sow,basil,B1,tray,,1');
    expect(addedTo('', { action: 'sow', crop: 'basil' })).toContain('sow,basil,B1,,,1');
  });

  test('the one stage that a move or a loss can mean', () => {
    const moved = BEGUN.replace('nursery,,5', 'nursery,,6');
    expect(addedTo(moved, { action: 'move', batch: 'B12' })).toContain('move,butterhead,B12,finishing,,1');
    expect(addedTo(moved, { action: 'lose', batch: 'B12' })).toContain('lose,butterhead,B12,nursery,,1');
  });

  test('a first move into a stage that the log does not name yet', () => {
    const own = `${HEADER}2027-01-04,sow,leaf,B1,tray,,6,,\n`;
    expect(addedTo(own, { action: 'move', batch: 'B1', stage: 'tower' })).toContain('move,leaf,B1,tower,,1');
  });
});

describe('a row that cannot be is refused, in the words of the reader', () => {
  test.each<[row: Partial<Typed>, fault: Partial<LogFault>]>([
    [
      { action: 'move', count: '6', batch: 'B12', stage: 'finishing' },
      { column: 'count', expected: 'at most 5, for so many stand in nursery' },
    ],
    [{ batch: 'B12' }, { column: 'count', expected: 'none, for none stands in finishing' }],
    [{ batch: 'B13' }, { column: 'batch', found: '"B13"', nearest: 'B12' }],
    [
      { action: 'move', batch: 'B12', stage: 'finshing' },
      { column: 'stage', found: '"finshing"', nearest: 'finishing' },
    ],
    [
      { action: 'move', batch: 'B12' },
      { column: 'stage', found: 'nothing', advice: 'Of B12 there are 1 in germination, 5 in nursery.' },
    ],
    [
      { action: 'pikc', batch: 'B12' },
      { column: 'action', found: '"pikc"', nearest: 'pick' },
    ],
    [
      { batch: 'B12', count: '0' },
      { column: 'count', found: '"0"' },
    ],
    [
      { batch: 'B12', count: '1.5' },
      { column: 'count', found: '"1.5"' },
    ],
    [
      { batch: 'B12', count: 'five' },
      { column: 'count', found: '"five"' },
    ],
    [{ action: 'sow' }, { column: 'crop', found: 'nothing' }],
    [
      { action: 'sow', crop: 'leaf', batch: 'B12' },
      { column: 'batch', found: '"B12", sown already (2027-01-04)' },
    ],
    [{}, { column: 'batch', found: 'nothing' }],
    [{ action: 'clean' }, { column: 'stage', found: 'nothing' }],
    [
      { action: 'lose', batch: 'B12', stage: 'nursery', grams: '7' },
      { column: 'grams', found: '"7"' },
    ],
    [
      { action: 'lose', batch: 'B12', stage: 'nursery', date: '2027-02-30' },
      { column: 'date', advice: '2027-02 has the days 01 to 28.' },
    ],
    [
      { action: 'lose', batch: 'B12', stage: 'nursery', date: '31.1.2027' },
      { column: 'date', found: '"31.1.2027"' },
    ],
    [
      { action: 'lose', batch: 'B12', stage: 'nursery', date: '2027-01-10' },
      { column: 'date', expected: expect.stringContaining('2027-01-11 or later') },
    ],
    [
      { action: 'lose', batch: 'B12', stage: 'nursery', channel: 'a\u0007' },
      { column: 'channel', found: 'a character that is not text' },
    ],
    [
      { action: 'lose', batch: 'B12', stage: 'nursery', channel: 'F3\nF4' },
      { column: 'channel', found: '"F3\\nF4"' },
    ],
  ])('%j', (row, fault) => {
    const appending = append(BEGUN, row);
    expect(appending).toMatchObject({ ok: false, wrong: 'row', faults: [fault] });
  });

  test('a value for which the log has no column is not dropped in silence', () => {
    const text = 'date,action,crop,batch,stage,count\n2027-01-04,sow,leaf,B1,bed,6\n';
    expect(append(text, { batch: 'B1', grams: '61' })).toMatchObject({ faults: [{ column: 'grams' }] });
  });

  test('a stage that would turn the log upside down is strange, not its earlier rows', () => {
    const own = `${HEADER}2027-01-04,sow,leaf,B1,tray,,6,,\n2027-01-11,move,,B1,tower,,3,,\n2027-02-01,pick,,B1,,,2,,\n`;
    expect(append(own, { action: 'move', batch: 'B1', stage: 'attic' })).toMatchObject({
      wrong: 'row',
      faults: [{ line: 5, column: 'stage', found: '"attic"', expected: 'one of the stages tray, tower' }],
    });
  });

  test('if the file is wrong, its faults are told, not those of the row', () => {
    const appending = append(BEGUN.replace(',6,,', ',six,,'), { batch: 'B99' });
    expect(appending).toMatchObject({ ok: false, wrong: 'file', faults: [{ line: 2, column: 'count' }] });
  });
});

test('whatever is typed is written so that it is read as it was typed, or it is refused', () => {
  const word = fc.string({ unit: fc.constantFrom(...'ab1 ,;\t"\'\n\r=.-'), maxLength: 8 });
  const mostly = (...values: string[]) =>
    fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...values) }, { weight: 1, arbitrary: word });
  const row = fc.record({
    action: fc.constantFrom('sow', 'move', 'lose', 'clean', 'Sow', ''),
    count: mostly('1', '5', '01'),
    date: fc.constantFrom('2027-01-11', '2027-05-05', '2027-12-31'),
    crop: fc.constantFrom('', 'butterhead', 'a, b'),
    batch: mostly('B12', 'B12', ''),
    stage: fc.constantFrom('', ...USUAL),
    channel: word,
    grams: mostly(''),
    note: word,
  });
  const signs = fc.record({
    separator: fc.constantFrom(',', ';', '\t'),
    end: fc.constantFrom('\n', '\r\n', '\r'),
  });
  let written = 0;
  fc.assert(
    fc.property(row, signs, (typedRow, { separator, end }) => {
      const text = BEGUN.replaceAll(',', separator).replaceAll('\n', end);
      const appending = append(text, typedRow);
      if (!appending.ok) return;
      written++;
      const reading = readLog(text + appending.value.text, USUAL);
      const plain = (value: string) => value.replace(/\r\n?/g, '\n').trim();
      expect(reading.ok && reading.value.rows).toHaveLength(3);
      expect(reading.ok && reading.value.rows[2]).toMatchObject({
        date: typedRow.date,
        action: typedRow.action.toLowerCase(),
        count: Number(typedRow.count),
        channel: plain(typedRow.channel) || null,
        grams: plain(typedRow.grams) === '' ? null : Number(plain(typedRow.grams).replace(',', '.')),
        note: plain(typedRow.note) || null,
      });
    }),
    { seed: 5, numRuns: 2000 },
  );
  expect(written).toBeGreaterThan(100);
});
