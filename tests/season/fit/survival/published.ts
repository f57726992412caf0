/** Public survival data, as printed in their sources; the checks that use them name who computed what. */

import type { Censored } from '../../../../sim/season/fit/survival/sample.js';

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

/**
 * Days; the data set `lung` of R's survival package (Loprinzi, C. L. et al. (1994), Journal of Clinical Oncology
 * 12:601-607): 165 of 228 died.
 */
export const LUNG = times(
  [
    '306 455 1010+ 210 883 1022+ 310 361 218 166 170 654 728 71 567 144 613 707 61 88 301 81 624 371 394',
    '520 574 118 390 12 473 26 533 107 53 122 814 965+ 93 731 460 153 433 145 583 95 303 519 643 765 735',
    '189 53 246 689 65 5 132 687 345 444 223 175 60 163 65 208 821+ 428 230 840+ 305 11 132 226 426 705',
    '363 11 176 791 95 196+ 167 806+ 284 641 147 740+ 163 655 239 88 245 588+ 30 179 310 477 166 559+ 450',
    '364 107 177 156 529+ 11 429 351 15 181 283 201 524 13 212 524 288 363 442 199 550 54 558 207 92 60',
    '551+ 543+ 293 202 353 511+ 267 511+ 371 387 457 337 201 404+ 222 62 458+ 356+ 353 163 31 340 229',
    '444+ 315+ 182 156 329 364+ 291 179 376+ 384+ 268 292+ 142 413+ 266+ 194 320 181 285 301+ 348 197',
    '382+ 303+ 296+ 180 186 145 269+ 300+ 284+ 350 272+ 292+ 332+ 285 259+ 110 286 270 81 131 225+ 269',
    '225+ 243+ 279+ 276+ 135 79 59 240+ 202+ 235+ 105 224+ 239 237+ 173+ 252+ 221+ 185+ 92+ 13 222+ 192+',
    '183 211+ 175+ 197+ 203+ 116 188+ 191+ 105+ 174+ 177+',
  ].join(' '),
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
