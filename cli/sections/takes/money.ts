/** What a head costs, by part, and what it earns, in the grower's own money. */

import { leftOut } from '../../../sim/models/physical/assumes.js';
import { COST_WORDS, type Costs, untoldCosts } from '../../../sim/models/physical/money.js';
import type { Takes } from '../../../sim/study/takes/takes.js';
import { figureText, fixed, SHARE } from '../../words/numbers.js';
import { type Block, figure, name, section, table } from '../section.js';

/** Two decimals; a hole-day costs less than that shows. */
const MONEY = fixed(2);
const FINE = { as: 'digits', digits: 2 } as const;

/** `A head costs 3.35 (light 0.71, ...).` */
export function moneyText({ money }: Takes): string | null {
  if (money === undefined) return null;
  const { cost, cost_per_head, margin } = money;
  const each =
    cost_per_head === null
      ? `A season costs ${figureText(cost.total.mean, MONEY)}, and nothing is picked`
      : `A head costs ${figureText(cost_per_head.mean, MONEY)}`;
  const left = margin === null ? '' : `; margin of a season ${figureText(margin.mean, fixed(0))}`;
  return `${each}${left}. Left out: ${leftOut(untoldCosts(cost))}.`;
}

/** @param heads of a season @param stages their names */
export function moneyDetails({ money }: Takes, heads: number, stages: readonly string[]): Block[] {
  if (money === undefined) return [];
  const { cost, revenue, margin, idle_hole_day } = money;
  const row = (what: string, amount: number | null | undefined, share = true) => [
    what,
    figure(amount, MONEY),
    figure(amount == null || !share ? null : amount / cost.total.mean, SHARE),
    figure(amount == null || heads === 0 ? null : amount / heads, MONEY),
  ];
  const parts = (Object.keys(COST_WORDS) as (keyof Costs)[]).flatMap((part) =>
    cost[part] === null ? [] : [row(COST_WORDS[part], cost[part].mean)],
  );
  return [
    table(
      [
        ...parts,
        row('all of these', cost.total.mean),
        ...(revenue === null ? [] : [row('earned', revenue.mean, false)]),
        ...(margin === null ? [] : [row('margin', margin.mean, false)]),
      ],
      { head: ['', 'a season', 'of all', 'a head'] },
    ),
    `Left out: ${leftOut(untoldCosts(cost))}. A season starts empty, so a head costs more in a short one.`,
    ...(idle_hole_day.every((price) => price === null)
      ? []
      : [
          section(
            'What a hole costs that stands empty for a day (not the lost sale)',
            table(stages.map((stage, s) => [name(stage), figure(idle_hole_day[s], FINE)])),
          ),
        ]),
  ];
}
