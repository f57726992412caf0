/** What is said of a line that was just begun. */

import { SEARCH_DEFAULTS } from '../../sim/calls/search.js';
import type { RunResult } from '../../sim/study/summary.js';
import { counted, orFewer } from '../words/numbers.js';
import { inShell } from '../words/shell.js';
import { firstAnswerSections } from './run.js';
import { type Block, command, type Section, section } from './section.js';

export interface Begun {
  /** As it was named. */
  readonly file: string;
  /** Wished for a week. */
  readonly heads: number;
  /** Heads a week that the line takes in for ever, if nothing varies. */
  readonly most: number;
}

/** What the line yields, and how that stands to the wish. */
export function begunSections({ heads, most }: Begun, result: RunResult): Section[] {
  return [...firstAnswerSections(result), section('What you would like', ...wish(heads, most, result))];
}

function wish(heads: number, most: number, { running }: RunResult): Block[] {
  const brings =
    running === null
      ? ''
      : ` This first plan brings ${counted(running.p50, 'head')} in a usual week, ${running.p10}${orFewer(running.p10)} in a bad one.`;
  return [
    `${counted(heads, 'head')} a week.${brings}`,
    ...(most < heads
      ? [
          `The holes take in seedlings for about ${most.toFixed(1)} heads a week, if nothing varies. More heads take more channels, or quicker plants.`,
        ]
      : []),
  ];
}

/** The commands that come next. @param offered the search is asked about in a moment */
export function nextSections({ file, heads }: Begun, offered: boolean): Section[] {
  const name = inShell(file);
  const next = [
    ['watch', 'see it on the screen'],
    ['run', 'again, after a change to the file'],
    ['chores', 'the work of the first two weeks'],
  ];
  const width = `evensow chores ${name}`.length;
  return [
    section(
      'What comes next',
      // What stands behind # a shell passes over, so that a line may be copied whole.
      ...next.map(([verb, what]) => command(`${`evensow ${verb} ${name}`.padEnd(width)}  # ${what}`)),
      ...(offered ? [] : [`Look for ${goalText(heads)}:`, command(searchCommandText(name, heads))]),
    ),
  ];
}

/** Whether the search should be begun, and what is usual: where the holes cannot bring the wish nobody begins it unasked. */
export function searchOffer({ heads, most }: Begun): {
  readonly question: string;
  readonly usually: boolean;
} {
  const offer = `Look for ${goalText(heads)}? It may take some minutes; Ctrl-C stops it.`;
  if (most >= heads) return { question: offer, usually: true };
  const why = `Your holes bring about ${most.toFixed(1)} heads a week at most, and the search tries few channels more: it may find none.`;
  return { question: `${why} ${offer}`, usually: false };
}

/** What the search looks for if nothing else is said. */
function goalText(heads: number): string {
  return `the plan with the fewest holes that brings at least ${counted(heads, 'head')} in ${100 * SEARCH_DEFAULTS.weeksMet} % of the weeks`;
}

function searchCommandText(name: string, heads: number): string {
  return `evensow search ${name} --heads ${heads}`;
}
