/** Every hole on every day: a row a hole, channels a little apart, the stages one below the other. */

import * as Plot from '@observablehq/plot';
import type { HolesChart } from '../../../sections/page.js';
import { dateText } from '../../../words/dates.js';
import type { Document } from '../elements.js';
import { fillOf } from '../looks.js';
import { isoOfMoment, momentOf, timeAxis } from './axes.js';
import type { Drawing } from './drawing.js';

/** Heights [px]: of all rows together at most, of one row, of a stage's name, between channels. */
const MOST = 720;
const ROW = { least: 1.6, most: 5 };
const NAME = 24;
const GAP = 2;
const WEEK = 7;
const SVG = 'http://www.w3.org/2000/svg';

export function holesMarks(chart: HolesChart, width: number): Drawing {
  const { stages, states, start, days } = chart;
  const rows = stages.reduce((sum, { holes }) => sum + holes.length, 0);
  const row = Math.min(ROW.most, Math.max(ROW.least, MOST / rows));
  let below = 0;
  const placed = stages.map(({ name, holes, holesPerChannel }) => {
    const top = below + NAME;
    const topOf = (hole: number): number => top + hole * row + Math.floor(hole / holesPerChannel) * GAP;
    below = topOf(holes.length - 1) + row;
    return { name, holes, top, bottom: below, topOf };
  });
  const paths = states.map(({ state }, s) => ({ state, runs: runsOf(placed, s) }));
  return {
    height: below + 30,
    marginLeft: 1,
    marginRight: 20,
    marginTop: 0,
    marginBottom: 28,
    x: { type: 'utc', domain: [momentOf(start), momentOf(start, days)] },
    y: { type: 'linear', domain: [0, below + 2], reverse: true, axis: null },
    marks: [
      (_index, scales, _values, _dimensions, context) => {
        const { x, y } = scales as unknown as { x: (of: Date) => number; y: (of: number) => number };
        const document = context.document as unknown as Document;
        const group = document.createElementNS(SVG, 'g');
        const at = (day: number): number => tenth(x(momentOf(start, day)));
        for (const { state, runs } of paths) {
          const path = document.createElementNS(SVG, 'path');
          path.setAttribute('fill', fillOf(state));
          path.setAttribute(
            'd',
            runs
              .map(({ top, from, to }) => {
                const left = at(from);
                return `M${left},${tenth(y(top))}H${at(to)}v${tenth(row * 0.9)}H${left}z`;
              })
              .join(''),
          );
          group.append(path);
        }
        return group as never;
      },
      Plot.text(placed, {
        y: 'top',
        text: 'name',
        frameAnchor: 'left',
        textAnchor: 'start',
        lineAnchor: 'bottom',
        dy: -5,
        fontWeight: 'bold',
      }),
      timeAxis(start, days, width),
      Plot.rect(tipsOf(chart, placed), {
        x1: 'from',
        x2: 'to',
        y1: 'top',
        y2: 'bottom',
        fill: 'transparent',
        title: 'tip',
      }),
    ],
  };
}

interface Placed {
  readonly name: string;
  readonly holes: HolesChart['stages'][number]['holes'];
  readonly top: number;
  readonly bottom: number;
  readonly topOf: (hole: number) => number;
}

/** All stretches in one state, with where they lie. */
function runsOf(placed: readonly Placed[], state: number) {
  return placed.flatMap(({ holes, topOf }) =>
    holes.flatMap((stretches, hole) =>
      stretches
        .filter((stretch) => stretch.state === state)
        .map(({ from, to }) => ({ top: topOf(hole), from, to })),
    ),
  );
}

/** What stands in each stage when a week begins. */
function tipsOf({ states, start, days }: HolesChart, placed: readonly Placed[]) {
  return placed.flatMap(({ name, holes, top, bottom }) =>
    Array.from({ length: Math.ceil(days / WEEK) }, (_, week) => {
      const day = week * WEEK;
      const counts = states.map(
        (_, s) =>
          holes.filter((stretches) =>
            stretches.some(({ from, to, state }) => state === s && from <= day && day < to),
          ).length,
      );
      const told = counts.flatMap((count, s) => (count > 0 ? [`${count} ${states[s]!.text}`] : []));
      const from = momentOf(start, day);
      return {
        top,
        bottom,
        from,
        to: momentOf(start, Math.min(days, day + WEEK)),
        tip: `${name}, ${dateText(isoOfMoment(from))}: ${told.join('; ')}`,
      };
    }),
  );
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
