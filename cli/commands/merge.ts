/** `evensow merge PART...`: join the parts of a study and show it as if it had been carried out in one. */

import type { Study } from '../../sim/study/study.js';
import { EXIT_DONE } from '../io/streams.js';
import { checkInputs, readTextFile, type TextKind } from '../io/text-file.js';
import { checkOut, formOf, type Options } from '../options/options.js';
import { Problem } from '../problem.js';
import type { Assignment } from '../studies/assignment.js';
import { kindOf } from '../studies/kinds.js';
import { damageText, faultsOf, type Part, readPart } from '../studies/parts.js';
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
  await writeResult(joinedText(asked, parts, options), out);
  return EXIT_DONE;
}

/** @throws Problem if a part holds what no study writes: its sum may be right, where somebody has made it by hand */
function joinedText(asked: Assignment, parts: readonly Part[], options: Options): string {
  const study = studyOf(asked, parts[0]!);
  const faults = parts.flatMap((part) => {
    const why = study.faultOf(part.data, part.shard);
    return why === null ? [] : [damageText(part, why)];
  });
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const collected = study.unpack(parts.map(({ data }) => data));
  return renderResult(asked, study.conclude(collected), formOf(options), options.all ?? false);
}

/** @param part by which it was asked; all parts ask for the same */
function studyOf(asked: Assignment, part: Part): Study<unknown, unknown> {
  try {
    return kindOf(asked).study(asked, null);
  } catch (error) {
    if (error instanceof Problem) throw new Problem(damageText(part, error.message));
    throw error;
  }
}
