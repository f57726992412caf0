/** A season without luck: on paper, against worked values, and with the shares of any line. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { COUNTS, type CountName, type Season } from '../../sim/models/ledger.js';
import { lucklessSeason } from '../../sim/models/luckless.js';
import { lucklessCosts } from '../../sim/study/search/season-costs.js';
import { oneCrop, twoCrops } from '../support/clockwork.js';
import { expectNear } from '../support/near.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';
import { ONE_CROP, TWO_CROPS } from '../support/worked-values.js';

function count({ counts }: Season, name: CountName): number {
  return counts[COUNTS.indexOf(name)]!;
}

describe('a season without luck', () => {
  test('of a line that knows no luck is its season: it costs what was worked out by another program', () => {
    for (const [clockwork, known] of [
      [oneCrop(), ONE_CROP.costsByLitres],
      [twoCrops(), TWO_CROPS.costs],
    ] as const)
      expectNear(
        lucklessCosts({ ...clockwork.plan, physical: clockwork.physical })!.total,
        known.total,
        1e-6,
      );
  });

  test('loses shares, evenly spread', () => {
    // 10 seeds on each of 3 Mondays, of which the 3rd and the 8th fail; of the 8 that sprout one in 8 dies, and 7 are ready on the day
    // of the next sowing. Whoever is sown last stands at the end.
    const plan = line(
      [stage('tray', 20)],
      [crop([grow(time(7, 0.3), { loss: 1 / 8 })], every(7, 21, 10), { germination: 0.8 })],
      { weeks: 3, visits: visitDays(3) },
    );
    const season = lucklessSeason(plan);
    expect([...season.weekPicks]).toEqual([0, 7, 7]);
    // Half of its time lives what dies: by the end the last sowing has lost its one too.
    expect([count(season, 'sown'), count(season, 'lost'), count(season, 'failed')]).toEqual([30, 3, 4]);
  });

  test('of any shares loses them to the nearest whole plant, whatever luck other seasons had', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 0, max: 100 }),
        fc.integer({ min: 0, max: 100 }),
        (seeds, germination, loss) => {
          const growing = grow(time(5, 0.4), { loss: loss / 100 });
          const sowing = { kind: 'due' as const, days: [0], seeds };
          const plan = line(
            [stage('tray', 300)],
            [crop([growing], sowing, { germination: germination / 100 })],
            {
              weeks: 2,
            },
          );
          const season = lucklessSeason(plan);
          const failed = Math.floor(seeds * (1 - germination / 100) + 0.5 + 1e-9);
          const died = Math.floor((seeds - failed) * (loss / 100) + 0.5 + 1e-9);
          expect(count(season, 'failed')).toBe(failed);
          expect(count(season, 'lost')).toBe(died);
          expect(count(season, 'picked')).toBe(seeds - failed - died);
        },
      ),
      { numRuns: 100, seed: 1 },
    );
  });
});
