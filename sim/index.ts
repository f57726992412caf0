/** The library's public face: one list of named exports, no logic. */

export { COUNTS, type CountName, type Season, STATE_COUNT, STATES, type State } from './models/ledger.js';
/* The line and one season of it. */
export { type Deed, Line, type Recorder } from './models/line.js';
export type {
  CropPlan,
  Growing,
  GrowthTime,
  Plan,
  Shape,
  Sowing,
  StagePlan,
  Visits,
  Want,
} from './models/plan.js';
export { holesOf, seasonDays } from './models/plan.js';
/* A scenario file, read. */
export type { Fault, Warning } from './scenario/faults.js';
export { readScenario } from './scenario/read.js';
export type { Scenario } from './scenario/schema.js';
export { scenarioJsonSchema, scenarioKeyTable } from './scenario/schema.js';
export type { Change } from './study/changes.js';
export type { Crew } from './study/crew.js';
export { type GatherOptions, gather } from './study/gather.js';
export { findLimits, type Limits, type Trial, trialSeasons } from './study/limits.js';
export { pool } from './study/pool.js';
/* Many seasons. */
export { defaultSeasons, MOST_SEASONS, type ReplicateOptions, replicate } from './study/replicate.js';
/* The cheapest plan for a goal. */
export { searchStudy } from './study/search.js';
export type { SearchGoal } from './study/search-budget.js';
export type { Candidate, Cost, Least, Settings } from './study/search-candidates.js';
export type { FoundPlan, SearchedPlan, SearchResult } from './study/search-result.js';
/* Stages of other sizes. */
export { type SizeOfLine, type SizeResult, sizeStudy } from './study/size.js';
export { type Layout, type Sizes, sizesOf } from './study/size-layout.js';
export {
  type FirstPick,
  type Mean,
  type RunningWeeks,
  type RunResult,
  runStudy,
  type StageResult,
  summarise,
  type WeekResult,
} from './study/summary.js';
export { firstRunningWeek, Tallies } from './study/tallies.js';
