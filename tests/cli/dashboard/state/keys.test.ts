import { describe, expect, test } from 'vitest';
import { actionsFor } from '../../../../cli/dashboard/rows/actions.js';
import { actionFor, GROUPS, hasDays, hintsOf, type Press } from '../../../../cli/dashboard/state/keys.js';
import { askedOver, pressing, start } from '../given.js';

const BINDINGS = GROUPS.flatMap(({ bindings }) => bindings);
const NAMING = pressing(start(), 's');
const TYPING = pressing(start(), { return: true });
const ASKING = { ...start(), cover: askedOver('line.yaml') };
const LEAVING = pressing(start(), '+', 'k', 'q');
const HELP = pressing(start(), '?');

function typed(input: string, state = start()) {
  return actionFor({ input }, state);
}

describe('the table of keys', () => {
  /** The mark on the strip, on a number, on weekdays. */
  const STATES = [start(), pressing(start(), { tab: true }), pressing(start(), { upArrow: true })];
  const holds = ({ on, when }: (typeof BINDINGS)[number], state: (typeof STATES)[number]): boolean =>
    (on ?? state.mark) === state.mark && (when?.(state) ?? true);
  const pressesOf = ({ inputs = [], specials = [], ctrl }: (typeof BINDINGS)[number]): Press[] => [
    ...inputs.map((input) => ({ input })),
    ...specials.map((special) => ({ input: '', [special]: true })),
    ...(ctrl === undefined ? [] : [{ input: ctrl, ctrl: true }]),
  ];

  test('no key does two things, wherever the mark is', () => {
    expect(STATES.map((state) => [state.mark, hasDays(state)])).toEqual([
      ['plan', false],
      ['strip', false],
      ['plan', true],
    ]);
    for (const state of STATES) {
      const keys = BINDINGS.filter((binding) => holds(binding, state)).flatMap((binding) =>
        pressesOf(binding).map((press) => JSON.stringify(press)),
      );
      expect(new Set(keys).size).toBe(keys.length);
    }
  });

  test('each of its keys does what its line says where that can be, and elsewhere says where it can', () => {
    for (const binding of BINDINGS) {
      const presses = pressesOf(binding);
      expect(presses.length, binding.keys).toBeGreaterThan(0);
      expect(STATES.some((state) => holds(binding, state))).toBe(true);
      for (const press of presses) {
        for (const state of STATES) {
          const action = actionFor(press, state);
          if (holds(binding, state)) expect(action).toEqual(binding.action(press, state));
          else expect(action).not.toBeNull();
        }
      }
    }
    const onStrip = pressing(start(), { tab: true });
    for (const key of ['+', '-', '0', '3'])
      expect(actionFor({ input: key }, onStrip)).toEqual({ type: 'astray' });
    expect(pressing(onStrip, '+').note).toBe('Tab leads to the plan; there values are changed.');
  });

  test('what the last row offers is what can be done now: each of its keys does something, and says no note', () => {
    const presses: Readonly<Record<string, Press>> = {
      'up down': { input: '', downArrow: true },
      'left right': { input: '', rightArrow: true },
      Enter: { input: '', return: true },
      Tab: { input: '', tab: true },
      '+ -': { input: '+' },
      '1-7': { input: '3' },
      '0-9': { input: '3' },
      space: { input: ' ' },
      'n m': { input: 'm' },
    };
    const more = [
      ...STATES,
      pressing(start(), ' '),
      pressing(start(), '+', 'k'),
      pressing(start(), '+', 'u'),
    ];
    for (const state of more) {
      const { first, last } = hintsOf(state);
      for (const [keys] of [...first, ...last]) {
        const press = presses[keys] ?? { input: keys };
        const action = actionFor(press, state);
        expect(action, keys).not.toBeNull();
        expect(action, keys).not.toEqual({ type: 'astray' });
        if (['u', 'r', 'x', 'd'].includes(keys))
          expect(pressing(state, keys).note ?? '').not.toMatch(/nothing|No /);
      }
    }
    const offered = (state: (typeof STATES)[number]): string[] =>
      hintsOf(state).first.map(([keys, words]) => `${keys} ${words}`);
    expect(offered(STATES[0]!)).toEqual(
      expect.arrayContaining(['0-9 type', '+ - change', 'Tab strip', 'space run']),
    );
    expect(offered(STATES[1]!)).toEqual(expect.arrayContaining(['Enter take', 'Tab plan']));
    expect(offered(STATES[1]!)).not.toEqual(expect.arrayContaining(['+ - change']));
    expect(offered(STATES[2]!)).toContain('1-7 days');
    expect(offered(STATES[0]!)).not.toContain('u undo');
    expect(offered(more[3]!)).toContain('space stop');
    expect(offered(more[4]!)).toEqual(expect.arrayContaining(['u undo', 'd drop']));
    expect(offered(more[5]!)).toContain('r redo');
  });

  test('the words for the help name every key that is bound', () => {
    const names: Record<string, string> = {
      ' ': 'space',
      leftArrow: 'left',
      rightArrow: 'right',
      upArrow: 'up',
      downArrow: 'down',
      pageUp: 'page up',
      pageDown: 'down',
      // Beside + and -, on the same keys of many keyboards; and between 1 and 7.
      '=': '+',
      _: '-',
      tab: 'Tab',
      return: 'Enter',
      // Between 1 and 7, and 0 and 9; and those that are no day of the week, which is said.
      ...Object.fromEntries(['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'].map((digit) => [digit, 'to'])),
    };
    for (const { keys, inputs = [], specials = [] } of BINDINGS) {
      for (const key of [...inputs, ...specials]) expect(keys).toContain(names[key] ?? key);
    }
  });

  test('keys go the way that they are said to go', () => {
    expect(actionFor({ input: '', leftArrow: true }, start())).toEqual({ type: 'step', days: -1 });
    expect(actionFor({ input: '', pageDown: true }, start())).toEqual({ type: 'step', days: 7 });
    expect(actionFor({ input: '', home: true }, start())).toEqual({ type: 'go', to: 'start' });
    expect(actionFor({ input: '', downArrow: true }, start())).toEqual({ type: 'choose', by: 1 });
    expect(typed('+')).toEqual({ type: 'turn', by: 1 });
    expect(typed('_')).toEqual({ type: 'turn', by: -1 });
    expect(typed('1')).toEqual({ type: 'type', text: '1' });
    const days = pressing(start(), { upArrow: true });
    expect(typed('1', days)).toEqual({ type: 'weekday', day: 0 });
    expect(typed('7', days)).toEqual({ type: 'weekday', day: 6 });
    expect(pressing(days, '8').note).toBe('1 to 7 are the days of the week, Monday to Sunday.');
    expect(typed('n')).toEqual({ type: 'season', by: -1 });
    expect(typed('m')).toEqual({ type: 'season', by: 1 });
    expect(typed('b')).toEqual({ type: 'play', direction: -1 });
  });

  test('other keys, and letters with Alt or Ctrl, do nothing', () => {
    expect(typed('z')).toBeNull();
    expect(typed('')).toBeNull();
    expect(actionFor({ input: 'q', meta: true }, start())).toBeNull();
    expect(actionFor({ input: 'q', ctrl: true }, start())).toBeNull();
    expect(actionFor({ input: '', escape: true, meta: true }, start())).toBeNull();
  });
});

