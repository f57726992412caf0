/** `evensow chores`: the list on paper, as CSV, and as a calendar that other programs read. */

import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import ICAL from 'ical.js';
import { convertIcsCalendar } from 'ts-ics';
import { describe, expect, test } from 'vitest';
import { type ChoresCliOptions, chores } from '../../cli/commands/chores.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { planOf, SHELF } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { logText, simulatedLog } from '../support/simulated-log.js';

/** A title with everything that means something in a calendar file or is longer than a byte. */
const TITLE = 'Kälte; Löwenzahn, \\n \\ "Keller" 😀 — 漢字, 一二三四五六七八九十';

const folder = ownFolder();
const rows = simulatedLog(planOf(SHELF), 7, 3, { until: 80 });

/** The list that is written. @param log rows of the log; null for none */
async function listed(
  options: Partial<Record<string, string | boolean>>,
  log: readonly LogRow[] | null = rows,
  scenario = SHELF,
): Promise<string> {
  const out = join(folder, 'list.out');
  const file = join(folder, 'some.csv');
  if (log !== null) await writeFile(file, logText(log));
  const asked = { seasons: '40', ...options, out } as unknown as ChoresCliOptions;
  expect(await chores(scenario, log === null ? undefined : file, asked)).toBe(0);
  return await readFile(out, 'utf8');
}

/** The built-in scenario with another title. */
async function titled(title: string): Promise<string> {
  const text = await readFile(SHELF, 'utf8');
  const path = join(folder, 'titled.yaml');
  await writeFile(path, text.replace(/^title: .*$/m, `title: ${JSON.stringify(title)}`));
  return path;
}

interface CalendarEvent {
  readonly uid: string;
  readonly start: string;
  readonly end: string;
  readonly allDay: boolean;
  readonly sequence: number;
  readonly stamp: string;
  readonly summary: string;
  readonly description: string;
}

/** Read by a parser that is not the writer. */
function eventsOf(text: string): CalendarEvent[] {
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  return calendar.getAllSubcomponents('vevent').map((component) => {
    const event = new ICAL.Event(component);
    return {
      uid: event.uid,
      start: event.startDate.toString(),
      end: event.endDate.toString(),
      allDay: event.startDate.isDate,
      sequence: event.sequence,
      stamp: String(component.getFirstPropertyValue('dtstamp')),
      summary: event.summary,
      description: event.description,
    };
  });
}

describe('on paper', () => {
  test('there is a page for each week, a box for each chore, and no line is longer than 80 columns', async () => {
    const text = await listed({ days: '21' });
    const lines = text.split('\n');
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    // The log ends on Mon 22 March; three weeks from the 23rd on touch four weeks of the calendar.
    const weeks = lines.filter((line) => line.startsWith('Week of '));
    expect(weeks).toEqual(
      ['22 Mar', '29 Mar', '5 Apr', '12 Apr'].map((monday) => `Week of Mon ${monday} 2027`),
    );
    expect(
      lines.filter((line) => /^ {4}\[ \] (clear|pick|move|sow|clean) /.test(line)).length,
    ).toBeGreaterThan(30);
    expect(text).toMatch(/\[ \] sow +10 +into germination: 10 butterhead as B25/);
    expect(text).toMatch(/\[ \] move +\d+ \(\d+ to \d+\) +nursery -> finishing: B16 \d/);
  });

  test('only plain letters are used, and what can hurt is said once, at the end', async () => {
    const text = await listed({});
    expect(text).toMatch(/^[\x20-\x7e\n]*$/);
    expect(text.match(/unplug/g)).toHaveLength(1);
    for (const word of ['licensed electrician', 'lamps that are lit', 'heavy', 'clean knife', 'cold']) {
      expect(text.trimEnd().split('\n\n').at(-1)!.replaceAll('\n', ' ')).toContain(word);
    }
  });

  test('without a log the plan begins on its first day', async () => {
    const text = await listed({ days: '3' }, null);
    expect(text.replace('\n', ' ')).toContain('from an empty line, by the plan');
    expect(text).toMatch(/Mon 4 Jan 2027\n {4}\[ \] sow +10 +into germination: 10 butterhead as B1/);
  });

  test('days without a visit are said to be such', async () => {
    expect(await listed({ days: '1', today: '2027-03-23' })).toContain('No visit falls on these days.');
  });
});

