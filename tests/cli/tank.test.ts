/** The tank in the season log, through the built program. */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SHELF, SHELF_LOG } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { type Answer, evensow } from './program.js';

const folder = ownFolder();

const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('evensow log tank', () => {
  const to = join(folder, 'new.csv');
  const log = async (...args: string[]): Promise<Answer> =>
    await evensow(['log', ...args, '--to', to, '--line', SHELF]);
  const text = (): string => readFileSync(to, 'utf8');

  test('says what it wrote; the first such row gives the log its two columns', async () => {
    await log('sow', '6', 'butterhead', '--date', '2027-01-04');
    expect(text().split('\n')[0]).toBe('date,action,crop,batch,stage,channel,count,grams,note');
    const topped = await log('tank', '--litres', '12.5', '--ec', '1.6', '--date', '2027-01-08');
    expect(topped).toEqual({
      code: 0,
      out: 'Fri 8 Jan 2027: tank topped up with 12.5 l, 1.6 mS/cm before.\n',
      err: '',
    });
    const args = ['--changed', '--litres', '40', '--note', 'new salts', '--date', '2027-01-11'];
    expect((await log('tank', ...args)).out).toBe(
      'Mon 11 Jan 2027: tank emptied and filled anew with 40 l.\n',
    );
    expect((await log('tank', '--ec', '1.8', '--date', '2027-01-11')).out).toBe(
      'Mon 11 Jan 2027: tank at 1.8 mS/cm.\n',
    );
    expect(text()).toBe(
      [
        'date,action,crop,batch,stage,channel,count,grams,note,litres,ec',
        '2027-01-04,sow,butterhead,B1,germination,,6,,,,',
        '2027-01-08,tank,,,,,,,,12.5,1.6',
        '2027-01-11,tank,,,,,,,changed; new salts,40,',
        '2027-01-11,tank,,,,,,,,,1.8\n',
      ].join('\n'),
    );
  });

  test('asks about a conductivity that is hardly meant, and writes it', async () => {
    const { code, out, err } = await log('tank', '--ec', '7', '--date', '2027-01-12');
    expect({ code, out }).toEqual({ code: 0, out: 'Tue 12 Jan 2027: tank at 7 mS/cm.\n' });
    expect(err).toMatch(/^Note: .*new\.csv, line 6: ec: 7 mS\/cm is too much for leaf crops\. uS\/cm\?.*\n$/);
  });

  test.each([
    [['tank'], 'found nothing; expected the litres topped up, or ec, or the note changed'],
    [['tank', '--litres=-1'], 'litres found "-1"; expected a number of litres of at least 0'],
    [
      ['tank', '--ec', '1600'],
      'expected a conductivity from 0 to 20 mS/cm, or nothing. uS/cm? Then write 1.6.',
    ],
    [['tank', '12.5'], 'log tank must not have "12.5" behind it. It takes options only.'],
    [
      ['tank', '--litres', '3', '--channel', 'N1'],
      'expected nothing, for a tank row tells of no plants or holes',
    ],
    [['tank', '--litres', '3', '--batch', 'B1'], '--batch must not stand with log tank.'],
    [['pick', '1', 'B1', '--litres', '3'], '--litres must not stand with log pick. It tells of the tank.'],
    [['lose', '1', 'B1', '--changed'], '--changed must not stand with log lose.'],
    [
      ['tnak', '--litres', '3'],
      'found "tnak"; expected one of sow, move, pick, lose, clean, stand, tank. Did you mean tank?',
    ],
  ])('refuses %j in words, and writes nothing', async (args, words) => {
    const before = text();
    const { code, out, err } = await log(...args, '--date', '2027-01-12');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(flat(err)).toContain(words);
    expect(flat(err)).toContain('Example: evensow log');
    expect(text()).toBe(before);
  });

  test('a log of nothing but the tank is one without plants', async () => {
    const alone = join(folder, 'alone.csv');
    await evensow(['log', 'tank', '--litres', '3', '--to', alone, '--date', '2027-01-04']);
    const { code, err } = await evensow(['replay', alone, SHELF]);
    expect(code).toBe(2);
    expect(err).toContain('alone.csv must not be without rows but those of the tank.');
  });
});

/** With rows of the tank: before the first row, behind every third, and on days behind the last. */
function withTank(text: string): string {
  const [header, ...rows] = text.trimEnd().split(/\r?\n/) as [string, ...string[]];
  const tank = (date: string, i: number): string =>
    `${date},tank,,,,,,,${i % 4 === 0 ? 'changed,40,' : `,${i % 9}.5,1.${i % 10}`}`;
  const dateOf = (row: string): string => row.slice(0, 10);
  const mixed = rows.flatMap((row, i) => [`${row},,`, ...(i % 3 === 0 ? [tank(dateOf(row), i)] : [])]);
  const later = dateOf(rows.at(-1)!).replace(/..$/, '28');
  return `${[`${header},litres,ec`, tank(dateOf(rows[0]!), 1), ...mixed, tank(later, 2)].join('\n')}\n`;
}

describe('what is told of a season is the same, byte by byte, with rows of the tank and without', () => {
  const season = readFileSync(SHELF_LOG, 'utf8').split(/\r?\n/).slice(0, 140).join('\n');
  const midway = [
    'date,action,crop,batch,stage,channel,count,grams,note',
    '2027-02-15,stand,butterhead,B3,nursery,,12,,since 2027-02-08..2027-02-10',
    '2027-02-15,stand,butterhead,B2,finishing,,8,,',
    '2027-02-22,move,butterhead,B3,finishing,,4,,\n',
  ].join('\n');
  const logs = { season, midway };

  for (const [name, text] of Object.entries(logs)) {
    for (const [kind, of] of [
      ['plain', text],
      ['tank', withTank(text)],
    ] as const) {
      mkdirSync(join(folder, name, kind), { recursive: true });
      writeFileSync(join(folder, name, kind, 'log.csv'), of);
    }
  }

  const few = ['--seasons', '20', '--workers', '1'];
  const commands = [
    ['replay', 'log.csv', SHELF],
    ['replay', 'log.csv'],
    ['replay', 'log.csv', SHELF, '--json'],
    ['fit', 'log.csv', SHELF],
    ['fit', 'log.csv', SHELF, '--json'],
    ['ahead', SHELF, 'log.csv', ...few],
    ['ahead', SHELF, 'log.csv', '--csv', ...few],
    ['chores', SHELF, 'log.csv', ...few],
    ['chores', SHELF, 'log.csv', '--ics', ...few],
    ['watch', SHELF, 'log.csv'],
    ['report', SHELF, 'log.csv', '--seasons', '10', '--out', 'page.html'],
  ];
  test.each(Object.keys(logs).flatMap((name) => commands.map((args) => [name, args] as const)))(
    '%s: %j',
    async (name, args) => {
      const [plain, tank] = ['plain', 'tank'].map((kind) => join(folder, name, kind)) as [string, string];
      const told = await evensow(args, { cwd: plain });
      expect(told.code).toBe(0);
      expect(await evensow(args, { cwd: tank })).toEqual(told);
      if (args[0] !== 'report') return;
      const page = (at: string): string => readFileSync(join(at, 'page.html'), 'utf8');
      expect(page(tank)).toBe(page(plain));
    },
  );
});
