/** The parts of the screen. Each is drawn anew only when something that it shows has changed. */

import { Box } from 'ink';
import { memo } from 'react';
import type { Film } from '../../../sim/study/film/film.js';
import {
  ANSWER_GAP,
  type AnswerInput,
  answerLegend,
  belowLegend,
  drawnRows,
  toldRows,
} from '../rows/answer.js';
import { type DayInput, dayRow } from '../rows/day.js';
import { type FootState, footRow } from '../rows/foot.js';
import { type HeadInput, headRows } from '../rows/headline.js';
import { helpRows } from '../rows/help.js';
import type { Layout } from '../rows/layout.js';
import { type LineAnswer, legendRows, lineRows } from '../rows/line.js';
import { type PlanInput, planRows } from '../rows/plan.js';
import { span } from '../rows/rows.js';
import { stripRows } from '../rows/strip.js';
import type { StripInput } from '../rows/strip-cells.js';
import { type TakesInput, takesRows } from '../rows/takes.js';
import type { Signs } from '../theme.js';
import { Rows, type RowsProps } from './rows.js';
import { sameButFor } from './same.js';

/** What every part is told besides what it shows: its place, its signs, and whether in colour. */
interface Place extends Omit<RowsProps, 'rows'> {
  readonly signs: Signs;
}

/** The answer in one line, and which line it is of. */
export const HeadPanel = memo(
  function Head(input: HeadInput & Place) {
    return <Rows {...input} rows={headRows(input)} />;
  },
  sameButFor('scenario', 'figures', 'asked', 'answered', 'real', 'season', 'playing', 'stride'),
);

/** What a head takes, and the caution beside it; no row where the scenario tells of none of it. */
export const TakesPanel = memo(
  function Takes(input: TakesInput & Place) {
    return <Rows {...input} rows={takesRows(input)} />;
  },
  sameButFor('figures', 'asked', 'answered'),
);

/** The plan beside its neighbours. */
export const StripPanel = memo(
  function Strip(input: StripInput & Place) {
    return <Rows {...input} rows={stripRows(input)} />;
  },
  sameButFor('strip', 'scenario', 'kept', 'figures', 'asked', 'answered', 'mark', 'pointer'),
);

/** Which day. */
export const DayPanel = memo(
  function Day(input: DayInput & Place) {
    return <Rows {...input} rows={[dayRow(input)]} />;
  },
  sameButFor('scenario', 'day', 'lastDay', 'real', 'season', 'playing', 'stride'),
);

interface LineProps extends Place {
  readonly film: Film | null;
  readonly day: number;
  /** Whether the season on the screen is that of a log. */
  readonly real: boolean;
  /** Stays the same object until there are other figures. */
  readonly answer: LineAnswer | null;
  readonly line: Layout['line'];
}

/** The stages from left to right, and what their signs mean. */
export const LinePanel = memo(function Line({ film, day, real, answer, line, ...place }: LineProps) {
  if (film === null) return <Rows {...place} rows={[[span('The season is being simulated.', 'faint')]]} />;
  const { width, signs } = place;
  const rows = lineRows({ film, day, answer, layout: line.layout, width, height: line.height, signs });
  return <Rows {...place} rows={[...rows, ...legendRows(film, real, width, line.legend, signs)]} />;
});

type AnswerProps = AnswerInput & Omit<Place, 'width' | 'height'>;

/** The picks over the weeks, the empty holes below them, the figures beside them. */
export const AnswerPanel = memo(
  function Answer({ film, realPicks, ...input }: AnswerProps) {
    const { width } = input.layout;
    return (
      <Box flexDirection="column" flexShrink={0}>
        <Rows {...input} rows={[answerLegend(input)]} width={width} height={1} />
        <Box gap={ANSWER_GAP}>
          <Drawn {...input} film={film} realPicks={realPicks} />
          <Told {...input} />
        </Box>
      </Box>
    );
  },
  sameButFor('scenario', 'figures', 'asked', 'answered', 'day', 'real'),
);

function Drawn(input: AnswerProps) {
  const { width, answer } = input.layout;
  const rows = drawnRows(input);
  return (
    <Rows {...input} rows={rows} width={width - answer.figures - ANSWER_GAP} height={belowLegend(answer)} />
  );
}

/** The figures: they do not change with the day. */
const Told = memo(
  function Told(input: Omit<AnswerProps, 'film' | 'realPicks'>) {
    const { answer } = input.layout;
    return <Rows {...input} rows={toldRows(input)} width={answer.figures} height={belowLegend(answer)} />;
  },
  sameButFor('scenario', 'figures'),
);

/** What can be turned, and what that brought. */
export const PlanPanel = memo(
  function Plan(input: PlanInput & Place) {
    return <Rows {...input} rows={planRows(input)} />;
  },
  sameButFor(
    'opened',
    'scenario',
    'past',
    'knob',
    'mark',
    'cover',
    'figures',
    'asked',
    'answered',
    'kept',
    'real',
    'lastDay',
  ),
);

/** A question, a message, or the keys. */
export const FootPanel = memo(
  function Foot(input: { readonly state: FootState } & Place) {
    return <Rows {...input} rows={[footRow(input.state, input.width, input.signs)]} />;
  },
  sameButFor(
    'cover',
    'note',
    'mark',
    'pointer',
    'knob',
    'scenario',
    'strip',
    'past',
    'future',
    'kept',
    'playing',
    'hasLog',
    'opened',
    'saving',
    'written',
  ),
);

/** Every key and every sign. */
export const HelpPanel = memo(function Help(input: Place) {
  return <Rows {...input} rows={helpRows(input.width, input.height, input.signs)} />;
});
