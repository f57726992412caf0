/** A usual and a bad week of several plans, as bars on one scale. */

import * as Plot from '@observablehq/plot';
import type { PlansChart } from '../../../sections/page.js';
import { countText } from '../../../words/numbers.js';
import { amountScale, amounts } from './axes.js';
import type { Drawing } from './drawing.js';

/** Height of a row: its words, and below them its bars [px]. */
const ROW = 46;

export function plansMarks({ rows }: PlansChart, width: number): Drawing {
  const most = Math.max(1, ...rows.map(({ usual }) => usual));
  const told = rows.map((row, i) => ({
    ...row,
    place: i,
    called: row.now ? `${row.name} (this plan)` : row.name,
    held: `held back by ${row.note}`,
    figures: `${countText(row.usual)} usual, ${countText(row.bad)} bad`,
    tip: `${row.name}: ${countText(row.usual)} heads in a usual week, ${countText(row.bad)} in a bad one; held back by ${row.note}`,
  }));
  const wide = width > 400;
  const bars = { y1: (row: { place: number }) => row.place - 0.12, title: 'tip' } as const;
  return {
    height: ROW * rows.length + 36,
    marginLeft: 12,
    marginRight: wide ? 118 : 12,
    marginTop: 0,
    marginBottom: 36,
    x: { domain: [0, most], ...amountScale('heads a week', width) },
    y: { type: 'linear', domain: [-0.62, rows.length - 0.5], reverse: true, axis: null },
    marks: [
      amounts(width),
      Plot.rect(told, {
        ...bars,
        y2: (row: { place: number }) => row.place + 0.3,
        x1: 0,
        x2: 'usual',
        fill: (row: { now: boolean }) => (row.now ? 'var(--now)' : 'var(--soft)'),
        stroke: 'var(--ink)',
        strokeWidth: (row: { now: boolean }) => (row.now ? 2 : 1),
      }),
      Plot.rect(told, {
        y1: (row: { place: number }) => row.place + 0,
        y2: (row: { place: number }) => row.place + 0.18,
        x1: 0,
        x2: 'bad',
        fill: 'var(--ink)',
        title: 'tip',
      }),
      ...[true, false].map((now) =>
        Plot.text(told, {
          filter: (row: { now: boolean }) => row.now === now,
          y: 'place',
          text: (row: { called: string; figures: string }) =>
            wide ? row.called : `${row.called}: ${row.figures}`,
          frameAnchor: 'left',
          textAnchor: 'start',
          dy: -14,
          fontWeight: now ? 'bold' : 'normal',
        }),
      ),
      ...(wide
        ? [
            Plot.text(told, { y: 'place', x: 'usual', text: 'figures', textAnchor: 'start', dx: 6, dy: 4 }),
            Plot.text(told, {
              y: 'place',
              text: 'held',
              frameAnchor: 'right',
              textAnchor: 'end',
              dx: 116,
              dy: -14,
              fill: 'var(--muted)',
            }),
          ]
        : []),
    ],
    color: { type: 'identity' },
  };
}
