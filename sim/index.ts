/**
 * evensow as a library: a scenario is read into a plan, a plan is studied, a season's log is replayed, fitted and looked ahead from.
 *
 * Nothing here reads a file, prints, or asks for the time. Times are days from the start of a season unless a unit says otherwise;
 * dates are ISO 8601. What can be wrong with what a caller hands in comes back as `faults`; a RangeError means that a written
 * contract was broken.
 *
 * @module
 */

/* Plans: one, several side by side, other sizes, the cheapest for a goal. */
export type { StudyOptions } from './calls/carry-out.js';
export { type CompareOptions, compare } from './calls/compare.js';
/* A real season. */
export { ahead, chores, type FuturesOptions } from './calls/look.js';
export { run } from './calls/run.js';
export { type SearchOptions, search } from './calls/search.js';
export { addRow, fit, readSeasonLog, replay } from './calls/season.js';
export { type SizeOptions, size } from './calls/size.js';
/** The types of what results are made of. */
export type * as details from './details.js';
export { COUNTS, type Season, STATES } from './models/ledger.js';
export { Line } from './models/line/line.js';
export type { Plan } from './models/plan.js';
export type { Result } from './models/result.js';
/* A scenario file. */
export { amendScenario } from './scenario/amend.js';
export type { Fault } from './scenario/faults.js';
export { toPlan } from './scenario/plan.js';
export { type ReadScenario, readScenario } from './scenario/read.js';
export { type Scenario, scenarioJsonSchema, scenarioKeyTable } from './scenario/schema.js';
export { type Variation, vary } from './scenario/vary.js';
export type { AheadResult } from './season/ahead/ahead.js';
export type { ChoresResult } from './season/ahead/chores.js';
export type { FitResult } from './season/fit/fit.js';
export type { LogFault } from './season/log/faults.js';
export type { SeasonLog } from './season/log/read.js';
export type { ReplayResult } from './season/replay/result.js';
export type { CompareResult, Contender } from './study/compare.js';
/* One season. */
export { type Film, type FilmOptions, filmOf as film } from './study/film/film.js';
export type { SearchResult } from './study/search/result.js';
export type { SizeResult } from './study/size/size.js';
export type { RunResult } from './study/summary.js';
