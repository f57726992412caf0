/** Every key and every sign. */

import { memo } from 'react';
import { helpRows } from '../rows/help.js';
import type { Signs } from '../theme.js';
import { Rows } from './rows.js';

export interface HelpProps {
  readonly width: number;
  readonly height: number;
  readonly signs: Signs;
  readonly colour: boolean;
}

export const HelpPanel = memo(function Help({ width, height, signs, colour }: HelpProps) {
  return <Rows rows={helpRows(width, height, signs)} height={height} width={width} colour={colour} />;
});
