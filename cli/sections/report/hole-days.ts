/** Where the hole-days went: of each stage in all, and week by week. */

import { isoOfDay } from '../../../sim/models/dates.js';
import { emptyIn, type HoleState, STATES } from '../../../sim/models/ledger.js';
import { holesOf, type Plan } from '../../../sim/models/plan.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { counted, percentText, SHARE } from '../../words/numbers.js';
import { STATE_WORDS } from '../../words/states.js';
import type { CourseChart, SharesChart, StateSign } from '../page.js';
import { day, figure, table } from '../section.js';
import type { Course } from './reported.js';

const WEEK = 7;

export function sharesChart({ stages }: RunResult): SharesChart {
  const shares = stages.map(({ ledger, hole_days }) => STATES.map((state) => ledger[state].mean / hole_days));
  const told = stages.map(
    ({ name }, s) =>
      `${name}: ${percentText(shares[s]![0]!)} growing, ${percentText(emptyIn(shares[s]!))} empty`,
  );
  const { states, kept } = statesIn(shares);
  return {
    kind: 'shares',
    title: 'Where the hole-days of each stage went',
    text: `${told.join('; ')}. The table below has every state.`,
    states,
    rows: stages.map(({ name }, s) => ({ name, shares: kept(shares[s]!) })),
  };
}

export function courseChart({ weeks, start, stages }: Plan, course: Course): CourseChart {
  const starts = Array.from({ length: weeks }, (_, week) => isoOfDay(start, week * WEEK));
  const shares = stages.map((stage, s) =>
    starts.map((_, week) => course.weekOf(week, s).map((days) => days / (holesOf(stage) * WEEK))),
  );
  const { states, kept } = statesIn(shares.flat());
  return {
    kind: 'course',
    title: 'The same week by week',
    text: `Share of the holes of each stage in each state, mean of ${counted(course.seasons, 'season')}. The table has the empty ones of each week.`,
    states,
    starts,
    stages: stages.map(({ name }, s) => ({ name, weeks: shares[s]!.map(kept) })),
    table: table(
      starts.map((of, week) => [day(of), ...shares.map((weekly) => figure(emptyIn(weekly[week]!), SHARE))]),
      { head: ['week of', ...stages.map(({ name }) => `empty in ${name}`)] },
    ),
  };
}

/** The states that are seen in any of these, and their shares alone. */
export function statesIn(shares: readonly (readonly number[])[]): {
  readonly states: StateSign[];
  readonly kept: (of: readonly number[]) => number[];
} {
  const places = STATES.flatMap((_, k) => (shares.some((of) => of[k]! > 0) ? [k] : []));
  const state = (k: number): HoleState => STATES[k]!;
  return {
    states: places.map((k) => ({ state: state(k), text: STATE_WORDS[state(k)].text })),
    kept: (of) => places.map((k) => of[k]!),
  };
}
