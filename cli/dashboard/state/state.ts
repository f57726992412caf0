/**
 * The state of the dashboard and how it changes: a pure function from a state and an action to the next state.
 *
 * Nothing here reads the clock, runs seasons or writes files. What must happen outside is written into the state
 * (`asked`, `saving`), and whoever draws it sees to it.
 */

import type { Scenario } from '../../../sim/scenario/schema.js';
import type { RunResult } from '../../../sim/study/summary.js';
import type { Differences, StripTold } from '../thread/messages.js';
import { knobsOf } from './knobs.js';
import { isSamePlan, nextAbout, type Strip, stripOf } from './strip.js';

/** What covers the picture, if anything. */
export type Cover =
  | { readonly kind: 'none' | 'help' }
  /** `name`: a file name is being typed. `over`: the file is there, may it be written over? */
  | { readonly kind: 'name' | 'over'; readonly text: string };

/** A plan that was put aside to be looked at beside others. */
export interface Kept {
  /** What it is called: 1 for the first that was kept, and so on. */
  readonly number: number;
  readonly scenario: Scenario;
  /** Its figures, once they are known. */
  readonly result: RunResult | null;
}

/** Figures of a plan. */
export interface Figures {
  readonly result: RunResult;
  readonly differences: Differences | null;
}

export interface State {
  readonly columns: number;
  readonly rows: number;
  /** The plan on the screen. */
  readonly scenario: Scenario;
  /** Plans before it, the last one last, and plans that were undone. */
  readonly past: readonly Scenario[];
  readonly future: readonly Scenario[];
  /** Which season is filmed. */
  readonly season: number;
  /** A season that was logged, not simulated, is shown. */
  readonly real: boolean;
  /** There is a log. */
  readonly hasLog: boolean;
  /** Last day of the film [d]. */
  readonly lastDay: number;
  readonly day: number;
  /** false until a key or the first film has chosen the day. */
  readonly dayChosen: boolean;
  /** 1 forward, -1 backward, 0 at rest. */
  readonly playing: -1 | 0 | 1;
  /** Days that the film moves at a time: 1 or 7. */
  readonly stride: 1 | 7;
  readonly knob: number;
  /** Which part of the screen up, down and Enter act on. */
  readonly mark: 'strip' | 'plan';
  /** The plan beside its neighbours, or beside those that were kept. */
  readonly strip: Strip;
  /** Number of the last question; its answer may still be out. */
  readonly asked: number;
  /** Figures on the screen, of question `answered`: those of an older plan until new ones come. */
  readonly figures: Figures | null;
  readonly answered: number;
  readonly kept: readonly Kept[];
  /** Number of the next plan that is kept. */
  readonly nextKept: number;
  readonly cover: Cover;
  /** A wish that the program should write a file. */
  readonly saving: { readonly path: string; readonly over: boolean } | null;
  /** A short message; gone with the next key. */
  readonly note: string | null;
  readonly quit: boolean;
}

export type Action =
  | { readonly type: 'tick' | 'stride' | 'real' | 'undo' | 'redo' | 'keep' | 'swap' | 'drop' }
  /** Another thing that the strip is about. */
  | { readonly type: 'about'; readonly by: 1 | -1 }
  /** The plan of a row of the strip comes on the screen. */
  | { readonly type: 'take'; readonly row: number }
  | { readonly type: 'help' | 'save' | 'erase' | 'accept' | 'refuse' | 'quit' }
  | { readonly type: 'resize'; readonly columns: number; readonly rows: number }
  | { readonly type: 'step'; readonly days: number }
  | { readonly type: 'go'; readonly to: 'start' | 'end' }
  | { readonly type: 'play'; readonly direction: 1 | -1 }
  | { readonly type: 'season' | 'knob' | 'turn'; readonly by: 1 | -1 }
  | { readonly type: 'weekday'; readonly day: number }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'saved'; readonly outcome: 'written' | 'exists' | 'failed'; readonly message: string }
  | { readonly type: 'figures'; readonly id: number; readonly figures: Figures }
  | { readonly type: 'strip'; readonly id: number; readonly told: StripTold }
  | { readonly type: 'keptFigures'; readonly number: number; readonly result: RunResult }
  /** @property opensAt day that is shown first */
  | { readonly type: 'film'; readonly lastDay: number; readonly opensAt: number };

/** Plans that can be undone. */
const MOST_PAST = 200;
const NOTHING_KEPT = 'No plan is kept.';
/** Plans that can be kept side by side. */
export const MOST_KEPT = 6;

export function beginning(given: Pick<State, 'scenario' | 'columns' | 'rows' | 'hasLog'>): State {
  return {
    ...given,
    strip: stripOf({ ...given, kept: [] }, null, null),
    mark: 'plan',
    past: [],
    future: [],
    season: 0,
    real: given.hasLog,
    lastDay: given.scenario.weeks * 7,
    day: 0,
    dayChosen: false,
    playing: 0,
    stride: 1,
    knob: 0,
    asked: 1,
    figures: null,
    answered: 0,
    kept: [],
    nextKept: 1,
    cover: { kind: 'none' },
    saving: null,
    note: null,
    quit: false,
  };
}

