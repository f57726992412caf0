/** `evensow merge PART...`: join the parts of a study and show it as if it had been carried out in one. */

import { EXIT_DONE } from '../io/streams.js';
import { checkInputs, readTextFile, type TextKind } from '../io/text-file.js';
import { checkOut, formOf, type Options } from '../options/options.js';
import { Problem } from '../problem.js';
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
  const study = kindOf(asked).study(asked, null);
  const collected = study.unpack(parts.map(({ data }) => data));
  if (!collected.ok) {
    const spoilt = parts.filter(({ data }) => !study.unpack([data]).ok);
    throw new Problem(damageText(spoilt.length === 1 ? spoilt[0]! : null, collected.faults.join('; ')));
  }
  await writeResult(renderResult(asked, study.conclude(collected.value), formOf(options)), out);
  return EXIT_DONE;
}

/** @param part null if it cannot be told which */
function damageText(part: Part | null, why: string): string {
  return part === null
    ? `One of the parts is damaged (${why}). Parts must be as they were written. Carry them out again.`
    : `${part.name}, part ${part.shard.k} of ${part.shard.n}, is damaged (${why}). ${againText(part, part.name)}`;
}
