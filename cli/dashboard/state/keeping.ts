/** Plans that are put aside to be looked at beside others. */

import { committed } from './history.js';
import { isSamePlan } from './strip.js';
import type { Figures, Kept, State } from './types.js';

/** Plans that can be kept side by side. */
export const MOST_KEPT = 6;

const NOTHING_KEPT = 'No plan is kept.';

/** Whether all figures of the plan on the screen are there; what holds the line back comes last. */
export function isAnswered({
  asked,
  answered,
  figures,
}: Pick<State, 'asked' | 'answered' | 'figures'>): boolean {
  if (figures === null || answered !== asked || figures.result.partial) return false;
  return figures.result.limits !== null || figures.result.running === null;
}

export function kept(state: State): State {
  const known = state.kept.some(({ scenario }) => isSamePlan(scenario, state.scenario));
  if (known) return { ...state, note: 'This plan is kept already.' };
  if (state.kept.length === MOST_KEPT) {
    return { ...state, note: `${MOST_KEPT} plans are kept, and that is all there is room for.` };
  }
  return committed(state, withPresent(state, state.kept), 'Kept.');
}

/** The oldest other kept plan comes on the screen; the present one is kept in its place, last. */
export function swapped(state: State): State {
  const others = state.kept.filter(({ scenario }) => !isSamePlan(scenario, state.scenario));
  const [first, ...rest] = others;
  if (first === undefined) {
    return { ...state, note: state.kept.length === 0 ? NOTHING_KEPT : 'No other plan is kept.' };
  }
  return committed(state, { scenario: first.scenario, ...withPresent(state, rest) });
}

export function dropped(state: State): State {
  const last = state.kept.at(-1);
  if (last === undefined) return { ...state, note: NOTHING_KEPT };
  return committed(state, { kept: state.kept.slice(0, -1) }, `Plan ${last.number} is kept no more.`);
}

/** The plan on the screen behind others that are kept, under its old number if it was kept before. */
function withPresent(state: State, others: readonly Kept[]): Pick<State, 'kept' | 'nextKept'> {
  const { scenario, figures, nextKept } = state;
  const before = state.kept.find((plan) => isSamePlan(plan.scenario, scenario));
  if (before !== undefined) return { kept: [...others, before], nextKept };
  const result = isAnswered(state) ? (figures?.result ?? null) : null;
  return { kept: [...others, { number: nextKept, scenario, result }], nextKept: nextKept + 1 };
}

/** Figures of a plan that is no longer on the screen are dropped, unless nothing newer is there to look at. */
export function answered(state: State, id: number, figures: Figures): State {
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
