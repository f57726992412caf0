/** What is typed at the foot: a file name, whose ending says what is saved, or a value; and what would be lost by leaving. */

import { counted } from '../../words/numbers.js';
import { askedAgain, changed } from './history.js';
import { knobsOf } from './knobs.js';
import { isSamePlan, namedRows } from './strip.js';
import type { Cover, SavedAs, Saving, State } from './types.js';

const NONE: Cover = { kind: 'none' };

const ENDINGS: Readonly<Record<string, SavedAs>> = {
  '': 'plan',
  yaml: 'plan',
  yml: 'plan',
  json: 'plan',
  txt: 'text',
  csv: 'csv',
};

/** The ending of a file name, in small letters; empty if it has none. */
function endingOf(path: string): string {
  const name = path.trim().replace(/^.*[/\\]/, '');
  // A dot at the beginning hides a file, it ends nothing.
  return (/^.+\.([^.]*)$/.exec(name)?.[1] ?? '').toLowerCase();
}

/** Whether a plan that is saved under this name is written as JSON. */
export function isJson(path: string): boolean {
  return endingOf(path) === 'json';
}

/** What a file of this name is to hold; null if that cannot be told. */
export function savedAs(path: string): SavedAs | null {
  const ending = endingOf(path);
  return Object.hasOwn(ENDINGS, ending) ? ENDINGS[ending]! : null;
}

/** The state with a file name being typed. */
export function naming(state: State): State {
  if (state.saving !== null) return { ...state, note: waitingWords(state.saving) };
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
      return named(state, cover.text.trim());
    case 'over':
      return wished(state, { ...cover.wish, over: true });
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

function named(state: State, path: string): State {
  if (path === '') return { ...state, cover: NONE, note: 'Nothing was written.' };
  const as = savedAs(path);
  if (as === null) {
    return refused(
      state,
      'the ending says what is saved: .yaml or .json the plan, .txt or .csv the plans side by side.',
    );
  }
  const wish = { path, over: false };
  if (as === 'plan') return wished(state, { ...wish, as, scenario: state.scenario });
  if (state.strip.rows.length < 2) {
    return refused(state, 'there is only one plan in the strip, and nothing to compare it with.');
  }
  return wished(state, { ...wish, as, plans: namedRows(state) });
}

function wished(state: State, saving: Saving): State {
  const now: State = { ...state, cover: NONE, saving, compared: null };
  // Of the comparison more is wanted than is on the screen.
  return saving.as === 'plan' ? now : { ...askedAgain(now), note: waitingWords(saving) };
}

function waitingWords({ path, as }: Saving): string {
  return as === 'plan'
    ? `${path} is being written.`
    : `${path} is written when all seasons of each plan are there.`;
}

/** What became of a wish. */
export function saved(state: State, outcome: 'written' | 'exists' | 'failed', message: string): State {
  const { saving } = state;
  if (saving === null) return state;
  const now = { ...state, saving: null, compared: null };
  switch (outcome) {
    case 'exists':
      return { ...now, cover: { kind: 'over', wish: saving }, note: null };
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

/** What would be lost by leaving now, as a sentence; null if nothing. */
export function lossOf({
  kept,
  opened,
  written,
  saving,
}: Pick<State, 'kept' | 'opened' | 'written' | 'saving'>): string | null {
  if (saving !== null) return `${saving.path} is not written yet.`;
  const there = [opened, ...written];
  const lost = kept.filter(({ scenario }) => !there.some((one) => isSamePlan(one, scenario))).length;
  return lost === 0 ? null : `${counted(lost, 'kept plan')} ${lost === 1 ? 'is' : 'are'} not saved.`;
}
