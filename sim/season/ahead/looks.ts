/** What can be watched of futures, by name: with these, whoever runs them makes the watchers. */

import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { type BatchesLook, BatchWatch } from './batches.js';
import { type ChoresLook, ChoresWatch } from './chores-watch.js';
import { HolesWatch } from './holes-watch.js';
import { LoadWatch } from './load-watch.js';
import { RoomWatch } from './room-watch.js';
import { type SownLook, SownWatch } from './sown-watch.js';
import { combineWatchers, type Watcher } from './watcher.js';
import { WeeksWatch } from './weeks-watch.js';

/** Some weeks. */
interface WeeksLook {
  /** First day of the first week [d from the start]. */
  readonly from: number;
  readonly weeks: number;
}

/** The next weeks: heads, empty holes, batches without room, refills; and heads until all that is sown has been picked. */
interface NextWeeksLook extends WeeksLook {
  readonly batches: BatchesLook;
  readonly untilPicked: number;
  readonly sown: SownLook;
}

/** For each name: how the watcher is made. What it is told is plain data. */
const LOOKS = {
  nextWeeks: (plan: Plan, { from, weeks, batches, untilPicked, sown }: NextWeeksLook) => {
    const last = route.last(plan);
    const watch = new BatchWatch(plan, batches);
    const visits = plan.visits.kind === 'days' ? plan.visits.days : [];
    return combineWatchers({
      batches: watch,
      heads: new WeeksWatch(from, weeks, last),
      holes: new HolesWatch(plan, from, weeks),
      room: new RoomWatch(watch, visits, from + 7 * weeks, last),
      all: new WeeksWatch(from, untilPicked, last),
      sown: new SownWatch(sown),
    });
  },
  chores: (plan: Plan, look: ChoresLook & { readonly batches: BatchesLook }) => {
    const batches = new BatchWatch(plan, look.batches);
    return combineWatchers({ batches, chores: new ChoresWatch(plan, batches, look) });
  },
  heads: (plan: Plan, { from, weeks }: WeeksLook) => new WeeksWatch(from, weeks, route.last(plan)),
  load: (plan: Plan, _: null) => new LoadWatch(plan),
};

export type LookName = keyof typeof LOOKS;

/** What the watcher of a name is told. */
export type LookAt<Name extends LookName> = Parameters<(typeof LOOKS)[Name]>[1];

/** What it sees of one future. */
export type SeenBy<Name extends LookName> = ReturnType<ReturnType<(typeof LOOKS)[Name]>['end']>;

export function watcherOf<Name extends LookName>(
  plan: Plan,
  name: Name,
  at: LookAt<Name>,
): Watcher<SeenBy<Name>> {
  const make = LOOKS[name] as (plan: Plan, at: LookAt<Name>) => Watcher<SeenBy<Name>>;
  return make(plan, at);
}
