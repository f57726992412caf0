/** A row of pieces as a text with the escape codes of its colours, or without any. */

import { COLOURS, type Colours, type Meaning, type Row, TEXT_STYLES, type TextStyle } from '../theme.js';

type Looks = Readonly<Record<Meaning, string>>;

const LOOKS: Readonly<Record<Exclude<Colours, 0>, Looks>> = { 16: looks(16), 256: looks(256) };

function looks(colours: 16 | 256): Looks {
  const all = Object.entries<TextStyle>(TEXT_STYLES).map(([meaning, { colour, bold, inverse }]) => [
    meaning,
    [bold ? '1' : '', inverse ? '7' : '', colour === undefined ? '' : COLOURS[colour][colours]]
      .filter((code) => code !== '')
      .join(';'),
  ]);
  return Object.fromEntries(all) as Looks;
}

/** Select Graphic Rendition, ECMA-48; 0 ends what was before. */
const sequence = (codes: string): string => `\u001b[${codes}m`;

/**
 * Blanks at the end are left out, and there is one sequence from each look to the next: ink takes a row apart with every frame, escape
 * codes sign by sign.
 */
export function painted(row: Row, colours: Colours): string {
  if (colours === 0) {
    return row
      .map(({ text }) => text)
      .join('')
      .trimEnd();
  }
  let painted = '';
  let now = '';
  for (const { text, meaning } of row) {
    const look = LOOKS[colours][meaning];
    // Of blanks a colour is not seen, but that they are turned round.
    if (look !== now && (text.trim() !== '' || now === LOOKS[colours].chosen)) {
      painted += sequence(now === '' ? look : look === '' ? '0' : `0;${look}`);
      now = look;
    }
    painted += text;
  }
  return `${painted.trimEnd()}${now === '' ? '' : sequence('0')}`;
}
