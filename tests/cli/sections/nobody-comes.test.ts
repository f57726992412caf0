/** A line to which nobody comes: the texts name the visits, not what would help elsewhere. */

import { describe, expect, test } from 'vitest';
import { textOf } from '../../../cli/render/text.js';
import { aheadSections } from '../../../cli/sections/ahead/ahead.js';
import { runSections } from '../../../cli/sections/run.js';
import type { Plan } from '../../../sim/models/plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { aheadOf, runOf } from './shown.js';

const WEEKS = 40;

/** Visits daily up to a day of the season [d]. */
function until(day: number): Plan['visits'] {
  return { kind: 'days', days: Array.from({ length: day }, (_, i) => i) };
}

function plan(rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('tray', 12), stage('wide', 8)],
    [crop([grow(time(4)), grow(time(10))], every(7, 7 * WEEKS, 3))],
    { weeks: WEEKS, visits: visitDays(WEEKS), ...rest },
  );
}

async function run(rest: Partial<Plan>): Promise<string> {
  return textOf(runSections(await runOf(plan(rest)))).replace(/\s+/g, ' ');
}

async function ahead(visits: Plan['visits'], day: number): Promise<string> {
  return textOf(aheadSections(await aheadOf(plan({ visits }), day))).replace(/\s+/g, ' ');
}

describe('run', () => {
  test('without any visit says that nobody comes', async () => {
    const text = await run({ visits: until(0) });
    expect(text).toContain('Nobody comes in this season: change visits, or shorten away.');
    expect(text).toContain('Nothing was sown: nobody came.');
    expect(text).not.toContain('sow earlier');
  });

  test('with heads wanted on days without a visit says so', async () => {
    const text = await run({
      visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]),
      want: { heads: 2, days: [1, 8, 15] },
    });
    expect(text).toContain('Nobody comes on a day on which heads are wanted');
    expect(text).not.toContain('sow earlier');
  });

  test('whose visits end before the first pick says when the last one is', async () => {
    const text = await run({ visits: until(10) });
    expect(text).toContain('Nobody comes to pick after Wed 13 Jan 2027: shorten away');
    expect(text).not.toContain('sow earlier');
  });

  test('of a season too short for its crop advises a longer one, and 1 week is 1 week', async () => {
    const text = await run({ weeks: 1, visits: visitDays(1) });
    expect(text).toContain('Let the season run longer (weeks), or sow earlier.');
    expect(text).toContain('test line: 1 week from Mon 4 Jan 2027; 8 seasons simulated');
  });
});

describe('ahead', () => {
  test('without a visit in these weeks says that nobody comes, and what falls due', async () => {
    // Day 20: due on days 21, 28, 35 and 42 of the weeks up to day 48, 3 seeds each.
    const text = await ahead(until(20), 20);
    expect(text).toContain(
      'Nobody comes in the next 4 weeks (see visits and away in the scenario), so nothing is sown, though 4 sowings fall due (12 seeds).',
    );
    expect(text).not.toContain('No sowing is due');
  });

  test('with visits that end within these weeks tells what falls due behind them', async () => {
    // Visits to day 29: sown on 21 and 28; due on 35 and 42 and never seen.
    expect(await ahead(until(30), 20)).toContain(
      'From Mon 8 Feb 2027 on 2 sowings fall due (6 seeds) in these weeks that nobody comes to sow',
    );
  });

  test('with visits says nothing of the kind', async () => {
    expect(await ahead(visitDays(WEEKS), 20)).not.toContain('obody comes to sow');
  });
});
