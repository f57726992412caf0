/** Sentences broken into lines. */

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
  const lines: string[] = [];
  let line = '';
  let columns = 0;
  for (const word of text.split(BETWEEN_WORDS).flatMap((word) => (whole ? [word] : pieces(word, width)))) {
    const more = widthOf(word);
    if (line !== '' && columns + 1 + more > width) {
      lines.push(line);
      line = '';
      columns = 0;
    }
    columns += more + (line === '' ? 0 : 1);
    line += line === '' ? word : ` ${word}`;
  }
  lines.push(line);
  return lines.map((one) => one.replaceAll(TIE, ' '));
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
