/**
 * How much longer, or shorter, plants need under the line's conditions than under those in which the grower's days hold.
 *
 * The two-state model grows a plant through the stages twice, under both, to the masses at which it leaves them; the ratio of
 * the model's days is applied to the grower's days. Outside the range in which the model is worth anything it refuses.
 */

import { failure, type Result, success } from '../result.js';
import { emergenceDays, showsAt } from './emergence.js';
import type { Conditions } from './plan.js';
import { growthPace, growUntil, seedStates } from './two-state-growth.js';

/** A stage that a crop passes. */
export interface StageConditions {
  /** Its place in the plan. */
  readonly stage: number;
  readonly areaM2: number;
  /** Mean days as the grower told them [d]. */
  readonly days: number;
  /** Dry mass of the whole plant at the end [g]. */
  readonly endG: number;
  /** As the line is. */
  readonly now: Conditions;
  /** Under which the days were told; null: as now. */
  readonly told: Conditions | null;
}

export interface GrowingDays {
  /** Days now over the grower's days, for each of the stages. Growth after a cut has the last one's. */
  readonly ratios: readonly number[];
  /** The model's days now, for each of the stages [d]; in the first one from emergence. */
  readonly modelDays: readonly number[];
  /** It is above 24 degC now: the model knows no harm by heat, so the days are at best. */
  readonly atBest: boolean;
}

/** Conditions that have limits, by their keys. */
export type LimitedCondition = 'ppfd' | 'air_c' | 'night_c' | 'co2' | 'germination_c';

/** As the line is, or as it was when the grower's days held. */
export type When = 'now' | 'told';

/** Why the model refuses, and what was found; `stage` is a place in the plan. */
export type GrowthRefusal =
  | {
      readonly kind: 'outside';
      readonly condition: LimitedCondition;
      readonly stage: number;
      readonly when: When;
      readonly found: number;
      readonly least: number;
      readonly most: number;
    }
  /** A ratio of the model's days that is not believed. */
  | {
      readonly kind: 'ratio';
      readonly stage: number;
      readonly found: number;
      readonly least: number;
      readonly most: number;
    }
  /** A mass that is not reached within a year [g, dry, whole plant]. */
  | { readonly kind: 'never'; readonly stage: number; readonly when: When; readonly endG: number }
  /** A stage that is dark as the line is, or was when the days held, but not both. */
  | { readonly kind: 'dark'; readonly stage: number; readonly when: When };

const LIMITS: Readonly<Record<LimitedCondition, { readonly least: number; readonly most: number }>> = {
  ppfd: { least: 50, most: 750 },
  air_c: { least: 10, most: 30 },
  night_c: { least: 10, most: 30 },
  co2: { least: 300, most: 1600 },
  germination_c: { least: Number.NEGATIVE_INFINITY, most: 30 },
};
const BELIEVED = { least: 0.5, most: 2 } as const;

/** What is warmer counts as this [degC]: the published best; the model's own lies higher. */
const BEST_C = 24;

/**
 * @param seedG dry mass of what is sown in a hole [g]
 * @param stages in the order in which plants pass them
 * @param emergeDays days until a seedling shows, where the grower knows them [d]; null: by the warmth
 */
export function growingDays(
  seedG: number,
  stages: readonly StageConditions[],
  emergeDays: number | null,
): Result<GrowingDays, GrowthRefusal> {
  const limits = stages.flatMap((stage, i) => beyondLimits(stage, i === 0 && emergeDays === null));
  if (limits.length > 0) return failure(limits);
  const now = growThrough(seedG, stages, 'now', (stage) => stage.now);
  const told = growThrough(seedG, stages, 'told', toldOf);
  const warm = stages.some((stage) => isWarm(stage.now));
  // More warmth than the best shortens no days that now's light and CO2 would not have shortened without it.
  const unwarmed = warm ? growThrough(seedG, stages, 'now', unwarmedOf) : now;
  if (!now.ok) return now;
  if (!told.ok) return told;
  if (!unwarmed.ok) return unwarmed;

  const ratios = stages.map((stage, i) => {
    if (isDark(stage.now)) return 1;
    const days = isWarm(stage.now) ? Math.max(now.value[i]!, unwarmed.value[i]!) : now.value[i]!;
    return days / told.value[i]!;
  });
  const doubtful = stages.flatMap(({ stage }, i): GrowthRefusal[] => {
    const found = ratios[i]!;
    const believed = found >= BELIEVED.least && found <= BELIEVED.most;
    return believed ? [] : [{ kind: 'ratio', stage, found, ...BELIEVED }];
  });
  if (doubtful.length > 0) return failure(doubtful);
  const sown = stages[0]!;
  ratios[0] = firstStageRatio(
    ratios[0]!,
    sown.days,
    emergenceDays(emergeDays, sown.now.germinationC),
    emergenceDays(emergeDays, toldOf(sown).germinationC),
  );
  return success({ ratios, modelDays: now.value, atBest: warm });
}

