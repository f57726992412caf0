/** Columns that a text takes on the screen, and as much of it as goes into so many. */

import { isObeyed } from './obeyed.js';

/**
 * First and last of the code points that take two columns (Unicode, East Asian Width W and F), without emoji.
 */
const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2329, 0x232a],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0xa4cf],
  [0xa960, 0xa97c],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe10, 0xfe19],
  [0xfe30, 0xfe6f],
  [0xff01, 0xff60],
  [0xffe0, 0xffe6],
  [0x16fe0, 0x18cff],
  [0x1aff0, 0x1b2ff],
  [0x1f200, 0x1f2ff],
  [0x20000, 0x3fffd],
];

/** Made when a text first needs it: most are narrow, and making it is felt at every start. */
let segmenter: Intl.Segmenter | null = null;

function lettersOf(text: string): Intl.Segments {
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  return segmenter.segment(text);
}

/** One column each, whatever stands beside them: ASCII, Latin, and the signs that we draw with. */
const NARROW = /^[ -~\u00a0-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u21ff\u2500-\u25fc]*$/;
/** Controls, marks on other letters, and the later parts of Korean syllables. */
const WITHOUT_WIDTH = /^[\p{Cc}\p{Cf}\p{Mn}\p{Me}\p{Default_Ignorable_Code_Point}\u1160-\u11ff]/u;
const EMOJI = /^\p{Emoji_Presentation}|\ufe0f|^\p{Regional_Indicator}{2}/u;

/**
 * Columns that a text takes on the screen, as terminals count them: code point by code point, but an emoji as
 * one.
 */
export function widthOf(text: string): number {
  if (NARROW.test(text)) return text.length;
  let width = 0;
  for (const { segment } of lettersOf(text)) width += letterWidth(segment);
  return width;
}

function letterWidth(letter: string): number {
  if (EMOJI.test(letter)) return 2;
  let width = 0;
  for (const sign of letter) {
    const shown = isObeyed(sign);
    if (WITHOUT_WIDTH.test(sign) && !shown) continue;
    const code = sign.codePointAt(0)!;
    width += WIDE.some(([from, to]) => from <= code && code <= to) ? 2 : 1;
  }
  return width;
}

/** As much of a text as goes into `width` columns. */
export function head(text: string, width: number): string {
  if (NARROW.test(text)) return text.slice(0, Math.max(0, width));
  let taken = '';
  let room = width;
  for (const { segment } of lettersOf(text)) {
    room -= letterWidth(segment);
    if (room < 0) break;
    taken += segment;
  }
  return taken;
}

/** As much of the end of a text as goes into `width` columns. */
export function tail(text: string, width: number): string {
  if (NARROW.test(text)) return width <= 0 ? '' : text.slice(-width);
  let taken = '';
  let room = width;
  for (const { segment } of [...lettersOf(text)].reverse()) {
    room -= letterWidth(segment);
    if (room < 0) break;
    taken = segment + taken;
  }
  return taken;
}

/** A text with blanks behind it, `width` columns in all. */
export function padEnd(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - widthOf(text)));
}

/** The same with the blanks before it. */
export function padStart(text: string, width: number): string {
  return ' '.repeat(Math.max(0, width - widthOf(text))) + text;
}
