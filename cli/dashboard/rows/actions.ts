/**
 * What a burst of input asks for: terminals hand over several characters at once when somebody types fast or
 * pastes.
 */

import { actionFor, type Press } from '../state/keys.js';
import { type Action, reduce, type State } from '../state/state.js';

const ENTER = '\r';
const RUB_OUT = /^[\u007f\b]$/;

/** The actions of one burst, in order; each key is looked up in the state that the ones before it lead to. */
export function actionsFor(press: Press, state: State): Action[] {
  const actions: Action[] = [];
  let now = state;
  for (const one of pressesOf(press, state)) {
    const action = actionFor(one, now);
    if (action === null) continue;
    actions.push(action);
    now = reduce(now, action);
  }
  return actions;
}

function pressesOf(press: Press, state: State): Press[] {
  const letters = [...press.input];
  if (press.ctrl === true || letters.length < 2) return [press];
  // A question whether to write over a file is not answered by something that was pasted.
  if (state.cover.kind === 'over') return [];
  if (state.cover.kind !== 'name') return letters.map((input) => ({ ...press, input }));
  return letters.flatMap((input, i): Press[] => {
    if (RUB_OUT.test(input)) return [{ input: '', backspace: true }];
    // Enter ends a name only as the last key: a pasted text of several lines is no name with keys behind it.
    if (input === ENTER) return i === letters.length - 1 ? [{ input: '', return: true }] : [];
    return [{ input }];
  });
}
