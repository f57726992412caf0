/** The picks over the weeks, the empty holes below them, the figures beside them. */

import { memo } from 'react';
import { type AnswerInput, answerRows } from '../rows/answer.js';
import { Rows } from './rows.js';
import { sameButFor } from './same.js';

export interface AnswerProps extends AnswerInput {
  readonly colour: boolean;
}

export const AnswerPanel = memo(
  function Answer({ colour, ...input }: AnswerProps) {
    const { chart, idleTitle, idle } = input.layout.answer;
    return (
      <Rows
        rows={answerRows(input)}
        height={chart + 2 + idleTitle + idle}
        width={input.layout.width}
        colour={colour}
      />
    );
  },
  sameButFor('scenario', 'figures', 'day', 'real'),
);
