/**
 * The keys: one table of what each does and when, from which the help and the last row are drawn, so that neither can lie.
 */

import type { Key } from 'ink';
import { knobsOf } from './knobs.js';
import { isSamePlan } from './strip.js';
import type { Action, Mark, State } from './types.js';

/** What a terminal hands over for one key press: characters that were typed or pasted, none for keys without one. */
export type Press = Partial<Key> & { readonly input: string };

type Special = Exclude<keyof Key, 'ctrl' | 'meta' | 'eventType'>;

/** What the table looks at. */
export type KeyState = Pick<
  State,
  'mark' | 'pointer' | 'knob' | 'scenario' | 'strip' | 'past' | 'future' | 'kept' | 'playing' | 'hasLog'
>;

export interface Binding {
  /** How the keys are written in the help. */
  readonly keys: string;
  readonly words: string;
  readonly inputs?: readonly string[];
  readonly specials?: readonly Special[];
  /** With the Ctrl key: also while something is open. */
  readonly ctrl?: string;
  /** Where the mark must be; anywhere if left out. */
  readonly on?: Mark;
  /** What must be so besides; the same key may do something else where it is not. */
  when?(state: KeyState): boolean;
  action(press: Press, state: KeyState): Action;
}

/** A key that always asks for the same. @param input what is typed, where it is not what stands in the help */
function one(keys: string, words: string, action: Action, input = keys): Binding {
  return { keys, words, inputs: [input], action: () => action };
}

/** Whether the value of the chosen knob is one of days of the week; else it is typed. */
export function hasDays({ scenario, knob }: Pick<KeyState, 'scenario' | 'knob'>): boolean {
  return knobsOf(scenario)[knob]!.toggle(scenario, 0) !== null;
}

const DIGITS = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];

