/** Where the hole-days went week by week: the stages one below the other. */

import * as Plot from '@observablehq/plot';
import type { CourseChart } from '../../../sections/page.js';
import { dateText } from '../../../words/dates.js';
import { percentText } from '../../../words/numbers.js';
import { fillOf } from '../looks.js';
import { momentOf, timeAxis } from './axes.js';
import type { Drawing } from './drawing.js';

/** Height of a stage: its name, and below it its picture [px]. */
const STAGE = 112;
/** Share of that height for the name. */
const NAMED = 0.2;
const WEEK = 7;

export function courseMarks({ stages, states, starts }: CourseChart, width: number): Drawing {
  const start = starts[0]!;
  const end = momentOf(start, starts.length * WEEK);
  const place = (stage: number, share: number): number => stage + 1 - share * (1 - NAMED);
  const areas = stages.flatMap(({ weeks }, s) =>
    states.map(({ state }, k) => {
      const below = (shares: readonly number[], to: number): number =>
        shares.slice(0, to).reduce((sum, share) => sum + share, 0);
      const steps = weeks.map((shares, week) => ({
        at: momentOf(start, week * WEEK),
        from: place(s, below(shares, k)),
        to: place(s, below(shares, k + 1)),
      }));
      return { state, steps: [...steps, { ...steps.at(-1)!, at: end }] };
    }),
  );
  const tips = stages.flatMap(({ name, weeks }, s) =>
    weeks.map((shares, week) => ({
      stage: s,
      from: momentOf(start, week * WEEK),
      to: momentOf(start, (week + 1) * WEEK),
      tip: `${name}, week of ${dateText(starts[week]!)}: ${shares
        .flatMap((share, k) => (share > 0 ? [`${percentText(share)} ${states[k]!.text}`] : []))
        .join('; ')}`,
    })),
  );
  return {
    height: STAGE * stages.length + 28,
    marginLeft: 1,
    marginRight: 20,
    marginTop: 0,
    marginBottom: 28,
    x: { type: 'utc', domain: [momentOf(start), end] },
    y: { domain: [0, stages.length], reverse: true, axis: null },
    marks: [
      ...areas.map(({ state, steps }) =>
        Plot.areaY(steps, { x: 'at', y1: 'from', y2: 'to', curve: 'step-after', fill: fillOf(state) }),
      ),
      Plot.rect(stages, {
        x1: () => momentOf(start),
        x2: () => end,
        y1: (_: unknown, s: number) => place(s, 0),
        y2: (_: unknown, s: number) => place(s, 1),
        stroke: 'var(--ink)',
        fill: 'none',
      }),
      Plot.text(stages, {
        y: (_: unknown, s: number) => s + NAMED,
        text: 'name',
        frameAnchor: 'left',
        textAnchor: 'start',
        lineAnchor: 'bottom',
        dy: -4,
        fontWeight: 'bold',
      }),
      timeAxis(start, starts.length * WEEK, width),
      Plot.rect(tips, {
        x1: 'from',
        x2: 'to',
        y1: (tip: { stage: number }) => place(tip.stage, 0),
        y2: (tip: { stage: number }) => place(tip.stage, 1),
        fill: 'transparent',
        title: 'tip',
      }),
    ],
  };
}
