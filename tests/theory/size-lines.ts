/** Lines whose best size is known: a nursery that is never short of seedlings before finishing channels of one hole each. */

import type { GrowthTime, Plan } from '../../sim/models/plan.js';
import { SeasonRunner } from '../../sim/seasons/season-runner.js';
import { type SizeLayout, sizesOf } from '../../sim/study/size/layout.js';
import { type SizeResult, sizeStudy } from '../../sim/study/size/size.js';
import { WHOLE } from '../../sim/study/study.js';
import { crop, grow, line, time } from '../support/plans.js';

/**
 * A line of two stages of one-hole channels. In front stands a stage `outside`, sown full on day 0 with more seeds than can
 * ever be used, whose plants are ready after 2^-20 d.
 * @param most plants a day that no size of it passes on, and holes that no size of it has
 */
export function saturated(
  channels: readonly [number, number],
  times: readonly [GrowthTime, GrowthTime],
  weeks: number,
  most: { readonly aDay: number; readonly holes: number },
): Plan {
  const plants = 7 * weeks * most.aDay;
  // 6 standard deviations of a Poisson count of that mean, and what fills the holes in the beginning.
  const seeds = Math.ceil(plants + 6 * Math.sqrt(plants) + most.holes);
  const one = { holesPerChannel: 1, holeAreaCm2: null, cleanDays: 0 };
  return line(
    [
      { name: 'outside', channels: 1, holesPerChannel: seeds, holeAreaCm2: null, cleanDays: 0 },
      { name: 'nursery', channels: channels[0], ...one },
      { name: 'finishing', channels: channels[1], ...one },
    ],
    [crop([grow(time(2 ** -20)), ...times.map((t) => grow(t))], { kind: 'due', days: [0], seeds })],
    { weeks },
  );
}

export async function sizeOf(
  plan: Plan,
  layout: SizeLayout,
  { seed, seasons }: { seed: number; seasons: number },
): Promise<SizeResult> {
  const sizes = sizesOf(plan, layout);
  if (!sizes.ok) throw new Error(sizes.faults.join('\n'));
  const study = sizeStudy(plan, sizes.value, layout.kind, seed, seasons);
  return study.conclude(await study.carryOut(new SeasonRunner(study.workload), WHOLE))!;
}
