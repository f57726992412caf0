import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { actionsFor } from '../../../../cli/dashboard/rows/actions.js';
import { planBefore } from '../../../../cli/dashboard/state/history.js';
import { isAnswered, MOST_KEPT } from '../../../../cli/dashboard/state/keeping.js';
import { GROUPS, type Press } from '../../../../cli/dashboard/state/keys.js';
import { knobsOf } from '../../../../cli/dashboard/state/knobs.js';
import { isJson, lossOf } from '../../../../cli/dashboard/state/saving.js';
import { reduce, type State } from '../../../../cli/dashboard/state/state.js';
import { HIGH_SCREEN, STRIP_ROWS } from '../../../../cli/dashboard/state/strip.js';
import { readScenario } from '../../../../sim/scenario/read.js';
import type { CompareResult } from '../../../../sim/study/compare.js';
import {
  acted,
  answered,
  CELLAR,
  example,
  figures,
  HELD_BY_FINISHING,
  KITCHEN,
  pressing,
  start,
} from '../given.js';

/** Any key of the table, any letter, any key without a letter; now and then the world answers. */
const KEYS: fc.Arbitrary<Press> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .constantFrom(...GROUPS.flatMap(({ bindings }) => bindings))
      .chain(({ inputs = [], specials = [], ctrl }) =>
        fc.constantFrom<Press>(
          ...inputs.map((input) => ({ input })),
          ...specials.map((special) => ({ input: '', [special]: true })),
          ...(ctrl === undefined ? [] : [{ input: ctrl, ctrl: true }]),
        ),
      ),
  },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 4 }).map((input) => ({ input })) },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom('return', 'escape', 'backspace', 'delete', 'meta', 'ctrl')
      .map((special) => ({ input: '', [special]: true })),
  },
);

type Event =
  | { readonly kind: 'key'; readonly press: Press }
  | { readonly kind: 'tick' | 'figures' | 'film' | 'exists' | 'written' | 'compared' };

const EVENTS: fc.Arbitrary<Event[]> = fc.array(
  fc.oneof(
    { weight: 8, arbitrary: KEYS.map((press): Event => ({ kind: 'key', press })) },
    {
      weight: 3,
      arbitrary: fc
        .constantFrom('tick', 'figures', 'film', 'exists', 'written', 'compared')
        .map((kind) => ({ kind }) as Event),
    },
  ),
  { maxLength: 60 },
);

const SCENARIOS = ['home-shelf', 'kitchen-garden', 'market-farm', 'school-club'].map(example);
const STARTS = fc.constantFrom(
  ...SCENARIOS.flatMap((scenario) => [start(scenario), start(scenario, { columns: 80, rows: 24 }, true)]),
);

/** Nothing is read of it here. */
const COMPARED: CompareResult = {
  seed: 7,
  seasons: 200,
  partial: false,
  running: null,
  by: null,
  first: 'every 3 d',
  plans: [],
};

function happens(state: State, event: Event): State {
  switch (event.kind) {
    case 'key':
      return actionsFor(event.press, state).reduce(reduce, state);
    case 'tick':
      return reduce(state, { type: 'tick' });
    case 'figures':
      return answered(state);
    case 'film':
      return reduce(state, { type: 'film', lastDay: state.scenario.weeks * 7, opensAt: 0 });
    case 'exists':
      return reduce(state, { type: 'saved', outcome: 'exists', message: '' });
    case 'written':
      return reduce(state, { type: 'saved', outcome: 'written', message: 'Written.' });
    case 'compared':
      return reduce(state, { type: 'compared', id: state.asked, result: COMPARED });
  }
}

