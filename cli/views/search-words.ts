/** The words of a search: limits in a line, and a plan as the lines of the scenario file that say it. */

import type { Settings } from '../../sim/study/search/candidates.js';
import type { Within } from '../../sim/study/search/within.js';
import { WIDTH } from './format.js';

/** `sow every 1..7 d, 5..20 seeds, 1..4 x nursery`. */
export function limitsText({ every, on, seeds, channels, visits }: Within): string {
  const parts: string[] = [];
  if (every !== undefined) parts.push(`sow every ${listText(every)} d`);
  if (on !== undefined) parts.push(`sow on ${on.map((days) => days.join('+')).join(' or ')}`);
  if (seeds !== undefined) parts.push(`${listText(seeds)} seeds`);
  for (const [stage, counts] of Object.entries(channels ?? {})) parts.push(`${listText(counts)} x ${stage}`);
  if (visits !== undefined) {
    parts.push(
      `visits ${visits.map((days) => (typeof days === 'string' ? days : days.join('+'))).join(' or ')}`,
    );
  }
  return parts.length === 0 ? 'the scenario as it is' : parts.join(', ');
}

/** Longest list that is written out. */
const LONGEST = 12;

/** `2..7` where each number follows on the one before, else `2,4,8`; the middle of a long list is left out. */
function listText(numbers: readonly number[]): string {
  const [first, last] = [numbers[0]!, numbers.at(-1)!];
  if (numbers.length > 2 && numbers.every((number, i) => number === first + i)) return `${first}..${last}`;
  if (numbers.length <= LONGEST) return numbers.join(',');
  return `${numbers.slice(0, 3).join(',')},...,${last} (${numbers.length} numbers)`;
}

/** Columns that stand before the lines of a plan. */
const INDENT = 2;

/** What is chosen, in the notation of the file. */
export function planLines({ every, on, seeds, channels, visits }: Settings): string[] {
  const lines: string[] = [];
  const sow = [
    ...(every === undefined ? [] : [`every: ${every}`]),
    ...(on === undefined ? [] : [`on: [${on.join(', ')}]`]),
    ...(seeds === undefined ? [] : [`seeds: ${seeds}`]),
  ];
  if (sow.length > 0) lines.push(`sow: {${sow.join(', ')}}`);
  for (const [stage, count] of Object.entries(channels ?? {})) {
    const line = `- {name: ${stage}, channels: ${count}}`;
    // YAML's other notation takes a line for each key.
    if (line.length <= WIDTH - INDENT) lines.push(line);
    else lines.push(`- name: ${stage}`, `  channels: ${count}`);
  }
  if (visits !== undefined)
    lines.push(typeof visits === 'string' ? `visits: ${visits}` : `visits: [${visits.join(', ')}]`);
  return lines.length === 0 ? ['(as they are)'] : lines;
}