/**
 * The first stage's ratio: until the seedling shows, by the warmth where it germinates; then as the model grows.
 * @param ratio of the model's days
 * @param days as the grower told them [d]
 * @param now days until a seedling shows, now [d]
 * @param told the same when the days held
 */
export function firstStageRatio(ratio: number, days: number, now: number, told: number): number {
  const hidden = showsAt(told, days);
  return hidden === 0 ? ratio : hidden * (now / told) + (1 - hidden) * ratio;
}

function toldOf({ now, told }: StageConditions): Conditions {
  return told ?? now;
}

/** Now's light and CO2 at the temperatures at which the days were told. */
function unwarmedOf(stage: StageConditions): Conditions {
  const { airC, nightC } = toldOf(stage);
  return { ...stage.now, airC, nightC };
}

function isDark({ ppfd, hours }: Conditions): boolean {
  return ppfd === 0 || hours === 0;
}

function isWarm({ airC, nightC }: Conditions): boolean {
  return airC > BEST_C || nightC > BEST_C;
}

/** The model's days in each stage [d], 0 in the dark, where nothing grows. Both states go from stage to stage by the plant. */
function growThrough(
  seedG: number,
  stages: readonly StageConditions[],
  when: When,
  conditionsOf: (stage: StageConditions) => Conditions,
): Result<number[], GrowthRefusal> {
  const days: number[] = [];
  let plant = seedStates(seedG);
  for (const stage of stages) {
    const { areaM2, endG } = stage;
    const conditions = conditionsOf(stage);
    if (isDark(conditions)) {
      days.push(0);
      continue;
    }
    const airC = Math.min(BEST_C, conditions.airC);
    const nightC = Math.min(BEST_C, conditions.nightC);
    const ground = { loose: plant.loose / areaM2, built: plant.built / areaM2 };
    const reached = growUntil(growthPace({ ...conditions, airC, nightC }), ground, endG / areaM2);
    if (reached === null) return failure([{ kind: 'never', stage: stage.stage, when, endG }]);
    days.push(reached.days);
    plant = { loose: reached.states.loose * areaM2, built: reached.states.built * areaM2 };
  }
  return success(days);
}

/** What of a stage's conditions lies beyond what the model is asked. @param germinates is its germination by the warmth? */
function beyondLimits(stage: StageConditions, germinates: boolean): GrowthRefusal[] {
  const { stage: place, now, told } = stage;
  const refusals: GrowthRefusal[] = [];
  if (told !== null && isDark(now) !== isDark(told)) {
    refusals.push({ kind: 'dark', stage: place, when: isDark(now) ? 'now' : 'told' });
  }
  for (const [when, conditions] of [
    ['now', now],
    ['told', told],
  ] as const) {
    if (conditions === null) continue;
    const { ppfd, airC, nightC, co2, germinationC } = conditions;
    const found: [LimitedCondition, number][] = [];
    if (!isDark(conditions)) found.push(['ppfd', ppfd], ['air_c', airC], ['night_c', nightC], ['co2', co2]);
    if (germinates) found.push(['germination_c', germinationC]);
    for (const [condition, value] of found) {
      const { least, most } = LIMITS[condition];
      if (value >= least && value <= most) continue;
      refusals.push({ kind: 'outside', condition, stage: place, when, found: value, least, most });
    }
  }
  return refusals;
}
