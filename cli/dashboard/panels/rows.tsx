/**
 * Rows on the screen.
 *
 * The text that ink lays out is a column of blanks, always the same; the rows are put in its place line by
 * line when ink writes the frame. Were the rows themselves laid out, ink would measure and remember every row
 * that was ever shown, for ever: a season that runs for an hour would fill the memory. So, too, a frame costs
 * no layout.
 */

import { Box, Transform } from 'ink';
import { fittedRow } from '../rows/rows.js';
import type { Colours, Row } from '../theme.js';
import { painted } from './paint.js';

export interface RowsProps {
  readonly rows: readonly Row[];
  /** Rows that are taken up, whatever is in them. */
  readonly height: number;
  /** Columns; what is longer is cut. */
  readonly width: number;
  readonly colour: Colours;
}

export function Rows({ rows, height, width, colour }: RowsProps) {
  if (height < 1) return null;
  const lines = rows.slice(0, height).map((row) => painted(fittedRow(row, width), colour));
  return (
    <Box width={width} height={height} flexShrink={0}>
      <Transform transform={(_, line) => lines[line] ?? ''}>{blanks(height)}</Transform>
    </Box>
  );
}

function blanks(height: number): string {
  return Array.from({ length: height }, () => ' ').join('\n');
}
