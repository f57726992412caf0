/** What is taken to be so though no row of the log says it, in sentences. */

import type { Assumed } from '../../sim/season/ahead/assumed.js';
import { dateText } from './dates.js';
import { counted, listed, thousands } from './numbers.js';
import { inShell } from './shell.js';

/** Visits that are named one by one. */
const MOST_NAMED = 3;

export function assumedSentences({ missed, overdue }: Pick<Assumed, 'missed' | 'overdue'>): string[] {
  const days = missed.map(dateText);
  const named =
    days.length > MOST_NAMED
      ? [...days.slice(0, MOST_NAMED - 1), `${thousands(days.length - MOST_NAMED + 1)} more visits`]
      : days;
  return [
    ...(missed.length === 0
      ? []
      : [
          `No row tells of ${listed(named)}, although sowings were due: taken as not made. If they were, log what was done.`,
        ]),
    ...overdueSentence(overdue),
  ];
}

function overdueSentence(overdue: Assumed['overdue']): string[] {
  if (overdue.length === 0) return [];
  const plants = overdue.reduce((sum, group) => sum + group.plants, 0);
  const [first] = overdue;
  const where =
    overdue.length === 1 ? `of ${first!.batch} in ${first!.stage}` : `of ${overdueBatches(overdue)} batches`;
  const stand = plants === 1 ? 'stands' : 'stand';
  return [
    `${counted(plants, 'plant')} ${where} ${stand} so long that fewer than 1 in 100 would still grow: ${takenAs(overdue, plants)}.`,
  ];
}

/** What overdue plants are taken as, and what is to be done about it. */
function takenAs(overdue: Assumed['overdue'], plants: number): string {
  const gone = overdue.reduce((sum, group) => sum + group.gone, 0);
  const [they, them] = plants === 1 ? ['it is', 'it'] : ['they are', 'them'];
  const noRoom = 'for there is no room for all that stands by the log';
  if (gone === plants) return `${they} taken as failed and gone, ${noRoom}. Log ${them}`;
  const some = gone === 0 ? '' : ` (${thousands(gone)} of them before it, ${noRoom})`;
  return `${they} taken as failed and cleared at the next visit${some}. If ${they} gone already, log ${them}`;
}

function overdueBatches(overdue: Assumed['overdue']): number {
  return new Set(overdue.map(({ batch }) => batch)).size;
}

/** Commands that are told; of more groups the largest. */
const MOST_COMMANDS = 6;

/**
 * What to type to log plants that are taken as failed: one command for all of a batch in a stage, under the date of the last visit,
 * since a row of a later day would say that the visit of that day is over.
 * @param all whether every command is asked for @returns also how many are left out
 */
export function loseCommands(
  { last_visit, overdue }: Pick<Assumed, 'last_visit' | 'overdue'>,
  { log, line, all }: Telling,
): { readonly lines: readonly string[]; readonly more: number } {
  const most = all ? overdue.length : MOST_COMMANDS;
  const told = [...overdue].sort((a, b) => b.plants - a.plants).slice(0, most);
  const date = last_visit === null ? '' : ` --date ${last_visit}`;
  // The stages of a log that names none of them are those of its line.
  const to =
    (log === null || log === USUAL_LOG ? '' : ` --to ${inShell(log)}`) +
    (line === null ? '' : ` --line ${inShell(line)}`);
  return {
    lines: told.map(({ batch, stage, plants }) => {
      const place = `${inShell(batch)} ${inShell(stage)}`;
      const begun = `evensow log lose ${plants}`;
      // A name that begins like an option is none behind two dashes.
      const dashed = [batch, stage].some((name) => name.startsWith('-'));
      return dashed ? `${begun}${date}${to} -- ${place}` : `${begun} ${place}${date}${to}`;
    }),
    more: overdue.length - told.length,
  };
}

/** How much is told, and of which log and line. */
export interface Telling {
  /** Long lists in full. */
  readonly all: boolean;
  /** Path of the log; null if it came from standard input, or there is none. */
  readonly log: string | null;
  /** Path of the scenario; null if it came from standard input. */
  readonly line: string | null;
}

/** As long as nobody asks for more. */
export const BRIEF: Telling = { all: false, log: null, line: null };

/** What `evensow log` writes to if it is not told. */
const USUAL_LOG = 'season.csv';
