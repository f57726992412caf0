/** One history for all that can be changed: the plan on the screen, however it came there, and the plans that are kept. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import { faultsOf } from '../../../sim/scenario/typed.js';
import { faultSentences } from '../../sections/faults.js';
import { isSamePlan } from './strip.js';
import type { Kept, Past, State } from './types.js';

/** Changes that can be undone. */
const MOST_PAST = 200;

/** The state with something changed, which can be undone. */
export function committed(
  state: State,
  change: Partial<Past & Pick<State, 'nextKept'>>,
  note: string | null = null,
): State {
  const past = [...state.past, pastOf(state)].slice(-MOST_PAST);
  // What is on the screen now is what somebody wants to go on with.
  const about = state.strip.about;
  const { nextKept = state.nextKept } = change;
  return { ...replaced(state, { ...pastOf(state), ...change }), nextKept, past, future: [], about, note };
}

/** The state with another plan on the screen. */
export function changed(state: State, scenario: Scenario): State {
  if (scenario === state.scenario) return { ...state, note: 'This is the end of the range.' };
  if (isSamePlan(scenario, state.scenario)) return { ...state, note: 'The plan is so already.' };
  const [fault] = faultsOf(scenario);
  if (fault !== undefined) return { ...state, note: `Not changed: ${faultSentences(fault)}` };
  return committed(state, { scenario });
}

export function undone(state: State): State {
  const to = state.past.at(-1);
  if (to === undefined) return { ...state, note: 'There is nothing to undo.' };
  const now = replaced(state, to);
  return { ...now, past: state.past.slice(0, -1), future: [pastOf(state), ...state.future] };
}

export function redone(state: State): State {
  const [to, ...future] = state.future;
  if (to === undefined) return { ...state, note: 'There is nothing to bring back.' };
  return { ...replaced(state, to), past: [...state.past, pastOf(state)], future };
}

/** The last plan on the screen that was another one; null if there was none. */
export function planBefore({ past, scenario }: Pick<State, 'past' | 'scenario'>): Scenario | null {
  return past.findLast((one) => !isSamePlan(one.scenario, scenario))?.scenario ?? null;
}

/** Another question about the same plan: what is known of it stays. */
export function askedAgain(state: State): State {
  const asked = state.asked + 1;
  return { ...state, asked, answered: state.answered === state.asked ? asked : state.answered };
}

function pastOf({ scenario, kept }: State): Past {
  return { scenario, kept };
}

function replaced(state: State, { scenario, kept }: Past): State {
  const known = new Map(state.kept.map((plan) => [plan.number, plan.result]));
  // Figures that have come since then stay.
  const plans = kept.map((plan) =>
    plan.result ? plan : { ...plan, result: known.get(plan.number) ?? null },
  );
  const isOther = scenario !== state.scenario;
  const now = { ...state, scenario, kept: plans, note: keptWords(state.kept, kept) };
  if (isOther) return { ...now, asked: state.asked + 1, real: false };
  // A plan that is kept again may lack the figures that nobody has asked for in the meantime.
  const lacks = plans.some(({ number, result }) => result === null && !known.has(number));
  return lacks ? askedAgain(now) : now;
}

/** What undo did to the plans that are kept, which are not all to be seen; null if nothing. */
function keptWords(before: readonly Kept[], after: readonly Kept[]): string | null {
  const others = (of: readonly Kept[], than: readonly Kept[]): number[] =>
    of.map(({ number }) => number).filter((number) => than.every((one) => one.number !== number));
  const said = [
    ...others(after, before).map((number) => `Plan ${number} is kept again.`),
    ...others(before, after).map((number) => `Plan ${number} is kept no more.`),
  ];
  return said.length === 0 ? null : said.join(' ');
}
