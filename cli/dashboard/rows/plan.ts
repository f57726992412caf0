/** The plan as rows: what can be turned, and what the last change brought (or why holes stood empty). */

import { widthOf } from '../../render/width.js';
import { wrapped } from '../../render/wrap.js';
import type { State } from '../state/state.js';
import { isSamePlan } from '../state/strip.js';
import type { Row, Signs } from '../theme.js';
import type { Spell } from '../thread/real-season.js';
import { differenceRows } from './difference.js';
import { knobRows } from './knobs.js';
import type { Layout } from './layout.js';
import { cut, span } from './rows.js';
import { lastOr, spellRows } from './spells.js';

export type PlanState = Pick<
  State,
  | 'opened'
  | 'scenario'
  | 'past'
  | 'knob'
  | 'mark'
  | 'cover'
  | 'figures'
  | 'asked'
  | 'answered'
  | 'kept'
  | 'real'
  | 'lastDay'
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
    isMarked: state.mark === 'plan',
    width,
    height: plan.knobs,
    signs,
  });
  const room = plan.height - plan.knobs;
  const below = state.real
    ? spellRows(spells, lastOr(day, state), { start: state.scenario.start, width, height: room, signs })
    : differenceRows(state, width, room);
  const title = plan.title === 1 ? [planTitle(state, width, signs)] : [];
  return [...title, ...withFault(state, [...knobs, ...below], plan, width, signs)];
}

/**
 * What is wrong with what is being typed, in the lowest rows: just above where it is typed. The row of the value that is typed stays; a
 * screen so low that there is no other row has it at the foot alone.
 */
function withFault(
  { cover, knob }: PlanState,
  rows: readonly Row[],
  { height, knobs, title }: Layout['plan'],
  width: number,
  signs: Signs,
): Row[] {
  const fault = 'fault' in cover ? cover.fault : null;
  if (fault === null) return rows.slice(0, height);
  const lines = wrapped(fault, width);
  const most = cover.kind === 'value' && title === 1 ? height - 1 : height;
  const shown = lines.slice(0, most);
  if (shown.length < lines.length) shown.push(cut(`${shown.pop()} ${lines[most]}`, width, signs.more));
  const room = height - shown.length;
  const from = cover.kind === 'value' ? Math.max(0, (knob % knobs) - room + 1) : 0;
  const kept = Array.from({ length: room }, (_, i) => rows[from + i] ?? []);
  return [...kept, ...shown.map((line): Row => [span(line, 'warn')])];
}

/** `The plan ──────────────── changed · 2 kept ──` */
function planTitle({ opened, scenario, kept }: PlanState, width: number, signs: Signs): Row {
  const told = [
    ...(isSamePlan(opened, scenario) ? [] : ['changed']),
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
