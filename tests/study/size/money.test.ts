/** What a channel more costs and brings in a year: a line that can be followed on paper, and `compare` of the two plans. */

import { describe, expect, test } from 'vitest';
import { withChannels } from '../../../sim/models/channels.js';
import type { Plan } from '../../../sim/models/plan.js';
import { gather } from '../../../sim/seasons/gather.js';
import { type Compared, compareStudy } from '../../../sim/study/compare.js';
import { sizesOf } from '../../../sim/study/size/layout.js';
import { type SizeResult, sizeStudy } from '../../../sim/study/size/size.js';
import { expectNear } from '../../support/near.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { LAMPS, lampsAndNoMore, pricesWith, WORK } from '../../support/told.js';

const WEEKS = 10;
const DAYS = 7 * WEEKS;
const A_YEAR = 365 / DAYS;

/** Channels of 4 holes of 400 cm2 below 250 umol for 16 h; 8 seeds are due each Monday, when somebody comes. */
function told(spread: number, head: number | null): Plan {
  const physical = lampsAndNoMore([LAMPS], {
    work: { ...WORK, tankMin: 0 },
    prices: pricesWith([{ seed: 0.03, sale: head === null ? null : { per: 'head', price: head } }]),
  });
  return line(
    [{ ...stage('channel', 4), holeAreaCm2: 400 }],
    [crop([grow(time(7, spread), { loss: spread === 0 ? 0 : 0.1 })], every(7, DAYS, 8))],
    { weeks: WEEKS, visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]), physical },
  );
}

async function sized(plan: Plan, seasons: number): Promise<SizeResult> {
  const sizes = sizesOf(plan, { kind: 'channels', stages: [{ stage: 'channel', counts: [1, 2] }] });
  if (!sizes.ok) throw new Error(sizes.faults.join('\n'));
  const study = sizeStudy(plan, sizes.value, 'channels', 1, seasons);
  return study.conclude(await gather(study.workload))!;
}

describe('a channel more, in a year', () => {
  /**
   * Sown on 10 Mondays, picked on the 9 after: 4 heads each, and 8 with the second channel. So 36 heads and 40 seeds with their
   * plugs more; 4 holes for 70 days, each 0.04 m2 x 250 umol x 16 h / (1000 x 2.5 x 0.8) = 0.08 kWh a day; 40 times 4 s of
   * sowing and 36 times 40 s of picking. Visits are what they were, and so is all else.
   */
  const HEADS = 36;
  const COST = 22.4 * 0.3 + 40 * (0.03 + 0.08) + 4 * DAYS * 0.004 + ((40 * 4 + HEADS * 40) / 3600) * 15;

  test('of a line without luck costs and brings what was worked out on paper', async () => {
    const { worth } = await sized(told(0, 2.5), 4);
    const { cost, margin } = worth.stages[0]!.money_a_year!;
    for (const end of [cost.mean, cost.low!, cost.high!]) expectNear(end, COST * A_YEAR, 1e-12);
    for (const end of [margin!.mean, margin!.low!, margin!.high!])
      expectNear(end, (HEADS * 2.5 - COST) * A_YEAR, 1e-12);
  });

  test('is told by its cost alone where no price of a head is, and not at all without prices', async () => {
    const { worth, assumes } = await sized(told(0, null), 2);
    expectNear(worth.stages[0]!.money_a_year!.cost.mean, COST * A_YEAR, 1e-12);
    expect(worth.stages[0]!.money_a_year!.margin).toBeNull();
    expect(assumes).toContain('A season starts empty, so a head costs more in a short one.');
    const unpriced = told(0, null);
    const bare = await sized({ ...unpriced, physical: { ...unpriced.physical!, prices: null } }, 2);
    expect(bare.worth.stages[0]).not.toHaveProperty('money_a_year');
    expect(bare).not.toHaveProperty('assumes');
  });

  test('with luck is the difference that compare tells of the two plans, with its interval', async () => {
    const plan = told(0.2, 2.5);
    const { worth } = await sized(plan, 30);
    const study = compareStudy(
      [
        { name: 'as it is', plan },
        { name: 'a channel more', plan: withChannels(plan, [2]) },
      ],
      1,
      30,
      null,
    );
    const [, more] = study.conclude(await gather(study.workload))!.plans;
    const figures = more!.figures as Readonly<Record<string, Compared>>;
    const { cost, margin } = worth.stages[0]!.money_a_year!;
    for (const [of, aYear] of [
      ['cost_a_season', cost],
      ['margin_a_season', margin!],
    ] as const) {
      const { mean, low, high } = figures[of]!.difference!;
      expect(high!).toBeGreaterThan(low!);
      expectNear(aYear.mean, mean * A_YEAR, 1e-12);
      expectNear(aYear.low!, low! * A_YEAR, 1e-12);
      expectNear(aYear.high!, high! * A_YEAR, 1e-12);
    }
  });
});
