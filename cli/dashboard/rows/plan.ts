/**
 * The plan as rows: what can be turned, what the last change brought (or why holes stood empty), plans that
 * were kept.
 */

import { widthOf } from '../../render/width.js';
import { counted } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import type { Spell } from '../thread/real-season.js';
import { differenceRows, isOut, runningWords } from './difference.js';
import { keptRows } from './kept.js';
import { knobRows } from './knobs.js';
import type { Layout } from './layout.js';
import { halves, span } from './rows.js';
import { lastOr, spellRows } from './spells.js';

export type PlanState = Pick<
  State,
  'scenario' | 'knob' | 'figures' | 'asked' | 'answered' | 'kept' | 'real' | 'lastDay'
>;

export interface PlanInput {
  readonly state: PlanState;
  /** Of the log, if the logged season is on the screen. */
  readonly spells: readonly Spell[];
  /** Counts only where the logged season is on the screen. */
  readonly day: number;
  readonly layout: Pick<Layout, 'width' | 'plan'>;
  readonly signs: Signs;
}

const GAP = 3;

export function planRows({ state, spells, day, layout, signs }: PlanInput): Row[] {
  const { width, plan } = layout;
  const knobs = knobRows({
    scenario: state.scenario,
    chosen: state.knob,
    width: plan.left,
    height: plan.knobs,
    signs,
  });
  const room = plan.height - plan.knobs;
  const below = state.real
    ? spellRows(spells, lastOr(day, state), state.scenario.start, plan.left, room)
    : differenceRows(state, plan.left, room);
  const left = [...knobs, ...below];
  const right = width - plan.left - GAP;
  const rows =
    plan.left < width ? halves([left, keptRows(state, right, plan.height, signs)], width, right, GAP) : left;
  return [planTitle(state, width, plan.left < width, signs), ...rows.slice(0, plan.height)];
}

/** `The plan ───────── running 200 seasons ──` */
function planTitle(state: PlanState, width: number, tableIsShown: boolean, signs: Signs): Row {
  const words = isOut(state) ? ` ${runningWords(state.scenario)} ` : '';
  const kept =
    state.kept.length === 0 || tableIsShown
      ? ''
      : ` ${counted(state.kept.length, 'plan')} kept: a wider window shows them `;
  const name = 'The plan ';
  const rule = Math.max(0, width - name.length - widthOf(words) - widthOf(kept) - 2);
  return [
    span(name, 'strong'),
    span(signs.rule.repeat(rule), 'faint'),
    span(kept, 'faint'),
    span(words),
    span(signs.rule.repeat(2), 'faint'),
  ];
}
