/** A log that begins in the middle of a season, through the built program. */

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { cutLog } from '../support/cut-log.js';
import { EXAMPLES, readExample } from '../support/examples.js';
import { logText, simulatedLog } from '../support/simulated-log.js';
import { evensow } from './program.js';

const SHELF = `${EXAMPLES}home-shelf.yaml`;
const folder = mkdtempSync(join(tmpdir(), 'evensow-stand-'));
afterAll(() => rmSync(folder, { recursive: true }));
const file = (name: string): string => join(folder, name);

const { plan } = readExample(SHELF);
const rows = simulatedLog(plan, 7, 0, { until: 120 });
const CUT = 70;
/** Of what stood on that day the visits are known between which it came. */
const midway = file('midway.csv');
writeFileSync(midway, logText(cutLog(rows, plan, CUT, 'vague')));
const undated = file('undated.csv');
writeFileSync(undated, logText(cutLog(rows, plan, CUT, 'none')));

const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('evensow log stand', () => {
  const to = file('new.csv');
  const log = async (...args: string[]) =>
    await evensow(['log', ...args, '--to', to, '--line', SHELF, '--date', '2027-02-15']);

  test('says what stands and since when, and keeps it in the note', async () => {
    const args = ['stand', '12', 'B3', 'nursery', '--crop', 'butterhead'];
    const { code, out } = await log(...args, '--since', '2027-02-01..2027-02-10', '--note', 'bought');
    expect(code).toBe(0);
    expect(out).toBe(
      'Mon 15 Feb 2027: 12 of B3 stand in nursery, came in from Mon 1 Feb 2027 to Wed 10 Feb 2027. B3 (butterhead) now: 12 in nursery.\n',
    );
    expect(readFileSync(to, 'utf8').split('\n')[1]).toBe(
      '2027-02-15,stand,butterhead,B3,nursery,,12,,since 2027-02-01..2027-02-10; bought',
    );
  });

  test('of a batch that is known the crop may be left out; a day alone or nothing will do', async () => {
    expect((await log('stand', '4', 'B3', 'finishing', '--since', '2027-02-08')).out).toContain(
      '4 of B3 stand in finishing since Mon 8 Feb 2027. B3 (butterhead) now: 12 in nursery, 4 in finishing.',
    );
    const { out } = await log('stand', '5', 'B4', 'germination', '--crop', 'butterhead');
    expect(out).toContain('5 of B4 stand in germination, since when is not known.');
  });

  test('its plants go on like all others', async () => {
    expect((await log('move', '2', 'B3', 'finishing')).out).toContain('10 in nursery, 6 in finishing.');
    expect((await log('lose', '1', 'B3', 'nursery')).out).toContain('1 lost, of 16 that stood.');
    const { code, err } = await log('move', '10', 'B3', 'finishing');
    expect(code).toBe(2);
    expect(flat(err)).toContain('at most 9, for so many stand in nursery');
  });

  test.each([
    [
      ['stand', '4', 'B9', 'nursery'],
      'crop found nothing; expected the crop of B9, which was not sown in this log',
    ],
    [['stand', '4', 'B9', 'nursery', '--crop', 'leek'], 'found "leek"; expected one of the crops butterhead'],
    [
      ['stand', '4', 'B9', 'nursery', '--crop', 'butterhead', '--since', '2027-02-10..2027-02-01'],
      'note found since 2027-02-10..2027-02-01; expected the earlier date first. Write since 2027-02-01..2027-02-10.',
    ],
    [
      ['stand', '4', 'B9', 'nursery', '--crop', 'butterhead', '--since', '2027-02-30'],
      'found since 2027-02-30; expected existing dates as YYYY-MM-DD, the first and the last, with two points between. 2027-02 has the days 01 to 28.',
    ],
    [
      ['stand', '4', 'B9', 'nursery', '--crop', 'butterhead', '--since', '2027-02-16'],
      'expected dates up to 2027-02-15, the date of the row',
    ],
    [['sow', '4', 'butterhead', '--batch', 'B3'], 'found "B3", standing already (2027-02-15)'],
    [['move', '1', 'B3', 'finishing', '--since', '2027-02-01'], '--since must not stand with log move'],
    [['sow', '1', 'butterhead', '--crop', 'butterhead'], '--crop must not stand with log sow'],
  ])('refuses %j', async (args, told) => {
    const before = readFileSync(to, 'utf8');
    const { code, err } = await log(...args);
    expect(code).toBe(2);
    expect(flat(err)).toContain(told);
    expect(readFileSync(to, 'utf8')).toBe(before);
  });

  test('what is counted already is not put in twice', async () => {
    const sown = file('sown.csv');
    const say = async (date: string, ...args: string[]) =>
      await evensow(['log', ...args, '--to', sown, '--date', date]);
    await say('2027-02-01', 'sow', '10', 'butterhead');
    const { code, err } = await say('2027-02-02', 'stand', '10', 'B1', 'germination');
    expect(code).toBe(2);
    expect(flat(err)).toContain(
      'found "B1", sown already (2027-02-01); expected a batch of which the log does not tell yet. Its plants are counted already: log what was moved, picked or lost since.',
    );
    await say('2027-02-02', 'stand', '3', 'B0', 'nursery', '--crop', 'butterhead');
    const later = await say('2027-02-03', 'stand', '3', 'B0', 'nursery');
    expect(flat(later.err)).toContain('found "B0", standing already (2027-02-02)');
  });
});

