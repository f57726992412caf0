/** Sowings whose plants would be thrown away in an absence, in a sentence. */

import type { LostToAbsence } from '../../sim/season/ahead/absence.js';
import { dateText } from './dates.js';
import { listed } from './numbers.js';

/** Sowings that are named one by one. */
const MOST_NAMED = 6;

/** The mark of what is sown now. @param several whether more than one crop is */
export function absenceMark({ crop, seeds, thrown_away }: LostToAbsence, several: boolean): string {
  const of = several ? ` of ${crop}` : '';
  return `Sowing${of}: ${Math.round(thrown_away)} of ${Math.round(seeds)} would be thrown away in the absence.`;
}

/** One sentence for each absence, with its sowings. */
export function absenceSentences(lost: readonly LostToAbsence[]): string[] {
  const several = new Set(lost.map(({ crop }) => crop)).size > 1;
  const absences = [...new Set(lost.map(({ since, on }) => `${since} ${on}`))];
  return absences.map((absence) => {
    const mine = lost.filter(({ since, on }) => `${since} ${on}` === absence);
    const { since, on } = mine[0]!;
    const sowings = mine.slice(0, MOST_NAMED).map(({ date, crop, seeds, thrown_away }) => {
      const of = several ? ` of ${crop}` : '';
      return `${dateText(date)}${of} ${Math.round(thrown_away)} of ${Math.round(seeds)}`;
    });
    const rest = mine.length - sowings.length;
    const more = rest === 0 ? [] : [`${rest} more`];
    return `Plants of these sowings would be thrown away on ${dateText(on)}, since nobody is there after ${dateText(since)}: ${listed([...sowings, ...more])}.`;
  });
}
