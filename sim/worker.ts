/**
 * What a thread runs: seasons of a study's workload, futures of a real season or a whole look at them, the fit of a stage or of the tank, a season gone through
 * week by week or day by day; one errand after another.
 */

import { workerData } from 'node:worker_threads';
import { type FuturesErrand, futuresSeen } from './season/ahead/futures.js';
import { type LookErrand, lookFromHere } from './season/ahead/look-errand.js';
import { type FitErrand, fitStages } from './season/fit/fit.js';
import { type MeterErrand, meteredOf } from './season/fit/meter/meter.js';
import { SeasonRunner } from './seasons/season-runner.js';
import type { Task } from './seasons/thread-pool.js';
import type { Workload } from './seasons/workload.js';
import { type CourseErrand, courseOfSeason } from './study/film/course.js';
import { type FilmErrand, filmOf } from './study/film/film.js';

// The pool hands its own data first and ours second.
const [, workload] = workerData as [unknown, Workload | null];
const runner = workload === null ? null : new SeasonRunner(workload);

type Errand = Task | FuturesErrand | LookErrand | FitErrand | MeterErrand | CourseErrand | FilmErrand;

export default async function runTask(what: Errand): Promise<unknown> {
  switch (what.kind) {
    case 'tally':
      return (await runner!.tally(what.chunk))?.toData() ?? null;
    case 'weeks':
      return runner!.weeks(what.job, what.first, what.count);
    case 'futures':
      return futuresSeen(what);
    case 'look':
      return lookFromHere(what);
    case 'fit':
      return fitStages(what.ground, [what.stage]);
    case 'meter':
      return meteredOf(what);
    case 'course':
      return courseOfSeason(what);
    case 'film':
      return filmOf(what.plan, { seed: what.seed }).data;
  }
}
