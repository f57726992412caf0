/**
 * What a burst of input asks for: terminals hand over several characters at once when somebody types fast or
 * pastes.
 */

import { actionFor, type Press } from '../state/keys.js';
import { type Action, reduce, type State } from '../state/state.js';

const ENTER = '\r';
const TAB = '\t';
const RUB_OUT = /^[\u007f\b]$/;

/** The actions of one burst, in order; each key is looked up in the state that the ones before it lead to. */
export function actionsFor(press: Press, state: State): Action[] {
  const letters = [...press.input];
  if (press.ctrl === true || letters.length < 2) return actionOf(press, state);
  // A question is not answered by something that was pasted.
  if (state.cover.kind === 'over' || state.cover.kind === 'leave') return [];
  const actions: Action[] = [];
  let now = state;
  letters.forEach((letter, i) => {
    for (const action of actionOf(pressOf(letter, press, i === letters.length - 1, now), now)) {
      actions.push(action);
      now = reduce(now, action);
    }
  });
  return actions;
}

function actionOf(press: Press, state: State): Action[] {
  const action = actionFor(press, state);
  return action === null ? [] : [action];
}

/** A letter of a burst as the press of a key. */
function pressOf(letter: string, press: Press, isLast: boolean, { cover }: State): Press {
  if (RUB_OUT.test(letter)) return { input: '', backspace: true };
  if (letter === TAB) return { input: '', tab: true };
  if (letter !== ENTER) return { ...press, input: letter };
  // Enter ends what is typed only as the last key: a pasted text of several lines is no name with keys behind it.
  const isTyping = cover.kind === 'name' || cover.kind === 'value';
  return isTyping && !isLast ? { input: '' } : { input: '', return: true };
}
