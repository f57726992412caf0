/** Public survival data, as printed in their sources; the checks that use them name who computed what. */

import type { Censored } from '../../../sim/season/survival/sample.js';

/** Weeks of remission; `+` behind those that were still in remission when last seen. */
const times = (text: string): { time: number; ended: boolean }[] =>
  text.split(' ').map((word) => ({ time: Number.parseFloat(word), ended: !word.endsWith('+') }));

/**
 * Freireich, E. J. et al. (1963), "The effect of 6-mercaptopurine ...", Blood 21:699-716: 9 of 21 and 21 of
 * 21 relapsed.
 */
export const SIX_MP = times('6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+');
export const PLACEBO = times('1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23');

/** Days; the data set `ovarian` of R's survival package (Edmunson et al. 1979): 12 of 26 died. */
export const OVARIAN = times(
  '59 115 156 421+ 431 448+ 464 475 477+ 563 638 744+ 769+ 770+ 803+ 855+ 1040+ 1106+ 1129+ 1206+ 1227+ 268 329 353 365 377+',
);

/** Times that are known exactly or only from below. */
export function asSample(data: readonly { time: number; ended: boolean }[]): Censored[] {
  return data.map(({ time, ended }) => ({ from: time, to: ended ? time : Infinity, count: 1 }));
}

const between = (from: number, to: number, count = 1): Censored => ({ from, to, count });

/** Twenty plants seen every three days. */
export const EVERY_THREE_DAYS = [
  between(15, 18),
  between(18, 21, 3),
  between(21, 24, 6),
  between(24, 27, 6),
  between(27, 30, 2),
  between(27, Infinity),
  between(30, Infinity),
];

/** Twelve plants with intervals that overlap. */
export const OVERLAPPING = [
  between(0, 7),
  between(5, 8),
  between(6, 10),
  between(8, 12),
  between(8, 11),
  between(9, 13),
  between(10, 14),
  between(11, 15),
  between(12, 18),
  between(14, 17),
  between(15, Infinity),
  between(20, Infinity),
];

/** Eleven: some known exactly, some to lie between, some only from below. */
export const MIXED = [
  ...[20, 21.5, 23, 24, 28].map((time) => between(time, time)),
  between(24, 27),
  between(25, 28),
  between(21, 24),
  between(18, 21),
  between(27, Infinity),
  between(30, Infinity),
];
