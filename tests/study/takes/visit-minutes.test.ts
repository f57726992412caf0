/** How long a usual and a full visit take: counted on paper. Random lines are held against every plant in every-season.test.ts. */

import { expect, test } from 'vitest';
import type { Plan } from '../../../sim/models/plan.js';
import { gather } from '../../../sim/seasons/gather.js';
import { SeasonRunner } from '../../../sim/seasons/season-runner.js';
import { WHOLE } from '../../../sim/study/study.js';
import { runStudy } from '../../../sim/study/summary.js';
import { amountsOf } from '../../../sim/study/takes/amounts.js';
import { oneCrop } from '../../support/clockwork.js';
import { expectNear } from '../../support/near.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';

const NOTHING = { sowS: 0, moveS: 0, pickS: 0, clearS: 0, cleanS: 0, visitMin: 0, tankMin: 0 };

/** Six seeds every seventh day, heads after ten; a minute a seed, two a head, five a visit. */
function bed(visits: Plan['visits']): Plan {
  const { physical } = oneCrop();
  return {
    ...line([stage('bed', 40)], [crop([grow(time(10))], every(7, 28, 6))], { weeks: 4, visits }),
    physical: {
      ...physical,
      stages: [{ lamps: null, channelSize: null }],
      crops: [null],
      tank: null,
      work: { ...NOTHING, sowS: 60, pickS: 120, visitMin: 5 },
      prices: null,
    },
  };
}

async function visitMinutes(plan: Plan) {
  const gathered = await gather({ seed: 1, sections: 2, jobs: [{ plan, seasons: 2, trials: 0 }] });
  const tallies = gathered.whole(0);
  return amountsOf({ plan, tallies, whole: tallies })!.work!.visit_min;
}

test('tended daily: 21 visits of 5 minutes, 4 with 6 seeds of 11, 3 with 6 heads of 17', async () => {
  const { p50, p90 } = (await visitMinutes(bed(visitDays(4))))!;
  expectNear(p50, 5, 1e-12);
  // Of 28 in their order the 24.3rd, counted from 0: 3 tenths of the way from the last of 11 to the first of 17.
  expectNear(p90, 11 + 0.3 * 6, 1e-12);
});

test('tended twice a week: 5 once, 11 four times, 17 three times', async () => {
  const { p50, p90 } = (await visitMinutes(bed(visitDays(4, [1, 0, 0, 1, 0, 0, 0]))))!;
  expectNear(p50, 11, 1e-12);
  expectNear(p90, 17, 1e-12);
});

test('where nobody comes there is no visit to tell of', async () => {
  const plan = bed(visitDays(4, [0, 0, 0, 0, 0, 0, 0]));
  expect(await visitMinutes(plan)).toBeNull();
});

test('a run tells them with their errors, which are none without luck', async () => {
  const plan = bed(visitDays(4));
  const study = runStudy(plan, 1, 4);
  const result = study.conclude(await study.carryOut(new SeasonRunner(study.workload), WHOLE));
  expect(result!.work!.visit_min).toEqual({
    p50: { mean: 5, se: 0 },
    p90: { mean: expect.closeTo(12.8, 10), se: expect.closeTo(0, 10) },
  });
});
