import { Text } from 'ink';
import { cleanup, render } from 'ink-testing-library';
import { type ReactElement, useReducer } from 'react';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { Dashboard } from '../../../cli/dashboard/dashboard.js';
import { type Action, reduce, type State } from '../../../cli/dashboard/state/state.js';
import { useTerminalSize } from '../../../cli/dashboard/terminal/use-terminal-size.js';
import { DRAWN } from '../../../cli/dashboard/theme.js';
import type { Spell } from '../../../cli/dashboard/thread/real-season.js';
import { eventually } from '../../support/patience.js';
import { answered, CELLAR, figures, filmBy, HELD_BY_FINISHING, pressing, start } from './given.js';

afterEach(() => {
  cleanup();
  vi.unstubAllEnvs();
});

const RESULT = figures({ weeks: Array(26).fill([10, 16, 20]), limits: HELD_BY_FINISHING });
const STAGES = CELLAR.stages.map(({ name, channels, holes }) => ({ name, channels, holesPerChannel: holes }));
const SIMULATED = filmBy({ stages: STAGES, days: 182, stateOf: () => 'growing' });
const LOGGED = filmBy({ stages: STAGES, days: 182, stateOf: () => 'unsupplied' });

const UP = '\u001b[A';
const DOWN = '\u001b[B';
const RIGHT = '\u001b[C';
const PAGE_DOWN = '\u001b[6~';

/** Of the logged season; the same list always, as the program has it. */
const SPELLS: readonly Spell[] = [{ stage: 'finishing', from: 1, to: 3, holes: 6, cause: 'nobody came' }];

function drawn(state: State, dispatch: (action: Action) => void): ReactElement {
  return (
    <Dashboard
      state={state}
      dispatch={dispatch}
      film={SIMULATED}
      realFilm={state.hasLog ? LOGGED : null}
      spells={SPELLS}
      realPicks={null}
      signs={DRAWN}
    />
  );
}

interface World {
  now: State;
  tell: (action: Action) => void;
}

/** The dashboard with its reducer, as the program has it. */
function Living({ first, world }: { readonly first: State; readonly world: World }) {
  const [state, dispatch] = useReducer(reduce, first);
  world.now = state;
  world.tell = dispatch;
  return drawn(state, dispatch);
}

function Size() {
  const { columns, rows } = useTerminalSize();
  return <Text>{`${columns} x ${rows}`}</Text>;
}

function opened(first: State) {
  const world: World = { now: first, tell: () => {} };
  const { stdin, lastFrame } = render(<Living first={first} world={world} />);
  return {
    world,
    /** Press keys in one burst and wait until the screen shows this. */
    async press(keys: string, shows: string | RegExp) {
      stdin.write(keys);
      await eventually(() => expect(lastFrame()).toMatch(shows));
    },
    screen: () => lastFrame() ?? '',
    /** Press keys of which nothing is to be seen, and wait until they have been heard. */
    async hear(keys: string, heard: (state: State) => boolean) {
      stdin.write(keys);
      await eventually(() => expect(heard(world.now)).toBe(true));
    },
  };
}

const SIZE = { columns: 100, rows: 30 };
const READY = answered(start(CELLAR, SIZE), RESULT);

