import fc from 'fast-check';
import { expect, test } from 'vitest';
import { appendRow } from '../../../sim/season/log/append.js';
import { readLog } from '../../../sim/season/log/read.js';
import { COLUMNS, type LineAction, type LogRow } from '../../../sim/season/log/rows.js';
import { anySign } from '../../support/any-sign.js';

/** Names with all the signs that a CSV file must quote. */
const name = fc
  .string({ unit: fc.constantFrom(...'abcXYZ09 .,;\t"\'/-é…'), minLength: 1, maxLength: 12 })
  .map((text) => text.trim())
  .filter((text) => text !== '');
const note = fc
  .string({ unit: fc.constantFrom(...'ab 1.,;\t"\'\n=é🥬'), maxLength: 20 })
  .map((text) => text.trim() || null);
const stages = fc.uniqueArray(name, { minLength: 2, maxLength: 4 });

interface Step {
  readonly what: number;
  readonly batch: number;
  readonly count: number;
  readonly days: number;
  readonly channel: string | null;
  readonly grams: number | null;
  readonly note: string | null;
}

const step: fc.Arbitrary<Step> = fc.record({
  what: fc.nat(9),
  batch: fc.nat(50),
  count: fc.integer({ min: 1, max: 12 }),
  days: fc.nat(9),
  channel: fc.option(name),
  grams: fc.option(fc.integer({ min: 0, max: 99_999 }).map((tenths) => tenths / 10)),
  note,
});

/** A log that is true: each step is one that the plants allow. Lines are filled in by whoever writes it. */
function trueRows(steps: readonly Step[], names: readonly string[], line: readonly string[]): LogRow[] {
  const rows: LogRow[] = [];
  const sown: { batch: string; crop: string; stand: number[] }[] = [];
  let time = Date.UTC(2027, 0, 4);
  for (const { what, batch, count, days, channel, grams, note } of steps) {
    time += days * 86_400_000;
    const date = new Date(time).toISOString().slice(0, 10);
    const add = (
      action: LineAction,
      of: { batch: string; crop: string },
      stage: string,
      plants: number,
    ): void => {
      rows.push({
        line: 0,
        date,
        action,
        crop: of.crop,
        batch: of.batch,
        stage,
        channel,
        count: plants,
        grams,
        note,
      });
    };
    if (what === 0) {
      add('clean', { batch: '', crop: '' }, line[batch % line.length]!, count);
      continue;
    }
    const chosen = sown[batch % Math.max(1, sown.length)];
    const place = chosen?.stand.findIndex((plants) => plants > 0) ?? -1;
    if (chosen === undefined || place === -1 || what < 4) {
      if (sown.length === names.length) continue;
      const made = {
        batch: names[sown.length]!,
        crop: `crop ${batch % 3}`,
        stand: line.map((_, s) => (s === 0 ? count : 0)),
      };
      sown.push(made);
      add('sow', made, line[0]!, count);
      continue;
    }
    const some = Math.min(count, chosen.stand[place]!);
    const last = place === line.length - 1;
    chosen.stand[place]! -= some;
    if (what < 6) add('lose', chosen, line[place]!, some);
    else if (last) add('pick', chosen, line[place]!, some);
    else {
      chosen.stand[place + 1]! += some;
      add('move', chosen, line[place + 1]!, some);
    }
  }
  return rows;
}

interface Dialect {
  readonly separator: string;
  readonly end: string;
  readonly mark: boolean;
  readonly columns: readonly string[];
  readonly upper: boolean;
  readonly quoteAll: boolean;
  readonly dates: 'iso' | 'points' | 'day first' | 'month first';
  readonly cut: boolean;
}

const dialect: fc.Arbitrary<Dialect> = fc.record({
  separator: fc.constantFrom(',', ';', '\t'),
  end: fc.constantFrom('\n', '\r\n', '\r'),
  mark: fc.boolean(),
  columns: fc.shuffledSubarray([...COLUMNS, 'weather'], { minLength: COLUMNS.length + 1 }),
  upper: fc.boolean(),
  quoteAll: fc.boolean(),
  dates: fc.constantFrom('iso', 'points', 'day first', 'month first'),
  cut: fc.boolean(),
});

