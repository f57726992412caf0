/** What the coming weeks take and what empty holes cost, through the commands' own words. */

import { expect, test } from 'vitest';
import { aheadRows } from '../../cli/sections/ahead/rows.js';
import { takesSections } from '../../cli/sections/ahead/takes.js';
import { choresCalendar, choresRows, choresSections } from '../../cli/sections/chores.js';
import { replayRows, replaySections } from '../../cli/sections/replay.js';
import { minutesText } from '../../cli/words/chores.js';
import { TAKES_CAUTION } from '../../sim/models/physical/cautions.js';
import { lookAhead } from '../../sim/season/ahead/ahead.js';
import { listChores } from '../../sim/season/ahead/chores.js';
import { replaySeason } from '../../sim/season/replay/replay.js';
import { EXAMPLES, planOf } from '../support/examples.js';
import { simulatedLog } from '../support/simulated-log.js';

const plan = planOf(`${EXAMPLES}lettuce-rack.yaml`);
const rows = simulatedLog(plan, 7, 3, { until: 80 });

test('ahead: a row a week and figure, and the caution wherever they stand', async () => {
  const looked = await lookAhead({ ...plan, weeks: 40 }, rows, { today: null, weeks: 2, futures: 4 });
  if (looked === null || !looked.ok) throw new Error(JSON.stringify(looked));
  const { takes } = looked.value;
  expect(JSON.stringify(takesSections(takes))).toContain(TAKES_CAUTION);
  expect(takes!.assumes).toContain(TAKES_CAUTION);
  const figures = aheadRows(looked.value).map(([figure]) => figure);
  for (const figure of ['kwh', 'used_l', 'minutes', 'picked_kg', 'cost'])
    expect(figures.filter((one) => one === figure)).toHaveLength(2);
  expect(figures).toContain(`assumes: ${TAKES_CAUTION}`);
  expect(takesSections(undefined)).toEqual([]);
});

test('replay: one sentence with kWh and money, and the caution', () => {
  const stages = plan.stages.map(({ name }) => name);
  const replayed = replaySeason(rows, stages, plan);
  if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
  const text = JSON.stringify(replaySections(replayed.value));
  const { kwh, cost, causes } = replayed.value.empty_cost!;
  expect(text).toContain(`${kwh!.toFixed(0)} kWh and ${cost!.toFixed(2)} in money (their light and wear`);
  expect(text).toMatch(new RegExp(` kWh \\(${causes[0]!.cost!.toFixed(2)} in money\\) `));
  expect(text).toContain(TAKES_CAUTION);
});

test('replay --csv: the caution stands behind the days where kWh and money do, and nowhere else', () => {
  const stages = plan.stages.map(({ name }) => name);
  const { physical: _, ...bare } = plan;
  const rowsOf = (of: typeof plan) => {
    const replayed = replaySeason(rows, stages, of);
    if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
    const [head, ...all] = replayRows(replayed.value);
    return { head, all, days: replayed.value.days * stages.length };
  };
  const told = rowsOf(plan);
  expect(told.head).toContain('empty_kwh');
  const behind = told.all.slice(told.days);
  expect(behind.map(([date, of]) => [date, of])).toContainEqual([null, `assumes: ${TAKES_CAUTION}`]);
  for (const row of behind) expect(row).toHaveLength(told.head!.length);
  const without = rowsOf(bare);
  expect(without.head).not.toContain('empty_kwh');
  expect(without.all).toHaveLength(without.days);
});

test('chores: minutes stand once a visit, and the caution wherever they stand', async () => {
  const list = async (of: typeof plan) => {
    const reading = await listChores({ ...of, weeks: 40 }, rows, { today: null, days: 7, futures: 4 });
    if (reading === null || !reading.ok) throw new Error(JSON.stringify(reading));
    return reading.value;
  };
  const told = await list(plan);
  expect(told.assumes).toEqual([TAKES_CAUTION]);
  const texts = told.visits.map(({ minutes }) => minutesText(minutes!));
  const page = JSON.stringify(choresSections(told));
  for (const text of texts) expect(page).toContain(`, ${text}"`);
  expect(page).toContain('time your own');
  const calendar = choresCalendar(told).days.map(({ lines }) => lines.join('\n'));
  for (const [i, lines] of calendar.entries()) expect(lines).toContain(`It takes ${texts[i]}.`);
  expect(calendar[0]).toContain('time your own');
  const all = choresRows(told);
  const minutes = all.filter(([, action]) => action === 'minutes');
  expect(minutes.map(([date]) => date)).toEqual(told.visits.map(({ date }) => date));
  expect(minutes[0]!.slice(6, 10)).toEqual(
    (['mean', 'p10', 'p50', 'p90'] as const).map((of) => told.visits[0]!.minutes![of]),
  );
  expect(all.at(-1)![1]).toBe(`assumes: ${TAKES_CAUTION}`);
  for (const row of all) expect(row).toHaveLength(all[0]!.length);

  const { work: _, ...others } = plan.physical!;
  const bare = await list({ ...plan, physical: { ...others, work: null } });
  expect(JSON.stringify([choresSections(bare), choresRows(bare), choresCalendar(bare)])).not.toMatch(
    /minutes|assumes|time your own/,
  );
});

test('minutes in words', () => {
  const range = { se: null, p50: 0 };
  expect(minutesText({ ...range, mean: 22.4, p10: 19.2, p90: 25.3 })).toBe('about 22 minutes (19 to 25)');
  expect(minutesText({ ...range, mean: 1.2, p10: 0.8, p90: 1.4 })).toBe('about 1 minute');
  expect(minutesText({ ...range, mean: 0.3, p10: 0.3, p90: 0.3 })).toBe('less than a minute');
  expect(minutesText({ ...range, mean: 0, p10: 0, p90: 0 })).toBe('about 0 minutes');
});
