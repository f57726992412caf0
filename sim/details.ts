/** The types of what results and plans are made of, for programs that name them. */

/* A plan, and one season of it. */
export type { Weekday } from './models/dates.js';
export type { Draws } from './models/growth.js';
export type { Cleaning, InitialState, StandingPlants, StandingStays } from './models/initial-state.js';
export type { CountName, HoleState } from './models/ledger.js';
export type { EventObserver, LineOptions, PlantEvent } from './models/line/line.js';
/* What a line takes beyond its holes: light, water, weight, minutes, money. */
export type { Costs } from './models/physical/money.js';
export type {
  Air,
  ChannelSize,
  Climate,
  Conditions,
  CropMatter,
  CropMatterInStage,
  CropPrices,
  DatedAir,
  LampPlan,
  LampPower,
  PhysicalPlan,
  PhysicalStage,
  Prices,
  Sale,
  TankPlan,
  TierPlan,
  WorkTimes,
} from './models/physical/plan.js';
export type { WorkMinutes } from './models/physical/work.js';
export type {
  Absence,
  CropPlan,
  Growing,
  GrowthSpell,
  GrowthTime,
  Missed,
  Shape,
  Sowing,
  StagePlan,
  Visits,
  Want,
} from './models/plan.js';
export type { Failure, Success } from './models/result.js';
export type { SeasonTakes } from './models/takes.js';
/* A scenario file. */
export type { Amendment } from './scenario/amend.js';
export type { Caution, Warning } from './scenario/faults.js';
export type { Grid, StageLimit } from './scenario/grid.js';
export type { LightVariation, OfStages } from './scenario/light.js';
export type { KeyRow } from './scenario/schema-walk.js';
export type { Cadence } from './scenario/vary.js';
/* The next weeks, and the work list. */
export type { LostToAbsence } from './season/ahead/absence.js';
export type { PairedDifference } from './season/ahead/advice.js';
export type {
  NoRoom,
  RefillSowing,
  Sowings,
  StageAhead,
  StageNow,
  ThrownAway,
  WeekAhead,
} from './season/ahead/ahead.js';
export type { Assumed, OverduePlants } from './season/ahead/assumed.js';
export type { BatchChore, Chore, VisitChores, WeekChores } from './season/ahead/chores.js';
export type { MadeUpFor } from './season/ahead/coming-sowings.js';
export type { Forecast } from './season/ahead/forecast.js';
export type { TakesAhead, TakesRange, WeekTakes } from './season/ahead/takes-ahead.js';
/* A log: fitted, read, added to, replayed. */
export type { Contradiction } from './season/fit/contradictions.js';
export type { CropFit, FitDoubt, ShapeFit, StageFit } from './season/fit/fit.js';
export type { FittedFigure } from './season/fit/fitted-figure.js';
export type {
  LeftOutSpell,
  MeterDoubt,
  Metered,
  MeteredTank,
  MeteredWater,
} from './season/fit/meter/metered.js';
export type { LeftOutWhy } from './season/fit/meter/spells.js';
export type { Median } from './season/fit/survival/kaplan-meier.js';
export type { FittedShape } from './season/fit/survival/laws.js';
export type { UnusedHoles } from './season/fit/unused-holes.js';
export type { Appended, Refused, StagesFrom, Typed } from './season/log/append.js';
export type { DateForm } from './season/log/dates.js';
export type { Column, LogWarning } from './season/log/faults.js';
export type { Dialect } from './season/log/records.js';
export type { LineAction, LogAction, LogRow, TankRow } from './season/log/rows.js';
export type { BatchStanding, Slip, Standing, StandingRow } from './season/log/standing.js';
export type { IdleCause, ShortSowings } from './season/replay/causes.js';
export type { ChannelDays } from './season/replay/channel-days.js';
export type { CostlyCause, Heads } from './season/replay/costs.js';
export type { EmptyCost, EmptyCosts, StageHoleDay } from './season/replay/empty-costs.js';
export type { FailedBatch } from './season/replay/failed-batches.js';
export type { HoleDays } from './season/replay/hole-days.js';
export type { IdleSpell } from './season/replay/idle-spells.js';
export type { Crowded, ReplayedStage, WeekPicks } from './season/replay/result.js';
export type { Losses, SeasonCause } from './season/replay/season-causes.js';
export type { CadenceChange, WhatIf } from './season/replay/what-if.js';
/* Studies: what holds a line back, comparison, a film, search, sizes, a run. */
export type { Change } from './seasons/changes.js';
export type { Estimate } from './seasons/sections.js';
export type { Bottleneck, Effect, Trial } from './study/bottleneck.js';
export type { Compared, Difference, PlanResult, Verdict } from './study/compare.js';
export type { Scope } from './study/figures/figure.js';
export type { FigureName } from './study/figures/figures.js';
export type { FilmData, FilmedStage, FilmStage, WorkDone } from './study/film/film-data.js';
export type { SearchGoal } from './study/search/budget.js';
export type { Cost, CostKind, Settings } from './study/search/candidates.js';
export type { Obstacle, Obstacles, Relief } from './study/search/obstacles.js';
export type { FoundPlan, SearchedPlan, WeekOfPlan } from './study/search/result.js';
export type { GoalVerdict } from './study/search/sequential-test.js';
export type { SettingValues } from './study/search/setting-values.js';
export type { FluidBound, StagesBound } from './study/size/bound.js';
export type { Gap, GapStep } from './study/size/gap.js';
export type { Knee } from './study/size/knee.js';
export type { SizeLayout, StageCounts } from './study/size/layout.js';
export type { SizeFigure, SizeOfLine } from './study/size/size.js';
export type { MoneyAYear, Worth, Worths } from './study/size/worth.js';
export type {
  Attended,
  FirstPick,
  Mean,
  RunFigures,
  RunningWeeks,
  StageResult,
  WeekResult,
} from './study/summary.js';
export type {
  LightAmounts,
  MoneyAmounts,
  StageLightAmounts,
  TankAmounts,
  WaterAmounts,
  WorkAmounts,
} from './study/takes/amounts.js';
export type { SpaceFigures, StagingFigures } from './study/takes/staging.js';
export type {
  DatedRatio,
  GrowthFigures,
  MoneyStanding,
  Range,
  TankStanding,
  TierLoad,
  WaterStanding,
} from './study/takes/standing.js';
export type { MeanError } from './study/takes/takes.js';
export type { WeekFigures } from './study/week-figures.js';
