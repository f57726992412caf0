/** Carries out what a study was asked to do, and shows it or writes its part. */

import { DONE, INTERRUPTED, print, tell } from '../io/streams.js';
import { writeWhole } from '../io/write-file.js';
import type { Form, Manner } from '../options/options.js';
import { toldAs } from '../render/told.js';
import type { Assignment } from './assignment.js';
import { carryOut } from './carry-out.js';
import { kindOf } from './kinds.js';
import { partText } from './parts.js';

export async function carryOutStudy(asked: Assignment, manner: Manner): Promise<number> {
  const kind = kindOf(asked);
  const study = kind.study(asked);
  const { yielded, stopped } = await carryOut(
    study,
    manner.shard ?? { k: 1, n: 1 },
    manner.workers ?? undefined,
  );
  if (manner.shard !== null) {
    if (stopped) {
      tell('evensow: stopped; a part that is not whole is of no use, so none is written.');
      return INTERRUPTED;
    }
    await put(partText(asked, manner.shard, study.pack(yielded)), manner.out);
    return DONE;
  }
  const result = study.conclude(yielded);
  if (result === null) {
    tell('evensow: stopped before the first season was over; there is nothing to show.');
    return INTERRUPTED;
  }
  if (stopped) {
    const where = manner.out === null ? 'shown' : `written to ${manner.out}`;
    tell(`evensow: stopped; what was known by then is ${where}.`);
  }
  await put(shown(asked, result, manner.form), manner.out);
  return stopped ? INTERRUPTED : DONE;
}

/** The result of a study as text, CSV or JSON. */
export function shown(asked: Assignment, result: unknown, form: Form): string {
  const kind = kindOf(asked);
  return toldAs(form, {
    result,
    sections: () => kind.sections(result, asked),
    rows: () => kind.rows(result),
  });
}

/** To the file, or to standard output if there is none. */
export async function put(text: string, out: string | null): Promise<void> {
  if (out === null) await print(text);
  else await writeWhole(out, text);
}
