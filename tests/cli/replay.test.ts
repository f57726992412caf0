/** `evensow replay` through the built program. */

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { SHELF, SHELF_LOG } from '../support/examples.js';
import { type Answer, evensow, evensowOnce } from './program.js';

describe('as text', () => {
  let answer: Answer;

  beforeAll(async () => {
    answer = await evensow(['replay', SHELF_LOG, SHELF, '--every', '2', '--seeds', '8']);
  });

  test('ends well and says nothing on standard error', () => {
    expect(answer).toMatchObject({ code: 0, err: '' });
  });

  test('tells what held the season back, the picks, the other cadence, the empty holes, the hole-days and what is not told, in this order', () => {
    const titles = answer.out.split('\n\n').map((part) => part.split('\n')[0]);
    expect(titles.slice(1)).toEqual([
      'What held the season back',
      'What was picked, week by week',
      'The same season, sown every 2 days, 8 seeds each time',
      'Where holes stood empty, and why',
      'Where the hole-days went',
      'What the log does not tell',
    ]);
  });

  test('fits into 80 columns of plain characters', () => {
    for (const text of answer.out.split('\n')) {
      expect(text.length, text).toBeLessThanOrEqual(80);
      expect(text).toMatch(/^[ -~]*$/);
    }
  });

  test('names the 8 longest spells of empty holes, and counts the others', () => {
    const spells = answer.out.slice(answer.out.indexOf('Where holes stood empty'));
    expect(spells.match(/^ {2}\d+\. /gm)).toHaveLength(8);
    expect(spells).toMatch(/^ {2}and \d+ more: [\d ]+ hole-days\.$/m);
  });

  test('names as causes what the log was made with, the dearest first, and what all of them cost', () => {
    const text = answer.out.replace(/\s+/g, ' ');
    const told = text.matchAll(/\d\. (\d+) heads? \((\d+) to (\d+)\): (\w+ \w+ \w+)/g);
    const causes = [...told].map(([, mean, low, high, words]) => ({
      heads: [low, mean, high].map(Number),
      words,
    }));
    expect(causes.map(({ words }) => words)).toEqual([
      'after Sat 3',
      'less was sown',
      'after Sat 6',
      'batch B20 failed',
      // Not made with the log but with the line: its tray is small.
      'germination was full',
    ]);
    const heads = causes.map((cause) => cause.heads[1]!);
    expect(heads).toEqual([...heads].sort((a, b) => b - a));
    for (const { heads } of causes) expect(heads).toEqual([...heads].sort((a, b) => a - b));
    expect(text).toMatch(
      /All of them together: \d+ heads \(\d+ to \d+\)\. The single ones need not add up to that\./,
    );
    expect(text).toContain(
      'after Sat 3 Apr 2027 nobody came until Mon 19 Apr 2027, although visits were planned stood empty for it: finishing',
    );
  });
});

test('without a scenario it says that holes are a lower bound', async () => {
  const { code, out } = await evensowOnce(['replay', SHELF_LOG]);
  expect(code).toBe(0);
  expect(out.replace(/\s+/g, ' ')).toContain(
    'of each stage only the most that ever stood there at once is known',
  );
});

test('without a scenario nothing is said of what was planned, nor that nobody was missed', async () => {
  const { out } = await evensowOnce(['replay', SHELF_LOG]);
  const text = out.replace(/\s+/g, ' ');
  expect(text).not.toMatch(/as planned|although visits were planned/);
  expect(text).not.toMatch(/Cost no heads that can be told: [^.]*nobody came/);
  expect(text).toContain('what it cost that nobody came is told too low or not at all');
  const { idle } = JSON.parse((await evensow(['replay', SHELF_LOG, '--json'])).out);
  const absences = idle.filter(({ cause }: { cause: { kind: string } }) => cause.kind === 'absent');
  expect(absences.length).toBeGreaterThan(0);
  for (const { cause } of absences) expect(cause.planned).toBeNull();
});

/** A log without a row for any seed that failed. */
function thinLog(): string {
  const rows = readFileSync(SHELF_LOG, 'utf8').split('\n');
  return rows.filter((row) => !/,lose,.*,germination,/.test(row)).join('\n');
}

