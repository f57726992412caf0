/** The last row: a question, a message, or the keys. */

import { widthOf } from '../../render/width.js';
import { GROUPS } from '../state/keys.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { cut, piece, RowWriter, rowWidth } from './rows.js';

export type FootState = Pick<State, 'cover' | 'note'>;

export function footRow({ cover, note }: FootState, width: number, signs: Signs): Row {
  switch (cover.kind) {
    case 'name': {
      const keys = '  Enter: write it. Escape: leave it.';
      const before = 'Save as: ';
      return [
        piece(before, 'strong'),
        piece(lastPart(cover.text, width - before.length - keys.length - 1)),
        piece(signs.caret, 'strong'),
        piece(keys, 'faint'),
      ];
    }
    case 'over': {
      const question = ' is there already. Write over it?  y: yes  n: no';
      return [piece(lastPart(cover.text, width - question.length), 'strong'), piece(question, 'warn')];
    }
    default:
      return note === null ? keysRow(width) : [piece(cut(note, width, signs.more), 'warn')];
  }
}

/** As much of the end of a name as goes into `width` columns. */
function lastPart(text: string, width: number): string {
  const line = cut(text, text.length * 2);
  let letters = [...line];
  while (letters.length > 0 && widthOf(letters.join('')) > width) letters = letters.slice(1);
  return letters.join('');
}

/** The keys that most need to be known; how to leave and where help is are never left out. */
function keysRow(width: number): Row {
  const all = GROUPS.flatMap(({ bindings }) => bindings).flatMap(({ keys, foot }) =>
    foot === undefined ? [] : [{ keys: short(keys), foot }],
  );
  const last = all.slice(-2);
  const shown = all.slice(0, -2);
  const written = (): Row => {
    const writer = new RowWriter();
    [...shown, ...last].forEach(({ keys, foot }, i) => {
      if (i > 0) writer.put('   ');
      writer.put(keys, 'strong');
      writer.put(` ${foot}`, 'faint');
    });
    return writer.row();
  };
  while (shown.length > 0 && rowWidth(written()) > width) shown.pop();
  return written();
}

/** `left, right` as `left right`. */
function short(keys: string): string {
  return keys.replaceAll(',', '');
}
