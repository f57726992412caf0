/** The stages from left to right, and what their signs mean. */

import { memo } from 'react';
import type { Film } from '../../../sim/study/film/film.js';
import type { Layout } from '../rows/layout.js';
import { legendRows, lineRows } from '../rows/line.js';
import { span } from '../rows/rows.js';
import type { Signs } from '../theme.js';
import { Rows } from './rows.js';

export interface LineProps {
  readonly film: Film | null;
  readonly day: number;
  /** Whether the season on the screen is that of a log. */
  readonly real: boolean;
  readonly layout: Layout;
  readonly signs: Signs;
  readonly colour: boolean;
}

export const LinePanel = memo(function Line({ film, day, real, layout, signs, colour }: LineProps) {
  const { width, line } = layout;
  const height = line.height + line.legend;
  if (film === null) {
    return (
      <Rows
        rows={[[span('The season is being simulated.', 'faint')]]}
        height={height}
        width={width}
        colour={colour}
      />
    );
  }
  const rows = lineRows({ film, day, layout: line.layout, width, height: line.height, signs });
  const legend = legendRows(film, real, width, line.legend, signs);
  return <Rows rows={[...rows, ...legend]} height={height} width={width} colour={colour} />;
});