describe('while something covers the picture', () => {
  test('Ctrl-C leaves', () => {
    for (const state of [start(), NAMING, TYPING, ASKING, LEAVING, HELP]) {
      expect(actionFor({ input: 'c', ctrl: true }, state)).toEqual({ type: 'quit' });
    }
  });

  test('q closes what is open; it leaves only where nothing is. In a file name it is a letter', () => {
    for (const state of [TYPING, ASKING, LEAVING, HELP]) {
      expect(pressing(state, 'q')).toMatchObject({ cover: { kind: 'none' }, quit: false });
    }
    expect(typed('q', NAMING)).toEqual({ type: 'text', text: 'q' });
    expect(pressing(start(), 'q').quit).toBe(true);
  });

  test('any key closes the help', () => {
    expect(typed('k', HELP)).toEqual({ type: 'help' });
    expect(actionFor({ input: '', escape: true }, HELP)).toEqual({ type: 'help' });
  });

  test('letters of a name, or of a value, are letters', () => {
    for (const letter of ['u', '?', ' ', '1', '+'])
      expect(typed(letter, TYPING)).toEqual({ type: 'text', text: letter });
    for (const letter of ['q', '?', ' ', '1', 'é', '苗', '.']) {
      expect(typed(letter, NAMING)).toEqual({ type: 'text', text: letter });
    }
  });

  test('control characters do not get into a name', () => {
    expect(typed('\u001b[31mred\u0007', NAMING)).toEqual({ type: 'text', text: '[31mred' });
    expect(typed('\t', NAMING)).toBeNull();
  });

  test('Enter takes a name, Escape leaves it, both ways to rub out do', () => {
    expect(actionFor({ input: '', return: true }, NAMING)).toEqual({ type: 'accept' });
    expect(actionFor({ input: '', escape: true, meta: true }, NAMING)).toEqual({ type: 'refuse' });
    expect(actionFor({ input: '', backspace: true }, NAMING)).toEqual({ type: 'erase' });
    expect(actionFor({ input: '', delete: true }, NAMING)).toEqual({ type: 'erase' });
  });

  test('a question takes y, n, q and Escape only', () => {
    for (const state of [ASKING, LEAVING]) {
      expect(typed('y', state)).toEqual({ type: 'accept' });
      for (const letter of ['n', 'q']) expect(typed(letter, state)).toEqual({ type: 'refuse' });
      expect(actionFor({ input: '', escape: true, meta: true }, state)).toEqual({ type: 'refuse' });
      for (const letter of ['k', ' ', 'Y', 's', '1']) expect(typed(letter, state)).toBeNull();
      for (const special of ['return', 'tab', 'upArrow']) {
        expect(actionFor({ input: '', [special]: true }, state)).toBeNull();
      }
    }
  });
});

