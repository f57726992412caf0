/** The words of a work list: the chores of a visit line by line. */

import type { Chore } from '../../sim/season/ahead/chores.js';
import type { TakesRange } from '../../sim/season/ahead/takes-ahead.js';
import { counted, parted, TIE, thousands } from './numbers.js';
import { withinText } from './range.js';

/** Batches that are told of one chore; of more the largest ones. */
const MOST_BATCHES = 12;

/** One line of the list. */
export interface ChoreLine {
  /** What to do. */
  readonly verb: string;
  /** null of what is rather not expected, which is told in one line for all stages. */
  readonly count: Chore['count'] | null;
  /** Where, and of which batches. */
  readonly where: readonly Part[];
}

/** The name of a stage, crop or batch stands by itself. */
type Part = string | { readonly name: string };

/** Of holes to clean nothing is said where none are expected. */
export function choreLines(chores: readonly Chore[]): ChoreLine[] {
  const lines: ChoreLine[] = [];
  const told = new Set<string>();
  for (const chore of chores) {
    const { action, count } = chore;
    const verb = verbOf(action);
    if (isExpected(chore)) {
      const batches = batchParts(chore);
      const where = [BEFORE_STAGES[action], ...routeParts(chore)];
      lines.push({ verb, count, where: batches.length === 0 ? where : [...where, ': ', ...batches] });
    } else if (action !== 'clean' && !told.has(action)) {
      told.add(action);
      const rare = chores.filter((one) => one.action === action && !isExpected(one));
      lines.push({ verb, count: null, where: [BEFORE_STAGES[action], ...joined(rare.map(routeParts))] });
    }
  }
  return lines;
}

/** The number to expect: `7`. */
export function expectedText({ count }: ChoreLine): string {
  return count === null ? '0 or 1' : thousands(Math.round(count.mean));
}

/** A line as a sentence: `pick 7 (4 to 10) ready in finishing: B3 4`. */
export function choreText(line: ChoreLine): string {
  const within = line.count === null ? '' : withinText(line.count);
  const where = line.where.map((part) => (typeof part === 'string' ? part : part.name)).join('');
  return [line.verb, expectedText(line), within, where.replaceAll(TIE, ' ')]
    .filter((part) => part !== '')
    .join(' ');
}

/** `clear 1, pick 7, move 15`; empty if nothing is expected. */
export function summaryText(chores: readonly Chore[]): string {
  const sums = new Map<string, number>();
  for (const { action, count } of chores) {
    const whole = Math.round(count.mean);
    if (whole > 0 && action !== 'clean') sums.set(verbOf(action), (sums.get(verbOf(action)) ?? 0) + whole);
  }
  return [...sums].map(([what, count]) => `${what} ${count}`).join(', ');
}

/** `about 22 minutes (19 to 25)`: the mean, and what 8 of 10 futures stay within. */
export function minutesText({ mean, p10, p90 }: TakesRange): string {
  const whole = Math.round(mean);
  const told = whole === 0 && mean > 0 ? 'less than a minute' : `about ${counted(whole, 'minute')}`;
  const within = withinText({ low: Math.round(p10), high: Math.round(p90) });
  return within === '' ? told : `${told} ${within}`;
}

function isExpected({ count }: Pick<Chore, 'count'>): boolean {
  return Math.round(count.mean) > 0;
}

function verbOf(action: Chore['action']): string {
  return action === 'lose' ? 'clear' : action;
}

function routeParts({ stage, from }: Chore): Part[] {
  return from === null ? [{ name: stage }] : [{ name: from }, ' -> ', { name: stage }];
}

/** Before the stages of a chore. */
const BEFORE_STAGES: Readonly<Record<Chore['action'], string>> = {
  lose: 'dead, failed or overgrown in ',
  pick: 'ready in ',
  move: '',
  sow: 'into ',
  clean: 'holes that were left in ',
};

/** `B3 4, B5 1`, which add up to the number of the chore; of a sowing the crops, and a name for each batch. */
function batchParts({ action, batches, count }: Chore): Part[] {
  const wholes = parted(
    Math.round(count.mean),
    batches.map((one) => one.count.mean),
  );
  const expected = batches.map((one, i) => ({ ...one, whole: wholes[i]! })).filter(({ whole }) => whole > 0);
  const most = [...expected].sort((a, b) => b.count.mean - a.count.mean).slice(0, MOST_BATCHES);
  const told = expected
    .filter((one) => most.includes(one))
    .map(({ batch, crop, whole }): Part[] => {
      if (action === 'sow')
        return [`${whole}${TIE}`, { name: crop }, ...(batch === null ? [] : [` as${TIE}`, { name: batch }])];
      return [...(batch === null ? ['new ', { name: crop }] : [{ name: batch }]), `${TIE}${whole}`];
    });
  const rest = expected.length - most.length;
  return [...joined(told), ...(rest > 0 ? [` and ${rest} more`] : [])];
}

/** With commas between. */
function joined(all: readonly (readonly Part[])[]): Part[] {
  return all.flatMap((parts, i) => (i === 0 ? parts : [', ', ...parts]));
}
