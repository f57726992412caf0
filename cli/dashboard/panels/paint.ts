/** A row of pieces as a text with the escape codes of its colours, or without any. */

import { type Color, type Meaning, type Row, TEXT_STYLES, type TextStyle } from '../theme.js';

/** Select Graphic Rendition, ECMA-48. */
const COLORS: Readonly<Record<Color, number>> = {
  red: 31,
  green: 32,
  yellow: 33,
  magenta: 35,
  cyan: 36,
  blueBright: 94,
};

const OPENINGS = Object.fromEntries(
  Object.entries(TEXT_STYLES).map(([meaning, look]) => [meaning, opening(look)]),
) as Readonly<Record<Meaning, string>>;

const CLOSING = '\u001b[0m';

function opening({ color, bold, dim, inverse }: TextStyle): string {
  const codes = [
    ...(bold ? [1] : []),
    ...(dim ? [2] : []),
    ...(inverse ? [7] : []),
    ...(color === undefined ? [] : [COLORS[color]]),
  ];
  return codes.map((code) => `\u001b[${code}m`).join('');
}

export function painted(row: Row, colour: boolean): string {
  let text = '';
  for (const span of row) {
    const open = colour && span.text.trim() !== '' ? OPENINGS[span.meaning] : '';
    text += open === '' ? span.text : `${open}${span.text}${CLOSING}`;
  }
  return text;
}