describe('is taken by every command that reads a log', () => {
  test('replay tells from that day on, with what stood then', async () => {
    const { code, out } = await evensow(['replay', midway, SHELF]);
    expect(code).toBe(0);
    const whole = JSON.parse((await evensow(['replay', file('whole.csv'), SHELF, '--json'])).out || '{}');
    const told = JSON.parse((await evensow(['replay', midway, SHELF, '--json'])).out);
    const stood = told.counts.stood as number;
    expect(flat(out)).toContain(`and ${stood} plants that stood before; `);
    expect(told.start).toBe('2027-03-15');
    expect(told.missed_visits.filter((date: string) => date < told.start)).toEqual([]);
    // Day by day what stood is what stood in the whole log.
    for (const [s, { standing }] of told.stages.entries()) {
      expect(standing).toEqual(whole.stages[s].standing.slice(CUT));
    }
    expect(told.counts.picked).toBe(
      rows.reduce(
        (sum, { action, date, count }) => sum + (action === 'pick' && date >= told.start ? count : 0),
        0,
      ),
    );
  });

  test('replay does not say that a line which stood half full was still filling', async () => {
    const input =
      'date,action,crop,batch,stage,count\n2027-03-15,stand,butterhead,B1,nursery,20\n2027-03-18,move,,B1,finishing,6\n';
    const { code, out } = await evensow(['replay', SHELF, '-'], { input });
    expect(code).toBe(0);
    expect(flat(out)).not.toContain('still filling');
    expect(flat(out)).toContain('was not sown before the log begins, and why is not known');
  });

  test('replay without a scenario, too', async () => {
    const told = JSON.parse((await evensow(['replay', midway, '--json'])).out);
    expect(told.stages.map(({ name }: { name: string }) => name)).toEqual([
      'germination',
      'nursery',
      'finishing',
    ]);
  });

  test('another cadence cannot be told of it, and that is said', async () => {
    const { code, err } = await evensow(['replay', midway, SHELF, '--every', '4']);
    expect(code).toBe(2);
    expect(flat(err)).toContain('must not be asked for with a log that begins in the middle of a season');
  });

  test.each(['ahead', 'chores'])('%s goes on from what stands', async (command) => {
    for (const log of [midway, undated]) {
      const { code, err } = await evensow([command, SHELF, log, '-n', '20']);
      expect({ code, err }).toEqual({ code: 0, err: '' });
    }
  });

  test('ahead counts what stands as the whole log does', async () => {
    const [part, all] = await Promise.all(
      [midway, file('whole.csv')].map(async (log) =>
        JSON.parse((await evensow(['ahead', SHELF, log, '-n', '50', '--json'])).out),
      ),
    );
    const empty = (told: typeof part) => told.stages.map((stage: { empty_now: number }) => stage.empty_now);
    expect(empty(part)).toEqual(empty(all));
  });

  test('watch', async () => {
    const { code, err } = await evensow(['watch', SHELF, midway]);
    expect(code).toBe(0);
    expect(err).not.toContain('fault');
  });

  test('fit follows them from then on; of what stood since nobody knows when it says that it tells nothing', async () => {
    const dated = JSON.parse((await evensow(['fit', midway, SHELF, '--json'])).out);
    const stood = dated.crops[0].stages.map((fit: { stood: number }) => fit.stood);
    expect(Math.min(...stood)).toBeGreaterThan(0);
    const { code, out } = await evensow(['fit', undated, SHELF]);
    expect(code).toBe(0);
    expect(flat(out)).toMatch(
      /Stood there before the log began, since when is not known to 2 days: \d+ in germination, \d+ in nursery and \d+ in finishing\. They tell nothing of a time\./,
    );
  });
});

// Beside the log that begins in the middle.
writeFileSync(file('whole.csv'), logText(rows));

describe('the same checks', () => {
  const commands = [
    ['replay', 'log', 'line'],
    ['fit', 'log', 'line'],
    ['ahead', 'line', 'log', '-n', '5'],
    ['chores', 'line', 'log', '-n', '5'],
    ['watch', 'line', 'log'],
  ];
  const text = readFileSync(SHELF, 'utf8');
  const everywhere = async (log: string, line: string) =>
    await Promise.all(
      commands.map(async ([command, ...order]) => {
        const { code, err } = await evensow([command!, ...order.map((one) => ({ log, line })[one] ?? one)]);
        return { code, err };
      }),
    );

  test.each([
    [
      'more stands than the line has holes',
      'channels: 8, holes: 9',
      'channels: 1, holes: 9',
      / plants in finishing after the last row; expected at most 9/,
    ],
    [
      'rows before the first day',
      'start: 2027-01-04',
      'start: 2027-01-11',
      /found 2027-01-04; expected a date from 2027-01-11/,
    ],
  ])('%s: all refuse the log in the same words', async (_, from, into, told) => {
    const line = file('other.yaml');
    writeFileSync(line, text.replace(from, into));
    const answers = await everywhere(file('whole.csv'), line);
    expect(answers[0]!.err).toMatch(told);
    for (const answer of answers) expect(answer).toEqual({ code: 2, err: answers[0]!.err });
  });

  test('a season that went on behind the last week of the scenario is taken by all', async () => {
    const line = file('short.yaml');
    writeFileSync(line, text.replace('weeks: 26', 'weeks: 16'));
    for (const { code } of await everywhere(file('whole.csv'), line)) expect(code).toBe(0);
  });
});
