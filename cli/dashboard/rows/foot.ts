/** The last row: a question, what is being typed, a message, or the keys that do something now. */

import { tail, widthOf } from '../../render/width.js';
import { hintsOf, type KeyState } from '../state/keys.js';
import { knobsOf } from '../state/knobs.js';
import { lossOf, savedAs } from '../state/saving.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { cut, RowWriter, rowWidth, span } from './rows.js';

export type FootState = KeyState & Pick<State, 'cover' | 'note' | 'opened' | 'saving' | 'written'>;

export function footRow(state: FootState, width: number, signs: Signs): Row {
  const { cover, note } = state;
  switch (cover.kind) {
    case 'name':
      return typingRow('Save as: ', cover.text, nameHints(cover.text), width, signs);
    case 'value': {
      const { label, value } = knobsOf(state.scenario)[state.knob]!;
      const before = `${label}, now ${value(state.scenario)}: `;
      return typingRow(
        before,
        cover.text,
        ['Enter: take it. Escape: leave it.', 'Enter, Escape'],
        width,
        signs,
      );
    }
    case 'over':
      return questionRow(cover.wish.path, ' is there already. Write over it?', width);
    case 'leave':
      return questionRow(lossOf(state) ?? '', ' Leave?', width);
    case 'help':
      return [span(cut('Any key closes this help. Ctrl-C leaves.', width), 'faint')];
    case 'none':
      return note === null ? keysRow(state, width, signs) : [span(cut(note, width, signs.more), 'warn')];
  }
}

/** What Enter would write, from the longest to the shortest words. */
function nameHints(text: string): string[] {
  switch (savedAs(text)) {
    case 'text':
      return ['Enter: the plans side by side, as text. Escape: none.', 'Enter: strip as text. Escape'];
    case 'csv':
      return ['Enter: the plans side by side, as CSV. Escape: none.', 'Enter: strip as CSV. Escape'];
    default:
      return [
        'Enter: the plan (.txt, .csv: the strip). Escape: none.',
        'Enter: the plan (.txt .csv: strip). Escape',
        'Enter, Escape',
      ];
  }
}

/** Columns in which what is typed can be seen, at least. */
const LEAST_TYPED = 10;

/** Of what is typed the end is seen, where one types; what stands before and behind it gives way. */
function typingRow(before: string, text: string, hints: readonly string[], width: number, signs: Signs): Row {
  const typed = cut(text, Infinity);
  const wish = Math.max(LEAST_TYPED, widthOf(typed)) + 1;
  const label = cut(before, Math.max(9, width - LEAST_TYPED - 1), signs.more);
  const left = width - widthOf(label);
  const hint = hints.find((words) => widthOf(words) + 2 <= left - wish) ?? hints.at(-1)!;
  const isRoom = widthOf(hint) + 2 + LEAST_TYPED + 1 <= left;
  const room = left - 1 - (isRoom ? widthOf(hint) + 2 : 0);
  return [
    span(label, 'strong'),
    span(tail(typed, room)),
    span(signs.caret, 'strong'),
    ...(isRoom ? [span(`  ${hint}`, 'faint')] : []),
  ];
}

function questionRow(about: string, question: string, width: number): Row {
  const asked = `${question}  y: yes  n: no`;
  return [span(tail(cut(about, Infinity), width - asked.length), 'strong'), span(asked, 'warn')];
}

/** The keys that most need to be known now, and a mark where some have no room; where help is and how to leave are never left out. */
function keysRow(state: FootState, width: number, signs: Signs): Row {
  const { first, last } = hintsOf(state);
  const written = (count: number): Row => {
    const writer = new RowWriter();
    const put = (keys: string, words: string): void => {
      writer.put(keys, 'strong');
      writer.put(words, 'faint');
    };
    for (const [keys, words] of first.slice(0, count)) put(keys, ` ${words}  `);
    if (count < first.length) writer.put(`${signs.more}  `, 'faint');
    last.forEach(([keys, words], i) => {
      put(keys, ` ${words}${i === last.length - 1 ? '' : '  '}`);
    });
    return writer.row();
  };
  let count = first.length;
  while (count > 0 && rowWidth(written(count)) > width) count--;
  return written(count);
}
