/** A question, a message, or the keys. */

import { memo } from 'react';
import { type FootState, footRow } from '../rows/foot.js';
import type { Signs } from '../theme.js';
import { Rows } from './rows.js';

export interface FootProps extends FootState {
  readonly width: number;
  readonly signs: Signs;
  readonly colour: boolean;
}

export const FootPanel = memo(function Foot({ width, signs, colour, ...state }: FootProps) {
  return <Rows rows={[footRow(state, width, signs)]} height={1} width={width} colour={colour} />;
});
