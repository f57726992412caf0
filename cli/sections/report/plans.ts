/** The plan among its neighbours: a glance first, then all that a comparison tells. */

import type { CompareResult, PlanResult } from '../../../sim/study/compare.js';
import { figureNamed } from '../../../sim/study/figures/figures.js';
import { formOf } from '../../words/figures.js';
import { heldBackBy } from '../../words/limits.js';
import { COUNT, counted, SHARE } from '../../words/numbers.js';
import { compareSections } from '../compare.js';
import type { PlansChart } from '../page.js';
import { bar, figure, key, type Section, section, table, words } from '../section.js';
import type { AmongNeighbours } from './reported.js';

/** On a page there is room for a name of any length. */
const ANY_LENGTH = Number.POSITIVE_INFINITY;

export function plansChart({ result, order }: AmongNeighbours): PlansChart {
  const rows = inOrder(result, order).flatMap((plan) => {
    const { usual_week: usual, bad_week: bad } = plan.figures;
    if (usual === null || bad === null) return [];
    return [
      {
        name: plan.name,
        now: plan.name === result.first,
        usual: usual.mean,
        bad: bad.mean,
        note: heldBackBy(plan.limits),
      },
    ];
  });
  const told = rows.map(
    ({ name: plan, usual, bad }) => `${plan}: ${usual} in a usual week, ${bad} in a bad one`,
  );
  return {
    kind: 'plans',
    title: 'Heads in a usual and in a bad week',
    text: `The long bar is a usual week, the dark one in it a bad week. ${told.join('; ')}. ${counted(result.seasons, 'season')} of each plan with the same luck.`,
    rows,
  };
}

export function plansSections({ result, order }: AmongNeighbours): Section[] {
  const ordered = { ...result, plans: inOrder(result, order) };
  return [section('At a glance', ...glance(ordered)), ...compareSections(ordered, ANY_LENGTH)];
}

function glance({ plans, first }: CompareResult) {
  const stages = plans[0]!.idle.map(({ stage }) => stage);
  const most = Math.max(1, ...plans.map(({ figures }) => figures.usual_week?.mean ?? 0));
  const seeds = figureNamed('seeds_a_head');
  return [
    table(
      plans.map(({ name: plan, figures, idle, limits }) => [
        words({ name: plan }, plan === first ? ' (this plan)' : ''),
        figure(figures.usual_week?.mean, COUNT),
        figure(figures.bad_week?.mean, COUNT),
        bar((figures.bad_week?.mean ?? 0) / most, { upTo: (figures.usual_week?.mean ?? 0) / most }),
        ...idle.map(({ share }) => figure(share?.mean, SHARE)),
        figure(figures.seeds_a_head?.mean, formOf(seeds)),
        heldBackBy(limits),
      ]),
      {
        head: [
          'plan',
          'usual',
          'bad',
          'heads a week',
          ...stages.map((stage) => `empty in ${stage}`),
          seeds.label,
          'held back by',
        ],
        bars: key(['=', 'a bad week (1 in 10 brings this or less)'], ['-', 'a usual week']),
      },
    ),
  ];
}

function inOrder({ plans }: CompareResult, order: readonly string[]): PlanResult[] {
  return order.map((of) => plans.find((plan) => plan.name === of)!);
}