describe('whatever keys are pressed in whatever order', () => {
  test('nothing is thrown, and day, knob and kept plans stay within what there is', () => {
    fc.assert(
      fc.property(STARTS, EVENTS, (first, events) => {
        const state = events.reduce(happens, first);
        expect(state.day).toBeGreaterThanOrEqual(0);
        expect(state.day).toBeLessThanOrEqual(state.lastDay);
        expect(knobsOf(state.scenario)[state.knob]).toBeDefined();
        expect(state.strip.rows[state.pointer]).toBeDefined();
        expect(state.kept.length).toBeLessThanOrEqual(MOST_KEPT);
        expect(state.answered).toBeLessThanOrEqual(state.asked);
        expect(state.season).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 400, seed: 1 },
    );
  });

  test('the plan is one that a scenario file could say', () => {
    fc.assert(
      fc.property(STARTS, EVENTS, (first, events) => {
        const { scenario } = events.reduce(happens, first);
        expect(readScenario(JSON.stringify(scenario))).toMatchObject({ ok: true });
      }),
      { numRuns: 150, seed: 2 },
    );
  });

  /** What undo brings back. */
  const held = ({ scenario, kept }: State): unknown => ({
    scenario,
    kept: kept.map(({ number, scenario: plan }) => ({ number, plan })),
  });

  test('any change is taken back by one undo, and brought back after that', () => {
    const changes = ['+', '-', '1', '4', '7', 'x', 'k', 'd', '\t\r', '17\r', '\rmon thu\r', '\rdaily\r'];
    const made = new Set<string>();
    fc.assert(
      fc.property(STARTS, EVENTS, fc.constantFrom(...changes), (first, events, keys) => {
        const state = events.reduce(happens, first);
        const before: State = { ...state, mark: 'plan', cover: { kind: 'none' } };
        const changed = pressing(before, keys);
        // Digits are two changes where weekdays stand.
        fc.pre(changed.past.length === Math.min(before.past.length + 1, 200) && changed.past !== before.past);
        fc.pre(changed.cover.kind === 'none');
        made.add(keys);
        expect(held(changed)).not.toEqual(held(before));
        const undone = pressing(changed, 'u');
        expect(held(undone)).toEqual(held(before));
        // The very ones: to look into all of them again and again takes longer than all the keys.
        const left = before.past.slice(-199);
        expect(undone.past.length).toBe(left.length);
        expect(undone.past.every((one, i) => one === left[i])).toBe(true);
        expect(held(pressing(undone, 'r'))).toEqual(held(changed));
      }),
      { numRuns: 1200, seed: 3 },
    );
    expect([...made].sort()).toEqual([...changes].sort());
  });

  test('without a change nothing is there to undo: what is looked at is no change', () => {
    const looks = [' ', 'b', 'w', 'm', 'n', 'c', 'l', '?', '?', '\t', '\t'];
    const looked = pressing(start(), ...looks, { downArrow: true }, { pageDown: true });
    expect(looked.past).toEqual([]);
  });

  test('as many undos as there were changes lead back to the plan that was opened', () => {
    fc.assert(
      fc.property(
        STARTS,
        fc.array(fc.constantFrom('+', '-', 'k', 'x', 'd', '2\r'), { maxLength: 40 }),
        (first, keys) => {
          const changed = pressing(first, ...keys);
          const back = pressing({ ...changed, cover: { kind: 'none' } }, ...changed.past.map(() => 'u'));
          expect(held(back)).toEqual(held(first));
        },
      ),
      { numRuns: 100, seed: 4 },
    );
  });

  test('Ctrl-C leaves; q, and then y where it asks, does so too, once nothing is open', () => {
    fc.assert(
      fc.property(STARTS, EVENTS, (first, events) => {
        const state = { ...events.reduce(happens, first), quit: false };
        expect(actionsFor({ input: 'c', ctrl: true }, state)).toEqual([{ type: 'quit' }]);
        const bare: State = { ...state, cover: { kind: 'none' } };
        const asked = pressing(bare, 'q');
        expect(asked.quit).toBe(lossOf(bare) === null);
        expect(asked.quit || pressing(asked, 'y').quit).toBe(true);
        if (bare.kept.length === 0 && bare.saving === null) expect(asked.quit).toBe(true);
      }),
      { numRuns: 200, seed: 5 },
    );
  });

  test('no file is written over unless y answered the question', () => {
    fc.assert(
      fc.property(STARTS, EVENTS, (first, events) => {
        let state = first;
        for (const event of events) {
          const asked = state.cover.kind === 'over';
          const next = happens(state, event);
          if (next.saving?.over === true && state.saving?.over !== true) {
            expect(asked).toBe(true);
            expect(event).toMatchObject({ kind: 'key', press: { input: 'y' } });
          }
          state = next;
        }
      }),
      { numRuns: 400, seed: 6 },
    );
  });
});

describe('the days', () => {
  const state = start();

  test('a step is a day or a week, and none leads beyond the season', () => {
    const keys = [{ rightArrow: true }, { pageDown: true }, { leftArrow: true }];
    expect(pressing(state, ...keys).day).toBe(7);
    expect(pressing(state, { leftArrow: true }).day).toBe(0);
    expect(pressing(state, { end: true }, { pageDown: true }).day).toBe(26 * 7);
  });

  test('running, each tick moves by the stride until a key stops it', () => {
    const running = acted(pressing(state, ' '), { type: 'tick' }, { type: 'tick' });
    expect(running.day).toBe(2);
    expect(acted(pressing(running, 'w'), { type: 'tick' }).day).toBe(9);
    const stopped = pressing(running, ' ');
    expect(acted(stopped, { type: 'tick' }).day).toBe(2);
  });

  test('backward it runs to the first day and rests there', () => {
    const back = pressing(acted(state, { type: 'step', days: 2 }), 'b');
    const ticks = Array.from({ length: 4 }, () => ({ type: 'tick' }) as const);
    expect(acted(back, ...ticks)).toMatchObject({ day: 0, playing: 0 });
  });

  test('from its last day it begins anew', () => {
    expect(pressing(state, { end: true }, ' ')).toMatchObject({ day: 0, playing: 1 });
    expect(pressing(state, 'b')).toMatchObject({ day: 26 * 7, playing: -1 });
  });

  test('a step stops what runs', () => {
    expect(pressing(state, ' ', { rightArrow: true }).playing).toBe(0);
  });

  test('a shorter film draws the day back to its end', () => {
    expect(
      acted(state, { type: 'step', days: 100 }, { type: 'film', lastDay: 40, opensAt: 0 }),
    ).toMatchObject({
      day: 40,
      lastDay: 40,
    });
  });
});

describe('figures', () => {
  test('those of the plan before stay until new ones come', () => {
    const before = figures({ p50: 10 });
    const changed = pressing(answered(start(), before), '+');
    expect(changed.figures?.result).toBe(before);
    expect(changed.answered).toBeLessThan(changed.asked);
    const now = figures({ p50: 20 });
    expect(answered(changed, now).figures?.result).toBe(now);
  });

  test('a late answer to an older question is dropped once a newer one is there', () => {
    const changed = pressing(start(), '+');
    const now = answered(changed, figures({ p50: 20 }));
    const late = acted(now, {
      type: 'figures',
      id: 1,
      figures: { result: figures({ p50: 10 }), differences: null },
    });
    expect(late).toBe(now);
  });

  test('those of all seasons hold for another season too, once they are all there', () => {
    const other = pressing(answered(start()), 'm');
    expect(other).toMatchObject({ season: 1, asked: 2, answered: 2 });
  });

  test('another season asks again for what is still being worked out', () => {
    const withoutLimits = answered(start(), figures({ limits: null }));
    // What there is is of this plan, and stays; what is missing is asked for.
    const other = pressing(withoutLimits, 'm');
    expect(other).toMatchObject({ asked: 2, answered: 2 });
    expect(isAnswered(other)).toBe(false);
    expect(pressing(start(), 'm')).toMatchObject({ asked: 2, answered: 0 });
  });

  test('where no week is one of a running line, nothing more is to come', () => {
    expect(pressing(answered(start(), figures({ p50: null })), 'm')).toMatchObject({ asked: 2, answered: 2 });
  });

  test('there is no season before the first', () => {
    expect(pressing(start(), 'n')).toMatchObject({ season: 0, asked: 1, note: 'This is the first season.' });
  });
});

describe('the mark', () => {
  const tab = { tab: true };

  test('is on the plan at first; up and down go round and round what it is on', () => {
    const onStrip = pressing(start(), tab);
    expect(onStrip).toMatchObject({ mark: 'strip', pointer: 2, knob: 0 });
    expect(pressing(onStrip, { downArrow: true }, { downArrow: true }, { downArrow: true }).pointer).toBe(0);
    expect(pressing(onStrip, { upArrow: true }, tab, { upArrow: true })).toMatchObject({
      mark: 'plan',
      pointer: 1,
      knob: 5,
    });
  });

  test('Enter takes the row, and the pointer stays on the plan on the screen wherever that stands; also after undo', () => {
    const taken = pressing(start(), tab, { downArrow: true }, { return: true });
    expect(taken.scenario.crops[0]!.sow).toEqual({ every: 4, seeds: 10 });
    const first = pressing(taken, { upArrow: true }, { upArrow: true }, { return: true });
    for (const state of [
      taken,
      first,
      pressing(first, 'u'),
      pressing(first, 'u', 'u'),
      pressing(first, 'c'),
    ]) {
      expect(state.mark).toBe('strip');
      expect(state.strip.rows[state.pointer]).toMatchObject({ now: true });
    }
    expect(pressing(first, 'u', 'u').scenario).toBe(CELLAR);
  });

  test('figures that come leave the pointer where it is', () => {
    const pointed = pressing(start(), tab, { downArrow: true });
    const told = { seasons: 200, from: null, rows: pointed.strip.rows.map(() => null) };
    expect(acted(pointed, { type: 'strip', id: pointed.asked, told }).pointer).toBe(3);
  });
});

describe('undo', () => {
  test('brings back a plan that was dropped, with its number, its figures and the strip of kept plans', () => {
    const result = figures({ limits: HELD_BY_FINISHING });
    const kept = pressing(answered(start(), result), 'k', '+', ...Array(6).fill('c'));
    expect(kept.strip.about).toEqual({ kind: 'kept' });
    const dropped = pressing(kept, 'd');
    expect(dropped).toMatchObject({ kept: [], note: 'Plan 1 is kept no more.' });
    const back = pressing(dropped, 'u');
    expect(back.kept).toEqual([{ number: 1, scenario: CELLAR, result }]);
    expect(back.note).toBe('Plan 1 is kept again.');
    expect(back.strip.about).toEqual({ kind: 'kept' });
    expect(pressing(back, 'r')).toMatchObject({ kept: [], note: 'Plan 1 is kept no more.' });
  });

  test('takes back a swap as a whole', () => {
    const before = pressing(start(), 'k', '+');
    const back = pressing(before, 'x', 'u');
    expect(back).toMatchObject({ scenario: before.scenario, kept: before.kept });
  });

  test('a kept plan without figures is asked about when it is kept again', () => {
    const back = pressing(start(), 'k', '+', 'd');
    const again = pressing(back, 'u');
    expect(again.kept).toMatchObject([{ number: 1, result: null }]);
    expect(again.asked).toBeGreaterThan(back.asked);
  });

  test('the plan before is the last other one, whatever was kept since', () => {
    expect(planBefore(start())).toBeNull();
    const changed = pressing(start(), '+', 'k');
    expect(planBefore(changed)).toBe(CELLAR);
    expect(planBefore(pressing(changed, 'd', 'u'))).toBe(CELLAR);
    expect(planBefore(pressing(start(), 'k'))).toBeNull();
  });

  test('the same value typed again is no change', () => {
    const typed = pressing(start(), '3', { return: true });
    expect(typed).toMatchObject({ past: [], note: 'The plan is so already.' });
  });

  test('a line of more holes than a scenario may have is not made by keys', () => {
    const stages = CELLAR.stages.map((stage, s) =>
      s === 0 ? { ...stage, channels: 1, holes: 999_000 } : stage,
    );
    const large = start({ ...CELLAR, stages });
    const once = pressing(large, { downArrow: true }, { downArrow: true }, '+');
    expect(once.scenario.stages[0]!.channels).toBe(2);
    const twice = pressing(once, '+');
    expect(twice.scenario).toBe(once.scenario);
    expect(twice.note).toMatch(/^Not changed: found 2997120 holes in all .*at most 2000000 holes/);
  });
});

describe('the strip', () => {
  const every = (state: State): number[] =>
    state.strip.rows.map(({ scenario }) => (scenario.crops[0]!.sow as { every: number }).every);

  test('goes with the plan, and asks about its plans', () => {
    const state = start();
    expect(every(state)).toEqual([1, 2, 3, 4, 5]);
    expect(every(pressing(state, '+'))).toEqual([2, 3, 4, 5, 6]);
    // The second knob is the seeds: the cadences stay, of plans with more seeds.
    const seeds = pressing(state, { downArrow: true }, '+');
    expect(every(seeds)).toEqual([1, 2, 3, 4, 5]);
    expect(seeds.strip.rows.every(({ scenario }) => 'seeds' in scenario.crops[0]!.sow)).toBe(true);
    expect(seeds.strip.rows.map(({ scenario }) => scenario.crops[0]!.sow)).toContainEqual({
      every: 5,
      seeds: 11,
    });
  });

  test('has more plans on a high screen, which are asked for', () => {
    const high = acted(start(), { type: 'resize', columns: 120, rows: 40 });
    expect(every(high)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(high.asked).toBe(2);
    expect(acted(high, { type: 'resize', columns: 100, rows: 50 })).toMatchObject({ asked: 2 });
  });

  test('c turns it, which asks about other plans; the figures on the screen stay', () => {
    const state = answered(start());
    const turned = pressing(state, 'c');
    expect(turned.strip.about).toEqual({ kind: 'seeds' });
    expect(turned).toMatchObject({ asked: 2, answered: 2, figures: state.figures });
    expect(isAnswered(turned)).toBe(true);
    let round = state;
    for (let i = 0; i < 6; i++) round = pressing(round, 'c');
    expect(round.strip.about).toEqual({ kind: 'cadence' });
  });

  test('a row of it can be taken up, and undo brings the plan of before back', () => {
    const state = answered(start());
    const taken = acted(state, { type: 'take', row: 4 });
    expect(taken.scenario.crops[0]!.sow).toEqual({ every: 5, seeds: 10 });
    expect(every(taken)).toEqual([3, 4, 5, 6, 7]);
    expect(pressing(taken, 'u').scenario).toBe(state.scenario);
    expect(acted(state, { type: 'take', row: 2 })).toEqual({
      ...state,
      note: 'This is the plan on the screen.',
    });
    expect(acted(state, { type: 'take', row: 9 }).scenario).toBe(state.scenario);
  });

  test('where what it was about is gone it is about the first thing that can be', () => {
    const kept = pressing(start(), 'k', '+', 'c', 'c', 'c', 'c', 'c', 'c');
    expect(kept.strip.about).toEqual({ kind: 'kept' });
    expect(pressing(kept, 'd').strip.about).toEqual({ kind: 'cadence' });
    // A refill, which lies beyond the longest cadence, has none: channels then.
    const refill = pressing(start(), ...Array.from({ length: 9 }, () => '+'));
    expect(refill.scenario.crops[0]!.sow).toEqual({ refill: true });
    expect(refill.strip.about).toEqual({ kind: 'channels', stage: 'finishing' });
  });

  test('whatever is pressed, the plan on the screen stands in it once, and the question is about what it shows', () => {
    fc.assert(
      fc.property(STARTS, EVENTS, (first, events) => {
        let state = first;
        for (const event of events) {
          const next = happens(state, event);
          const now = next.strip.rows.filter((row) => row.now);
          expect(now.map(({ scenario }) => scenario)).toEqual([next.scenario]);
          const plans = (of: State): string => JSON.stringify(of.strip.rows.map(({ scenario }) => scenario));
          if (plans(next) !== plans(state)) expect(next.asked).toBeGreaterThan(state.asked);
          state = next;
        }
      }),
      { numRuns: 150, seed: 7 },
    );
  });
});

describe('the first day', () => {
  test('is the one that the first film says, unless a key was quicker; later films move nothing', () => {
    const film = { type: 'film', lastDay: 182, opensAt: 49 } as const;
    expect(acted(start(), film).day).toBe(49);
    expect(acted(pressing(start(), { rightArrow: true }), film).day).toBe(1);
    expect(acted(start(), film, { ...film, opensAt: 60 }).day).toBe(49);
    expect(acted(pressing(start(), ' '), film).day).toBe(0);
  });
});

describe('plans that are kept', () => {
  const result = figures({ limits: HELD_BY_FINISHING });

  test('a plan is kept with its figures, once', () => {
    const state = pressing(answered(start(), result), 'k');
    expect(state.kept).toEqual([{ number: 1, scenario: CELLAR, result }]);
    expect(pressing(state, 'k').kept).toHaveLength(1);
  });

  test('figures that come later are put to the kept plan', () => {
    const state = answered(pressing(start(), 'k'), result);
    expect(state.kept).toEqual([{ number: 1, scenario: CELLAR, result }]);
  });

  test('figures of only some seasons are not kept; those of all of them come later, also when another plan is on the screen', () => {
    const partial = { ...result, seasons: 20, partial: true, limits: null };
    const kept = pressing(answered(start(), partial), 'k', '+', 'k');
    expect(kept.kept.map(({ number, result: of }) => [number, of])).toEqual([
      [1, null],
      [2, null],
    ]);
    const told = acted(kept, { type: 'keptFigures', number: 1, result });
    expect(told.kept.map(({ result: of }) => of)).toEqual([result, null]);
  });

  test('a number is given out once, so that figures that come late are not those of another plan', () => {
    const gone = pressing(start(), 'k', 'u', '+', 'k');
    expect(gone.kept).toMatchObject([{ number: 2, result: null }]);
    const late = acted(gone, { type: 'keptFigures', number: 1, result: figures({}) });
    expect(late.kept).toEqual(gone.kept);
  });

  test('keep their number', () => {
    const state = pressing(start(), 'k', '+', 'k', '+', 'k', 'd', '+', 'k', 'x');
    expect(state.kept.map(({ number }) => number)).toEqual([2, 4, 4].slice(0, state.kept.length));
  });

  test('the oldest other plan and the one on the screen change places', () => {
    const kept = pressing(start(), 'k', '+');
    const swapped = pressing(kept, 'x');
    expect(swapped.scenario).toBe(CELLAR);
    expect(swapped.kept.map(({ scenario }) => scenario)).toEqual([kept.scenario]);
    expect(pressing(swapped, 'x').scenario).toBe(kept.scenario);
  });

  test('with the plan on the screen alone kept there is nothing to change places with', () => {
    const kept = pressing(start(), 'k');
    expect(pressing(kept, 'x')).toEqual({ ...kept, note: 'No other plan is kept.' });
  });

  test('the last one is dropped; where none is kept that is said', () => {
    const state = pressing(start(), 'k', '+', 'k', 'd');
    expect(state.kept.map(({ scenario }) => scenario)).toEqual([CELLAR]);
    expect(pressing(state, 'd', 'd').note).toBe('No plan is kept.');
  });

  test(`there is room for ${MOST_KEPT}`, () => {
    const keys = Array.from({ length: MOST_KEPT + 1 }, () => ['k', '+']).flat();
    const state = pressing(start(), ...keys);
    expect(state.kept).toHaveLength(MOST_KEPT);
    expect(pressing(state, 'k').note).toMatch(/6 plans are kept/);
  });
});

describe('saving', () => {
  const named = pressing(start(), 's', 'line.yaml', { return: true });

  test('a name that was typed is the wish to write that file, over none', () => {
    expect(named.saving).toEqual({ path: 'line.yaml', over: false, as: 'plan', scenario: CELLAR });
    expect(named.cover.kind).toBe('none');
  });

  test('a file that is there is asked about', () => {
    const asked = acted(named, { type: 'saved', outcome: 'exists', message: '' });
    expect(asked).toMatchObject({ cover: { kind: 'over', wish: { path: 'line.yaml' } }, saving: null });
    expect(pressing(asked, 'n')).toMatchObject({ saving: null, note: 'Nothing was written.' });
    expect(pressing(asked, { escape: true }).saving).toBeNull();
    expect(pressing(asked, 'y').saving).toMatchObject({ path: 'line.yaml', over: true });
  });

  test('why a file could not be written is told where its name is typed anew; where something else is open, after that', () => {
    const failed = { type: 'saved', outcome: 'failed', message: 'the disk is full.' } as const;
    expect(acted(named, failed)).toMatchObject({
      saving: null,
      note: null,
      cover: { kind: 'name', text: 'line.yaml', fault: 'Not written: the disk is full.' },
    });
    expect(acted(pressing(named, '?'), failed)).toMatchObject({
      cover: { kind: 'help' },
      note: 'Not written: the disk is full.',
    });
  });

  test('the ending of the name says what is saved; of another ending nothing is, and the name can be mended', () => {
    const as = (name: string): unknown => pressing(start(), 's', name, { return: true }).saving?.as;
    expect(['a', 'a.yaml', 'b/.a', 'a.YML', 'a.b/c', 'a.json'].map(as)).toEqual(Array(6).fill('plan'));
    // As JSON where the ending says so; a dot that hides a file is none.
    expect(['a.json', 'b/a.b.JSON ', 'a', 'a.yaml', 'b/.json', 'a.json/b'].map(isJson)).toEqual([
      true,
      true,
      ...Array(4).fill(false),
    ]);
    expect(['a.txt', 'a.TXT', '/b/a.csv '].map(as)).toEqual(['text', 'text', 'csv']);
    // Words that every object knows are no endings.
    for (const name of ['a.pdf', 'a.constructor', 'a.__proto__', 'a.tostring']) {
      const refused = pressing(start(), 's', name, { return: true });
      expect(refused).toMatchObject({ saving: null, cover: { kind: 'name', text: name } });
      expect('fault' in refused.cover && refused.cover.fault).toMatch(
        /^Not taken: the ending says what is saved/,
      );
    }
  });

  test('a strip is asked about anew, and waits for its seasons, whatever comes on the screen until then', () => {
    const waiting = pressing(answered(start()), 's', 'a.csv', { return: true });
    expect(waiting).toMatchObject({ asked: 2, answered: 2, compared: null });
    expect(waiting.note).toBe('a.csv is written when all seasons of each plan are there.');
    const known = acted(waiting, { type: 'compared', id: 2, result: COMPARED });
    expect(known.compared).toBe(COMPARED);
    expect(acted(waiting, { type: 'compared', id: 1, result: COMPARED }).compared).toBeNull();
    // Once: whoever writes it does not begin again.
    expect(acted(known, { type: 'compared', id: 2, result: { ...COMPARED } }).compared).toBe(COMPARED);
    const later = [
      pressing(waiting, 'm', '\t', { downArrow: true }),
      pressing(waiting, '+'),
      pressing(waiting, 'c'),
      acted(waiting, { type: 'resize', columns: 120, rows: HIGH_SCREEN }),
    ];
    expect(later.at(-1)!.strip.rows).not.toHaveLength(waiting.strip.rows.length);
    for (const state of later) {
      expect(state.saving).toBe(waiting.saving);
      const told = acted(state, { type: 'compared', id: state.asked, result: COMPARED });
      // A file that somebody else has made meanwhile is asked about; y writes what was asked for then.
      const asked = acted(told, { type: 'saved', outcome: 'exists', message: '' });
      expect(pressing(asked, 'y')).toMatchObject({
        saving: { ...waiting.saving, over: true },
        compared: null,
      });
    }
    expect(pressing(waiting, 's')).toMatchObject({ cover: { kind: 'none' }, note: waiting.note });
    expect(pressing(waiting, 'q').quit).toBe(false);
    expect(acted(known, { type: 'saved', outcome: 'written', message: 'Written: a.csv' })).toMatchObject({
      saving: null,
      compared: null,
      note: 'Written: a.csv',
    });
  });

  test('of the strip the plans that it shows are saved: more on a high screen', () => {
    const plansOf = (rows: number): string[] => {
      const { saving } = pressing(start(CELLAR, { columns: 120, rows }), 's', 'a.txt', { return: true });
      return saving !== null && 'plans' in saving ? saving.plans.map(({ name }) => name) : [];
    };
    expect(plansOf(HIGH_SCREEN - 1)).toEqual([1, 2, 3, 4, 5].map((days) => `every ${days} d`));
    expect(plansOf(HIGH_SCREEN)).toHaveLength(STRIP_ROWS.high);
  });

  test('a plan alone is not compared with anything', () => {
    const alone = { ...start(), strip: { ...start().strip, rows: start().strip.rows.slice(2, 3) } };
    const refused = pressing(alone, 's', 'a.txt', { return: true });
    expect(refused).toMatchObject({ saving: null, cover: { kind: 'name', text: 'a.txt' } });
  });

  test('a kept plan that was saved is not lost by leaving', () => {
    // The plan that was opened is in its file.
    expect(pressing(start(), 'k', 'q').quit).toBe(true);
    expect(pressing(start(), 'k', '+', 'q').quit).toBe(true);
    const kept = pressing(start(), '+', 'k', 's', 'a.yaml', { return: true });
    // As long as it is being written, too, leaving is asked about.
    expect(pressing(kept, 'q').cover.kind).toBe('leave');
    const written = acted(kept, { type: 'saved', outcome: 'written', message: '' });
    expect(pressing(written, 'q').quit).toBe(true);
    expect(pressing(written, '+', 'k', 'q')).toMatchObject({ quit: false, cover: { kind: 'leave' } });
  });

  test('an empty name, or Escape, writes nothing', () => {
    expect(pressing(start(), 's', '  ', { return: true })).toMatchObject({ saving: null });
    expect(pressing(start(), 's', 'a', { escape: true })).toMatchObject({
      saving: null,
      cover: { kind: 'none' },
    });
  });

  test('the last letter is erased whole, whatever it is made of', () => {
    expect(pressing(start(), 's', 'a苗', { backspace: true }).cover).toMatchObject({
      kind: 'name',
      text: 'a',
    });
  });
});

describe('messages', () => {
  test('each says what was asked of nothing', () => {
    expect(pressing(start(), 'u').note).toBe('There is nothing to undo.');
    expect(pressing(start(), 'r').note).toBe('There is nothing to bring back.');
    expect(pressing(start(), 'x').note).toBe('No plan is kept.');
    expect(pressing(start(), 'l').note).toMatch(/no log/);
  });

  test('is gone with the next key that does something', () => {
    const noted = pressing(start(), 'u');
    for (const key of [{ end: true }, { rightArrow: true }, { downArrow: true }, 'w', ' ', '+', 'm', 's']) {
      expect(pressing(noted, key).note).toBeNull();
    }
  });

  test('one day of the week has to stay', () => {
    const visits = pressing(start(), ...Array.from({ length: 5 }, () => ({ downArrow: true })));
    const one = pressing(visits, '1', '4');
    expect(one.scenario.visits).toEqual(['sat']);
    expect(pressing(one, '6')).toEqual({ ...one, note: 'One day of the week has to stay.' });
  });

  test('a knob without days of the week says so', () => {
    expect(acted(pressing(start(KITCHEN), { downArrow: true }), { type: 'weekday', day: 3 }).note).toBe(
      'butterhead seeds has no days of the week.',
    );
  });
});

describe('the log', () => {
  const real = start(CELLAR, { columns: 80, rows: 24 }, true);

  test('is what is seen first where there is one', () => {
    expect(real.real).toBe(true);
    expect(pressing(real, 'l').real).toBe(false);
    expect(pressing(real, 'l', 'l').real).toBe(true);
  });

  test('a change to the plan leads to a simulated season', () => {
    expect(pressing(real, '+').real).toBe(false);
    expect(pressing(real, 'm').real).toBe(false);
  });
});
