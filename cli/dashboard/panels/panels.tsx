/** The parts of the screen. Each is drawn anew only when something that it shows has changed. */

import { memo } from 'react';
import type { Film } from '../../../sim/study/film/film.js';
import { type AnswerInput, answerRows } from '../rows/answer.js';
import { type FootState, footRow } from '../rows/foot.js';
import { type HeadInput, headRows } from '../rows/head.js';
import { helpRows } from '../rows/help.js';
import type { Layout } from '../rows/layout.js';
import { legendRows, lineRows } from '../rows/line.js';
import { type PlanInput, planRows } from '../rows/plan.js';
import { span } from '../rows/rows.js';
import type { Signs } from '../theme.js';
import { Rows, type RowsProps } from './rows.js';
import { sameButFor } from './same.js';

/** What every part is told besides what it shows: its place, its signs, and whether in colour. */
interface Place extends Omit<RowsProps, 'rows'> {
  readonly signs: Signs;
}

/** Which line, which season, which day. */
export const HeadPanel = memo(
  function Head(input: HeadInput & Place) {
    return <Rows {...input} rows={headRows(input)} />;
  },
  sameButFor('scenario', 'day', 'lastDay', 'real', 'season', 'playing', 'stride'),
);

interface LineProps extends Place {
  readonly film: Film | null;
  readonly day: number;
  /** Whether the season on the screen is that of a log. */
  readonly real: boolean;
  readonly line: Layout['line'];
}

/** The stages from left to right, and what their signs mean. */
export const LinePanel = memo(function Line({ film, day, real, line, ...place }: LineProps) {
  if (film === null) return <Rows {...place} rows={[[span('The season is being simulated.', 'faint')]]} />;
  const { width, signs } = place;
  const rows = lineRows({ film, day, layout: line.layout, width, height: line.height, signs });
  return <Rows {...place} rows={[...rows, ...legendRows(film, real, width, line.legend, signs)]} />;
});

/** The picks over the weeks, the empty holes below them, the figures beside them. */
export const AnswerPanel = memo(
  function Answer(input: AnswerInput & Place) {
    return <Rows {...input} rows={answerRows(input)} />;
  },
  sameButFor('scenario', 'figures', 'day', 'real'),
);

/** What can be turned, what that brought, which plans were kept. */
export const PlanPanel = memo(
  function Plan(input: PlanInput & Place) {
    return <Rows {...input} rows={planRows(input)} />;
  },
  sameButFor('scenario', 'knob', 'figures', 'asked', 'answered', 'kept', 'real', 'lastDay'),
);

/** A question, a message, or the keys. */
export const FootPanel = memo(function Foot(input: FootState & Place) {
  return <Rows {...input} rows={[footRow(input, input.width, input.signs)]} />;
});

/** Every key and every sign. */
export const HelpPanel = memo(function Help(input: Place) {
  return <Rows {...input} rows={helpRows(input.width, input.height, input.signs)} />;
});
