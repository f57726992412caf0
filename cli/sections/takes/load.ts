/** What each tier bears, with the caution that belongs to it. Never more than that: the shelf's label decides. */

import { LOAD_CAUTION } from '../../../sim/study/takes/cautions.js';
import type { Takes } from '../../../sim/study/takes/takes.js';
import { fixed } from '../../words/numbers.js';
import { type Block, figure, name, table } from '../section.js';

export function loadDetails({ load = [] }: Takes): Block[] {
  if (load.length === 0) return [];
  return [
    table(
      load.map(({ tier, kg, flooded_kg, margin_kg }) => [
        name(tier),
        figure(kg, fixed(0)),
        figure(flooded_kg, fixed(0)),
        figure(margin_kg, fixed(0)),
        margin_kg === null ? 'no rated_kg is told' : margin_kg < 0 ? 'OVER ITS LABEL' : '',
      ]),
      { head: ['kg', 'pump running', 'channels full to the brim', 'its label leaves', ''] },
    ),
    LOAD_CAUTION,
  ];
}
