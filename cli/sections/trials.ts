/** Small changes that were tried with the same luck, and what each brings: one table for all that tell of it. */

import type { Change } from '../../sim/seasons/changes.js';
import { changeParts, effectsForm } from '../words/limits.js';
import { fixed } from '../words/numbers.js';
import { type Ends, figure, interval, type Table, table, words } from './section.js';

/** A change and what it brings, in heads a week, with its 95 % interval. */
export interface Tried extends Ends {
  readonly change: Change;
  /** null if no week counts. */
  readonly mean: number | null;
  /** Share of the heads that it brings more, over the share that it adds. */
  readonly elasticity: { readonly mean: number } | null;
  /** Whether that is worth the change. */
  readonly brings: boolean;
}

/** What the column `per 1 %` means. */
export const PER_CENT =
  'Per 1 %: by how many % each 1 % more (of that room, of the seeds, of the visits) raises the heads. What limits alone has 1, what never limits 0.';

export function trialTable(trials: readonly Tried[]): Table {
  const form = effectsForm(trials);
  return table(
    trials.map((one) => [
      words(...changeParts(one.change)),
      figure(one.mean, form),
      interval(one, form),
      figure(one.elasticity?.mean, fixed(2)),
      verdict(one),
    ]),
    { head: ['changed', 'heads\na week', '95 %\ninterval', 'per 1 %', ''] },
  );
}

function verdict({ mean, low, high, brings }: Tried): string {
  if (mean === null) return '';
  if (low === null || high === null) return 'too few seasons';
  if (brings) return 'more';
  if (high < 0) return 'less';
  return low > 0 ? 'hardly' : 'same';
}