test('the plants of the batches add up to the number that is told of the chore', async () => {
  const text = (await listed({ days: '14' })).replace(/\s+/g, ' ');
  const chores = [
    ...text.matchAll(/\[ \] (?:pick|move|clear) (\d+) (?:\([^)]*\) )?[^[]*?: (B\d+ \d+(?:, B\d+ \d+)*)/g),
  ];
  expect(chores.length).toBeGreaterThan(8);
  for (const [, whole, batches] of chores) {
    const parts = batches!.split(', ').map((part) => Number(part.split(' ')[1]));
    expect(
      parts.reduce((sum, part) => sum + part, 0),
      batches,
    ).toBe(Number(whole));
  }
});

describe('as CSV', () => {
  test('each chore has a row, and each of its batches one, with the words of a log', async () => {
    const records = parseCsv(await listed({ csv: true, days: '7' }), { columns: true }) as Record<
      string,
      string
    >[];
    expect(Object.keys(records[0]!)).toEqual([
      'date',
      'action',
      'crop',
      'batch',
      'from',
      'stage',
      'expected',
      'p10',
      'p50',
      'p90',
      'low',
      'high',
    ]);
    for (const { date, action, p10, p50, p90 } of records) {
      expect(date).toMatch(/^2027-03-2\d$/);
      expect(['lose', 'pick', 'move', 'sow', 'clean']).toContain(action);
      expect(Number(p10)).toBeLessThanOrEqual(Number(p50));
      expect(Number(p50)).toBeLessThanOrEqual(Number(p90));
    }
    const sown = records.filter(({ action, date }) => action === 'sow' && date === '2027-03-25');
    expect(sown.map(({ crop, batch, stage, expected }) => [crop, batch, stage, expected])).toEqual([
      ['', '', 'germination', '10'],
      ['butterhead', 'B25', 'germination', '10'],
    ]);
    // The batches of a chore are all of it: their means add up, but for those of which hardly any is expected.
    const moves = records.filter(({ action, stage, date }) => {
      return action === 'move' && stage === 'finishing' && date === '2027-03-25';
    });
    const parts = moves.slice(1).reduce((sum, { expected }) => sum + Number(expected), 0);
    expect(Math.abs(Number(moves[0]!['expected']) - parts)).toBeLessThan(0.05 * moves.length + 0.1);
  });
});

describe('as JSON', () => {
  test('it is the whole result', async () => {
    const result = JSON.parse(await listed({ json: true, days: '7' }));
    expect(result).toMatchObject({
      title: 'Cellar line',
      from: '2027-03-23',
      last_visit: '2027-03-22',
      futures: 40,
    });
    expect(result.visits.map(({ date }: { date: string }) => date)).toEqual([
      '2027-03-25',
      '2027-03-27',
      '2027-03-29',
    ]);
  });
});

