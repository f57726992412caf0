/** What is typed at the foot: a file name, whose ending says what is saved, or a value; and what would be lost by leaving. */

import { counted } from '../../words/numbers.js';
import { askedAgain, changed } from './history.js';
import { knobsOf } from './knobs.js';
import { isSamePlan } from './strip.js';
import type { Cover, SavedAs, State } from './types.js';

const NONE: Cover = { kind: 'none' };

const ENDINGS: Readonly<Record<string, SavedAs>> = {
  '': 'plan',
  yaml: 'plan',
  yml: 'plan',
  json: 'plan',
  txt: 'text',
  csv: 'csv',
};

export function isJson(path: string): boolean {
  return /\.json$/i.test(path.trim());
}

/** What a file of this name is to hold; null if that cannot be told. */
export function savedAs(path: string): SavedAs | null {
  const name = path.trim().replace(/^.*[/\\]/, '');
  // A dot at the beginning hides a file, it ends nothing.
  const ending = /^.+\.([^.]*)$/.exec(name)?.[1] ?? '';
  return ENDINGS[ending.toLowerCase()] ?? null;
}

/** The state with a file name being typed. */
export function naming(state: State): State {
  if (state.saving !== null) return { ...state, note: waitingWords(state) };
  return { ...state, playing: 0, cover: { kind: 'name', text: '', fault: null }, note: null };
}

/** The state with so many letters more behind what is being typed; a value that was refused makes room for them. */
export function typedOn(state: State, text: string): State {
  const { cover } = state;
  const isRefused = cover.kind === 'value' && cover.fault !== null;
  return retyped(state, (before) => (isRefused ? text : before + text));
}

/** The state with another text in place of what is being typed. */
export function retyped(state: State, change: (text: string) => string): State {
  const { cover } = state;
  if (cover.kind !== 'name' && cover.kind !== 'value') return state;
  return { ...state, cover: { ...cover, text: change(cover.text), fault: null } };
}

/** Enter, or y. */
export function accepted(state: State): State {
  const { cover } = state;
  switch (cover.kind) {
    case 'value':
      return valued(state, cover.text.trim());
    case 'name':
    case 'over':
      return wished(state, cover.text.trim(), cover.kind === 'over');
    case 'leave':
      return { ...state, quit: true };
    default:
      return state;
  }
}

/** What was typed becomes the value; where it is refused it stays, so that it can be mended. */
function valued(state: State, text: string): State {
  const bare: State = { ...state, cover: NONE, note: null };
  if (text === '') return bare;
  const typed = knobsOf(state.scenario)[state.knob]!.typed(state.scenario, text);
  return typed.ok ? changed(bare, typed.value) : refused(state, typed.faults[0]!);
}

function refused(state: State, fault: string): State {
  const { cover } = state;
  return cover.kind === 'name' || cover.kind === 'value'
    ? { ...state, cover: { ...cover, fault: `Not taken: ${fault}` } }
    : state;
}

function wished(state: State, path: string, over: boolean): State {
  if (path === '') return { ...state, cover: NONE, note: 'Nothing was written.' };
  const as = savedAs(path);
  if (as === null) {
    return refused(
      state,
      'the ending says what is saved: .yaml the plan, .txt or .csv the plans side by side.',
    );
  }
  const { scenario, strip } = state;
  if (as !== 'plan' && strip.rows.length < 2) {
    return refused(state, 'there is only one plan in the strip, and nothing to compare it with.');
  }
  const wish: State = { ...state, cover: NONE, saving: { path, over, as, scenario }, compared: null };
  // Of the comparison more is wanted than is on the screen.
  return as === 'plan' ? wish : { ...askedAgain(wish), note: waitingWords(wish) };
}

function waitingWords({ saving, strip }: State): string {
  const seasons = strip.seasons === null ? 'all seasons' : `all ${counted(strip.seasons, 'season')}`;
  return `${saving?.path} is written when ${seasons} of each plan are there.`;
}

/** What became of a wish. */
export function saved(state: State, outcome: 'written' | 'exists' | 'failed', message: string): State {
  const { saving } = state;
  if (saving === null) return state;
  const now = { ...state, saving: null, compared: null };
  switch (outcome) {
    case 'exists':
      return { ...now, cover: { kind: 'over', text: saving.path }, note: null };
    case 'failed':
      // Typed anew where nothing else is open: why it failed then has more than one row.
      return now.cover.kind === 'none'
        ? { ...now, cover: { kind: 'name', text: saving.path, fault: `Not written: ${message}` }, note: null }
        : { ...now, note: `Not written: ${message}` };
    case 'written':
      return {
        ...now,
        note: message,
        written: saving.as === 'plan' ? [...state.written, saving.scenario] : state.written,
      };
  }
}

/** The plans side by side are others now: those that were to be saved are gone. */
export function unwished(state: State): State {
  if (state.saving === null || state.saving.as === 'plan') return state;
  const note = `${state.saving.path} was not written: its plans stand side by side no more.`;
  return { ...state, saving: null, compared: null, note };
}

/** What would be lost by leaving now, as a sentence; null if nothing. */
export function lossOf({ kept, written, saving }: Pick<State, 'kept' | 'written' | 'saving'>): string | null {
  if (saving !== null) return `${saving.path} is not written yet.`;
  const lost = kept.filter(({ scenario }) => !written.some((one) => isSamePlan(one, scenario))).length;
  return lost === 0 ? null : `${counted(lost, 'kept plan')} ${lost === 1 ? 'is' : 'are'} not saved.`;
}
