import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { csvText } from '../../../cli/render/csv.js';
import { anySign } from '../../support/any-sign.js';

/** What a spreadsheet takes for a formula. */
const FORMULA = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/;

test('lines end with CRLF; commas, quotes and line breaks are quoted; null is empty', () => {
  expect(
    csvText([
      ['plan', 'mean'],
      ['a, "b"\nc', null],
      ['', 0.1],
    ]),
  ).toBe('plan,mean\r\n"a, ""b""\nc",\r\n,0.1\r\n');
});

test('no text is a formula to a spreadsheet; a negative number is still a number', () => {
  expect(csvText([['=1+1', '+1', '-1', '@a', '\tb', -1, -0.5, 1e-9, 1e21]])).toBe(
    "'=1+1,'+1,'-1,'@a,'\tb,-1,-0.5,1e-9,1e+21\r\n",
  );
});

test('a reader of CSV gets the same rows, whatever stands in them', () => {
  const text = fc.oneof(
    fc.string({ unit: anySign }),
    fc.string({ unit: fc.constantFrom(...'=+-@,"\r\n\t; a') }),
  );
  const cell = fc.oneof(
    text,
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.integer(),
    fc.constant(null),
  );
  const rows = fc
    .integer({ min: 2, max: 5 })
    .chain((length) => fc.array(fc.array(cell, { minLength: length, maxLength: length }), { minLength: 1 }));
  fc.assert(
    fc.property(rows, (written) => {
      const read: string[][] = parse(csvText(written), { record_delimiter: '\r\n' });
      const expected = written.map((row) =>
        row.map((one) => {
          if (one === null) return '';
          return typeof one === 'string' && FORMULA.test(one) ? `'${one}` : String(one);
        }),
      );
      expect(read).toEqual(expected);
    }),
    { seed: 5, numRuns: 100 },
  );
});
