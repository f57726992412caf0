/** The plan as rows: what can be turned, and what the last change brought (or why holes stood empty). */

import { widthOf } from '../../render/width.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import type { Spell } from '../thread/real-season.js';
import { differenceRows } from './difference.js';
import { knobRows } from './knobs.js';
import type { Layout } from './layout.js';
import { span } from './rows.js';
import { lastOr, spellRows } from './spells.js';

export type PlanState = Pick<
  State,
  'scenario' | 'past' | 'knob' | 'mark' | 'figures' | 'asked' | 'answered' | 'kept' | 'real' | 'lastDay'
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

export function planRows({ state, spells, day, layout, signs }: PlanInput): Row[] {
  const { width, plan } = layout;
  const knobs = knobRows({
    scenario: state.scenario,
    chosen: state.knob,
    width,
    height: plan.knobs,
    signs,
  });
  const room = plan.height - plan.knobs;
  const below = state.real
    ? spellRows(spells, lastOr(day, state), state.scenario.start, width, room)
    : differenceRows(state, width, room);
  const title = plan.title === 1 ? [planTitle(state, width, signs)] : [];
  return [...title, ...[...knobs, ...below].slice(0, plan.height)];
}

/** `The plan ──────────────── changed · 2 kept ──` */
function planTitle({ past, kept }: PlanState, width: number, signs: Signs): Row {
  const told = [
    ...(past.length > 0 ? ['changed'] : []),
    ...(kept.length > 0 ? [`${kept.length} kept`] : []),
  ].join(` ${signs.dot} `);
  const words = told === '' ? '' : ` ${told} `;
  const name = 'The plan ';
  const rule = Math.max(0, width - name.length - widthOf(words) - 2);
  return [
    span(name, 'strong'),
    span(signs.rule.repeat(rule), 'faint'),
    span(words),
    span(signs.rule.repeat(2), 'faint'),
  ];
}
