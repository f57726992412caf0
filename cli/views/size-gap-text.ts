/** Why a size gives no more: from what holes and times allow down to what is picked, step by step. */

import type { Gap, Step } from '../../sim/study/size/gap.js';
import type { SizeResult } from '../../sim/study/size/size.js';
import { gainText } from '../words/numbers.js';
import { columns, WIDTH, wrap } from './format.js';
import { pieceBetween } from './pictures.js';
import { headsText, sizeNamed } from './size-words.js';

/** Places of the picture of the steps. */
const PIECES = 24;

const WORDS: Readonly<Record<Step['name'], string>> = {
  sown_or_wanted: 'no more is sown or wanted',
  batches: 'batches; filling; weeks cut through',
  spread: 'growing times spread',
  visits: 'visits on some days only',
  losses: 'seeds fail, plants die or overgrow',
  cleaning: 'cleaning',
};

/** The gap of the size as it is, and of the one that is of most interest beside it. */
export function gapText(result: SizeResult): string[] {
  const other = result.knee?.size ?? result.best?.size;
  const present = sizeNamed(result, result.present).gap;
  if (present === null) return [];
  const beside = other === undefined || other === result.present ? null : sizeNamed(result, other).gap;
  const decimals = present.holes_over_time.heads_a_week >= 100 ? 0 : 1;
  const top = present.holes_over_time.heads_a_week;
  let level = top;
  const stepRows = present.steps.map(({ name, change }, i) => {
    const before = level;
    level += change.mean;
    return [
      WORDS[name],
      gainText(change.mean, decimals),
      ...(beside === null ? [] : [gainText(beside.steps[i]!.change.mean, decimals)]),
      pieceBetween(level / scale(present), before / scale(present), PIECES).padEnd(PIECES),
    ];
  });
  const whole = (pick: (gap: Gap) => number): string[] =>
    [present, ...(beside === null ? [] : [beside])].map((gap) => headsText(pick(gap)));
  const bar = (heads: number): string => pieceBetween(0, heads / scale(present), PIECES).padEnd(PIECES);
  const seasons = present.seasons === 1 ? '1 season' : `${present.seasons} seasons`;
  const named = beside === null ? '' : `, and of ${other} beside it`;
  return [
    [
      wrap(`Why it gives no more: the size as it is${named}`, WIDTH),
      ...columns([
        ['  holes and times allow', ...whole((gap) => gap.holes_over_time.heads_a_week), bar(top)],
        ...stepRows.map(([words, ...cells]) => [`  ${words}`, ...cells]),
        ['  picked, heads a week', ...whole((gap) => gap.heads_a_week), bar(present.heads_a_week)],
      ]).map((line) => line.trimEnd()),
      wrap(`(${seasons} of each step; ${scarcest(present, beside)})`, WIDTH, '  '),
    ].join('\n'),
  ];
}

function scarcest({ holes_over_time: { by } }: Gap, beside: Gap | null): string {
  const other = beside?.holes_over_time.by ?? by;
  return `holes are scarcest in ${by}${other === by ? '' : `, beside it in ${other}`}`;
}

/** The highest level that the steps pass: what the picture is wide. */
function scale({ holes_over_time: { heads_a_week }, steps }: Gap): number {
  let level = heads_a_week;
  let highest = level;
  for (const { change } of steps) {
    level += change.mean;
    highest = Math.max(highest, level);
  }
  return highest || 1;
}