describe('from key to picture', () => {
  test('down and up move the pointer', async () => {
    const { press, screen } = opened(READY);
    expect(screen()).toMatch(/› sow/);
    await press(DOWN, /› seeds/);
    await press(DOWN, /› germination channels/);
    await press(UP, /› seeds/);
    expect(screen().match(/›/g)).toHaveLength(1);
  });

  test('plus and minus change what is chosen, undo takes it back', async () => {
    const { press, screen } = opened(READY);
    await press('+', /every 4 d/);
    expect(screen()).toMatch(/running 200 seasons/);
    // The last picture stays.
    expect(screen()).toMatch(/the plan before: 22 heads in a usual week/);
    await press('-', /every 3 d/);
    await press('uu', /every 3 d/);
    await press('u', /There is nothing to undo\./);
  });

  test('arrows and pages move the day', async () => {
    const { press } = opened(READY);
    await press(RIGHT, /day 1 of 182/);
    await press(PAGE_DOWN, /Tue 12 Jan 2027 {2}day 8 of 182/);
  });

  test('the help covers all, and any key brings the picture back', async () => {
    const { press, screen } = opened(READY);
    await press('?', /let the season run, and stop it/);
    expect(screen()).not.toMatch(/Heads a week/);
    expect(screen()).toMatch(/Any key closes this help\. Ctrl-C leaves\.$/);
    await press(RIGHT, /Heads a week/);
  });

  test('a name is typed below the picture, which stays', async () => {
    const { press, screen, world } = opened(READY);
    await press('s', /Save as: ▏/);
    await press('quick.yaml', /Save as: quick\.yaml▏/);
    expect(screen()).toMatch(/Heads a week/);
    await press('\u007f\u007f\u007f\u007fyml', /Save as: quick\.yml▏/);
    await press('\r', /\? help/);
    expect(world.now.saving).toMatchObject({ path: 'quick.yml', over: false, as: 'plan' });
  });

  test('Tab moves the pointer to the strip, where Enter takes a row, and back', async () => {
    const { press, screen } = opened(READY);
    await press('\t', / ►›3 d now/);
    expect(screen().match(/›/g)).toHaveLength(1);
    await press(DOWN, / {2}›4 d {2}/);
    await press('\r', /►›4 d now/);
    expect(screen()).toMatch(/sow +every 4 d/);
    await press('u', /►›3 d now/);
    await press('\u001b[Z', /› sow/);
  });

  test('digits begin a number; what is wrong with it is told above, and can be mended', async () => {
    const { press, screen } = opened(READY);
    await press(`${DOWN}0`, /seeds, now 10: 0▏/);
    await press('\r', /Not taken: found 0; expected a whole number from 1 to 1000000 \(seeds\)/);
    expect(screen()).toMatch(/seeds, now 10: 0▏/);
    await press('\u007f14', /seeds, now 10: 14▏/);
    expect(screen()).not.toMatch(/Not taken/);
    await press('\r', /› seeds 14/);
  });

  test('keys that come in one burst each do their own, also when the first opens something', async () => {
    const { press, world } = opened(READY);
    await press('++sa', /Save as: a▏/);
    expect(world.now.past).toHaveLength(2);
  });

  test('a second burst that comes before the next drawing meets what the first one led to', async () => {
    const { press, world } = opened(READY);
    await press('s\u001b[Cqq', /Save as: qq▏/);
    expect(world.now.quit).toBe(false);
  });

  test('a key meets what the world has told in between', async () => {
    const { press, world, hear } = opened(READY);
    await press('sa\u001b[C', /Save as: a▏/);
    await hear('\r', ({ saving }) => saving !== null);
    world.tell({ type: 'saved', outcome: 'exists', message: '' });
    await eventually(() => expect(world.now.cover.kind).toBe('over'));
    await hear('y', ({ saving }) => saving?.over === true);
  });

  test('Ctrl-C and q ask to leave', async () => {
    const first = opened(READY);
    await first.hear('\u0003', ({ quit }) => quit);
    const second = opened(READY);
    await second.hear('q', ({ quit }) => quit);
  });

  test('l shows the season of the log, every hole of it, and the simulated one again', async () => {
    const { press, screen } = opened(answered(start(CELLAR, SIZE, true), RESULT));
    expect(screen()).toMatch(/the log · at rest/);
    const holes = (sign: string): number => screen().split(sign).length - 1;
    // 160 holes; on a screen of 30 rows the causes leave no room for the legend.
    expect([holes('○'), holes('●')]).toEqual([160, 0]);
    await press('l', /season 1 · at rest/);
    expect([holes('○'), holes('●')]).toEqual([0, 161]);
  });
});

