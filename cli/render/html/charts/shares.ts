/** Where the hole-days of each stage went, as bars of equal length. */

import * as Plot from '@observablehq/plot';
import type { SharesChart } from '../../../sections/page.js';
import { percentText } from '../../../words/numbers.js';
import { fillOf } from '../looks.js';
import type { Drawing } from './drawing.js';

/** Height of a row: its words, and below them its bar [px]. */
const ROW = 46;
/** A smaller share has no room for its figure. */
const LEAST_TOLD = { wide: 0.06, narrow: 0.13 };

export function sharesMarks({ rows, states }: SharesChart, width: number): Drawing {
  const pieces = rows.flatMap(({ name, shares }, place) => {
    let from = 0;
    return shares.map((share, s) => {
      const piece = {
        place,
        from,
        to: from + share,
        state: states[s]!.state,
        share: `${Math.round(share * 100)} %`,
        tip: `${name}: ${percentText(share)} ${states[s]!.text}`,
      };
      from += share;
      return piece;
    });
  });
  const least = width > 400 ? LEAST_TOLD.wide : LEAST_TOLD.narrow;
  return {
    height: ROW * rows.length + 6,
    marginLeft: 1,
    marginRight: 1,
    marginTop: 0,
    marginBottom: 2,
    x: { domain: [0, 1], axis: null },
    y: { type: 'linear', domain: [-0.6, rows.length - 0.5], reverse: true, axis: null },
    marks: [
      Plot.text(rows, {
        y: (_: unknown, i: number) => i,
        text: 'name',
        frameAnchor: 'left',
        textAnchor: 'start',
        dy: -14,
        fontWeight: 'bold',
      }),
      Plot.rect(pieces, {
        x1: 'from',
        x2: 'to',
        y1: (piece: { place: number }) => piece.place - 0.1,
        y2: (piece: { place: number }) => piece.place + 0.42,
        fill: (piece: { state: string }) => fillOf(piece.state),
        stroke: 'var(--ink)',
        strokeWidth: 0.75,
        title: 'tip',
      }),
      Plot.text(
        pieces.filter(({ from, to }) => to - from >= least),
        {
          x: (piece: { from: number; to: number }) => (piece.from + piece.to) / 2,
          y: (piece: { place: number }) => piece.place + 0.16,
          text: 'share',
          fill: 'var(--ink)',
          stroke: 'var(--paper)',
          strokeWidth: 4,
          fontWeight: 'bold',
        },
      ),
    ],
    color: { type: 'identity' },
  };
}
