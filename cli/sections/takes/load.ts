/** What each tier bears, with the caution that belongs to it. Never more than that: the shelf's label decides. */

import { LOAD_CAUTION } from '../../../sim/models/physical/cautions.js';
import type { Takes } from '../../../sim/study/takes/takes.js';
import { fixed } from '../../words/numbers.js';
import { type Block, figure, name, table } from '../section.js';

export function loadDetails({ load = [] }: Takes): Block[] {
  if (load.length === 0) return [];
  const notes = load.map(({ margin_kg: margin }) =>
    margin === null ? 'no rated_kg is told' : margin < 0 ? 'OVER ITS LABEL' : '',
  );
  const noted = notes.some((note) => note !== '');
  return [
    table(
      load.map(({ tier, kg, flooded_kg, margin_kg }, i) => [
        name(tier),
        figure(kg, fixed(0), 'kg'),
        figure(flooded_kg, fixed(0), 'kg'),
        figure(margin_kg, fixed(0), 'kg'),
        ...(noted ? [notes[i]!] : []),
      ]),
      { head: ['', 'pump running', 'full to the brim', 'its label leaves', ...(noted ? [''] : [])] },
    ),
    LOAD_CAUTION,
  ];
}
