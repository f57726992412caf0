/** Why a size gives no more: from what holes and times allow down to what is picked, step by step. */

import type { Gap, GapStep } from '../../../sim/study/size/gap.js';
import type { SizeResult } from '../../../sim/study/size/size.js';
import { counted, fixed, signed } from '../../words/numbers.js';
import { bar, type Cell, figure, type Section, section, table } from '../section.js';
import { sizeNamed } from './signs.js';

const WORDS: Readonly<Record<GapStep['name'], string>> = {
  sown_or_wanted: 'no more is sown or wanted',
  batches: 'batches; filling; weeks cut through',
  spread: 'growing times spread',
  visits: 'visits on some days only',
  losses: 'seeds fail, plants die or overgrow',
  cleaning: 'cleaning',
  absence: 'nobody comes during an absence',
};

/** The gap of the size as it is, and of the one that is of most interest beside it. */
export function gap(result: SizeResult): Section[] {
  const other = result.knee?.size ?? result.best?.size;
  const present = sizeNamed(result, result.present).gap;
  if (present === null) return [];
  const beside = other === undefined || other === result.present ? null : sizeNamed(result, other).gap;
  const gaps = beside === null ? [present] : [present, beside];
  const decimals = present.holes_over_time.heads_a_week >= 100 ? 0 : 1;
  const levels = levelsOf(present);
  const highest = Math.max(...levels) || 1;
  const whole = (words: string, of: (gap: Gap) => number): Cell[] => [
    words,
    ...gaps.map((one) => figure(of(one), fixed(decimals))),
    bar(of(present) / highest),
  ];
  const steps = present.steps.map(({ name }, i) => [
    WORDS[name],
    ...gaps.map((one) => figure(one.steps[i]!.change.mean, signed(decimals))),
    bar(levels[i + 1]! / highest, { from: levels[i]! / highest }),
  ]);
  return [
    section(
      `Why it gives no more: the size as it is${beside === null ? '' : `, and of ${other} beside it`}`,
      table([
        whole('holes and times allow', (one) => one.holes_over_time.heads_a_week),
        ...steps,
        whole('picked, heads a week', (one) => one.heads_a_week),
      ]),
      `(${counted(present.seasons, 'season')} of each step${present.seasons < result.seasons ? ', so what is picked may differ a little from above' : ''}; ${scarcest(present, beside)})`,
    ),
  ];
}

function scarcest({ holes_over_time: { by } }: Gap, beside: Gap | null): string {
  const other = beside?.holes_over_time.by ?? by;
  return `holes are scarcest in ${by}${other === by ? '' : `, beside it in ${other}`}`;
}

/** Heads a week that are left before the first step, and after each. */
function levelsOf({ holes_over_time: { heads_a_week }, steps }: Gap): number[] {
  const levels = [heads_a_week];
  for (const { change } of steps) levels.push(levels.at(-1)! + change.mean);
  return levels;
}
