/** Which line, which season, which day. */

import { memo } from 'react';
import { type HeadInput, headRows } from '../rows/head.js';
import { Rows } from './rows.js';
import { sameButFor } from './same.js';

export interface HeadProps extends HeadInput {
  readonly colour: boolean;
}

export const HeadPanel = memo(
  function Head({ colour, ...input }: HeadProps) {
    return <Rows rows={headRows(input)} height={input.height} width={input.width} colour={colour} />;
  },
  sameButFor('scenario', 'day', 'lastDay', 'real', 'season', 'playing', 'stride'),
);
