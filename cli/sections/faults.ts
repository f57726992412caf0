/** What is wrong with a file: where it is, what was found, what was expected, what to do. */

import { LOAD_CAUTION } from '../../sim/models/physical/cautions.js';
import type { Caution, Fault, FaultDraft, Warning } from '../../sim/scenario/faults.js';
import type { LogFault, LogWarning } from '../../sim/season/log/faults.js';
import { WATER_CAUTION } from '../words/cautions.js';
import { counted } from '../words/numbers.js';
import { type Section, section } from './section.js';

/** More faults than these are counted, not listed: the first ones usually explain the rest. */
const MOST_SHOWN = 50;

/** A fault of a scenario, or of a log. */
type AnyFault = Fault | LogFault;

/** @param file as the user named it */
export function faultSections(file: string, faults: readonly AnyFault[]): Section[] {
  const beyond = faults.length - MOST_SHOWN;
  return [
    section(
      `${file} has ${counted(faults.length, 'fault')}:`,
      ...faults.slice(0, MOST_SHOWN).map((fault) => section(placeText(fault), sentences(fault))),
      ...(beyond > 0 ? [`... and ${beyond} more.`] : []),
    ),
  ];
}

/** Faults of one row that was typed and is not in the file. */
export function rowFaultSections(file: string, faults: readonly LogFault[]): Section[] {
  return [
    section(
      `nothing was written to ${file}.`,
      ...faults.map((fault) => section(fault.column ?? 'the row', sentences(fault))),
    ),
  ];
}

const CAUTIONS: Readonly<Record<Caution, string>> = { load: LOAD_CAUTION, water: WATER_CAUTION };

export function warningLines(file: string, warnings: readonly (Warning | LogWarning)[]): string[] {
  return warnings.map((warning) => {
    const path = 'path' in warning ? `: ${pathWords(warning.path)}` : '';
    const caution = 'caution' in warning ? ` ${CAUTIONS[warning.caution!]}` : '';
    return `Note: ${file}, line ${warning.line}${path}: ${warning.message}${caution}`;
  });
}

function placeText({ line, column, ...fault }: AnyFault): string {
  const path = 'path' in fault && fault.path !== '' ? `: ${pathWords(fault.path)}` : '';
  return `line ${line}${column === null ? '' : `, column ${column}`}${path}`;
}

/** One of these lists. */
const ONE_OF: Readonly<Record<string, string>> = {
  crops: 'crop',
  stages: 'stage',
  away: 'absence',
  dates: 'date',
  on: 'day',
  visits: 'day',
  tiers: 'tier',
};

/** A path with places in lists in words, and in brackets as it is: nobody counts crops from 0. */
export function pathWords(path: string): string {
  const words = placeWords(path);
  return words === path ? path : `${words} (${path})`;
}

/** A path with places in lists in words; as it is if there are none. */
export function placeWords(path: string): string {
  const words: string[] = [];
  let counts = false;
  for (const [, quoted, place, key] of path.matchAll(/\["((?:[^"\\]|\\.)*)"\]|\[(\d+)\]|([^.[\]]+)/g)) {
    if (place !== undefined) {
      counts = true;
      const list = words.pop()!;
      words.push(
        list in ONE_OF ? `${ONE_OF[list]} ${Number(place) + 1}` : `${list}, no. ${Number(place) + 1}`,
      );
    } else if (words.at(-1) === 'stages') words[words.length - 1] = quoted ?? key!;
    else words.push(quoted ?? key!);
  }
  return counts ? words.join(', ') : path;
}

/** What was found, what was expected, the nearest word, what to do. */
export function faultSentences({
  found,
  expected,
  nearest,
  advice,
}: Pick<FaultDraft, 'found' | 'expected' | 'advice'> & { readonly nearest: string | null }): string {
  const parts = [`found ${found}; expected ${expected}.`];
  if (nearest !== null) parts.push(`Did you mean ${nearest}?`);
  if (advice) parts.push(advice);
  return parts.join(' ');
}

/** The same, and how often. */
function sentences(fault: AnyFault): string {
  const more = 'more' in fault && fault.more > 0 ? ` The same on ${counted(fault.more, 'more line')}.` : '';
  return faultSentences(fault) + more;
}
