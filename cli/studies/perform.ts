/** Carries out what a study was asked to do, and shows it or writes its part. */

import { largest } from '../../sim/engine/lists.js';
import { SeasonRunner } from '../../sim/seasons/season-runner.js';
import { threadPool } from '../../sim/seasons/thread-pool.js';
import { plantsOf, type Workload } from '../../sim/seasons/workload.js';
import { type Shard, type Study, WHOLE } from '../../sim/study/study.js';
import { onThreads } from '../inputs/threads.js';
import { EXIT_DONE, EXIT_INTERRUPTED, print, tell, typedArguments } from '../io/streams.js';
import { writeWhole } from '../io/write-file.js';
import type { ExecutionOptions, Form } from '../options/options.js';
import { plainLines } from '../render/obeyed.js';
import { toldAs } from '../render/told.js';
import type { Assignment } from './assignment.js';
import { kindOf } from './kinds.js';
import { partText } from './parts.js';

export async function carryOutStudy(asked: Assignment, execution: ExecutionOptions): Promise<number> {
  const { form, out, workers, shard, all } = execution;
  const study = kindOf(asked).study(asked, shard === null ? form : null);
  const { result: collected, stopped } = await collect(study, workers, shard ?? WHOLE);
  if (shard !== null) {
    if (stopped) {
      tell('evensow: stopped; a part that is not whole is of no use, so none is written.');
      return EXIT_INTERRUPTED;
    }
    await writeResult(partText(typedArguments(), asked, shard, study.pack(collected)), out);
    return EXIT_DONE;
  }
  const result = study.conclude(collected);
  if (result === null) {
    tell('evensow: stopped before anything was known; there is nothing to show.');
    return EXIT_INTERRUPTED;
  }
  if (stopped) {
    const where = out === null ? 'shown' : `written to ${out}`;
    tell(`evensow: stopped; what was known by then is ${where}.`);
  }
  await writeResult(renderResult(asked, result, form, all), out);
  return stopped ? EXIT_INTERRUPTED : EXIT_DONE;
}

/** Run the seasons of a study, or of a part of it, until they are done or somebody stops it. */
export async function collect<Collected>(
  study: Study<Collected, unknown>,
  workers: number | undefined,
  part: Shard,
): Promise<{ result: Collected; stopped: boolean }> {
  return onThreads(workers, async ({ threadsFor, keep, step }) => {
    const { workload } = study;
    const longest = largest(workload.jobs.map(({ plan }) => plantsOf(plan)));
    const threads = threadsFor(plantsIn(workload) / part.n, longest);
    const pool = keep(threads === 0 ? new SeasonRunner(workload) : await threadPool(workload, threads));
    return study.carryOut(pool, part, step);
  });
}

function plantsIn({ jobs }: Workload): number {
  return jobs.reduce((sum, { plan, seasons }) => sum + plantsOf(plan) * seasons, 0);
}

/** The result of a study as text, CSV or JSON. @param all whether its text tells what it tells in brief otherwise */
export function renderResult(asked: Assignment, result: unknown, form: Form, all: boolean): string {
  const { sections, rows } = kindOf(asked);
  return toldAs(form, result, (told) => sections(told, asked, all), rows);
}

/** To the file, or to standard output if there is none. */
export async function writeResult(text: string, out: string | null): Promise<void> {
  if (out === null) await print(text);
  else await writeWhole(out, plainLines(text));
}
