/** Sizes of a line in a grower's words: what each gives, what more room is worth, and why it gives no more. */

import type { SizeResult } from '../../sim/study/size/size.js';
import type { Worth } from '../../sim/study/size/worth.js';
import { dateText } from '../words/dates.js';
import { counted, decimalsFor, gainText, listed } from '../words/numbers.js';
import { tableOfNames, WIDTH, wrap } from './format.js';
import { sizeChoice } from './size-choice-text.js';
import { gapText } from './size-gap-text.js';
import { isGrid, sizeGrid } from './size-grid-text.js';
import { sizeList } from './size-list-text.js';
import { frontierPicture } from './size-picture.js';
import { PRESENT } from './size-words.js';

/** Longest name of a stage in the table of worths. */
const MOST_NAME = 16;

export function sizeText(result: SizeResult): string {
  const parts = [heading(result)];
  if (result.running === null) parts.push('In no week was any of these lines running.');
  else {
    const grid = isGrid(result);
    if (grid) parts.push(sizeGrid(result));
    parts.push(...frontierPicture(result), sizeList(result, grid), sizeChoice(result), worth(result));
    parts.push(...gapText(result));
  }
  return `${parts.join('\n\n')}\n`;
}

function heading({ title, sizes, seasons, seed, partial, present, running }: SizeResult): string {
  const stopped = partial ? ', stopped early: what follows is from these seasons only' : '';
  const weeks =
    running === null
      ? ''
      : ` Weeks that count: ${running.weeks === 1 ? 'the last one' : `the ${running.weeks} from ${dateText(running.from)} on`}, when all lines are running.`;
  const marks = `As it is (${PRESENT}): ${present}.`;
  return wrap(
    `${title}: ${counted(sizes.length, 'size')}, ${counted(seasons, 'season')} of each with the same luck (seed ${seed})${stopped}. ${marks}${weeks}`,
    WIDTH,
  );
}

function worth({ worth: { stages, hold_back } }: SizeResult): string {
  const lines = ['What one more channel is worth, heads a week (95 % interval, same luck)'];
  const largest = Math.max(
    ...stages.map(({ heads_a_week: gain }) => Math.max(Math.abs(gain?.low ?? 0), Math.abs(gain?.high ?? 0))),
  );
  lines.push(
    ...tableOfNames(
      stages.map(({ stage }) => stage),
      (called) => stages.map((one) => worthRow(one, called(one.stage), decimalsFor(largest))),
      { most: MOST_NAME },
    ),
  );
  if (hold_back === null) lines.push('  Which stage holds the line back takes at least 2 seasons to tell.');
  else if (hold_back.length === 0)
    lines.push('  No stage holds the line back: one more channel brings nothing in any.');
  else if (hold_back.length === 1)
    lines.push(
      wrap(`${hold_back[0]} holds the line back: one more channel is worth most there.`, WIDTH, '  '),
    );
  else
    lines.push(wrap(`${listed(hold_back)} hold the line back; which one more cannot be told.`, WIDTH, '  '));
  return lines.join('\n');
}

/** @param stage what it is called */
function worthRow({ holes, heads_a_week: gain, brings }: Worth, stage: string, decimals: number): string[] {
  const what = `  +1 channel of ${stage} (${counted(holes, 'hole')})`;
  if (gain === null) return [what, '-', '', ''];
  const { mean, low, high } = gain;
  if (low === null || high === null) return [what, gainText(mean, decimals), '', 'too few seasons'];
  const word = brings ? 'more' : high < 0 ? 'less' : low > 0 ? 'hardly' : 'same';
  return [what, gainText(mean, decimals), `${gainText(low, decimals)} to ${gainText(high, decimals)}`, word];
}
