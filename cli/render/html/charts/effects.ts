/** What changes bring: a point each, with its interval. */

import * as Plot from '@observablehq/plot';
import type { EffectsChart } from '../../../sections/page.js';
import { figureText, intervalText } from '../../../words/numbers.js';
import { amountScale, amounts } from './axes.js';
import type { Drawing } from './drawing.js';

/** Height of a row: its words, and below them its point [px]. */
const ROW = 40;

export function effectsMarks({ rows, form, unit }: EffectsChart, width: number): Drawing {
  const told = rows.map((row) => ({
    ...row,
    value: figureText(row.mean, form),
    tip: `${row.name}: ${figureText(row.mean, form)} ${unit} (${intervalText(row, form)})`,
  }));
  const place = (_: unknown, i: number): number => i;
  return {
    height: ROW * rows.length + 34,
    marginLeft: 12,
    marginRight: 56,
    marginTop: 4,
    marginBottom: 34,
    x: { domain: rangeOf(rows), nice: true, ...amountScale(unit, width) },
    y: { type: 'linear', domain: [-0.75, rows.length - 0.25], reverse: true, axis: null },
    marks: [
      amounts(width),
      Plot.ruleX([0], { stroke: 'var(--ink)' }),
      Plot.text(told, { y: place, text: 'name', frameAnchor: 'left', textAnchor: 'start', dx: 6, dy: -16 }),
      Plot.ruleY(told, {
        y: place,
        x1: 'low',
        x2: 'high',
        stroke: 'var(--ink)',
        strokeWidth: 2,
        title: 'tip',
      }),
      Plot.dot(told, {
        y: place,
        x: 'mean',
        r: 5,
        symbol: (row: { brings: boolean }) => (row.brings ? 'circle' : 'diamond'),
        fill: (row: { brings: boolean }) => (row.brings ? 'var(--growing)' : 'var(--paper)'),
        stroke: 'var(--ink)',
        title: 'tip',
      }),
      ...[true, false].map((brings) =>
        Plot.text(told, {
          filter: (row: { brings: boolean }) => row.brings === brings,
          y: place,
          x: 'high',
          text: 'value',
          textAnchor: 'start',
          dx: 8,
          fontWeight: brings ? 'bold' : 'normal',
        }),
      ),
    ],
    color: { type: 'identity' },
    symbol: { type: 'identity' } as never,
  };
}

function rangeOf(rows: EffectsChart['rows']): [number, number] {
  const [low, high] = [
    Math.min(0, ...rows.map((row) => row.low)),
    Math.max(0, ...rows.map((row) => row.high)),
  ];
  return low === high ? [-1, 1] : [low, high];
}
