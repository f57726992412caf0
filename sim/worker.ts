/** What a thread runs: seasons of a study's workload, and futures of a real season; one errand after another. */

import { workerData } from 'node:worker_threads';
import { type FuturesErrand, futuresSeen } from './season/ahead/futures.js';
import { Hand } from './seasons/hand.js';
import type { Errand } from './seasons/pool.js';
import type { Workload } from './seasons/workload.js';

// The pool hands its own data first and ours second.
const [, workload] = workerData as [unknown, Workload | null];
const hand = workload === null ? null : new Hand(workload);

export default async function errand(what: Errand | FuturesErrand): Promise<unknown> {
  switch (what.kind) {
    case 'tally':
      return (await hand!.tally(what.piece))?.toData() ?? null;
    case 'weeks':
      return hand!.weeks(what.job, what.first, what.count);
    case 'futures':
      return futuresSeen(what);
  }
}
