/** What a thread of the pool runs: it keeps the plans of its workload and does one errand after another. */

import { workerData } from 'node:worker_threads';
import { Hand } from './hand.js';
import type { Errand } from './pool.js';
import type { Workload } from './workload.js';

// The pool hands its own data first and ours second.
const [, workload] = workerData as [unknown, Workload];
const hand = new Hand(workload);

export default async function errand(what: Errand): Promise<unknown> {
  if (what.kind === 'tally') return (await hand.tally(what.piece))?.toData() ?? null;
  return hand.weeks(what.job, what.first, what.count);
}
