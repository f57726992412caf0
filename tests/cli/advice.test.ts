/**
 * What `ahead` and `chores` advise, on lines so small and without chance that the true answer can be worked out on paper:
 * missed sowings, sowings that an absence costs, plants that hardly can still grow, blocked seedlings. The built program.
 */

import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ownFolder } from '../support/folder.js';
import { evensow } from './program.js';

const folder = ownFolder();

/** Daily visits; `rest` goes into the scenario, `sow` is that of the one crop. */
async function scenario(
  name: string,
  { sow = '{every: 3, seeds: 12}', rest = '', wide = 200, keeps = 2, grown = '' } = {},
) {
  const path = join(folder, `${name}.yaml`);
  await writeFile(
    path,
    `title: Test line
start: 2027-01-04
weeks: 20
visits: daily
${rest}
stages:
  - {name: tray, channels: 1, holes: 100}
  - {name: wide, channels: 1, holes: ${wide}}
crops:
  - name: leaf
    sow: ${sow}
    stages:
      tray: {days: 3, spread: 0, keeps: ${keeps}}
      wide: {days: 10, spread: 0${grown}}
`,
  );
  return path;
}

async function logOf(name: string, ...rows: string[]): Promise<string> {
  const path = join(folder, `${name}.csv`);
  await writeFile(path, `${['date,action,crop,batch,stage,channel,count,grams,note', ...rows].join('\n')}\n`);
  return path;
}

async function told(...args: string[]): Promise<string> {
  const { code, out, err } = await evensow([...args, '--seasons', '5']);
  expect(err).toBe('');
  expect(code).toBe(0);
  return out.replace(/\s+/g, ' ');
}

async function found(...args: string[]) {
  return JSON.parse((await evensow([...args, '--seasons', '5', '--json'])).out);
}

describe('sowings that were missed', () => {
  let log = '';
  beforeAll(async () => {
    // Due on days 0, 3, 6, 9 and 12; nothing is logged after day 0, and today is day 13.
    log = await logOf('missed', '2027-01-04,sow,leaf,B1,,,12,,');
  });

  test('are counted, with the seeds of one, and what the other rule would sow', async () => {
    const file = await scenario('made-up');
    for (const command of ['chores', 'ahead']) {
      expect(await told(command, file, log, '--today', '2027-01-17')).toContain(
        'Sun 17 Jan 2027: 4 sowings were missed; one is 12 seeds. All that fell due is sown as far as cells are free, 48 seeds; with missed: dropped beside the seeds in the scenario only the latest would be, 12 seeds.',
      );
    }
    expect(await told('chores', file, log, '--today', '2027-01-17')).toContain('[ ] sow 48 into tray');
  });

  test('are dropped if the scenario says so: only the latest is sown', async () => {
    const file = await scenario('dropped', { sow: '{every: 3, seeds: 12, missed: dropped}' });
    const text = await told('chores', file, log, '--today', '2027-01-17');
    expect(text).toContain(
      'Sun 17 Jan 2027: 4 sowings were missed; one is 12 seeds. Only the latest is sown, 12 seeds; with missed: made_up beside the seeds in the scenario all that fell due would be, 48 seeds.',
    );
    expect(text).toContain('[ ] sow 12 into tray');
    const { sowings, missed_sowings } = await found('ahead', file, log, '--today', '2027-01-17');
    expect(sowings.dates[0]).toMatchObject({ date: '2027-01-17', planned_seeds: 12 });
    expect(missed_sowings).toEqual([
      { date: '2027-01-17', crop: 'leaf', missed: 4, one: 12, all: 48, rule: 'dropped' },
    ]);
  });

  test('are told of nobody who comes as usual, though several sowings fall due between two visits', async () => {
    const file = await scenario('often', { sow: '{every: 0.5, seeds: 3}' });
    expect((await found('chores', file, '--days', '5')).missed_sowings).toEqual([]);
  });
});

describe('sowings that an absence costs', () => {
  test('are marked with how many of their plants are thrown away, and when', async () => {
    // Away from day 5 to 15. Sown on day 0: moved on 3. Sown on day 3: ready on 6, keeps 2 days, thrown away on day 16.
    const file = await scenario('away', { rest: 'away: [{from: 2027-01-09, to: 2027-01-19}]' });
    const { lost_to_absence } = await found('chores', file, '--days', '5');
    expect(lost_to_absence).toEqual([
      {
        ...{ date: '2027-01-07', crop: 'leaf', seeds: 12, thrown_away: 12 },
        ...{ since: '2027-01-08', on: '2027-01-20' },
      },
    ]);
    const text = await told('chores', file, '--days', '5');
    expect(text).toContain(
      'Plants of these sowings would be thrown away on Wed 20 Jan 2027, since nobody is there after Fri 8 Jan 2027: Thu 7 Jan 2027 12 of 12.',
    );
    expect(text).toContain(
      'sow 12 into tray: 12 leaf as B2 Sowing: 12 of 12 would be thrown away in the absence.',
    );
  });

  test('are none if the plants keep until somebody is back, or would be thrown away all the same', async () => {
    const rest = 'away: [{from: 2027-01-09, to: 2027-01-19}]';
    const keeping = await scenario('keeping', { rest, keeps: 20 });
    expect((await found('chores', keeping, '--days', '5')).lost_to_absence).toEqual([]);
    // No hole is free for them on any day: the holes are taken on day 3, until day 13.
    const crowded = await scenario('crowded', { rest, wide: 12 });
    expect((await found('chores', crowded, '--days', '5')).lost_to_absence).toEqual([]);
  });

  test('are as many as the list of batches has, though without the absence nobody would want them later', async () => {
    const rest = 'away: [{from: 2027-01-09, to: 2027-01-19}]\nwant: {heads: 1, on: [mon]}';
    const file = await scenario('unwanted', { rest, grown: ', keeps: 1' });
    const log = await logOf('unwanted', '2027-01-04,sow,leaf,B1,,,12,,');
    const { lost_to_absence, overgrown } = await found('ahead', file, log, '--weeks', '3');
    const sown = overgrown.filter(({ sown }: { sown: string }) => sown === '2027-01-07');
    expect(sown).toMatchObject([{ stage: 'tray', to: '2027-01-20', thrown_away: { mean: 12 } }]);
    expect(lost_to_absence[0]).toMatchObject({ date: '2027-01-07', on: '2027-01-20', thrown_away: 12 });
  });
});

