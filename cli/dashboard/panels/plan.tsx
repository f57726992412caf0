/** What can be turned, what that brought, which plans were kept. */

import { memo } from 'react';
import { type PlanInput, planRows } from '../rows/plan.js';
import { Rows } from './rows.js';
import { sameButFor } from './same.js';

export interface PlanProps extends PlanInput {
  readonly colour: boolean;
}

export const PlanPanel = memo(
  function Plan({ colour, ...input }: PlanProps) {
    return (
      <Rows
        rows={planRows(input)}
        height={input.layout.plan.height + 1}
        width={input.layout.width}
        colour={colour}
      />
    );
  },
  sameButFor('scenario', 'knob', 'figures', 'asked', 'answered', 'kept', 'real'),
);