describe('as a calendar', () => {
  test('another parser finds one event a visit, for the whole day', async () => {
    const events = eventsOf(await listed({ ics: true, days: '7' }));
    expect(events.map(({ start, end, allDay }) => [start, end, allDay])).toEqual([
      ['2027-03-25', '2027-03-26', true],
      ['2027-03-27', '2027-03-28', true],
      ['2027-03-29', '2027-03-30', true],
    ]);
    expect(events[0]!.summary).toMatch(/^Cellar line: (clear \d+, )?pick \d+, move \d+, sow 10$/);
    expect(events[0]!.description).toContain('sow 10 into germination: 10 butterhead as B25\n');
    expect(events[0]!.stamp).toBe('2027-03-23T00:00:00Z');
  });

  test('what can hurt is said once', async () => {
    const events = eventsOf(await listed({ ics: true, days: '14' }));
    expect(events.map(({ description }) => description.includes('unplug'))).toEqual(
      events.map((_, i) => i === 0),
    );
    expect(events[0]!.description).toContain(
      'fixed wiring is for your local code and a licensed electrician.',
    );
  });

  test('lines end with CRLF, have at most 75 octets, and none cuts a character in two', async () => {
    const bytes = Buffer.from(await listed({ ics: true }, rows, await titled(TITLE)));
    const lines = bytes.toString('latin1').split('\r\n');
    expect(lines.at(-1)).toBe('');
    expect(lines.filter((line) => line.startsWith(' ')).length).toBeGreaterThan(10);
    for (const line of lines) {
      expect(line).not.toMatch(/[\r\n]/);
      expect(line.length).toBeLessThanOrEqual(75);
      expect(() =>
        new TextDecoder('utf-8', { fatal: true }).decode(Buffer.from(line, 'latin1')),
      ).not.toThrow();
    }
  });

  test('text comes back as it was, whatever signs are in it; two parsers agree', async () => {
    const text = await listed({ ics: true }, rows, await titled(TITLE));
    const events = eventsOf(text);
    for (const { summary } of events) expect(summary.startsWith(`${TITLE}: `)).toBe(true);
    const { events: second = [] } = convertIcsCalendar(undefined, text);
    expect(second[0]!.summary).toBe(events[0]!.summary);
    expect(second.map(({ uid }) => uid)).toEqual(events.map(({ uid }) => uid));
    expect(second.map(({ sequence }) => sequence)).toEqual(events.map(({ sequence }) => sequence));
    expect(second.map(({ start }) => start.date.toISOString().slice(0, 10))).toEqual(
      events.map(({ start }) => start),
    );
  });

  test('the same input gives the same file, to the last byte', async () => {
    expect(await listed({ ics: true })).toBe(await listed({ ics: true }));
  });

  test('a later list brings the same events up to date: same UIDs, higher SEQUENCE, another text', async () => {
    const before = eventsOf(
      await listed(
        { ics: true, today: '2027-03-13' },
        rows.filter(({ date }) => date < '2027-03-13'),
      ),
    );
    const after = eventsOf(await listed({ ics: true }));
    const shared = after.filter(({ uid }) => before.some((event) => event.uid === uid));
    // Listed twice: the visit of Thu 25 March; the list from the 13th on ends on the 26th.
    expect(shared.map(({ start }) => start)).toEqual(['2027-03-25']);
    const old = before.find(({ uid }) => uid === shared[0]!.uid)!;
    expect(old.start).toBe(shared[0]!.start);
    expect(shared[0]!.sequence).toBeGreaterThan(old.sequence);
    expect(shared[0]!.stamp > old.stamp).toBe(true);
    expect(shared[0]!.description).not.toBe(old.description);
    expect(new Set(after.map(({ uid }) => uid)).size).toBe(after.length);
  });

  test('another line has other events', async () => {
    const mine = eventsOf(await listed({ ics: true }));
    const theirs = eventsOf(await listed({ ics: true }, rows, await titled('Attic line')));
    expect(theirs.some(({ uid }) => mine.some((event) => event.uid === uid))).toBe(false);
  });

  test('a visit with nothing to do is an event too, so that an older list does not stay', async () => {
    const events = eventsOf(await listed({ ics: true, days: '6' }, null));
    expect(events.map(({ start }) => start)).toEqual(['2027-01-04', '2027-01-07', '2027-01-09']);
    expect(events[2]).toMatchObject({
      summary: 'Cellar line: visit',
      description: 'Nothing to be done, as far as can be told.',
    });
  });
});

describe('what is wrong is told', () => {
  const ask = (options: Record<string, string>, log: string | undefined, file = SHELF) =>
    chores(file, log, options as unknown as ChoresCliOptions);

  test('every wrong option at once', async () => {
    await expect(
      ask({ days: '0', seasons: 'x', seed: '-1', today: '2027-02-30' }, undefined),
    ).rejects.toThrow(
      /--today must not be "2027-02-30".*2027-02 has the days 01 to 28\..*\n--seasons.*\n--seed.*\n--days must not be "0"/,
    );
  });

  test('today without a log', async () => {
    await expect(ask({ today: '2027-03-01' }, undefined)).rejects.toThrow(
      '--today must not be given without a log',
    );
  });

  test('a log that does not fit the line, with the row', async () => {
    const path = join(folder, 'late.csv');
    await writeFile(path, logText(rows));
    await expect(ask({ today: '2027-01-05' }, path)).rejects.toThrow(
      /late\.csv has 1 fault:\n {2}line \d+, column date/,
    );
    await writeFile(
      path,
      'date,action,crop,batch,stage,channel,count,grams,note\n2027-01-04,sow,rocket,B1,,,4,,\n',
    );
    await expect(ask({}, path)).rejects.toThrow(/column crop/);
  });

  test('both files from standard input', async () => {
    await expect(ask({}, '-', '-')).rejects.toThrow('must not both be read from standard input');
  });
});
