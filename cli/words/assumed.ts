/** What is taken to be so though no row of the log says it, in sentences. */

import type { Assumed } from '../../sim/season/ahead/assumed.js';
import { dateText } from './dates.js';
import { listed, thousands } from './numbers.js';

/** Visits that are named one by one. */
const MOST_NAMED = 3;

export function assumedSentences({ missed, overdue }: Pick<Assumed, 'missed' | 'overdue'>): string[] {
  const days = missed.map(dateText);
  const named =
    days.length > MOST_NAMED
      ? [...days.slice(0, MOST_NAMED - 1), `${thousands(days.length - MOST_NAMED + 1)} more visits`]
      : days;
  return [
    ...(missed.length === 0
      ? []
      : [
          `No row tells of ${listed(named)}, although sowings were due: taken as not made. If they were, log what was done.`,
        ]),
    ...overdue.map(({ batch, stage, plants }) =>
      plants === 1
        ? `1 of ${batch} stands in ${stage} for longer than the scenario's times allow; it is taken to be ready by the next visit. If it is dead, log it as lost.`
        : `${thousands(plants)} of ${batch} stand in ${stage} for longer than the scenario's times allow; they are taken to be ready by the next visit. If they are dead, log them as lost.`,
    ),
  ];
}
