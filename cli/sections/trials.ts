/** Small changes that were tried with the same luck, and what each brings: one table for all that tell of it. */

import type { Change } from '../../sim/seasons/changes.js';
import { changeParts } from '../words/limits.js';
import { decimalsFor, signed } from '../words/numbers.js';
import { type Ends, figure, interval, type Table, table, words } from './section.js';

/** A change and what it brings, in heads a week, with its 95 % interval. */
export interface Tried extends Ends {
  readonly change: Change;
  /** null if no week counts. */
  readonly mean: number | null;
  /** Whether that is worth the change. */
  readonly brings: boolean;
}

export function trialTable(trials: readonly Tried[]): Table {
  const form = signed(
    decimalsFor(Math.max(...trials.flatMap(({ low, high }) => [low ?? 0, high ?? 0].map(Math.abs)))),
  );
  return table(
    trials.map((one) => [
      words(...changeParts(one.change)),
      figure(one.mean, form),
      interval(one, form),
      verdict(one),
    ]),
    { head: ['changed', 'heads a week', '95 % interval', ''] },
  );
}

function verdict({ mean, low, high, brings }: Tried): string {
  if (mean === null) return '';
  if (low === null || high === null) return 'too few seasons';
  if (brings) return 'more';
  if (high < 0) return 'less';
  return low > 0 ? 'hardly' : 'same';
}
