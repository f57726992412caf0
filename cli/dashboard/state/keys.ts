/** The keys: one table of what each does, from which the help is drawn, so that the help cannot lie. */

import type { Action, State } from './state.js';

/** What a terminal hands over for one key press. The names are those of ink's `useInput`. */
export interface Press {
  /** Characters that were typed or pasted; empty for keys without one. */
  readonly input: string;
  readonly upArrow?: boolean;
  readonly downArrow?: boolean;
  readonly leftArrow?: boolean;
  readonly rightArrow?: boolean;
  readonly pageUp?: boolean;
  readonly pageDown?: boolean;
  readonly home?: boolean;
  readonly end?: boolean;
  readonly return?: boolean;
  readonly escape?: boolean;
  readonly backspace?: boolean;
  readonly delete?: boolean;
  readonly ctrl?: boolean;
  readonly meta?: boolean;
}

type Special = Exclude<keyof Press, 'input' | 'ctrl' | 'meta'>;

export interface Binding {
  /** How the keys are written in the help. */
  readonly keys: string;
  readonly words: string;
  /** Short words for the line at the foot; left out where there is none. */
  readonly foot?: string;
  readonly inputs?: readonly string[];
  readonly specials?: readonly Special[];
  action(press: Press): Action;
}

const always =
  (action: Action): (() => Action) =>
  () =>
    action;

/** Bindings in groups, in the order of the help. */
export const GROUPS: readonly { readonly title: string; readonly bindings: readonly Binding[] }[] = [
  {
    title: 'The days',
    bindings: [
      {
        keys: 'space',
        words: 'let the season run, and stop it',
        foot: 'run',
        inputs: [' '],
        action: always({ type: 'play', direction: 1 }),
      },
      {
        keys: 'b',
        words: 'let it run backward',
        inputs: ['b'],
        action: always({ type: 'play', direction: -1 }),
      },
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
      { keys: 'w', words: 'run by days or by weeks', inputs: ['w'], action: always({ type: 'stride' }) },
      {
        keys: 'n, m',
        words: 'a season back, a season on: other luck',
        inputs: ['n', 'm'],
        action: ({ input }) => ({ type: 'season', by: input === 'n' ? -1 : 1 }),
      },
      {
        keys: 'l',
        words: 'the logged season, or a simulated one',
        inputs: ['l'],
        action: always({ type: 'real' }),
      },
    ],
  },
  {
    title: 'The plan',
    bindings: [
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
      {
        keys: 'u',
        words: 'undo the last change',
        foot: 'undo',
        inputs: ['u'],
        action: always({ type: 'undo' }),
      },
      { keys: 'r', words: 'bring back what was undone', inputs: ['r'], action: always({ type: 'redo' }) },
      {
        keys: 'k',
        words: 'keep this plan beside the others',
        foot: 'keep',
        inputs: ['k'],
        action: always({ type: 'keep' }),
      },
      {
        keys: 'x',
        words: 'swap with the oldest kept plan',
        inputs: ['x'],
        action: always({ type: 'swap' }),
      },
      { keys: 'd', words: 'drop the last kept plan', inputs: ['d'], action: always({ type: 'drop' }) },
      {
        keys: 's',
        words: 'save the plan as a scenario file',
        foot: 'save',
        inputs: ['s'],
        action: always({ type: 'save' }),
      },
    ],
  },
  {
    title: 'The program',
    bindings: [
      { keys: '?', words: 'this help', foot: 'help', inputs: ['?'], action: always({ type: 'help' }) },
      { keys: 'q, Ctrl-C', words: 'leave', foot: 'leave', inputs: ['q'], action: always({ type: 'quit' }) },
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
