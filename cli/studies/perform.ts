/** Carries out what a study was asked to do, and shows it or writes its part. */

import { WHOLE } from '../../sim/study/study.js';
import { EXIT_DONE, EXIT_INTERRUPTED, print, tell } from '../io/streams.js';
import { writeWhole } from '../io/write-file.js';
import type { ExecutionOptions, Form } from '../options/options.js';
import { toldAs } from '../render/told.js';
import type { Assignment } from './assignment.js';
import { carryOut } from './carry-out.js';
import { kindOf } from './kinds.js';
import { partText } from './parts.js';

export async function carryOutStudy(asked: Assignment, execution: ExecutionOptions): Promise<number> {
  const study = kindOf(asked).study(asked);
  const { form, out, workers, shard } = execution;
  const { collected, stopped } = await carryOut(study, shard ?? WHOLE, workers);
  if (shard !== null) {
    if (stopped) {
      tell('evensow: stopped; a part that is not whole is of no use, so none is written.');
      return EXIT_INTERRUPTED;
    }
    await writeResult(partText(asked, shard, study.pack(collected)), out);
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
  await writeResult(renderResult(asked, result, form), out);
  return stopped ? EXIT_INTERRUPTED : EXIT_DONE;
}

/** The result of a study as text, CSV or JSON. */
export function renderResult(asked: Assignment, result: unknown, form: Form): string {
  const kind = kindOf(asked);
  return toldAs(form, {
    result,
    sections: () => kind.sections(result, asked),
    rows: () => kind.rows(result),
  });
}

/** To the file, or to standard output if there is none. */
export async function writeResult(text: string, out: string | null): Promise<void> {
  if (out === null) await print(text);
  else await writeWhole(out, text);
}
