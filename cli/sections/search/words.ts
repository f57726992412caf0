/** The words of a search: limits in a line, and a plan as the lines of the scenario file that say it. */

import type { Settings } from '../../../sim/study/search/candidates.js';
import type { Within } from '../../../sim/study/search/within.js';
import { type Code, code } from '../section.js';

/** `sow every 1..7 d, 5..20 seeds, 1..4 x nursery`. */
export function limitsText({ every, on, seeds, channels, visits }: Within): string {
  const parts: string[] = [];
  if (every !== undefined) parts.push(`sow every ${listText(every)} d`);
  if (on !== undefined) parts.push(`sow on ${on.map((days) => days.join('+')).join(' or ')}`);
  if (seeds !== undefined) parts.push(`${listText(seeds)} seeds`);
  for (const [stage, counts] of Object.entries(channels ?? {})) parts.push(`${listText(counts)} x ${stage}`);
  if (visits !== undefined) parts.push(`visits ${visits.map(daysText).join(' or ')}`);
  return parts.length === 0 ? 'the scenario as it is' : parts.join(', ');
}

/** `daily`, `mon+thu`; null if there are none. */
export function daysText(days: string | readonly string[] | undefined): string | null {
  return days === undefined || typeof days === 'string' ? (days ?? null) : days.join('+');
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

/** What is chosen, in the notation of the file. */
export function planLines({ every, on, seeds, channels, visits }: Settings): Code {
  const sow = [
    ...(every === undefined ? [] : [`every: ${every}`]),
    ...(on === undefined ? [] : [`on: [${on.join(', ')}]`]),
    ...(seeds === undefined ? [] : [`seeds: ${seeds}`]),
  ];
  const lines = [
    ...(sow.length === 0 ? [] : [`sow: {${sow.join(', ')}}`]),
    ...Object.entries(channels ?? {}).map(
      ([stage, count]) => `- {name: ${nameText(stage)}, channels: ${count}}`,
    ),
    ...(visits === undefined
      ? []
      : [`visits: ${typeof visits === 'string' ? visits : `[${visits.join(', ')}]`}`]),
  ];
  return code(...(lines.length === 0 ? ['(as they are)'] : lines));
}

/** A name as the file has it: in quotes where YAML would read something else. */
function nameText(name: string): string {
  return /^(?!(true|false|null)$)\p{L}[\p{L}\p{N} _-]*$/iu.test(name) ? name : JSON.stringify(name);
}