/** The file of a log, and the rows with the lines on which they begin. Written from the rules of RFC 4180 alone. */
function written(
  rows: readonly LogRow[],
  to: Dialect,
): { text: string; lines: readonly string[]; rows: LogRow[] } {
  const field = (text: string): string => {
    const plain = !to.quoteAll && ![to.separator, '"', '\n', '\r'].some((sign) => text.includes(sign));
    return plain ? text : `"${text.replaceAll('"', '""')}"`;
  };
  const seen = new Set<string>();
  let line = 2;
  const numbered: LogRow[] = [];
  const lines = [
    to.columns.map((column) => field(to.upper ? column.toUpperCase() : column)).join(to.separator),
  ];
  for (const row of rows) {
    const values: Record<string, string> = {
      ...row,
      line: '',
      date: dateIn(row.date, to.dates),
      // The crop may be left out after the sowing.
      crop: seen.has(row.batch) && row.count % 2 === 0 ? '' : row.crop,
      count: String(row.count),
      channel: row.channel ?? '',
      grams:
        row.grams === null
          ? ''
          : to.separator === ';'
            ? String(row.grams).replace('.', ',')
            : String(row.grams),
      note: (row.note ?? '').replaceAll('\n', to.end),
      weather: 'rain',
    };
    seen.add(row.batch);
    lines.push(to.columns.map((column) => field(values[column]!)).join(to.separator));
    numbered.push({ ...row, line });
    line += 1 + (row.note?.split('\n').length ?? 1) - 1;
  }
  const text = `${to.mark ? '\uFEFF' : ''}${lines.join(to.end)}${to.cut ? '' : to.end}`;
  return { text, lines, rows: numbered };
}

function dateIn(iso: string, form: Dialect['dates']): string {
  const [year, month, day] = iso.split('-').map(Number) as [number, number, number];
  switch (form) {
    case 'iso':
      return iso;
    case 'points':
      return `${day}.${month}.${year}`;
    case 'day first':
      return `${day}/${month}/${year}`;
    case 'month first':
      return `${month}/${day}/${year}`;
  }
}

/** Whether dates with strokes can be read in one way only. */
function tells(rows: readonly LogRow[]): boolean {
  return (
    rows.every(({ date }) => date.slice(5, 7) === date.slice(8, 10)) ||
    rows.some(({ date }) => date.slice(8) > '12')
  );
}

/** A property of true logs in any dialect. @param most steps at most */
function ofTrueLogs(
  most: number,
  check: (
    rows: ReturnType<typeof trueRows>,
    line: Parameters<typeof trueRows>[2],
    file: ReturnType<typeof written>,
    to: Parameters<typeof written>[1],
  ) => void,
) {
  return fc.property(
    fc.array(step, { maxLength: most }),
    fc.uniqueArray(name, { minLength: 1, maxLength: 6 }),
    stages,
    dialect,
    (steps, names, line, to) => {
      const rows = trueRows(steps, names, line);
      fc.pre(!to.dates.endsWith('first') || tells(rows));
      check(rows, line, written(rows, to), to);
    },
  );
}

test('a true log in any dialect is read row by row as it was written', () => {
  let read = 0;
  fc.assert(
    ofTrueLogs(40, (rows, line, file) => {
      const reading = readLog(file.text, line);
      expect(reading.ok ? reading.value.rows : reading.faults).toEqual(file.rows);
      read += rows.length;
    }),
    { seed: 11, numRuns: 600 },
  );
  // The log is not empty for want of true steps.
  expect(read).toBeGreaterThan(2000);
});

