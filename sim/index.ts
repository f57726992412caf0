/** The library's public face: one list of named exports, no logic. */

/* The line and one season of it. */
export { COUNTS, type CountName, type Season, STATE_COUNT, STATES, type State } from './models/ledger.js';
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

/* A scenario file: read, varied, amended. */
export { type Amendment, amendScenario } from './scenario/amend.js';
export type { Fault, Warning } from './scenario/faults.js';
export { toPlan } from './scenario/plan.js';
export { readScenario } from './scenario/read.js';
export type { Scenario } from './scenario/schema.js';
export { scenarioJsonSchema, scenarioKeyTable } from './scenario/schema.js';
export { type Cadence, type Variation, vary } from './scenario/vary.js';

/* A season log: read, appended to, replayed, fitted, looked ahead from. */
export { type AheadResult, lookAhead, weeksNeeded } from './season/ahead/ahead.js';
export { type ChoresResult, listChores, weeksToList } from './season/ahead/chores.js';
export { type FitResult, fitSeason } from './season/fit/fit.js';
export { changesOf, type FitChange } from './season/fit/fit-changes.js';
export { appendRow } from './season/log/append.js';
export { readLog } from './season/log/read.js';
export type { LogRow } from './season/log/rows.js';
export { Standing } from './season/log/standing.js';
export { replaySeason } from './season/replay/replay.js';
export type { ReplayResult } from './season/replay/result.js';
/* One plan. */
export type { Change } from './seasons/changes.js';
/* Many seasons, on one thread or several, whole or in parts. */
export type { Crew } from './seasons/crew.js';
export { type GatherOptions, gather } from './seasons/gather.js';
export type { Gathered } from './seasons/gathered.js';
export { pool } from './seasons/pool.js';
export { defaultSeasons, MOST_SEASONS, type ReplicateOptions, replicate } from './seasons/replicate.js';
export { firstRunningWeek, Tallies } from './seasons/tallies.js';
export { startThreads, type Threads } from './seasons/threads.js';
export type { Job, Workload } from './seasons/workload.js';
export { type CompareResult, type Contender, compareStudy } from './study/compare.js';
/* A season day by day. */
export { type Film, filmOf } from './study/film/film.js';
export { findLimits, type Limits, type Trial, trialSeasons } from './study/limits.js';
export type { SearchGoal } from './study/search/budget.js';
export type { Candidate, Cost, Least, Settings } from './study/search/candidates.js';
export type { FoundPlan, SearchedPlan, SearchResult } from './study/search/result.js';
export { searchStudy } from './study/search/search.js';
/* Several plans: side by side, by size, the cheapest for a goal. */
export { type FluidBound, fluidBound } from './study/size/bound.js';
export { type Layout, type Sizes, sizesOf } from './study/size/layout.js';
export { type SizeOfLine, type SizeResult, sizeStudy } from './study/size/size.js';
export type { Shard, Study } from './study/study.js';
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