export function reduce(state: State, action: Action): State {
  return stripped(state, acted(state, action));
}

/** With the strip that belongs to the plan, the kept plans and the size of the screen; asked about where it is another one. */
function stripped(before: State, state: State): State {
  if (
    before.scenario === state.scenario &&
    before.kept === state.kept &&
    before.rows === state.rows &&
    before.strip === state.strip
  ) {
    return state;
  }
  const strip = stripOf(state, state.strip.about, state.strip);
  if (strip === state.strip) return state;
  return { ...(state.asked > before.asked ? state : askedAgain(state)), strip };
}

function acted(state: State, action: Action): State {
  switch (action.type) {
    case 'resize':
      return { ...state, columns: action.columns, rows: action.rows };
    case 'tick':
      return state.playing === 0 ? state : moved(state, state.playing * state.stride);
    case 'step':
      return moved({ ...state, playing: 0, note: null }, action.days);
    case 'go':
      return {
        ...state,
        playing: 0,
        day: action.to === 'start' ? 0 : state.lastDay,
        dayChosen: true,
        note: null,
      };
    case 'about': {
      const about = nextAbout(state, state.strip.about, action.by);
      const strip = stripOf(state, about, state.strip);
      return strip === state.strip ? state : { ...askedAgain(state), strip, note: null };
    }
    case 'take': {
      const row = state.strip.rows[action.row];
      if (row === undefined || row.now) return { ...state, note: 'This is the plan on the screen.' };
      return changed(state, row.scenario);
    }
    case 'play':
      return played(state, action.direction);
    case 'stride':
      return { ...state, stride: state.stride === 1 ? 7 : 1, note: null };
    case 'season':
      return otherSeason(state, action.by);
    case 'real':
      return state.hasLog
        ? { ...state, real: !state.real, playing: 0, note: null }
        : { ...state, note: 'There is no log to show. Start with: evensow watch FILE LOG' };
    case 'knob': {
      const count = knobsOf(state.scenario).length;
      return { ...state, knob: (state.knob + action.by + count) % count, note: null };
    }
    case 'turn':
      return changed(state, knobsOf(state.scenario)[state.knob]!.turn(state.scenario, action.by));
    case 'weekday': {
      const { label, toggle } = knobsOf(state.scenario)[state.knob]!;
      if (toggle === undefined) return { ...state, note: `${label} has no days of the week.` };
      const scenario = toggle(state.scenario, action.day);
      if (scenario === state.scenario) return { ...state, note: 'One day of the week has to stay.' };
      return changed(state, scenario);
    }
    case 'undo':
      return undone(state);
    case 'redo':
      return redone(state);
    case 'keep':
      return kept(state);
    case 'swap':
      return swapped(state);
    case 'drop':
      return { ...state, kept: state.kept.slice(0, -1), note: state.kept.length === 0 ? NOTHING_KEPT : null };
    case 'help':
      return { ...state, playing: 0, cover: { kind: state.cover.kind === 'help' ? 'none' : 'help' } };
    case 'save':
      return { ...state, playing: 0, cover: { kind: 'name', text: '' }, note: null };
    case 'text':
      return renamed(state, (name) => name + action.text);
    case 'erase':
      return renamed(state, (name) => [...name].slice(0, -1).join(''));
    case 'accept':
      return accepted(state);
    case 'refuse':
      return {
        ...state,
        cover: { kind: 'none' },
        note: state.cover.kind === 'over' ? 'Nothing was written.' : null,
      };
    case 'saved':
      return saved(state, action);
    case 'figures':
      return answered(state, action.id, action.figures);
    case 'strip':
      return told(state, action.id, action.told);
    case 'keptFigures':
      return {
        ...state,
        kept: state.kept.map((plan) =>
          plan.number === action.number ? { ...plan, result: action.result } : plan,
        ),
      };
    case 'film': {
      const day = state.dayChosen ? state.day : action.opensAt;
      return { ...state, dayChosen: true, lastDay: action.lastDay, day: Math.min(day, action.lastDay) };
    }
    case 'quit':
      return { ...state, quit: true };
  }
}

function moved(state: State, days: number): State {
  const day = Math.max(0, Math.min(state.lastDay, state.day + days));
  // The film stops where it ends.
  const ended = state.playing !== 0 && (day === 0 || day === state.lastDay) && day === state.day;
  if (day === state.day && !ended) return state;
  return { ...state, day, dayChosen: true, playing: ended ? 0 : state.playing };
}

function played(state: State, direction: 1 | -1): State {
  if (state.playing === direction) return { ...state, playing: 0 };
  // From its end the film begins anew.
  const from = direction === 1 ? state.lastDay : 0;
  const day = state.day === from ? state.lastDay - from : state.day;
  return { ...state, playing: direction, day, dayChosen: true, note: null };
}

function otherSeason(state: State, by: 1 | -1): State {
  const season = Math.max(0, state.season + by);
  if (season === state.season) return { ...state, note: 'This is the first season.' };
  return { ...askedAgain(state), season, real: false, note: null };
}

