/** Marks on a plane, as every section may have them: each mark is its sign, as in the key below. */

import * as Plot from '@observablehq/plot';
import type { Mark, Plane } from '../../../sections/section.js';
import { figureText } from '../../../words/numbers.js';
import type { Drawing } from './drawing.js';

export function planeMarks({ marks, x, y }: Plane, width: number): Drawing {
  const told = marks.map((mark) => ({
    ...mark,
    tip: `${mark.of === undefined ? '' : `${mark.of}: `}${figureText(mark.x, x.form)} ${x.label}, ${figureText(mark.y, y.form)} ${y.label}`.trim(),
  }));
  const joined = told.filter((mark) => mark.joined).sort((a, b) => a.x - b.x);
  return {
    height: 280,
    marginLeft: 48,
    marginRight: 20,
    marginBottom: 40,
    marginTop: 20,
    x: {
      domain: [x.least, x.most],
      label: x.label || null,
      labelAnchor: 'center',
      labelArrow: 'none',
      tickFormat: (value: number) => figureText(value, x.form),
      ticks: width / 100,
      inset: 10,
    },
    y: {
      domain: [y.least, y.most],
      label: y.label || null,
      labelArrow: 'none',
      tickFormat: (value: number) => figureText(value, y.form),
      ticks: 5,
      nice: true,
    },
    marks: [
      Plot.gridY({ stroke: 'var(--faint)', strokeOpacity: 1, ticks: 5 }),
      Plot.lineY(joined, { x: 'x', y: 'y', stroke: 'var(--muted)', strokeWidth: 1.5 }),
      Plot.dot(told, { filter: isSmall, x: 'x', y: 'y', r: 2.5, fill: 'var(--ink)' }),
      Plot.text(told, {
        filter: (mark: Mark) => !isSmall(mark),
        x: 'x',
        y: 'y',
        text: 'sign',
        fontSize: 18,
        fontWeight: 'bold',
        stroke: 'var(--paper)',
        strokeWidth: 4,
        fill: 'var(--ink)',
      }),
      Plot.dot(told, { x: 'x', y: 'y', r: 9, fill: 'transparent', stroke: 'none', title: 'tip' }),
      Plot.ruleY([y.least], { stroke: 'var(--ink)' }),
    ],
  };
}

/** A full stop stands at the foot of its line: it is drawn where it belongs. */
function isSmall({ sign }: Mark): boolean {
  return sign === '.';
}