test('what was sown is what was picked, lost, never mentioned again and still stands', async () => {
  const { out } = await evensowOnce(['replay', '-', SHELF], { input: thinLog() });
  const text = out.replace(/\s+/g, ' ');
  const found =
    /week by week (\d+) heads .*? from (\d+) seeds; (\d+) lost on the way, (\d+) never mentioned again \(see below\), (\d+) still standing/.exec(
      text,
    )!;
  const [picked, sown, lost, silent, standing] = found.slice(1).map(Number);
  expect(picked! + lost! + silent! + standing!).toBe(sown);
});

test('no hole stood empty for a cause before it began', async () => {
  const logs = [readFileSync(SHELF_LOG, 'utf8'), thinLog()];
  for (const log of logs) {
    const { out } = await evensowOnce(['replay', '-', SHELF], { input: log });
    const part = out.slice(out.indexOf('What held the season back'), out.indexOf('All of them together'));
    const causes = part.replace(/\s+/g, ' ').split(/ (?=\d\. )/);
    const began = causes.flatMap((cause) => {
      const [what, empty] = cause.split('stood empty for it: ');
      const since = /(?:after|seeds? of [\d ]+(?: in [\d ]+ sowings,)?(?: on)?) \w{3} (\d+ \w{3} \d{4})/.exec(
        what!,
      );
      if (since === null || empty === undefined) return [];
      const from = [...empty.matchAll(/hole-days?, \w{3} (\d+ \w{3} \d{4})/g)].map(([, day]) => day!);
      return [{ since: Date.parse(since[1]!), from: from.map((day) => Date.parse(day)) }];
    });
    expect(began.length).toBeGreaterThan(1);
    for (const { since, from } of began) for (const day of from) expect(day).toBeGreaterThanOrEqual(since);
  }
});

test('failed seeds without a row: no stage is told to have been full, and what is not known is said', async () => {
  const thin = thinLog();
  const { out } = await evensow(['replay', '-', SHELF, '--json'], { input: thin });
  const { causes, without_cost, unseen } = JSON.parse(out);
  const failures = [...causes, ...without_cost].filter(({ kind }) => kind === 'batch_failed');
  expect(causes.map(({ kind }: { kind: string }) => kind)).not.toContain('stage_before_full');
  expect(failures).toEqual([]);
  // 168 were lost; the rows of germination among them tell of what is missing here.
  expect(unseen).toEqual([expect.objectContaining({ stage: 'germination' })]);
  const { out: text } = await evensowOnce(['replay', '-', SHELF], { input: thin });
  expect(text.replace(/\s+/g, ' ')).toContain(
    'What became of plants that are never mentioned again, though fewer than 1 in 100 would still grow',
  );
  expect(text).not.toContain('germination was full');
});

test('a line that was not run as the rules say: costs stand in brackets', async () => {
  // Picks of the first months are held back for a week.
  const week = 7 * 86_400_000;
  const late = readFileSync(SHELF_LOG, 'utf8').replace(
    /^(2027-0[2-4]-\d\d)(,pick,)/gm,
    (_, date: string, rest: string) => {
      return `${new Date(Date.parse(date) + week).toISOString().slice(0, 10)}${rest}`;
    },
  );
  const [header, ...rows] = late.trim().split('\n');
  const { out } = await evensow(['replay', '-', SHELF], { input: [header, ...rows.sort()].join('\n') });
  const text = out.replace(/\s+/g, ' ');
  expect(text).toMatch(
    /The line was not run quite as the rules say: simulated as it was, the season gives \d+ heads, not 259/,
  );
  expect(text).toMatch(/1\. \[\d+ heads \(\d+ to \d+\)\]: /);
});

test('a log of more plants than the scenario had holes for a while: it says so at once, not only in shares above 100 %', async () => {
  const small = readFileSync(SHELF, 'utf8').replace('channels: 8, holes: 9', 'channels: 7, holes: 9');
  const { code, out } = await evensow(['replay', SHELF_LOG, '-'], { input: small });
  expect(code).toBe(0);
  expect(out.split('\n\n')[0]!.replace(/\s+/g, ' ')).toMatch(
    /More plants stand in finishing than it has holes: from \w+ \d+ \w+ 2027, up to \d+ in 63\. So the scenario is not that of this line/,
  );
});

