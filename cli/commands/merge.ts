/** `evensow merge PART...`: join the parts of a study and show it as if it had been carried out in one. */

import { EXIT_DONE } from '../io/streams.js';
import { checkInputs, readTextFile, type TextKind } from '../io/text-file.js';
import { checkOut, formOf, type Options } from '../options/options.js';
import { Problem } from '../problem.js';
import { kindOf } from '../studies/kinds.js';
import { faultsOf, readPart } from '../studies/parts.js';
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
  const parts = [];
  for (const file of files) {
    parts.push(readPart(file, await readTextFile(file, PART)));
  }
  const faults = faultsOf(parts);
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const { asked } = parts[0]!;
  const study = kindOf(asked).study(asked);
  const collected = study.unpack(parts.map(({ data }) => data));
  if (!collected.ok) {
    throw new Problem(
      `One of the parts is damaged (${collected.faults.join('; ')}). Parts must be as they were written. Carry them out again.`,
    );
  }
  await writeResult(renderResult(asked, study.conclude(collected.value), formOf(options)), out);
  return EXIT_DONE;
}
