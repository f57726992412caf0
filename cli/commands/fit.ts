/** `evensow fit LOG [FILE]`: what a season's log tells about growing times, losses and germination, and about the tank. */

import { growthSpells } from '../../sim/models/spells.js';
import { amendScenario } from '../../sim/scenario/amend.js';
import type { ReadScenario } from '../../sim/scenario/read.js';
import { type FitErrand, type FitResult, fitGround, joinedFits } from '../../sim/season/fit/fit.js';
import { conflictsOf, type FitChange, fitChangesOf } from '../../sim/season/fit/fit-changes.js';
import { fittedPlan } from '../../sim/season/fit/fitted-plan.js';
import { isMetered, type MeterErrand } from '../../sim/season/fit/meter/meter.js';
import type { Metered } from '../../sim/season/fit/meter/metered.js';
import { lentThread } from '../../sim/seasons/threads.js';
import { faultsProblem } from '../inputs/faults-problem.js';
import { besideOther, FIT, type LineFiles, loadLineFiles, type SourceFile } from '../inputs/line-files.js';
import { seasonRows } from '../inputs/season-log.js';
import {
  EXIT_DONE,
  EXIT_INTERRUPTED,
  hasWatcher,
  Interrupt,
  print,
  showProgress,
  tell,
} from '../io/streams.js';
import { exists, sameFile, writeWhole } from '../io/write-file.js';
import { formOf, type Options } from '../options/options.js';
import { Problem } from '../problem.js';
import { toldAs } from '../render/told.js';
import { fitRows, fitSections } from '../sections/fit.js';
import { counted, listed } from '../words/numbers.js';

/**
 * `write`: file for the scenario with the fitted values put in; `over`: it may be there already; `all`: put in also what the log
 * gives no reason to change.
 */
export type FitOptions = Options & { readonly over?: boolean; readonly all?: boolean };

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
  const all = options.all === true;
  const { scenario: present, log: named } = await loadLineFiles(FIT, [file, other]);
  const log = named as SourceFile;
  await checkOptions(log, present !== null, out, { over: options.over === true, all });
  const { result, left } = await estimate(log, present);
  if (result === null) {
    tell('evensow: stopped before any stage was fitted; there is nothing to show.');
    return EXIT_INTERRUPTED;
  }
  const changes = present === null ? null : fitChangesOf(result, present.plan);
  const conflicts = present === null ? null : conflictsOf(result, present.plan);
  const put = changes?.filter(({ outside }) => all || outside) ?? [];
  const renamed = present === null || out === null ? null : renamedLog(present, out);
  if (present !== null && out !== null && left.length === 0) {
    const naming = renamed === null ? [] : [{ path: ['log'], value: renamed }];
    const amended = amendScenario(present.source.text, [...put, ...naming]);
    if (!amended.ok) throw faultsProblem(present.source.name, amended.faults);
    await writeWhole(out, amended.value);
  }
  const spells = present === null ? [] : growthSpells(present.plan, result.from, result.to);
  const scenario = present?.source.name ?? null;
  const sections = () => fitSections({ result, scenario, changes, conflicts, spells });
  const told = { ...result, changes, conflicts, ...(spells.length > 0 && { spells }) };
  await print(toldAs(formOf(options), told, sections, fitRows));
  if (left.length > 0) {
    const unwritten = out === null ? '' : ` ${out} was not written.`;
    tell(`evensow: stopped; of ${listed(left)} nothing is known yet.${unwritten}`);
    return EXIT_INTERRUPTED;
  }
  if (out !== null) tell(writtenText(out, put, changes!.length - put.length, renamed));
  return EXIT_DONE;
}

/** The log of a scenario as a file in another folder has to name it; null if it says so already, or names none. */
function renamedLog(
  { scenario: { log }, source }: NonNullable<LineFiles['scenario']>,
  out: string,
): string | null {
  if (log === undefined) return null;
  const renamed = besideOther(log, source.path, out);
  return renamed === log ? null : renamed;
}

/** What can be told to be wrong before anything is worked out. */
async function checkOptions(
  { path: log }: SourceFile,
  hasScenario: boolean,
  out: string | null,
  { over, all }: { readonly over: boolean; readonly all: boolean },
): Promise<void> {
  if (out === null && over) {
    throw new Problem(
      '--over must not be given without --write. It lets that file be there already. Leave it out.',
    );
  }
  if (out === null && all) {
    throw new Problem(
      '--all must not be given without --write. It has all that is sure enough written into that file. Leave it out.',
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

/**
 * Stage by stage on a thread of its own, since a fit cannot be asked to stop in between; the stage in work is shown on a terminal.
 * @returns null if not even one was fitted before somebody pressed Ctrl-C, and what was left: stages, the tank
 */
async function estimate(
  log: SourceFile,
  line: ReadScenario | null,
): Promise<{ result: FitResult | null; left: readonly string[] }> {
  const { rows, tank, stages, plan } = seasonRows(log, line);
  // One that does not fit the plan is not read.
  const ground = fitGround(rows, stages, plan, false);
  const watched = hasWatcher();
  const interrupt = new Interrupt();
  const thread = await lentThread();
  interrupt.onStop = () => void thread.close();
  const done: FitResult[] = [];
  let metered: Metered | null = isMetered(tank, plan) ? null : {};
  try {
    for (const [s, stage] of stages.entries()) {
      if (watched) showProgress(`fitting ${stage}, stage ${s + 1} of ${stages.length}`);
      const errand: FitErrand = { kind: 'fit', ground, stage: s };
      const part = interrupt.stopped ? null : await thread.send<FitResult>(errand);
      if (part === null) break;
      done.push(part);
    }
    if (metered === null && done.length === stages.length && !interrupt.stopped && isMetered(tank, plan)) {
      if (watched) showProgress('holding litres against the meter');
      const fitted = fittedPlan(joinedFits(done), plan);
      const errand: MeterErrand = { kind: 'meter', rows, tank, plan: fitted, refused: false };
      metered = await thread.send<Metered>(errand);
    }
  } finally {
    if (watched) showProgress('');
    interrupt.release();
    await thread.close();
  }
  const left = [...stages.slice(done.length), ...(metered === null ? ['the tank'] : [])];
  return { result: done.length === 0 ? null : { ...joinedFits(done), ...metered }, left };
}

/** @param kept how many values the log gives no reason to change @param renamed the log, if it is another name from there */
function writtenText(out: string, put: readonly FitChange[], kept: number, renamed: string | null): string {
  const log = renamed === null ? '' : ` It names the same log, from there: ${renamed}.`;
  const rest =
    kept === 0
      ? ''
      : ` Of ${counted(kept, 'other value')} it holds what the scenario says for possible; --all writes ${kept === 1 ? 'it' : 'them'} too.`;
  if (put.length === 0) {
    return `evensow: ${out} is the scenario as it was: the log changes nothing in it.${rest}${log}`;
  }
  return `evensow: ${out} is the scenario with ${counted(put.length, 'value')} from the log; all else says what it said.${rest}${log}`;
}
