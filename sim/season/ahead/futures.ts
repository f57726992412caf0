/** Futures of a line: many seasons that go on from what may stand today, each watched; on this thread or on several. */

import { Columns } from '../../engine/columns.js';
import { Line } from '../../models/line/line.js';
import { type Plan, seasonDays } from '../../models/plan.js';
import { shareOut, type Threads } from '../../seasons/threads.js';
import type { PauseAfterRuns } from '../../seasons/worker-pool.js';
import { plantsOf, seasonsAPiece } from '../../seasons/workload.js';
import { type Fates, type InitialStates, initialStateOf, type Stand } from './initial-states.js';
import { type LookAt, type LookName, type SeenBy, watcherOf } from './looks.js';

/** Who runs futures, and from where they go on. */
export interface FuturesSetup {
  readonly openings: InitialStates;
  /** Seed of the random streams. */
  readonly seed: number;
  /** Threads to run them on; this thread if null. */
  readonly threads: Threads | null;
  /** Told of each future that was run, or of several at once; says to stop by a promise of false. */
  readonly pause: PauseAfterRuns | undefined;
  /** Memory for one line after the other. */
  readonly columns: Columns;
}

/** What is the same for all futures that are run. Plain data. */
interface Asked<Name extends LookName> {
  readonly kind: 'futures';
  /** Tells apart what a thread is asked for. */
  readonly id: number;
  readonly plan: Plan;
  readonly seed: number;
  readonly stand: Stand | null;
  readonly look: Name;
  readonly at: LookAt<Name>;
}

/** Futures from `first` on, one for each of the fates: what a thread is asked to run. Plain data. */
export interface FuturesErrand<Name extends LookName = LookName> extends Asked<Name> {
  readonly first: number;
  readonly fates: readonly Fates[];
}

let asks = 0;

/**
 * Run futures 0, 1, 2, ... of a plan: the same luck for the same number, whatever the plan.
 * @param plan as far as it is to be run
 * @param look what is watched @param at what the watcher is told
 * @returns what was seen of each future, the first first; null if `pause` said to stop
 */
export async function runFutures<Name extends LookName>(
  plan: Plan,
  futures: number,
  { openings: initialStates, seed, threads, pause, columns }: FuturesSetup,
  look: Name,
  at: LookAt<Name>,
): Promise<SeenBy<Name>[] | null> {
  const asked: Asked<Name> = {
    kind: 'futures',
    id: asks++,
    plan,
    seed,
    stand: initialStates.stand,
    look,
    at,
  };
  const run = threads === null ? runnerOf(asked, columns) : null;
  const seen: SeenBy<Name>[] = [];
  // On this thread one by one, so that `pause` is asked after each.
  const part =
    threads === null
      ? 1
      : Math.min(Math.ceil(futures / threads.hands), seasonsAPiece(plantsAhead(plan, initialStates)));
  let next = 0;
  const nextPart = (): FuturesErrand<Name> | undefined => {
    if (next >= futures) return undefined;
    const first = next;
    next = Math.min(futures, first + part);
    const fates = Array.from({ length: next - first }, (_, i) => initialStates.fates(first + i));
    return { ...asked, first, fates };
  };
  const whole = await shareOut(threads?.hands ?? 1, nextPart, async (errand) => {
    const found = run === null ? await threads!.send<SeenBy<Name>[]>(errand) : run(errand);
    found?.forEach((one, i) => {
      seen[errand.first + i] = one;
    });
    return found !== null && ((await pause?.(found.length)) ?? true);
  });
  return whole ? seen : null;
}

/** Who does errands of the last ask: a line is built once for all of them, and the next in its memory. */
let latest: { readonly id: number; readonly run: ReturnType<typeof runnerOf> } | null = null;
const MEMORY = new Columns();

/** Do an errand on this thread. @returns what was seen of each of its futures */
export function futuresSeen(errand: FuturesErrand): SeenBy<LookName>[] {
  if (latest?.id !== errand.id) latest = { id: errand.id, run: runnerOf(errand, MEMORY) };
  return latest.run(errand);
}

function runnerOf<Name extends LookName>(
  { plan, seed, stand, look, at }: Asked<Name>,
  columns: Columns,
): (errand: FuturesErrand<Name>) => SeenBy<Name>[] {
  const line = new Line(plan, { columns });
  const watcher = watcherOf(plan, look, at);
  return ({ first, fates }) =>
    fates.map((one, i) => {
      const initial = stand && initialStateOf(stand, one);
      const watch = watcher(initial);
      line.run(seed, first + i, watch, initial);
      return watch.end();
    });
}

/** Plants that a future of a plan brings about: what its running time goes by. */
export function plantsAhead(plan: Plan, { stand }: InitialStates): number {
  const over = (stand?.visitsFrom ?? 0) / seasonDays(plan);
  return (stand?.plants.batch.length ?? 0) + plantsOf(plan) * Math.max(0, 1 - over);
}
