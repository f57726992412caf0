/** Sizes of a line in a grower's words: what each gives, what more room is worth, and why it gives no more. */

import type { SizeResult } from '../../../sim/study/size/size.js';
import { counted, listed } from '../../words/numbers.js';
import { stoppedEarly, weeksFrom } from '../season.js';
import { type Section, section } from '../section.js';
import { PER_CENT, trialTable } from '../trials.js';
import { choice } from './choice.js';
import { gap } from './gap.js';
import { grid, isGrid } from './grid.js';
import { list } from './list.js';
import { moneyAYear } from './money.js';
import { frontierPicture } from './picture.js';
import { PRESENT } from './signs.js';

export function sizeSections(result: SizeResult): Section[] {
  if (result.running === null)
    return [section(null, heading(result)), section(null, 'In no week was any of these lines running.')];
  const inGrid = isGrid(result);
  return [
    section(null, heading(result)),
    choice(result),
    ...(inGrid ? grid(result) : []),
    ...frontierPicture(result),
    list(result, inGrid),
    worth(result),
    ...moneyAYear(result),
    ...gap(result),
  ];
}

function heading({ title, sizes, seasons, seed, partial, present, running }: SizeResult): string {
  const weeks =
    running === null ? '' : ` Weeks that count: ${weeksFrom(running)}, when all lines are running.`;
  return `${title}: ${counted(sizes.length, 'size')}, ${counted(seasons, 'season')} of each with the same luck (seed ${seed})${stoppedEarly(partial)}. As it is (${PRESENT}): ${present}.${weeks}`;
}

function worth({ worth: { stages, hold_back } }: SizeResult): Section {
  return section(
    'What more channels are worth beside the size as it is (same luck)',
    trialTable(
      stages.map(({ stage, channels, holes, heads_a_week: gain, elasticity, brings }) => ({
        change: { kind: 'channel', stage, channels, holes },
        elasticity,
        brings,
        ...(gain ?? { mean: null, low: null, high: null }),
      })),
    ),
    PER_CENT,
    holdsBack(hold_back),
  );
}

function holdsBack(stages: readonly string[] | null): string {
  if (stages === null) return 'Which stage holds the line back takes at least 2 seasons to tell.';
  if (stages.length === 0) return 'No stage holds the line back: more channels bring hardly anything in any.';
  return stages.length === 1
    ? `${stages[0]} holds the line back: more room is worth most there, for its share.`
    : `${listed(stages)} hold the line back; which one more cannot be told.`;
}
