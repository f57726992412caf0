/** What a thread runs: seasons of a study's workload, futures of a real season, the fit of a stage; one errand after another. */

import { workerData } from 'node:worker_threads';
import { type FuturesErrand, futuresSeen } from './season/ahead/futures.js';
import { type FitErrand, fitStages } from './season/fit/fit.js';
import { SeasonRunner } from './seasons/season-runner.js';
import type { Task } from './seasons/thread-pool.js';
import type { Workload } from './seasons/workload.js';

// The pool hands its own data first and ours second.
const [, workload] = workerData as [unknown, Workload | null];
const runner = workload === null ? null : new SeasonRunner(workload);

export default async function runTask(what: Task | FuturesErrand | FitErrand): Promise<unknown> {
  switch (what.kind) {
    case 'tally':
      return (await runner!.tally(what.chunk))?.toData() ?? null;
    case 'weeks':
      return runner!.weeks(what.job, what.first, what.count);
    case 'futures':
      return futuresSeen(what);
    case 'fit':
      return fitStages(what.ground, [what.stage]);
  }
}