test('--json prints one document with all that is told', async () => {
  const { code, out, err } = await evensow(['replay', SHELF_LOG, SHELF, '--json', '--on', 'mon,thu']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const result = JSON.parse(out);
  expect(result).toMatchObject({
    title: 'Cellar line',
    days: 182,
    whole: true,
    planned: true,
    missed_visits: expect.arrayContaining(['2027-04-05']),
    what_if: { change: { every: null, on: ['mon', 'thu'], seeds: null }, seeds: { butterhead: 10 } },
  });
  expect(result.stages[0].standing).toHaveLength(182);
});

test('--csv prints what stood on each day in each stage', async () => {
  const { code, out } = await evensow(['replay', SHELF_LOG, SHELF, '--csv']);
  expect(code).toBe(0);
  const lines = out.split('\r\n');
  expect(lines[0]).toBe('date,stage,holes,standing,cleaning,empty');
  expect(lines[1]).toBe('2027-01-04,germination,40,10,0,30');
  // A header, 3 stages on each of 182 days, and nothing behind the last end of line.
  expect(lines).toHaveLength(1 + 3 * 182 + 1);
  for (const line of lines.slice(1, -1)) {
    const [, , holes, standing, cleaning, empty] = line.split(',').map(Number);
    expect(standing! + cleaning! + empty!).toBe(holes);
  }
});

test('a log may come from standard input', async () => {
  const input = readFileSync(SHELF_LOG, 'utf8');
  const { code, out } = await evensowOnce(['replay', '-', SHELF], { input });
  expect(code).toBe(0);
  expect(out).toContain('259 heads');
});

describe('what is wrong is told with exit code 2, and nothing is printed', () => {
  const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note';
  const said = async (args: readonly string[], input = ''): Promise<string> => {
    const { code, out, err } = await evensow(['replay', ...args], { input });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    return err.replace(/\s+/g, ' ');
  };

  test('a row that cannot be true', async () => {
    const rows = ['2027-01-04,sow,butterhead,B1,,,10,,', '2027-01-11,move,,B1,nursery,,12,,'];
    expect(await said(['-', SHELF], [HEADER, ...rows].join('\n'))).toContain('line 3, column count');
  });

  test('a row outside the season', async () => {
    const log = `${HEADER}\n2026-12-24,sow,butterhead,B1,,,10,,\n`;
    expect(await said(['-', SHELF], log)).toContain(
      'found 2026-12-24; expected a date from 2027-01-04 to 2027-07-04, the season of the scenario. Set start: 2026-12-24 in the scenario.',
    );
  });

  test('a log without rows', async () => {
    expect(await said(['-', SHELF], `${HEADER}\n`)).toMatch(/without rows|no row/);
  });

  test('every option that is wrong, all at once', async () => {
    const text = await said([SHELF_LOG, SHELF, '--every', '0', '--on', 'monday', '--seeds', '1.5']);
    expect(text).toContain('--every must not hold "0".');
    expect(text).toContain('--on must not hold "monday".');
    expect(text).toContain('--seeds must not be "1.5".');
    expect(text).toContain('--every and --on must not be given together.');
  });

  test('two cadences at once', async () => {
    expect(await said([SHELF_LOG, SHELF, '--every', '2,3'])).toContain('It must be one number of days here.');
  });

  test('another cadence as CSV, which holds the season as it was only', async () => {
    const without = [
      ['--every', '4'],
      ['--on', 'mon,thu'],
      ['--seeds', '6'],
    ];
    for (const change of without) {
      expect(await said([SHELF_LOG, SHELF, ...change, '--csv'])).toContain(
        '--csv must not be given with another cadence (--every, --on, --seeds). It holds the season as it was, day by day; leave one of them out. --json holds both.',
      );
    }
  });

  test('both files from standard input', async () => {
    expect(await said(['-', '-'])).toContain('must not both be read from standard input');
  });
});
