/** The last row: a question, a message, or the keys. */

import { tail } from '../../render/width.js';
import { GROUPS } from '../state/keys.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { cut, RowWriter, rowWidth, span } from './rows.js';

export type FootState = Pick<State, 'cover' | 'note'>;

export function footRow({ cover, note }: FootState, width: number, signs: Signs): Row {
  switch (cover.kind) {
    case 'name': {
      const keys = '  Enter: write it. Escape: leave it.';
      const before = 'Save as: ';
      return [
        span(before, 'strong'),
        span(tail(cut(cover.text, Infinity), width - before.length - keys.length - 1)),
        span(signs.caret, 'strong'),
        span(keys, 'faint'),
      ];
    }
    case 'over': {
      const question = ' is there already. Write over it?  y: yes  n: no';
      return [
        span(tail(cut(cover.text, Infinity), width - question.length), 'strong'),
        span(question, 'warn'),
      ];
    }
    default:
      return note === null ? keysRow(width) : [span(cut(note, width, signs.more), 'warn')];
  }
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