/** Bindings in groups, in the order of the help. */
export const GROUPS: readonly { readonly title: string; readonly bindings: readonly Binding[] }[] = [
  {
    title: 'The days',
    bindings: [
      one('space', 'let the season run, and stop it', { type: 'play', direction: 1 }, ' '),
      one('b', 'let it run backward', { type: 'play', direction: -1 }),
      {
        keys: 'left, right',
        words: 'a day back, a day on',
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
    title: 'The strip and the plan',
    bindings: [
      {
        keys: 'Tab',
        words: 'from the plan to the strip, and back',
        specials: ['tab'],
        action: () => ({ type: 'mark' }),
      },
      {
        keys: 'up, down',
        words: 'choose a value there, or a row',
        specials: ['upArrow', 'downArrow'],
        action: ({ upArrow }) => ({ type: 'choose', by: upArrow ? -1 : 1 }),
      },
      {
        keys: 'Enter',
        words: 'type that value, or take that row',
        specials: ['return'],
        action: (_, { mark, pointer }) =>
          mark === 'strip' ? { type: 'take', row: pointer } : { type: 'type', text: '' },
      },
      {
        keys: '+ -',
        words: 'more, less',
        on: 'plan',
        inputs: ['+', '=', '-', '_'],
        action: ({ input }) => ({ type: 'turn', by: input === '+' || input === '=' ? 1 : -1 }),
      },
      {
        keys: '1 to 7',
        words: 'a weekday in or out, where some are',
        on: 'plan',
        when: hasDays,
        inputs: DIGITS,
        action: ({ input }) => ({ type: 'weekday', day: Number(input) - 1 }),
      },
      {
        keys: '0 to 9',
        words: 'else type a number',
        on: 'plan',
        when: (state) => !hasDays(state),
        inputs: DIGITS,
        action: ({ input }) => ({ type: 'type', text: input }),
      },
      {
        keys: 'u, r',
        words: 'undo any change, bring it back',
        inputs: ['u', 'r'],
        action: ({ input }) => ({ type: input === 'u' ? 'undo' : 'redo' }),
      },
      one('c', 'what the plans of the strip differ in', { type: 'about', by: 1 }),
      one('k', 'keep this plan beside the others', { type: 'keep' }),
      one('x', 'swap with the oldest kept plan', { type: 'swap' }),
      one('d', 'drop the last kept plan', { type: 'drop' }),
      one('s', 'save: plan .yaml, strip .txt .csv', { type: 'save' }),
    ],
  },
  {
    title: 'The program',
    bindings: [
      one('?', 'this help', { type: 'help' }),
      one('q', 'close, or leave', { type: 'leave' }),
      { keys: 'Ctrl-C', words: 'leave at once', ctrl: 'c', action: () => ({ type: 'quit' }) },
      { keys: 'Ctrl-Z', words: 'stop; fg goes on', ctrl: 'z', action: () => ({ type: 'stop' }) },
      { keys: 'Ctrl-L', words: 'draw all anew', ctrl: 'l', action: () => ({ type: 'repaint' }) },
    ],
  },
];

const BINDINGS = GROUPS.flatMap(({ bindings }) => bindings);

/** What a key press asks for; null if nothing. */
export function actionFor(press: Press, state: KeyState & Pick<State, 'cover'>): Action | null {
  if (press.ctrl) return BINDINGS.find(({ ctrl }) => ctrl === press.input)?.action(press, state) ?? null;
  const { cover } = state;
  switch (cover.kind) {
    case 'name':
      return whileTyping(press);
    case 'value':
      // No value has this letter.
      return press.input === 'q' ? { type: 'refuse' } : whileTyping(press);
    case 'over':
    case 'leave':
      if (press.input === 'y') return { type: 'accept' };
      return ['n', 'q'].includes(press.input) || press.escape ? { type: 'refuse' } : null;
    case 'help':
      return { type: 'help' };
    case 'none':
      return bound(press, state);
  }
}

function whileTyping(press: Press): Action | null {
  if (press.return) return { type: 'accept' };
  if (press.escape) return { type: 'refuse' };
  if (press.backspace || press.delete) return { type: 'erase' };
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are what must not get into a file name
  const text = press.input.replace(/[\u0000-\u001f\u007f]/g, '');
  return text === '' || press.meta ? null : { type: 'text', text };
}

function bound(press: Press, state: KeyState): Action | null {
  const bindings = BINDINGS.filter(
    ({ inputs = [], specials = [] }) =>
      (!press.meta && inputs.includes(press.input)) || specials.some((special) => press[special] === true),
  );
  const binding = bindings.find(
    ({ on, when }) => (on ?? state.mark) === state.mark && (when?.(state) ?? true),
  );
  // A key of the plan, while the mark is on the strip.
  return binding?.action(press, state) ?? (bindings.length > 0 ? { type: 'astray' } : null);
}

/** Keys and what they do now, in few words: the most needed first. How to leave and where help is comes last, and always. */
export function hintsOf(state: KeyState): {
  readonly first: readonly (readonly [keys: string, words: string])[];
  readonly last: readonly (readonly [keys: string, words: string])[];
} {
  const { mark, scenario, past, future, kept, playing, hasLog } = state;
  const onPlan = mark === 'plan';
  const hints: (readonly [boolean, string, string])[] = [
    [true, 'up down', 'choose'],
    [!onPlan, 'Enter', 'take'],
    [onPlan, '+ -', 'change'],
    // Right after an undo it is what somebody may look for, and soon it is gone.
    [future.length > 0, 'r', 'redo'],
    [onPlan && hasDays(state), '1-7', 'days'],
    [onPlan && !hasDays(state), '0-9', 'type'],
    [true, 'Tab', onPlan ? 'strip' : 'plan'],
    [playing !== 0, 'space', 'stop'],
    [past.length > 0, 'u', 'undo'],
    [playing === 0, 'space', 'run'],
    [onPlan, 'Enter', 'type'],
    [true, 'left right', 'day'],
    [true, 'c', 'compare'],
    [true, 'k', 'keep'],
    [true, 's', 'save'],
    [kept.some((plan) => !isSamePlan(plan.scenario, scenario)), 'x', 'swap'],
    [kept.length > 0, 'd', 'drop'],
    [hasLog, 'l', 'log'],
    [true, 'n m', 'season'],
    [true, 'w', 'weeks'],
  ];
  return {
    first: hints.flatMap(([is, keys, words]) => (is ? [[keys, words] as const] : [])),
    last: [
      ['?', 'help'],
      ['q', 'leave'],
    ],
  };
}