test('a row of the tank behind a true log in any dialect adds two fields to each row and changes no other byte', () => {
  let widened = 0;
  const typed = { action: 'tank', litres: '12.5', ec: '1.6', note: 'changed' };
  const empty = { crop: '', batch: '', stage: '', channel: '', count: '', grams: '' };
  fc.assert(
    ofTrueLogs(20, (rows, line, file, to) => {
      const crops = [0, 1, 2].map((i) => ({ name: `crop ${i}`, cuts: 1 }));
      const date = rows.at(-1)?.date ?? '2027-01-04';
      const added = appendRow(file.text, { ...empty, ...typed, date }, { stages: line, crops }, line);
      if (!added.ok) throw new Error(JSON.stringify(added.faults));
      const { separator, end } = to;
      const [header, ...records] = file.lines;
      const wider = [
        `${header}${separator}litres${separator}ec`,
        ...records.map((record) => record + separator + separator),
      ].join(end);
      expect(added.value.widened).toBe(`${to.mark ? '\uFEFF' : ''}${wider}${to.cut ? '' : end}`);
      const reading = readLog(added.value.widened + added.value.text, line);
      expect(reading.ok ? reading.value.rows : reading.faults).toEqual(file.rows);
      expect(reading.ok && reading.value.tank).toMatchObject([
        { date, litres: 12.5, ec: 1.6, changed: true, note: 'changed' },
      ]);
      widened += rows.length;
    }),
    { seed: 13, numRuns: 400 },
  );
  expect(widened).toBeGreaterThan(1000);
});

test('a long log is read the same, wherever the pieces in which it is read end', () => {
  // Notes of all lengths with ends of line and quotes: some of them lie across the end of a piece.
  const note = (i: number) => `${'"\n'.repeat(i % 7)}${'x'.repeat(i % 251)}`.trim() || null;
  const rows: LogRow[] = Array.from({ length: 5000 }, (_, i) => ({
    line: 0,
    date: '2027-01-04',
    action: 'sow',
    crop: 'leaf',
    batch: `B${i}`,
    stage: 'tray',
    channel: null,
    count: 6,
    grams: null,
    // Quotes in stretches, so that lines without any lie between.
    note: i % 1000 < 600 ? note(i) : null,
  }));
  const plain = { end: '\n', mark: false, columns: COLUMNS, upper: false, dates: 'iso', cut: false } as const;
  for (const to of [
    { ...plain, separator: ',', quoteAll: false },
    { ...plain, separator: '\t', quoteAll: true },
  ]) {
    const file = written(rows, to);
    const reading = readLog(file.text, ['tray']);
    expect(reading.ok ? reading.value.rows : reading.faults).toEqual(file.rows);
  }
});

test('no text whatever makes the reader throw', () => {
  const piece = fc.constantFrom(
    ...COLUMNS,
    'B1',
    'B2',
    '2027-01-04',
    '1/2/2027',
    'sow',
    'move',
    ',',
    ',',
    ',',
    ';',
    '"',
    '\n',
    '\n',
    '9',
  );
  const any = fc.oneof(
    fc.string({ unit: anySign, maxLength: 200 }),
    fc.array(piece, { maxLength: 80 }).map((parts) => parts.join('')),
    fc.array(piece, { maxLength: 80 }).map((parts) => `${COLUMNS.join(',')}\n${parts.join('')}`),
  );
  fc.assert(
    fc.property(any, fc.option(stages), (text, line) => {
      const reading = readLog(text, line);
      if (!reading.ok) expect(reading.faults.length).toBeGreaterThan(0);
    }),
    { seed: 12, numRuns: 3000 },
  );
});

test('a true log with a few signs changed is read or refused with the places, never thrown at', () => {
  const change = fc.record({
    at: fc.nat(),
    take: fc.nat(3),
    put: fc.constantFrom('', '"', ',', '\n', 'x', '9', '\r', ';'),
  });
  fc.assert(
    fc.property(
      fc.array(step, { minLength: 3, maxLength: 30 }),
      stages,
      dialect,
      fc.array(change, { minLength: 1, maxLength: 4 }),
      (steps, line, to, changes) => {
        let { text } = written(trueRows(steps, ['B1', 'B2', 'B3'], line), to);
        for (const { at, take, put } of changes) {
          const place = at % text.length;
          text = text.slice(0, place) + put + text.slice(place + take);
        }
        const reading = readLog(text, line);
        const lines = text.split(/\r\n|\r|\n/).length;
        for (const fault of reading.ok ? [] : reading.faults) {
          expect(fault.line).toBeGreaterThanOrEqual(1);
          expect(fault.line).toBeLessThanOrEqual(lines);
        }
      },
    ),
    { seed: 13, numRuns: 1000 },
  );
});
