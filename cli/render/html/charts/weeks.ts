/** Heads of each week: the band, the middle, and what was picked. */

import * as Plot from '@observablehq/plot';
import type { WeeksChart } from '../../../sections/page.js';
import { dateText } from '../../../words/dates.js';
import { countText } from '../../../words/numbers.js';
import { levels, momentOf, timeAxis } from './axes.js';
import type { Drawing } from './drawing.js';

const WEEK = 7;

export function weeksMarks({ weeks, running }: WeeksChart, width: number): Drawing {
  const told = weeks.map((week) => ({
    ...week,
    from: momentOf(week.start),
    at: momentOf(week.start, WEEK / 2),
    to: momentOf(week.start, WEEK),
    tip: `Week of ${dateText(week.start)}: ${countText(week.middle)} heads in the middle, ${countText(week.low)} to ${countText(week.high)} in 8 of 10 seasons${week.picked === null ? '' : `; picked ${countText(week.picked)}`}`,
  }));
  const most = Math.max(1, ...weeks.map(({ high, picked }) => Math.max(high, picked ?? 0)));
  const start = weeks[0]!.start;
  const end = momentOf(start, weeks.length * WEEK);
  const lines =
    running === null
      ? []
      : [
          { y: running.usual, name: `usual ${countText(running.usual)}`, dash: '6 4' },
          { y: running.bad, name: `bad ${countText(running.bad)}`, dash: '2 4' },
        ].map((line) => ({ ...line, from: momentOf(running.from), to: end }));
  return {
    height: 260,
    marginLeft: 40,
    marginRight: 72,
    marginTop: 22,
    x: { type: 'utc', domain: [momentOf(start), end] },
    y: { domain: [0, most], nice: true, label: 'heads', ticks: 5, labelArrow: 'none' },
    marks: [
      levels(),
      Plot.areaY(told, {
        x: 'at',
        y1: 'low',
        y2: 'high',
        fill: 'var(--band)',
        stroke: 'var(--muted)',
        strokeWidth: 0.75,
      }),
      Plot.lineY(told, { x: 'at', y: 'middle', stroke: 'var(--ink)', strokeWidth: 2.5 }),
      ...lines.flatMap((line) => [
        Plot.ruleY([line], {
          y: 'y',
          x1: 'from',
          x2: 'to',
          stroke: 'var(--ink)',
          strokeDasharray: line.dash,
        }),
        Plot.text([line], { y: 'y', x: 'to', text: 'name', textAnchor: 'start', dx: 5, fontWeight: 'bold' }),
      ]),
      Plot.dot(
        told.filter(({ picked }) => picked !== null),
        { x: 'at', y: 'picked', symbol: 'times', r: 4, stroke: 'var(--strong)', strokeWidth: 2 },
      ),
      Plot.ruleY([0], { stroke: 'var(--ink)' }),
      timeAxis(start, weeks.length * WEEK, width),
      Plot.rect(told, { x1: 'from', x2: 'to', y1: 0, y2: most, fill: 'transparent', title: 'tip' }),
    ],
  };
}