describe('several keys in one burst', () => {
  test('each does its own', () => {
    expect(pressing(start(), '+++').scenario.crops[0]!.sow).toEqual({ every: 6, seeds: 10 });
    expect(actionsFor({ input: 'wm' }, start())).toEqual([{ type: 'stride' }, { type: 'season', by: 1 }]);
  });

  test('what follows s is a name', () => {
    expect(pressing(start(), 'squick.yaml').cover).toEqual({ kind: 'name', text: 'quick.yaml', fault: null });
  });

  test('a name comes whole, letters rubbed out and all', () => {
    expect(pressing(NAMING, 'lime\u007f\u007fne.yaml').cover).toEqual({
      kind: 'name',
      text: 'line.yaml',
      fault: null,
    });
  });

  test('Enter ends a name only as the last key', () => {
    expect(pressing(NAMING, 'line.yaml\r').saving).toMatchObject({ path: 'line.yaml', over: false });
    const pasted = pressing(NAMING, 'one\rtwo');
    expect(pasted).toMatchObject({ saving: null, cover: { kind: 'name', text: 'onetwo' } });
  });

  test('a number that is typed with its Enter in one burst is taken; Tab and Enter do what they do alone', () => {
    expect(pressing(start(), { downArrow: true }, '12\r').scenario.crops[0]!.sow).toEqual({
      every: 3,
      seeds: 12,
    });
    expect(
      pressing(start(), { tab: true }, { downArrow: true }, { return: true }).scenario.crops[0]!.sow,
    ).toEqual({
      every: 4,
      seeds: 10,
    });
    expect(pressing(start(), '\t\r').note).toBe('This is the plan on the screen.');
  });

  test('q and y typed at once leave', () => {
    expect(pressing(start(), 'k', 'qy').quit).toBe(true);
  });

  test('a question that is there is not answered by a burst', () => {
    for (const state of [ASKING, LEAVING]) {
      expect(actionsFor({ input: 'yes' }, state)).toEqual([]);
      expect(actionsFor({ input: 'y' }, state)).toEqual([{ type: 'accept' }]);
    }
  });

  test('the first key closes the help, the others do what they do without it', () => {
    expect(pressing(HELP, 'w+')).toMatchObject({ cover: { kind: 'none' }, stride: 1, asked: 2 });
  });
});
