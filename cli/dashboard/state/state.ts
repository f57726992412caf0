/**
 * How the state of the dashboard changes: a pure function from a state and an action to the next state.
 *
 * Nothing here reads the clock, runs seasons or writes files. What must happen outside is written into the state
 * (`asked`, `saving`), and whoever draws it sees to it.
 */

import type { StripTold } from '../thread/messages.js';
import { askedAgain, changed, redone, undone } from './history.js';
import { answered, dropped, kept, swapped } from './keeping.js';
import { knobsOf } from './knobs.js';
import { accepted, lossOf, naming, retyped, saved, typedOn } from './saving.js';
import { nextAbout, stripOf } from './strip.js';
import type { Action, State } from './types.js';

export type { Action, State } from './types.js';

export function beginning(given: Pick<State, 'scenario' | 'columns' | 'rows' | 'hasLog'>): State {
  const strip = stripOf({ ...given, kept: [] }, null, null);
  return {
    ...given,
    opened: given.scenario,
    strip,
    about: null,
    mark: 'plan',
    knob: 0,
    pointer: strip.rows.findIndex(({ now }) => now),
    past: [],
    future: [],
    season: 0,
    real: given.hasLog,
    lastDay: given.scenario.weeks * 7,
    day: 0,
    dayChosen: false,
    playing: 0,
    stride: 1,
    asked: 1,
    figures: null,
    answered: 0,
    kept: [],
    nextKept: 1,
    cover: { kind: 'none' },
    saving: null,
    compared: null,
    written: [],
    note: null,
    repaints: 0,
    stops: 0,
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
    before.about === state.about
  ) {
    return state;
  }
  const strip = stripOf(state, state.about ?? state.strip.about, state.strip);
  if (strip === state.strip) return state;
  const now = state.asked > before.asked ? state : askedAgain(state);
  // On the plan on the screen, wherever that stands now.
  return { ...now, strip, pointer: strip.rows.findIndex((row) => row.now) };
}

function acted(state: State, action: Action): State {
  switch (action.type) {
    case 'resize':
      return { ...state, columns: action.columns, rows: action.rows };
    case 'tick':
      return state.playing === 0 ? state : moved(state, state.playing * state.stride);
    case 'step':
      return moved({ ...state, playing: 0, note: null }, action.days);
    case 'go': {
      const day = action.to === 'start' ? 0 : state.lastDay;
      return { ...state, playing: 0, day, dayChosen: true, note: null };
    }
    case 'about':
      return { ...state, about: nextAbout(state, state.strip.about, action.by), note: null };
    case 'mark':
      return { ...state, mark: state.mark === 'strip' ? 'plan' : 'strip', note: null };
    case 'astray':
      return { ...state, note: 'Tab leads to the plan; there values are changed.' };
    case 'choose':
      return chosen(state, action.by);
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
    case 'turn':
      return changed(state, knobsOf(state.scenario)[state.knob]!.turn(state.scenario, action.by));
    case 'weekday':
      return weekday(state, action.day);
    case 'type':
      return { ...state, playing: 0, cover: { kind: 'value', text: action.text, fault: null }, note: null };
    case 'undo':
      return undone(state);
    case 'redo':
      return redone(state);
    case 'keep':
      return kept(state);
    case 'swap':
      return swapped(state);
    case 'drop':
      return dropped(state);
    case 'help':
      return { ...state, playing: 0, cover: { kind: state.cover.kind === 'help' ? 'none' : 'help' } };
    case 'save':
      return naming(state);
    case 'text':
      return typedOn(state, action.text);
    case 'erase':
      return retyped(state, (text) => [...text].slice(0, -1).join(''));
    case 'accept':
      return accepted(state);
    case 'refuse':
      return {
        ...state,
        cover: { kind: 'none' },
        note: state.cover.kind === 'over' ? 'Nothing was written.' : null,
      };
    case 'saved':
      return saved(state, action.outcome, action.message);
    case 'figures':
      return answered(state, action.id, action.figures);
    case 'strip':
      return told(state, action.id, action.told);
    case 'compared':
      // Once: whoever writes it does not begin again.
      return action.id === state.asked && state.saving !== null && state.compared === null
        ? { ...state, compared: action.result }
        : state;
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
    case 'repaint':
      return { ...state, repaints: state.repaints + 1 };
    case 'stop':
      return { ...state, playing: 0, stops: state.stops + 1 };
    case 'leave':
      return lossOf(state) === null
        ? { ...state, quit: true }
        : { ...state, playing: 0, cover: { kind: 'leave' }, note: null };
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

/** Round and round the rows of the strip, or the knobs of the plan. */
function chosen(state: State, by: 1 | -1): State {
  const next = (at: number, count: number): number => (at + by + count) % count;
  return state.mark === 'strip'
    ? { ...state, pointer: next(state.pointer, state.strip.rows.length), note: null }
    : { ...state, knob: next(state.knob, knobsOf(state.scenario).length), note: null };
}

function weekday(state: State, day: number): State {
  const { label, toggle } = knobsOf(state.scenario)[state.knob]!;
  if (day < 0 || day > 6) return { ...state, note: '1 to 7 are the days of the week, Monday to Sunday.' };
  const scenario = toggle(state.scenario, day);
  if (scenario === null) return { ...state, note: `${label} has no days of the week.` };
  if (scenario === state.scenario) return { ...state, note: 'One day of the week has to stay.' };
  return changed(state, scenario);
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
