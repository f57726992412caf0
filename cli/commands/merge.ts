/** `evensow merge PART...`: join the parts of a study and show it as if it had been carried out in one. */

import { EXIT_DONE } from '../io/streams.js';
import { checkInputs, readTextFile, type TextKind } from '../io/text-file.js';
import { checkOut, type Form, formOf, type Options } from '../options/options.js';
import { Problem } from '../problem.js';
import type { Assignment } from '../studies/assignment.js';
import { kindOf } from '../studies/kinds.js';
import { againText, faultsOf, type Part, readPart } from '../studies/parts.js';
import { renderResult, writeResult } from '../studies/perform.js';

const PART: TextKind = {
  what: 'a part',
  limit: 400_000_000,
  hint: 'A part of a study is a text of a few MB.',
  missing: 'Check the path; a part is written by a study with --shard and --out.',
};

export async function merge(files: readonly string[], options: Options): Promise<number> {
  const out = options['out'] ?? null;
  checkInputs('the parts', files, 'evensow merge - part-2.json < part-1.json');
  await checkOut(
    out,
    files.map((path) => ({ path, what: 'one of the parts' })),
  );
  const read = [];
  for (const file of files) read.push(readPart(file, await readTextFile(file, PART)));
  const faults = faultsOf(read);
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const parts = read as readonly Part[];
  const { asked } = parts[0]!;
  await writeResult(joinedText(asked, parts, formOf(options)), out);
  return EXIT_DONE;
}

/** @throws Problem if a part holds what no study writes */
function joinedText(asked: Assignment, parts: readonly Part[], form: Form): string {
  try {
    const study = kindOf(asked).study(asked, null);
    const collected = study.unpack(parts.map(({ data }) => data));
    if (collected.ok) return renderResult(asked, study.conclude(collected.value), form);
    const spoilt = parts.filter(({ data }) => !study.unpack([data]).ok);
    throw new Problem(damageText(spoilt.length === 1 ? spoilt[0]! : null, collected.faults.join('; ')));
  } catch (error) {
    // Its sum is right and what it asks for cannot be: somebody has made it by hand.
    if (error instanceof Problem) throw error;
    throw new Problem(damageText(parts.length === 1 ? parts[0]! : null, (error as Error).message));
  }
}

/** @param part null if it cannot be told which */
function damageText(part: Part | null, why: string): string {
  return part === null
    ? `One of the parts is damaged (${why}). Parts must be as they were written. Carry them out again.`
    : `${part.name}, part ${part.shard.k} of ${part.shard.n}, is damaged (${why}). ${againText(part, part.name)}`;
}
