/** The keys: one table of what each does, from which the help is drawn, so that the help cannot lie. */

import type { Key } from 'ink';
import type { Action, State } from './state.js';

/** What a terminal hands over for one key press: characters that were typed or pasted, none for keys without one. */
export type Press = Partial<Key> & { readonly input: string };

type Special = Exclude<keyof Key, 'ctrl' | 'meta' | 'eventType'>;

export interface Binding {
  /** How the keys are written in the help. */
  readonly keys: string;
  readonly words: string;
  /** Short words for the line at the foot; left out where there is none. */
  readonly foot?: string | undefined;
  readonly inputs?: readonly string[];
  readonly specials?: readonly Special[];
  action(press: Press): Action;
}

/** A key that always asks for the same. @param input what is typed, where it is not what stands in the help */
function one(keys: string, words: string, action: Action, foot?: string, input = keys): Binding {
  return { keys, words, foot, inputs: [input], action: () => action };
}

/** Bindings in groups, in the order of the help. */
export const GROUPS: readonly { readonly title: string; readonly bindings: readonly Binding[] }[] = [
  {
    title: 'The days',
    bindings: [
      one('space', 'let the season run, and stop it', { type: 'play', direction: 1 }, 'run', ' '),
      one('b', 'let it run backward', { type: 'play', direction: -1 }),
      {
        keys: 'left, right',
        words: 'a day back, a day on',
        foot: 'day',
        specials: ['leftArrow', 'rightArrow'],
        action: ({ leftArrow }) => ({ type: 'step', days: leftArrow ? -1 : 1 }),
      },
      {
        keys: 'page up, down',
        words: 'a week back, a week on',
        specials: ['pageUp', 'pageDown'],
        action: ({ pageUp }) => ({ type: 'step', days: pageUp ? -7 : 7 }),
      },
      {
        keys: 'home, end',
        words: 'first day, last day',
        specials: ['home', 'end'],
        action: ({ home }) => ({ type: 'go', to: home ? 'start' : 'end' }),
      },
      one('w', 'run by days or by weeks', { type: 'stride' }),
      {
        keys: 'n, m',
        words: 'a season back, a season on: other luck',
        inputs: ['n', 'm'],
        action: ({ input }) => ({ type: 'season', by: input === 'n' ? -1 : 1 }),
      },
      one('l', 'the logged season, or a simulated one', { type: 'real' }),
    ],
  },
  {
    title: 'The plan',
    bindings: [
      one('c', 'what the plans side by side differ in', { type: 'about', by: 1 }, 'compare'),
      {
        keys: 'up, down',
        words: 'choose what to change',
        foot: 'choose',
        specials: ['upArrow', 'downArrow'],
        action: ({ upArrow }) => ({ type: 'knob', by: upArrow ? -1 : 1 }),
      },
      {
        keys: '+ -',
        words: 'more, less',
        foot: 'change',
        inputs: ['+', '=', '-', '_'],
        action: ({ input }) => ({ type: 'turn', by: input === '+' || input === '=' ? 1 : -1 }),
      },
      {
        keys: '1 to 7',
        words: 'a weekday in or out, Monday to Sunday',
        inputs: ['1', '2', '3', '4', '5', '6', '7'],
        action: ({ input }) => ({ type: 'weekday', day: Number(input) - 1 }),
      },
      one('u', 'undo the last change', { type: 'undo' }, 'undo'),
      one('r', 'bring back what was undone', { type: 'redo' }),
      one('k', 'keep this plan beside the others', { type: 'keep' }, 'keep'),
      one('x', 'swap with the oldest kept plan', { type: 'swap' }),
      one('d', 'drop the last kept plan', { type: 'drop' }),
      one('s', 'save the plan as a scenario file', { type: 'save' }, 'save'),
    ],
  },
  {
    title: 'The program',
    bindings: [
      one('?', 'this help', { type: 'help' }, 'help'),
      one('q, Ctrl-C', 'leave', { type: 'quit' }, 'leave', 'q'),
    ],
  },
];

const BINDINGS = GROUPS.flatMap(({ bindings }) => bindings);

/** What a key press asks for; null if nothing. */
export function actionFor(press: Press, state: State): Action | null {
  if (press.ctrl) return press.input === 'c' ? { type: 'quit' } : null;
  switch (state.cover.kind) {
    case 'name':
      return whileNaming(press);
    case 'over':
      if (press.input === 'y') return { type: 'accept' };
      return press.input === 'n' || press.escape ? { type: 'refuse' } : null;
    case 'help':
      return press.input === 'q' ? { type: 'quit' } : { type: 'help' };
    case 'none':
      return bound(press);
  }
}

function whileNaming(press: Press): Action | null {
  if (press.return) return { type: 'accept' };
  if (press.escape) return { type: 'refuse' };
  if (press.backspace || press.delete) return { type: 'erase' };
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are what must not get into a file name
  const text = press.input.replace(/[\u0000-\u001f\u007f]/g, '');
  return text === '' || press.meta ? null : { type: 'text', text };
}

function bound(press: Press): Action | null {
  const binding = BINDINGS.find(
    ({ inputs = [], specials = [] }) =>
      (!press.meta && inputs.includes(press.input)) || specials.some((special) => press[special] === true),
  );
  return binding?.action(press) ?? null;
}
