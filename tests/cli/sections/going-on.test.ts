/** What ahead and chores say of a line that is on its way: room, large numbers, and what they take to be so. */

import { describe, expect, test } from 'vitest';
import { calendarText } from '../../../cli/render/calendar.js';
import { textOf } from '../../../cli/render/text.js';
import { aheadSections } from '../../../cli/sections/ahead/ahead.js';
import { choresCalendar, choresSections } from '../../../cli/sections/chores.js';
import type { Section } from '../../../cli/sections/section.js';
import type { Plan } from '../../../sim/models/plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';
import { aheadOf, choresOf } from './shown.js';

const WEEKS = 40;

function plan(rest: Partial<Plan> = {}, size = 1): Plan {
  return line(
    [stage('tray', 6 * size), stage('wide', 4 * size)],
    [crop([grow(time(4)), grow(time(10))], every(7, 7 * WEEKS, 2 * size))],
    { weeks: WEEKS, visits: visitDays(WEEKS), ...rest },
  );
}

function inOneLine(sections: readonly Section[]): string {
  return textOf(sections).replace(/\s+/g, ' ');
}

describe('ahead', () => {
  test('tells plants that are not wanted apart from those without room', async () => {
    const unwanted = plan({
      crops: [crop([grow(time(4)), grow(time(10), { keeps: 2 })], every(7 * WEEKS, 7 * WEEKS, 2))],
      want: { heads: 1, days: [15] },
    });
    const text = inOneLine(aheadSections(await aheadOf(unwanted, 10)));
    expect(text).toContain('Batches that will run out of room None, as far as can be told.');
    // Ready on day 14, thrown away on 17: 18 and 21 January.
    expect(text).toContain(
      'Thrown away for another reason: not wanted, or nobody comes in time: batch in from to thrown away chance B1 wide 18 Jan 21 Jan 1 100.0 %',
    );
  });

  test('tells large differences without decimals, in groups of three', async () => {
    const result = await aheadOf(plan(), 19);
    const sowings = {
      ...result.sowings!,
      planned: 306937,
      advised: 323486,
      difference: { mean: 16549.04, low: 14605.2, high: 18492.8 },
    };
    expect(inOneLine(aheadSections({ ...result, sowings }))).toMatch(
      /323 486 heads by \w+ \d+ Mar 2027 against 306 937 with the plan's seeds, \+16 549 \(95 %: \+14 605 to \+18 493\)/,
    );
  });
});

describe('after visits that were not made', () => {
  // Nothing is logged after the first sowing on 4 January; the next was due on Mon 11, the one after on Mon 18.
  const rows = simulatedLog(plan(), 1, 0, { until: 1 });
  const SENTENCE =
    /No row tells of [^.]*, although sowings were due: taken as not made\. If they were, log what was done\./;
  const OVERDUE =
    '2 plants of B1 in tray stand so long that fewer than 1 in 100 would still grow: they are taken as failed and cleared at the next visit. If they are gone already, log them. evensow log lose 2 B1 tray';

  test('ahead and chores say the same', async () => {
    const ahead = inOneLine(aheadSections(await aheadOf(plan(), 16, { rows })));
    const chores = inOneLine(choresSections(await choresOf(plan(), 16, { rows })));
    expect(ahead).toMatch(SENTENCE);
    expect(SENTENCE.exec(chores)?.[0]).toBe(SENTENCE.exec(ahead)?.[0]);
  });

  test('ahead and chores say the same of plants that stand for too long', async () => {
    // On day 6 no sowing was left out yet, so the visits since day 4 were made, and what was ready then stands.
    expect(inOneLine(aheadSections(await aheadOf(plan(), 6, { rows })))).toContain(OVERDUE);
    expect(inOneLine(choresSections(await choresOf(plan(), 6, { rows })))).toContain(OVERDUE);
  });

  test('the calendar says it with its first visit', async () => {
    const result = await choresOf(plan(), 16, { rows });
    const text = calendarText(choresCalendar({ ...result, missed: ['2027-01-11'] })).replaceAll('\r\n ', '');
    expect(text.match(/No row tells of Mon 11 Jan 2027/g)).toHaveLength(1);
  });

  test('plants that stand for too long are told with the number', async () => {
    const result = await choresOf(plan(), 16, { rows });
    const sections = choresSections({
      ...result,
      overdue: [{ batch: 'B1', stage: 'tray', plants: 2, gone: 0 }],
    });
    expect(inOneLine(sections)).toContain(OVERDUE);
  });

  test('of those for which there is no room any more it is said that they are gone', async () => {
    const result = await choresOf(plan(), 16, { rows });
    const told = (...gone: number[]): string =>
      inOneLine(
        choresSections({
          ...result,
          overdue: gone.map((count, i) => ({ batch: `B${i + 1}`, stage: 'tray', plants: 2, gone: count })),
        }),
      );
    expect(told(2)).toContain(
      'they are taken as failed and gone, for there is no room for all that stands by the log. Log them. evensow log lose 2 B1 tray',
    );
    expect(told(2, 0)).toContain(
      '4 plants of 2 batches stand so long that fewer than 1 in 100 would still grow: they are taken as failed and cleared at the next visit (2 of them before it, for there is no room for all that stands by the log). If they are gone already, log them.',
    );
  });

  test('of 22 groups there is one sentence, and the commands of the largest unless all are asked for', async () => {
    const result = await choresOf(plan(), 16, { rows });
    const overdue = Array.from({ length: 22 }, (_, i) => ({
      batch: i === 21 ? "Jo's" : `B${i + 1}`,
      stage: 'tray',
      plants: i + 1,
      gone: 0,
    }));
    const brief = textOf(
      choresSections({ ...result, overdue }, { all: false, log: 'my season.csv', line: null }),
    );
    expect(brief.replace(/\s+/g, ' ').match(/253 plants of 22 batches stand so long/g)).toHaveLength(1);
    expect(brief.match(/evensow log lose/g)).toHaveLength(6);
    expect(brief).toContain("evensow log lose 22 'Jo'\\''s' tray --date 2027-01-04 --to 'my season.csv'");
    expect(brief).toContain('... and 16 more commands: --all');
    const all = textOf(choresSections({ ...result, overdue }, { all: true, log: 'season.csv', line: null }));
    expect(all.match(/evensow log lose \d+ \S+ tray --date 2027-01-04$/gm)).toHaveLength(22);
  });
});

test('whatever title a library user gives, it cannot add a line to the calendar', async () => {
  const result = await choresOf(plan(), 8);
  const text = calendarText(choresCalendar({ ...result, title: 'one\r\nBEGIN:VEVENT\n\u0007two' }));
  expect(text.match(/^BEGIN:VEVENT\r$/gm)).toHaveLength(result.visits.length);
  expect(text).toContain('X-WR-CALNAME:one\\nBEGIN:VEVENT\\ntwo\r\n');
});
