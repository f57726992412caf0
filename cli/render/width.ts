/** Columns that a text takes on the screen, and as much of it as goes into so many. */

import { eastAsianWidth } from 'get-east-asian-width';
import { isObeyed } from './obeyed.js';

/** Made when a text first needs it: most are narrow, and making it takes 30 ms, which would be felt at every start. */
let segmenter: Intl.Segmenter | null = null;

/** One column each, whatever stands beside them: ASCII, Latin, and the signs that we draw with. */
const NARROW = /^[ -~\u00a0-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u21ff\u2500-\u25fc]*$/;

/** Whether each code unit of a text is a letter of one column. */
export function isNarrow(text: string): boolean {
  return NARROW.test(text);
}

/** What a text is made of, as readers see it: letters with the marks on them, an emoji as one. */
export function lettersOf(text: string): readonly string[] {
  if (isNarrow(text)) return text.split('');
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  return Array.from(segmenter.segment(text), ({ segment }) => segment);
}

/** Controls, marks on other letters, and the later parts of Korean syllables. */
const WITHOUT_WIDTH = /^[\p{Cc}\p{Cf}\p{Mn}\p{Me}\p{Default_Ignorable_Code_Point}\u1160-\u11ff]/u;
const EMOJI = /^\p{Emoji_Presentation}|\ufe0f|^\p{Regional_Indicator}{2}/u;

/**
 * Columns that a text takes on the screen, as terminals count them: code point by code point, but an emoji as one. Which code points
 * are wide (Unicode, East Asian Width) is told by the package that ink has it from, too.
 */
export function widthOf(text: string): number {
  if (isNarrow(text)) return text.length;
  return lettersOf(text).reduce((sum, letter) => sum + letterWidth(letter), 0);
}

function letterWidth(letter: string): number {
  if (EMOJI.test(letter)) return 2;
  let width = 0;
  for (const sign of letter) {
    if (WITHOUT_WIDTH.test(sign) && !isObeyed(sign)) continue;
    width += eastAsianWidth(sign.codePointAt(0)!);
  }
  return width;
}

/** As much of a text as goes into `width` columns. */
export function head(text: string, width: number): string {
  if (isNarrow(text)) return text.slice(0, Math.max(0, width));
  return lettersThatFit(lettersOf(text), width).join('');
}

/** As much of the end of a text as goes into `width` columns. */
export function tail(text: string, width: number): string {
  if (isNarrow(text)) return width <= 0 ? '' : text.slice(-width);
  return lettersThatFit([...lettersOf(text)].reverse(), width)
    .reverse()
    .join('');
}

function lettersThatFit(letters: readonly string[], width: number): string[] {
  let room = width;
  const end = letters.findIndex((letter) => {
    room -= letterWidth(letter);
    return room < 0;
  });
  return letters.slice(0, end < 0 ? letters.length : end);
}

/** A text with blanks behind it, `width` columns in all. */
export function padEnd(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - widthOf(text)));
}

/** The same with the blanks before it. */
export function padStart(text: string, width: number): string {
  return ' '.repeat(Math.max(0, width - widthOf(text))) + text;
}