test('after each change the screen is what it would be if all of it were drawn anew', async () => {
  const { world, screen, hear } = opened(start(CELLAR, { columns: 100, rows: 36 }, true));
  const changes = async (action: Action): Promise<void> => {
    const before = world.now;
    world.tell(action);
    await eventually(() => expect(world.now).not.toBe(before));
    await compare();
  };
  const compare = async (): Promise<void> => {
    const { lastFrame, unmount } = render(drawn(world.now, () => {}));
    const anew = lastFrame();
    unmount();
    await eventually(() => expect(screen()).toBe(anew));
  };
  /** Other figures each time, so that each can be told from the ones before. */
  const figuresCome = async (): Promise<void> => {
    const { asked } = world.now;
    const heads = { mean: 1, low: 0.5, high: 1 + asked, verdict: 'more' } as const;
    const result = figures({ limits: HELD_BY_FINISHING, p50: 20 + asked });
    await changes({
      type: 'figures',
      id: asked,
      figures: { result, differences: { heads_a_week: heads, bad_week: null } },
    });
  };
  await compare();
  await figuresCome();
  await changes({ type: 'film', lastDay: 100, opensAt: 0 });
  for (const key of [RIGHT, PAGE_DOWN, DOWN, 'l', ' ', 'w', 'b', PAGE_DOWN, 'm']) {
    const before = world.now;
    await hear(key, (state) => state !== before);
    await compare();
  }
  for (const key of ['+', 'k', 'u', 'r', '-', 'x', 'd', 'l', PAGE_DOWN, '?', '?', 's', 'a']) {
    const before = world.now;
    await hear(key, (state) => state !== before);
    await compare();
    await figuresCome();
  }
});

test('a screen that is too small says so in one line, and hears q', async () => {
  const { screen, hear } = opened(start(CELLAR, { columns: 50, rows: 12 }));
  expect(screen()).toBe('This needs a window of 60 x 16. q: leave');
  await hear('q', ({ quit }) => quit);
});

test('a screen that is too small asks, too, before kept plans are lost', async () => {
  const { press, hear } = opened(pressing(start(CELLAR, { columns: 50, rows: 12 }), '+', 'k'));
  await press('q', /^1 kept plan is not saved\. Leave\? y: yes n: no$/);
  await press('n', /^This needs a window/);
  await press('q', /Leave\?/);
  await hear('y', ({ quit }) => quit);
});

describe('for a screen reader', () => {
  test('there are sentences and nothing drawn, and keys work', async () => {
    vi.stubEnv('INK_SCREEN_READER', 'true');
    const { press, screen } = opened(READY);
    expect(screen()).toMatch(/^germination, 40 holes: 40 growing\.$/m);
    expect(screen()).not.toMatch(/[●─━┊]/);
    await press('+', /^1\. sow: every 4 d, chosen$/m);
    await press('?', /^space: let the season run, and stop it\.$/m);
  });

  test('a tick of a season that runs changes no word but the day', () => {
    vi.stubEnv('INK_SCREEN_READER', 'true');
    const { screen } = opened(READY);
    const before = screen();
    cleanup();
    const ticked = opened(reduce(reduce(READY, { type: 'play', direction: 1 }), { type: 'tick' }));
    expect(ticked.screen().split('\n').slice(1)).toEqual(before.split('\n').slice(1));
  });
});

describe('the size of the terminal', () => {
  test('is followed; what it does not tell is taken for 80 x 24', async () => {
    const { stdout, lastFrame } = render(<Size />);
    // The terminal of the tests has 100 columns and tells no rows.
    expect(lastFrame()).toBe('100 x 24');
    // Nobody listens before the first drawing is over.
    await eventually(() => expect(stdout.listenerCount('resize')).toBeGreaterThan(0));
    Object.defineProperty(stdout, 'columns', { value: 70 });
    Object.defineProperty(stdout, 'rows', { value: 50 });
    stdout.emit('resize');
    await eventually(() => expect(lastFrame()).toBe('70 x 50'));
  });

  test('nobody listens once the program is gone', async () => {
    const { stdout, unmount } = render(<Size />);
    await eventually(() => expect(stdout.listenerCount('resize')).toBeGreaterThan(0));
    unmount();
    await eventually(() => expect(stdout.listenerCount('resize')).toBe(0));
  });
});
