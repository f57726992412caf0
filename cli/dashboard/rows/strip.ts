/**
 * The strip: the plan on the screen beside its neighbours, a row a plan, on one scale. On a low screen a column a plan, with usual and bad week only.
 */

import type { Row } from '../theme.js';
import type { StripInput } from './strip-cells.js';
import { columnRows } from './strip-low.js';
import { planRows } from './strip-table.js';

/** Rows of a strip with a column a plan. */
export const COLUMNS_HEIGHT = 3;
/** Rows of a strip beside those of its plans: its heading, and what is said of it. */
export const STRIP_FRAME = 2;

export function stripRows(input: StripInput): Row[] {
  return input.plans === 0 ? columnRows(input) : planRows(input);
}