describe('plants that stand for too long', () => {
  test('are taken as failed in one sentence, with the command that logs them', async () => {
    // All are ready on day 3; two were left behind then, and on the visits after it.
    const log = await logOf(
      'overdue',
      '2027-01-04,sow,leaf,B1,,,12,,',
      '2027-01-07,move,,B1,wide,,10,,',
      '2027-01-07,sow,leaf,B2,,,12,,',
    );
    const file = await scenario('overdue');
    const text = await told('chores', file, log, '--days', '1');
    expect(text).toContain(
      '2 plants of B1 in tray stand so long that fewer than 1 in 100 would still grow: they are taken as failed and cleared at the next visit. If they are gone already, log them.',
    );
    expect(text).toMatch(/clear 2 dead, failed or overgrown in tray: B1 2/);
    // Under the date of the last visit, whatever day it is typed on.
    const [, command] = /evensow (log lose 2 B1 tray --date 2027-01-07 --to \S+ --line \S+)/.exec(text)!;
    const { code, out } = await evensow(command!.split(' '));
    expect(code, out).toBe(0);
    const after = await told('chores', file, log, '--days', '1');
    expect(after).not.toContain('stand so long');
    expect(after).not.toContain('clear 2');
  });
});

test('the command that logs what is overdue can be typed, also if the log names no stage', async () => {
  const log = await logOf('nameless', '2027-01-04,sow,leaf,B1,,,12,,', '2027-01-14,sow,leaf,B2,,,12,,');
  const file = await scenario('nameless');
  const [, command] = /evensow (log lose \d+ B1 tray --date \S+ --to \S+ --line \S+)/.exec(
    await told('chores', file, log, '--days', '1'),
  )!;
  const { code, out } = await evensow(command!.split(' '));
  expect(code, out).toBe(0);
});

describe('blocked seedlings', () => {
  const rows = ['2027-01-04,sow,leaf,B1,,,6,,'];
  const once = { sow: '{dates: [2027-01-04], seeds: 6}', wide: 4 };

  test('cost the heads that come with room without limit, less those that come without', async () => {
    // Four move on day 3; two are ready for more than 2 days, and thrown away.
    const file = await scenario('costly', once);
    const log = await logOf('costly', ...rows);
    expect(await told('ahead', file, log, '--weeks', '2')).toContain(
      'They cost 2 heads: room without limit would bring +2.0 heads',
    );
    expect((await found('ahead', file, log, '--weeks', '2')).blocked_cost).toMatchObject({ mean: 2 });
  });

  test('cost none if they are picked all the same, only later', async () => {
    const file = await scenario('late', { ...once, keeps: 30 });
    const log = await logOf('late', ...rows);
    expect(await told('ahead', file, log, '--weeks', '2')).toContain('They cost no heads that could be told');
  });
});

describe('long lists', () => {
  test('are told by week, and in full with --all', async () => {
    const file = await scenario('long', { sow: '{every: 1, seeds: 2}' });
    const brief = await told('chores', file, '--days', '100');
    expect(brief).toContain('The next visit Mon 4 Jan 2027 [ ] sow 2 into tray: 2 leaf as B1');
    expect(brief).toContain(
      'Week of Mon 11 Jan 2027, 7 visits in all pick 2 ready in wide move 14 tray -> wide sow 14 into tray: 14 leaf',
    );
    expect(brief).toContain('Each visit, batch by batch: --all, or --csv.');
    const all = await told('chores', file, '--days', '100', '--all');
    expect(all).toContain('Week of Mon 11 Jan 2027 Mon 11 Jan 2027 [ ] move 2 tray -> wide: B5 2');
    expect(all.length).toBeGreaterThan(3 * brief.length);
  });

  test('of seeds are told by week as well, unless all are asked for', async () => {
    // Two seeds a day where 10 would fit: more bring more.
    const file = await scenario('seeds', { sow: '{every: 1, seeds: 2}' });
    const log = await logOf('seeds', '2027-01-04,sow,leaf,B1,,,2,,');
    const brief = await told('ahead', file, log, '--weeks', '6');
    expect(brief).toContain('week of seeds by the plan seeds that fill the gap Mon 4 Jan 2027 12');
    expect(brief).toContain('Seeds of each of 42 sowings: --all, or --csv.');
    expect(await told('ahead', file, log, '--weeks', '6', '--all')).toContain(
      'visit seeds by the plan seeds that fill the gap Tue 5 Jan 2027 2',
    );
  });
});
