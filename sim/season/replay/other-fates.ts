/** Growing times and fates that plants have without what is taken away; all else is as it was. */

import { TICK, toGrid } from '../../engine/clock.js';
import { streamAt, streamKey } from '../../engine/random.js';
import { GrowingTime } from '../../models/growing-time.js';
import type { Plan } from '../../models/plan.js';
import type { ObservedDraws } from './observed-draws.js';
import type { Removal } from './removals.js';

/** @param number of the way in which what was not seen was: each has numbers of its own for plants that are not lost */
export function otherFates(
  { crops, stages, seed }: Plan,
  { failed = [], pace = [] }: Removal,
  number: number,
) {
  return (draws: ObservedDraws, crop: number, stage: number): ObservedDraws => {
    const here = failed.filter((one) => one.stage === stage);
    const times = pace.find((one) => one.crop === crop && one.stage === stage)?.times ?? 1;
    if (here.length === 0 && times === 1) return draws;
    const other = draws.copy();
    const { name, stages: growing } = crops[crop]!;
    const time = GrowingTime.of(growing[stage]!);
    const revived = streamAt(seed, number, streamKey([name, stages[stage]!.name, 'not lost']));
    for (let k = 0; k < other.times.length; k++) {
      other.times[k] = Math.max(TICK, toGrid(other.times[k]! * times));
      const failure = here.find(({ batch }) => batch + 1 === other.lostOf[k]);
      // As many are lost all the same as were to be expected.
      if (failure === undefined || revived() < failure.expected / failure.lost) continue;
      other.times[k] = Math.max(TICK, toGrid(time.quantile(revived())));
      other.moments[k] = 2;
      other.sprouts[k] = 1;
    }
    return other;
  };
}
