/** What can be watched of futures, by name: with these, whoever runs them makes the watchers. */

import type { InitialState } from '../../models/initial-state.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { type BatchesLook, watchBatches } from './batches.js';
import { type ChoresLook, watchChores } from './chores-watch.js';
import { watchHoles } from './holes-watch.js';
import { watchLoad } from './load-watch.js';
import { smallNumbers } from './plant-column.js';
import { roomMemory, watchRoom } from './room-watch.js';
import { type RefillDay, watchSown } from './sown-watch.js';
import { watchTakes, withTakes } from './takes-watch.js';
import { type SowingsLook, watchThrown } from './thrown-watch.js';
import { combineWatches, type Watcher } from './watcher.js';
import { watchWeeks } from './weeks-watch.js';

/** Some weeks. */
export interface WeeksLook {
  /** First day of the first week [d from the start]. */
  readonly from: number;
  readonly weeks: number;
}

/** The next weeks: heads, empty holes, batches without room, refills; and heads until all that is sown has been picked. */
interface NextWeeksLook extends WeeksLook {
  readonly batches: BatchesLook;
  readonly untilPicked: number;
  readonly refills: readonly RefillDay[];
}

/** For each name: how the watcher is made, which watches one future after the other. What it is told is plain data. */
const LOOKS = {
  nextWeeks: (plan: Plan, { from, weeks, batches, untilPicked, refills }: NextWeeksLook) => {
    const last = route.last(plan);
    const memory = roomMemory();
    const takes = watchTakes(plan, from, weeks);
    return (initial: InitialState | null) => {
      const watch = watchBatches(plan, batches, initial);
      const all = combineWatches({
        batches: watch,
        heads: watchWeeks(from, weeks, last),
        holes: watchHoles(plan, from, weeks, initial),
        room: watchRoom(plan, from + 7 * weeks, watch, initial, memory),
        all: watchWeeks(from, untilPicked, last),
        sown: watchSown(refills),
      });
      return withTakes(all, takes?.() ?? null);
    };
  },
  chores: (plan: Plan, look: ChoresLook & { readonly batches: BatchesLook }) => {
    const picksLeft = smallNumbers();
    return (initial: InitialState | null) => {
      const batches = watchBatches(plan, look.batches, initial);
      return combineWatches({ batches, chores: watchChores(plan, look, batches, initial, picksLeft) });
    };
  },
  heads:
    (plan: Plan, { from, weeks }: WeeksLook) =>
    () =>
      watchWeeks(from, weeks, route.last(plan)),
  thrown: (_: Plan, look: SowingsLook) => () => watchThrown(look),
  load: (plan: Plan, _: null) => {
    const picksLeft = smallNumbers();
    return (initial: InitialState | null) => watchLoad(plan, initial, picksLeft);
  },
};

export type LookName = keyof typeof LOOKS;

/** What the watcher of a name is told. */
export type LookAt<Name extends LookName> = Parameters<(typeof LOOKS)[Name]>[1];

/** What it sees of one future. */
export type SeenBy<Name extends LookName> = ReturnType<ReturnType<ReturnType<(typeof LOOKS)[Name]>>['end']>;

export function watcherOf<Name extends LookName>(
  plan: Plan,
  name: Name,
  at: LookAt<Name>,
): Watcher<SeenBy<Name>> {
  const make = LOOKS[name] as (plan: Plan, at: LookAt<Name>) => Watcher<SeenBy<Name>>;
  return make(plan, at);
}
