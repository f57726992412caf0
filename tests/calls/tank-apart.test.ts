/** Rows of the tank tell of the tank: whatever else is told of a season is the same with them and without, whatever the log. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ahead } from '../../sim/calls/look.js';
import { fit as fitted, readSeasonLog, replay } from '../../sim/calls/season.js';
import { isoOfDay } from '../../sim/models/dates.js';
import { TANK_COLUMNS } from '../../sim/season/log/rows.js';
import { EXAMPLES, readExample } from '../support/examples.js';
import { logText, simulatedLog } from '../support/simulated-log.js';

const LINES = ['home-shelf.yaml', 'kitchen-garden.yaml', 'lettuce-rack.yaml'].map((file) =>
  readExample(EXAMPLES + file),
);

const tankRow = fc.record({
  day: fc.integer({ min: 0, max: 50 }),
  litres: fc.option(fc.integer({ min: 0, max: 400 }).map((tenths) => tenths / 10)),
  ec: fc.integer({ min: 0, max: 40 }).map((tenths) => tenths / 10),
  changed: fc.boolean(),
});

const season = fc.record({
  line: fc.constantFrom(...LINES),
  seed: fc.nat(1000),
  until: fc.integer({ min: 15, max: 45 }),
  rows: fc.array(tankRow, { minLength: 1, maxLength: 30 }),
});

test('replay, fit’s figures of growing, and ahead', async () => {
  let metered = 0;
  await fc.assert(
    fc.asyncProperty(season, async ({ line: { plan, scenario }, seed, until, rows }) => {
      const text = logText(simulatedLog(plan, seed, 0, { until }));
      const [header, ...lines] = text.trimEnd().split('\r\n') as [string, ...string[]];
      const tank = rows.map(({ day, litres, ec, changed }) => {
        const date = isoOfDay(plan.start, day);
        return `${date},tank,,,,,,,${changed ? 'changed' : ''},${litres ?? ''},${ec}`;
      });
      const mixed = [...lines.map((line) => `${line},,`), ...tank];
      // By date; where dates are alike the sort keeps the order.
      mixed.sort((a, b) => (a.slice(0, 10) < b.slice(0, 10) ? -1 : a.slice(0, 10) > b.slice(0, 10) ? 1 : 0));
      const told = await Promise.all(
        [text, [`${header},${TANK_COLUMNS.join(',')}`, ...mixed].join('\n')].map(async (of) => {
          const read = readSeasonLog(of, { plan });
          if (!read.ok) throw new Error(JSON.stringify(read.faults));
          const { water, tank, ...grown } = fitted(read.value, { plan });
          if (water !== undefined || tank !== undefined) metered++;
          return {
            replayed: replay(read.value, { plan }),
            grown,
            ahead: await ahead(scenario, read.value, { futures: 8, weeks: 2, workers: 1 }),
          };
        }),
      );
      expect(told[1]).toEqual(told[0]);
    }),
    { seed: 5, numRuns: 9 },
  );
  expect(metered).toBeGreaterThan(0);
});
