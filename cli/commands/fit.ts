/** `evensow fit LOG [FILE]`: what a season's log tells about growing times, losses and germination. */

import type { Plan } from '../../sim/models/plan.js';
import { amendScenario } from '../../sim/scenario/amend.js';
import { type FitResult, fitSeason } from '../../sim/season/fit/fit.js';
import { conflictsOf, type FitChange, fitChangesOf } from '../../sim/season/fit/fit-changes.js';
import { FIT, loadLineFiles, type SourceFile } from '../inputs/line-files.js';
import { seasonRows } from '../inputs/season-log.js';
import { atOnceStoppable, EXIT_DONE, hasWatcher, print, showProgress, tell } from '../io/streams.js';
import { exists, sameFile, writeWhole } from '../io/write-file.js';
import { formOf, type Options } from '../options/options.js';
import { Problem } from '../problem.js';
import { toldAs } from '../render/told.js';
import { fitRows, fitSections } from '../sections/fit.js';
import { counted } from '../words/numbers.js';

/** `write`: file for the scenario with the fitted values put in; `over`: it may be there already. */
export type FitOptions = Options & { readonly over?: boolean };

/**
 * @param file path of the log or the present scenario, or `-` for standard input
 * @param other path of the other one; without a scenario only the estimates are shown
 * @throws Problem if the log, the scenario or the options are wrong, or the file cannot be written
 */
export async function fit(
  file: string | undefined,
  other: string | undefined,
  options: FitOptions,
): Promise<number> {
  const out = options['write'] ?? null;
  const { scenario: present, log: named } = await loadLineFiles(FIT, [file, other]);
  const log = named as SourceFile;
  await checkOptions(log, present !== null, out, options.over === true);
  const result = await estimate(log, present?.plan ?? null);
  const changes = present === null ? null : fitChangesOf(result, present.plan);
  const conflicts = present === null ? null : conflictsOf(result, present.plan);
  if (present !== null && changes !== null && out !== null) {
    await writeWhole(out, amendScenario(present.source.text, changes));
  }
  const sections = () => fitSections({ result, scenario: present?.source.name ?? null, changes, conflicts });
  await print(toldAs(formOf(options), { ...result, changes, conflicts }, sections, fitRows));
  if (out !== null) tell(writtenText(out, changes!));
  return EXIT_DONE;
}

/** What can be told to be wrong before anything is worked out. */
async function checkOptions(
  { path: log }: SourceFile,
  hasScenario: boolean,
  out: string | null,
  over: boolean,
): Promise<void> {
  if (out === null && over) {
    throw new Problem(
      '--over must not be given without --write. It lets that file be there already. Leave it out.',
    );
  }
  if (out !== null && !hasScenario) {
    throw new Problem(
      `--write must not be given without a scenario. It writes the scenario with the values of the log put in, so that must be named too. Example: evensow fit ${log} my-line.yaml --write ${out}`,
    );
  }
  if (out !== null && (await sameFile(out, log))) {
    throw new Problem(
      `--write must not name ${out}, which is the log. It must be a file for the scenario. Example: --write fitted.yaml`,
    );
  }
  if (out !== null && !over && (await exists(out))) {
    throw new Problem(
      `--write must not name ${out}, which is there already. It must be a new file. Name another, or add --over to replace it.`,
    );
  }
}

/** With the stage that is being fitted shown on a terminal. */
async function estimate(log: SourceFile, plan: Plan | null): Promise<FitResult> {
  const { rows, stages } = seasonRows(log, plan);
  const watched = hasWatcher();
  try {
    return atOnceStoppable(() =>
      fitSeason(rows, stages, plan, (stage) => {
        if (watched) showProgress(`fitting ${stage}, stage ${stages.indexOf(stage) + 1} of ${stages.length}`);
      }),
    );
  } finally {
    if (watched) showProgress('');
  }
}

function writtenText(out: string, changes: readonly FitChange[]): string {
  if (changes.length === 0)
    return `evensow: ${out} is the scenario as it was: the log changes nothing in it.`;
  return `evensow: ${out} is the scenario with ${counted(changes.length, 'value')} from the log; all else says what it said.`;
}
