/** The words of a work list: the chores of a visit line by line. */

import type { Chore } from '../../sim/season/ahead/chores.js';
import { thousands } from '../words/numbers.js';
import { spanText } from './range-text.js';

/** Batches that are told of one chore; of more the largest ones. */
const MOST_BATCHES = 12;

/** Ties words that no line should part: taken for a space once the lines are broken. */
export const TIE = '\u00a0';

/** One line of the list. */
export interface ChoreLine {
  /** What to do. */
  readonly verb: string;
  /** The number to expect: `7`; `0-1` of what is rather not expected. */
  readonly expected: string;
  /** What eight in ten futures stay within: `(4-10)`; empty if there is nothing to add. */
  readonly within: string;
  /** Where, and of which batches; with ties. */
  readonly words: string;
}

/** What a stage, crop or batch is called. */
export type Called = (name: string) => string;

/**
 * What is rather not expected is told in one line for all stages; of holes to clean nothing is said then.
 * @param called in full, if left out
 */
export function choreLines(chores: readonly Chore[], called: Called = (name) => name): ChoreLine[] {
  const lines: ChoreLine[] = [];
  const told = new Set<string>();
  for (const chore of chores) {
    const { action, count } = chore;
    if (Math.round(count.mean) > 0) {
      const batches = batchesText(chore, called);
      const where = whereText(action, routeText(chore, called));
      lines.push({
        verb: verbOf(action),
        expected: expectedOf(count),
        within: withinOf(count),
        words: batches === '' ? where : `${where}: ${batches}`,
      });
    } else if (action !== 'clean' && !told.has(action)) {
      told.add(action);
      const rare = chores.filter((one) => one.action === action && Math.round(one.count.mean) === 0);
      const words = whereText(action, rare.map((one) => routeText(one, called)).join(', '));
      lines.push({ verb: verbOf(action), expected: '0-1', within: '', words });
    }
  }
  return lines;
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

function verbOf(action: Chore['action']): string {
  return action === 'lose' ? 'clear' : action;
}

function expectedOf({ mean }: Chore['count']): string {
  return thousands(Math.round(mean));
}

function withinOf(count: Chore['count']): string {
  const span = spanText(count);
  return span === expectedOf(count) ? '' : `(${span.replace(' to ', '-')})`;
}

function routeText({ stage, from }: Chore, called: Called): string {
  return from === null ? called(stage) : `${called(from)} -> ${called(stage)}`;
}

function whereText(action: Chore['action'], stages: string): string {
  switch (action) {
    case 'lose':
      return `dead, failed or overgrown in ${stages}`;
    case 'pick':
      return `ready in ${stages}`;
    case 'move':
      return stages;
    case 'sow':
      return `into ${stages}`;
    case 'clean':
      return `holes that were left in ${stages}`;
  }
}

/** `B3 4, B5 1`; of a sowing the crops, and a name for each batch. */
function batchesText({ action, batches }: Chore, called: Called): string {
  const expected = batches.filter(({ count }) => Math.round(count.mean) > 0);
  const most = [...expected].sort((a, b) => b.count.mean - a.count.mean).slice(0, MOST_BATCHES);
  const words = expected
    .filter((one) => most.includes(one))
    .map(({ batch, crop, count }) => {
      const whole = Math.round(count.mean);
      if (action === 'sow')
        return `${whole}${TIE}${called(crop)}${batch === null ? '' : ` as${TIE}${called(batch)}`}`;
      return `${batch === null ? `new ${called(crop)}` : called(batch)}${TIE}${whole}`;
    });
  const rest = expected.length - most.length;
  return `${words.join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`;
}
