/** The first rows: which line, which season, which day, and what was done that day. */

import { isoOfDay } from '../../../sim/models/dates.js';
import type { Dealt, Film } from '../../../sim/study/film/film.js';
import { dateText } from '../../words/dates.js';
import { thousands } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { frameOf } from './film.js';
import { apart, cut, fittedRow, piece, rowWidth } from './rows.js';
import { motionWords, seasonWords } from './words.js';

export type HeadState = Pick<
  State,
  'scenario' | 'day' | 'lastDay' | 'real' | 'season' | 'playing' | 'stride'
>;

export interface HeadInput {
  readonly state: HeadState;
  readonly film: Film | null;
  readonly width: number;
  /** 1 or 2 rows. */
  readonly height: 1 | 2;
  readonly signs: Signs;
}

export function headRows({ state, film, width, height, signs }: HeadInput): Row[] {
  const { scenario, day, lastDay } = state;
  const date: Row = [
    piece(dateText(isoOfDay(scenario.start, day)), 'strong'),
    piece(`  day ${day} of ${lastDay}  `),
  ];
  const season: Row = [
    piece(`${seasonWords(state)} ${signs.dot} `, 'faint'),
    piece(motionWords(state), state.playing === 0 ? 'faint' : 'strong'),
  ];
  if (height === 1) return [apart(date, season, width)];
  const title = cut(scenario.title, Math.max(0, width - rowWidth(season) - 2), signs.more);
  const done: Row = film === null ? [] : [piece(dayWords(film, day, width - rowWidth(date)))];
  return [apart([piece(title, 'strong')], season, width), fittedRow([...date, ...done], width)];
}

/**
 * What was done on a day, as far as it goes into `width` columns: `sown 10, moved 7`; or that nobody came.
 */
export function dayWords(film: Film, day: number, width = Number.POSITIVE_INFINITY): string {
  const frame = frameOf(film, day);
  const deeds = deedsOf(film.dealtAt(frame));
  if (deeds.length > 0) {
    while (deeds.length > 1 && deeds.join(', ').length > width) deeds.pop();
    return deeds.join(', ');
  }
  if (frame === film.days) return 'the season is over';
  return film.isVisit(frame) ? 'a visit, nothing to do' : 'no visit';
}

function deedsOf({ sown, moved, picked, discarded, cleared }: Dealt): string[] {
  const deeds: [string, number][] = [
    ['sown', sown],
    ['moved', moved.reduce((sum, plants) => sum + plants, 0)],
    ['picked', picked],
    ['thrown away', discarded],
    ['cleared', cleared],
  ];
  return deeds.filter(([, count]) => count > 0).map(([words, count]) => `${words} ${thousands(count)}`);
}
