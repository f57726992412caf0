/** What a page is made of. */

import type { Plan } from '../../../sim/models/plan.js';
import type { NeighbourAbout } from '../../../sim/scenario/neighbours.js';
import type { ChoresResult } from '../../../sim/season/ahead/chores.js';
import type { ReplayResult } from '../../../sim/season/replay/result.js';
import type { CompareResult } from '../../../sim/study/compare.js';
import type { Film } from '../../../sim/study/film/film-data.js';
import type { SizeResult } from '../../../sim/study/size/size.js';
import type { RunResult } from '../../../sim/study/summary.js';
import type { Telling } from '../../words/assumed.js';

/** All that a page tells. */
export interface Reported {
  readonly plan: Plan;
  /** Text of the scenario, and how it is named in a command; null if it came from standard input. */
  readonly scenario: { readonly text: string; readonly path: string | null };
  /** Name and version of the program. */
  readonly made: string;
  readonly run: RunResult;
  /** The plan among its neighbours, and the names of those in their order; null if it has none. */
  readonly compared: AmongNeighbours | null;
  /** Sentences on what keeps other sizes from being tried, in place of the result. */
  readonly sized: SizeResult | readonly string[];
  readonly course: Course;
  /** A season day by day: that of the log, else the first simulated one. */
  readonly film: Film;
  readonly logged: Logged | null;
}

/** Where the hole-days went week by week. */
export interface Course {
  readonly seasons: number;
  /** Hole-days of a week in each state of a stage. */
  weekOf(week: number, stage: number): readonly number[];
}

/** What a log tells. */
export interface Logged {
  readonly replayed: ReplayResult;
  /** Picks of each week of the plan. */
  readonly picks: readonly number[];
  readonly chores: ChoresResult;
  readonly telling: Telling;
}

/** The plan, which comes first in the result, and its neighbours. */
export interface AmongNeighbours {
  /** What they differ in. */
  readonly about: NeighbourAbout;
  readonly result: CompareResult;
  /** Names of the plans, from the least to the most of what they differ in. */
  readonly order: readonly string[];
}
