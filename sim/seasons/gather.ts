/** Run the seasons of a workload with whoever is there, and bring together what they give. */

import { alone, type Crew } from './crew.js';
import { Gathered } from './gathered.js';
import { shareOut } from './threads.js';
import { piecesOf, type Range, runsOf, seasonsOf, type Workload } from './workload.js';

/**
 * Asked while seasons run. null: go on at once. A promise: wait for it (so that the caller's event loop gets its turn), and
 * stop early if it gives false.
 * @param done seasons run @param all seasons to run
 */
export type Pause = (done: number, all: number) => Promise<boolean> | null;

export interface GatherOptions {
  /** Who runs the seasons; this thread if left out. */
  readonly crew?: Crew;
  /** Only these seasons; all if left out. */
  readonly range?: Range;
  readonly pause?: Pause;
}

/**
 * Run all seasons of a workload, or a range of them. The result does not depend on who runs them or in which order.
 * @returns fewer seasons than asked for only if `pause` said to stop; every job then has the same ones
 */
export async function gather(workload: Workload, options: GatherOptions = {}): Promise<Gathered> {
  const { crew = alone(workload), range = { from: 0, to: seasonsOf(workload) }, pause } = options;
  const pieces = piecesOf(workload, range);
  const all = pieces.reduce((sum, piece) => sum + runsOf(workload, piece), 0);
  const gathered = new Gathered(workload);
  let done = 0;
  let next = 0;
  const step = (runs: number): Promise<boolean> | null => {
    done += runs;
    return pause?.(done, all) ?? null;
  };

  await shareOut(
    crew.hands,
    () => pieces[next++],
    async (piece) => {
      const part = await crew.tally(piece, step);
      if (part !== null) gathered.merge(part);
      return part !== null;
    },
  );
  return gathered;
}
