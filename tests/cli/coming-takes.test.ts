/** What the coming weeks take and what empty holes cost, through the commands' own words. */

import { expect, test } from 'vitest';
import { aheadRows } from '../../cli/sections/ahead/rows.js';
import { takesSections } from '../../cli/sections/ahead/takes.js';
import { replaySections } from '../../cli/sections/replay.js';
import { TAKES_CAUTION } from '../../sim/models/physical/cautions.js';
import { lookAhead } from '../../sim/season/ahead/ahead.js';
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
  const { kwh, cost } = replayed.value.empty_cost!;
  expect(text).toContain(`${kwh!.toFixed(0)} kWh and ${cost!.toFixed(2)} in money (their light and wear`);
  expect(text).toContain(TAKES_CAUTION);
});
