/** The row above the line: which day it is, and what was done that day. */

import { isoOfDay } from '../../../sim/models/dates.js';
import type { Film, WorkDone } from '../../../sim/study/film/film.js';
import { dateText } from '../../words/dates.js';
import { thousands } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { frameOf } from './film.js';
import { type HeadState, seasonRow } from './headline.js';
import { apart, rowWidth, span } from './rows.js';
import { seasonShort } from './words.js';

export interface DayInput {
  readonly state: HeadState & Pick<State, 'day' | 'lastDay'>;
  readonly film: Film | null;
  readonly width: number;
  /** true where the season is told elsewhere. */
  readonly alone: boolean;
  readonly signs: Signs;
}

/** Columns below which what was done takes the room of the year and of the season. */
const NARROW = 70;

/** `Mon 29 Mar 2027  day 84 of 182  sown 10, moved 10, picked 6        season 1 · at rest` */
export function dayRow({ state, film, width, alone, signs }: DayInput): Row {
  const { scenario, day, lastDay } = state;
  const isNarrow = width < NARROW;
  const full = dateText(isoOfDay(scenario.start, day));
  const date: Row = [
    span(isNarrow ? full.replace(/ \d+$/, '') : full, 'strong'),
    span(`  day ${day} of ${lastDay}  `),
  ];
  const season = alone || isNarrow ? [] : seasonRow(state, signs, seasonShort(state));
  const room = width - rowWidth(date) - (season.length === 0 ? 0 : rowWidth(season) + 2);
  const done: Row = film === null ? [] : [span(dayWords(film, day, room, signs.more))];
  return apart([...date, ...done], season, width);
}

/**
 * What was done on a day, as far as it goes into `width` columns: `sown 10, moved 7`; or that nobody came.
 * @param more stands behind where something was left out
 */
export function dayWords(film: Film, day: number, width = Number.POSITIVE_INFINITY, more = ''): string {
  const frame = frameOf(film, day);
  const deeds = deedsOf(film.workAt(frame));
  if (deeds.length > 0) {
    const all = deeds.length;
    const words = (): string => `${deeds.join(', ')}${deeds.length < all ? ` ${more}` : ''}`;
    while (deeds.length > 1 && words().length > width) deeds.pop();
    return words();
  }
  if (frame === film.days) return 'the season is over';
  return film.isVisit(frame) ? 'a visit, nothing to do' : 'no visit';
}

function deedsOf({ sown, moved, picked, discarded, cleared }: WorkDone): string[] {
  const deeds: [string, number][] = [
    ['sown', sown],
    ['moved', moved.reduce((sum, plants) => sum + plants, 0)],
    ['picked', picked],
    ['thrown away', discarded],
    ['cleared', cleared],
  ];
  return deeds.filter(([, count]) => count > 0).map(([words, count]) => `${words} ${thousands(count)}`);
}
