import { describe, expect, test } from 'vitest';
import { actionsFor } from '../../../../cli/dashboard/rows/actions.js';
import { actionFor, GROUPS, type Press } from '../../../../cli/dashboard/state/keys.js';
import { pressing, start } from '../given.js';

const BINDINGS = GROUPS.flatMap(({ bindings }) => bindings);
const NAMING = pressing(start(), 's');
const ASKING = { ...start(), cover: { kind: 'over', text: 'line.yaml' } as const };
const HELP = pressing(start(), '?');

function typed(input: string, state = start()) {
  return actionFor({ input }, state);
}

describe('the table of keys', () => {
  test('no key does two things', () => {
    const keys = BINDINGS.flatMap(({ inputs = [], specials = [] }) => [...inputs, ...specials]);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test('each of its keys does what its line says', () => {
    for (const binding of BINDINGS) {
      const presses: Press[] = [
        ...(binding.inputs ?? []).map((input) => ({ input })),
        ...(binding.specials ?? []).map((special) => ({ input: '', [special]: true })),
      ];
      expect(presses.length, binding.keys).toBeGreaterThan(0);
      for (const press of presses) expect(actionFor(press, start())).toEqual(binding.action(press));
    }
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
      ...Object.fromEntries(['2', '3', '4', '5', '6'].map((day) => [day, 'to'])),
    };
    for (const { keys, inputs = [], specials = [] } of BINDINGS) {
      for (const key of [...inputs, ...specials]) expect(keys).toContain(names[key] ?? key);
    }
  });

  test('keys go the way that they are said to go', () => {
    expect(actionFor({ input: '', leftArrow: true }, start())).toEqual({ type: 'step', days: -1 });
    expect(actionFor({ input: '', pageDown: true }, start())).toEqual({ type: 'step', days: 7 });
    expect(actionFor({ input: '', home: true }, start())).toEqual({ type: 'go', to: 'start' });
    expect(actionFor({ input: '', downArrow: true }, start())).toEqual({ type: 'knob', by: 1 });
    expect(typed('+')).toEqual({ type: 'turn', by: 1 });
    expect(typed('_')).toEqual({ type: 'turn', by: -1 });
    expect(typed('1')).toEqual({ type: 'weekday', day: 0 });
    expect(typed('7')).toEqual({ type: 'weekday', day: 6 });
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
    for (const state of [start(), NAMING, ASKING, HELP]) {
      expect(actionFor({ input: 'c', ctrl: true }, state)).toEqual({ type: 'quit' });
    }
  });

  test('any key closes the help, and q leaves', () => {
    expect(typed('k', HELP)).toEqual({ type: 'help' });
    expect(actionFor({ input: '', escape: true }, HELP)).toEqual({ type: 'help' });
    expect(typed('q', HELP)).toEqual({ type: 'quit' });
  });

  test('letters of a name are letters', () => {
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

  test('a question takes y, n and Escape only', () => {
    expect(typed('y', ASKING)).toEqual({ type: 'accept' });
    expect(typed('n', ASKING)).toEqual({ type: 'refuse' });
    expect(actionFor({ input: '', escape: true, meta: true }, ASKING)).toEqual({ type: 'refuse' });
    for (const letter of ['q', ' ', 'Y', 's']) expect(typed(letter, ASKING)).toBeNull();
    expect(actionFor({ input: '', return: true }, ASKING)).toBeNull();
  });
});

describe('several keys in one burst', () => {
  test('each does its own', () => {
    expect(pressing(start(), '+++').scenario.crops[0]!.sow).toEqual({ every: 6, seeds: 10 });
    expect(actionsFor({ input: 'wm' }, start())).toEqual([{ type: 'stride' }, { type: 'season', by: 1 }]);
  });

  test('what follows s is a name', () => {
    expect(pressing(start(), 'squick.yaml').cover).toEqual({ kind: 'name', text: 'quick.yaml' });
  });

  test('a name comes whole, letters rubbed out and all', () => {
    expect(pressing(NAMING, 'lime\u007f\u007fne.yaml').cover).toEqual({ kind: 'name', text: 'line.yaml' });
  });

  test('Enter ends a name only as the last key', () => {
    expect(pressing(NAMING, 'line.yaml\r').saving).toEqual({ path: 'line.yaml', over: false });
    const pasted = pressing(NAMING, 'one\rtwo');
    expect(pasted).toMatchObject({ saving: null, cover: { kind: 'name', text: 'onetwo' } });
  });

  test('a question whether to write over a file is not answered by a burst', () => {
    expect(actionsFor({ input: 'yes' }, ASKING)).toEqual([]);
    expect(actionsFor({ input: 'y' }, ASKING)).toEqual([{ type: 'accept' }]);
  });

  test('the first key closes the help, the others do what they do without it', () => {
    expect(pressing(HELP, 'w+')).toMatchObject({ cover: { kind: 'none' }, stride: 1, asked: 2 });
  });
});
