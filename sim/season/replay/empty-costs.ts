/**
 * What empty holes cost in light and money, by cause: hole-days times the kWh of a hole-day, and times its price with the wear of the
 * hole. Lamps burn over every hole, full or empty. The sale that was lost is not in it: that is what `costs.ts` tells in heads.
 */

import { groupedBy, sumOf } from '../../engine/lists.js';
import { TAKES_CAUTION } from '../../models/physical/cautions.js';
import { lineMatter } from '../../models/physical/line-matter.js';
import { idleHoleDay } from '../../models/physical/money.js';
import type { Plan } from '../../models/plan.js';
import type { IdleCause } from './causes.js';
import type { IdleSpell } from './idle-spells.js';

export interface EmptyCosts extends EmptyCost {
  readonly stages: readonly StageHoleDay[];
  /** The most hole-days first; the hole-days are those of `idle`. */
  readonly causes: readonly (EmptyCost & { readonly kind: IdleCause['kind'] })[];
  /** One entry for each of `idle`, in its order. */
  readonly spells: readonly EmptyCost[];
  /** What was taken for granted. */
  readonly assumes: readonly string[];
}

export interface EmptyCost {
  readonly hole_days: number;
  /** What the lamps over them drew, of stages of which it is told [kWh]; null if it is told of none. */
  readonly kwh: number | null;
  /** That at its price, and the wear of the holes, as far as they are told; null if neither is. Not the lost sale. */
  readonly cost: number | null;
}

/** An empty hole-day of a stage. */
export interface StageHoleDay {
  readonly name: string;
  /** null where nothing tells what the lamps draw; 0 in a dark stage. */
  readonly kwh: number | null;
  /** null where neither the price of its light nor that of the hole is told. */
  readonly cost: number | null;
}

const NOT_THE_SALE =
  'The cost of an empty hole is its light and its wear, not the head that it could have brought.';

/** @returns null where the plan tells neither what lamps draw nor what a hole-day costs */
export function emptyCosts(plan: Plan, idle: readonly IdleSpell[]): EmptyCosts | null {
  const matter = lineMatter(plan);
  if (matter === null) return null;
  const { prices } = matter.physical;
  const stages = plan.stages.map(({ name }, s): StageHoleDay => {
    const kwh = matter.stages[s]!.kwhPerHoleDay;
    return { name, kwh, cost: prices && idleHoleDay(prices, kwh) };
  });
  if (stages.every(({ kwh, cost }) => kwh === null && cost === null)) return null;
  const spells = idle.map(({ stage, hole_days }): EmptyCost => {
    const { kwh, cost } = stages.find(({ name }) => name === stage)!;
    return {
      hole_days,
      kwh: kwh === null ? null : kwh * hole_days,
      cost: cost === null ? null : cost * hole_days,
    };
  });
  const causes = [...groupedBy([...spells.keys()], (i) => idle[i]!.cause.kind)].map(([kind, some]) => ({
    kind,
    ...together(some.map((i) => spells[i]!)),
  }));
  return {
    ...together(spells),
    stages,
    causes: causes.sort((a, b) => b.hole_days - a.hole_days),
    spells,
    assumes: [NOT_THE_SALE, TAKES_CAUTION],
  };
}

function together(all: readonly EmptyCost[]): EmptyCost {
  const sumOfTold = (of: 'kwh' | 'cost'): number | null => {
    const told = all.map((one) => one[of]).filter((value) => value !== null);
    return told.length === 0 && all.length > 0 ? null : sumOf(told);
  };
  return {
    hole_days: sumOf(all.map(({ hole_days }) => hole_days)),
    kwh: sumOfTold('kwh'),
    cost: sumOfTold('cost'),
  };
}