/** Another question about the same plan: what is known of it stays. */
function askedAgain(state: State): State {
  const asked = state.asked + 1;
  return { ...state, asked, answered: state.answered === state.asked ? asked : state.answered };
}

/** Whether all figures of the plan on the screen are there; what holds the line back comes last. */
export function isAnswered({
  asked,
  answered,
  figures,
}: Pick<State, 'asked' | 'answered' | 'figures'>): boolean {
  if (figures === null || answered !== asked || figures.result.partial) return false;
  return figures.result.limits !== null || figures.result.running === null;
}

/** What is known of the plans of the strip; what was told of another strip is dropped. */
function told(state: State, id: number, { seasons, from, rows }: StripTold): State {
  const { strip, asked } = state;
  if (id !== asked) return state;
  return {
    ...state,
    strip: {
      ...strip,
      seasons,
      from,
      rows: strip.rows.map((row, i) => ({ ...row, ...(rows[i] == null ? {} : { ...rows[i], fresh: true }) })),
    },
  };
}

/** The state with another plan; the present one can be brought back. */
function changed(state: State, scenario: Scenario): State {
  if (scenario === state.scenario) return { ...state, note: 'This is the end of the range.' };
  return replaced(state, scenario, [...state.past, state.scenario], []);
}

function replaced(state: State, scenario: Scenario, past: State['past'], future: State['future']): State {
  const asked = state.asked + 1;
  return { ...state, scenario, past: past.slice(-MOST_PAST), future, real: false, asked, note: null };
}

function undone(state: State): State {
  const scenario = state.past.at(-1);
  if (scenario === undefined) return { ...state, note: 'There is nothing to undo.' };
  return replaced(state, scenario, state.past.slice(0, -1), [state.scenario, ...state.future]);
}

function redone(state: State): State {
  const [scenario, ...future] = state.future;
  if (scenario === undefined) return { ...state, note: 'There is nothing to bring back.' };
  return replaced(state, scenario, [...state.past, state.scenario], future);
}

function kept(state: State): State {
  const known = state.kept.some(({ scenario }) => isSamePlan(scenario, state.scenario));
  if (known) return { ...state, note: 'This plan is kept already.' };
  if (state.kept.length === MOST_KEPT) {
    return { ...state, note: `${MOST_KEPT} plans are kept, and that is all there is room for.` };
  }
  return withPresentKept(state, state.kept, state, 'Kept.');
}

/** The oldest other kept plan comes on the screen; the present one is kept in its place, last. */
function swapped(state: State): State {
  const others = state.kept.filter(({ scenario }) => !isSamePlan(scenario, state.scenario));
  const [first, ...rest] = others;
  if (first === undefined) {
    return { ...state, note: state.kept.length === 0 ? NOTHING_KEPT : 'No other plan is kept.' };
  }
  return withPresentKept(changed(state, first.scenario), rest, state, null);
}

/** A state with the plan of another one put behind those that are kept, under its old number if it was kept before. */
function withPresentKept(
  state: State,
  others: readonly Kept[],
  { scenario, figures, kept, nextKept, ...asked }: State,
  note: string | null,
): State {
  const before = kept.find((plan) => isSamePlan(plan.scenario, scenario));
  const isKnown = isAnswered({ ...asked, figures });
  const plan: Kept = before ?? {
    number: nextKept,
    scenario,
    result: isKnown ? (figures?.result ?? null) : null,
  };
  return {
    ...state,
    kept: [...others, plan],
    nextKept: before === undefined ? nextKept + 1 : nextKept,
    note,
  };
}

/** The state with another text in place of the file name that is being typed. */
function renamed(state: State, change: (name: string) => string): State {
  const { cover } = state;
  return cover.kind === 'name' ? { ...state, cover: { kind: 'name', text: change(cover.text) } } : state;
}

function accepted(state: State): State {
  const { cover } = state;
  if (cover.kind !== 'name' && cover.kind !== 'over') return state;
  const path = cover.text.trim();
  if (path === '') return { ...state, cover: { kind: 'none' }, note: 'Nothing was written.' };
  return { ...state, cover: { kind: 'none' }, saving: { path, over: cover.kind === 'over' } };
}

function saved(state: State, { outcome, message }: Extract<Action, { type: 'saved' }>): State {
  if (state.saving === null) return state;
  const { path } = state.saving;
  if (outcome === 'exists') return { ...state, saving: null, cover: { kind: 'over', text: path } };
  return { ...state, saving: null, note: message };
}

/** Figures of a plan that is no longer on the screen are dropped, unless nothing newer is there to look at. */
function answered(state: State, id: number, figures: Figures): State {
  if (id < state.answered) return state;
  const now = { ...state, figures, answered: id };
  const isKept = isAnswered(now) && state.kept.some(({ scenario }) => isSamePlan(scenario, state.scenario));
  if (!isKept) return now;
  return {
    ...now,
    kept: state.kept.map((plan) =>
      isSamePlan(plan.scenario, state.scenario) ? { ...plan, result: figures.result } : plan,
    ),
  };
}
