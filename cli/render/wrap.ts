/** Sentences, and other things that stand in a row, broken into lines. */

import { TIE } from '../words/numbers.js';
import { head, widthOf } from './width.js';

/** A space, but not within a large number or before a percent sign: no line ends there. */
const BETWEEN_WORDS = / (?!%|(?<=(?<!\d)\d{1,3}(?: \d{3})* )\d{3}(?!\d))/;

/**
 * The lines of a text, each of at most `width` columns: broken between words, and within a word only if it is longer than a
 * line. A no-break space ties two words; it reads as a space.
 * @param whole leave such a word in one piece, since it is the name of a file
 */
export function wrapped(text: string, width: number, whole = false): string[] {
  const words = text.split(BETWEEN_WORDS);
  return packed(whole ? words : words.flatMap((word) => pieces(word, width)), width, ' ');
}

/**
 * As many in a line as fit, none broken.
 * @param hanging before each line but the first
 */
export function packed(parts: readonly string[], width: number, between: string, hanging = ''): string[] {
  const lines: string[] = [];
  let line = '';
  for (const part of parts) {
    if (line !== '' && widthOf(line) + widthOf(between) + widthOf(part) > width) {
      lines.push(line);
      line = hanging + part;
    } else line += line === '' ? part : between + part;
  }
  return [...lines, line].map((one) => one.replaceAll(TIE, ' '));
}

/** A word in pieces of at most `width` columns, at least one letter each. */
function pieces(word: string, width: number): string[] {
  const all: string[] = [];
  let rest = word;
  while (widthOf(rest) > width) {
    const piece = head(rest, width) || [...rest][0]!;
    if (piece === rest) break;
    all.push(piece);
    rest = rest.slice(piece.length);
  }
  return [...all, rest];
}
