/**
 * What can be wrong with a text before it is worth parsing as YAML.
 *
 * The limits keep a hostile file from costing more than some seconds: the YAML parser calls itself for every level
 * of nesting and, given enough levels, takes the whole process down instead of throwing.
 */

import { type Fault, faultAt } from './faults.js';

/** Longest text [characters]. A scenario has some thousands. */
const MOST_CHARACTERS = 1_000_000;
/** Most brackets open at once, and most columns of indentation. A scenario needs 5 of the one, 12 of the other. */
const MOST_NESTING = 100;
const MOST_INDENT = 200;

// biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is the purpose
const NOT_TEXT = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F\uFFFD]/;

/** The first fault of a text that should not be parsed; null if it may be. Expects a text without a byte order mark. */
export function textFault(text: string): Fault | null {
  if (text.length > MOST_CHARACTERS) {
    return faultIn(text, 0, `a text of ${text.length} characters`, `at most ${MOST_CHARACTERS} characters`);
  }
  const odd = NOT_TEXT.exec(text);
  if (odd !== null) {
    const code = odd[0].codePointAt(0) as number;
    const found =
      code === 0xfffd ? 'bytes that are not UTF-8' : `a character that is not text (code ${code})`;
    return faultIn(text, odd.index, found, 'a text file in UTF-8', 'Save the file as plain text in UTF-8.');
  }
  const deep = tooDeepAt(text);
  if (deep === -1) return null;
  return faultIn(
    text,
    deep,
    'brackets or lists nested too deep',
    'at most 100 levels',
    'Is a closing bracket missing?',
  );
}

/** Place at which maps and lists nest deeper than any scenario; -1 if nowhere. */
function tooDeepAt(text: string): number {
  // Brackets in quotes and comments count too: to be refused, a text needs a hundred more that open than close.
  let open = 0;
  for (let at = 0; at < text.length; at++) {
    const sign = text[at];
    if (sign === '[' || sign === '{') open++;
    else if ((sign === ']' || sign === '}') && open > 0) open--;
    if (open > MOST_NESTING) return at;
  }
  // Block maps and lists: every level costs a column of spaces, or of the signs that start an item, a key or a value.
  let lineStart = 0;
  for (const line of text.split('\n')) {
    const lead = /^[ \t\-?:]*/.exec(line)?.[0].length ?? 0;
    if (lead > MOST_INDENT && line.trim() !== '') return lineStart + MOST_INDENT;
    lineStart += line.length + 1;
  }
  return -1;
}

function faultIn(text: string, at: number, found: string, expected: string, advice?: string): Fault {
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  const column = at - before.lastIndexOf('\n');
  return faultAt({ line, column }, { path: [], found, expected, advice });
}
