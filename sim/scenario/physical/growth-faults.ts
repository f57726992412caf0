/** Why no plant can grow as a scenario tells it, with the place in the file. */

import { dayFrom } from '../../models/dates.js';
import type { CourseFault } from '../../models/physical/course.js';
import type { GrowthRefusal, LimitedCondition } from '../../models/physical/growing-days.js';
import type { DatedAir } from '../../models/physical/plan.js';
import type { FaultDraft, Path } from '../faults.js';
import type { Scenario } from '../schema.js';
import { celsiusAdvice, FAHRENHEIT } from './fahrenheit.js';

/** No efficiency of light leads to the masses of crop `c`. */
export function courseFault({ stages, crops }: Scenario, c: number, fault: CourseFault): FaultDraft {
  const { name } = stages[fault.stage]!;
  const { head_g, stages: growings } = crops[c]!;
  const isHead = fault.stage === stages.length - 1;
  const path = isHead ? ['crops', c, 'head_g'] : ['crops', c, 'stages', name, 'ready_g'];
  const found = `${isHead ? head_g : growings[name]!.ready_g} g`;
  if (fault.kind === 'no_light') {
    return {
      path,
      at: 'value',
      found: `${found} that would have to grow in the dark`,
      expected: 'light (ppfd and hours above 0) in at least one stage before',
      advice: `Give ${name} its light. Example: ppfd: 200, hours: 16`,
    };
  }
  if (fault.kind === 'no_growth') {
    return {
      path,
      at: 'value',
      found: `${found} that no light could make there`,
      expected: 'days and areas (hole_area_cm2) in which a plant can grow',
      advice: `Look at the days and the areas of ${name} and of the stages before.`,
    };
  }
  const before = Number((fault.fromG * 1000).toPrecision(3));
  return {
    path,
    at: 'value',
    found: `${found}, ${Number((fault.toG * 1000).toPrecision(3))} mg dry with the root`,
    expected: `more than what it grows from (${before} mg dry)`,
    advice: 'Look at seed_mg (mg, dry), at ready_g of the stages before and at dry.',
  };
}

/** The growth model does not tell what the days of crop `c` become. */
export function refusalFault(scenario: Scenario, c: number, refusal: GrowthRefusal): FaultDraft {
  const { name } = scenario.stages[refusal.stage]!;
  const daysAt = daysAtOf(scenario, c, refusal.stage);
  switch (refusal.kind) {
    case 'outside': {
      const { condition, found, least, most, when } = refusal;
      const range = Number.isFinite(least) ? `from ${least} to ${most}` : `of at most ${most}`;
      return {
        path:
          when === 'now'
            ? nowPath(scenario, refusal.stage, condition)
            : thenPath(scenario, c, refusal.stage, condition),
        at: 'value',
        found: `${found}${when === 'now' ? '' : ` (where the days of ${name} hold)`}`,
        expected: `${condition} ${range} where days_at stands: the growth model knows no other`,
        advice: condition.endsWith('_c') && found > FAHRENHEIT ? celsiusAdvice(found) : LEAVE_OUT,
      };
    }
    case 'ratio':
      return {
        path: daysAt,
        at: 'key',
        found: `conditions under which ${name} takes ${Number((1 / refusal.found).toPrecision(2))} times as long as in the line`,
        expected: `conditions nearer to those of the line (the days change by a factor from ${refusal.least} to ${refusal.most})`,
        advice: LEAVE_OUT,
      };
    case 'never':
      return {
        path: daysAt,
        at: 'key',
        found: `a plant that by the growth model is not ready to leave ${name} within a year ${refusal.when === 'now' ? 'in the line' : 'where its days hold'}`,
        expected: 'light and warmth in which the crop grows',
        advice: LEAVE_OUT,
      };
    case 'dark':
      return {
        path: daysAt,
        at: 'key',
        found: `${name} ${refusal.when === 'now' ? 'dark in the line and lit' : 'lit in the line and dark'} where its days hold`,
        expected: 'a stage that is lit in both or dark in both',
        advice: LEAVE_OUT,
      };
  }
}

/**
 * The same of the days in a spell with other air.
 * @param spell of the plan
 */
export function spellFault(
  scenario: Scenario,
  c: number,
  refusal: GrowthRefusal,
  spell: Pick<DatedAir, 'from'>,
): FaultDraft {
  const dated = scenario.climate!.dated!;
  const place = dated.findIndex(({ from }) => dayFrom(scenario.start, from) === spell.from);
  const told = dated[place]!;
  const path = ['climate', 'dated', place];
  const { name } = scenario.stages[refusal.stage]!;
  const { name: crop } = scenario.crops[c]!;
  const then = `from ${told.from} to ${told.to}`;
  const usual = refusalFault(scenario, c, refusal);
  if (refusal.kind === 'ratio') {
    return {
      ...usual,
      path,
      at: 'value',
      found: `air ${then} in which ${name} takes ${crop} ${Number(refusal.found.toPrecision(2))} times as long as where its days hold`,
      expected: `air nearer to that of days_at (the days change by a factor from ${refusal.least} to ${refusal.most})`,
      advice: LEAVE_SPELL,
    };
  }
  if (refusal.kind === 'never') {
    return {
      ...usual,
      path,
      at: 'value',
      found: `air ${then} in which ${crop} by the growth model is not ready to leave ${name} within a year`,
      advice: LEAVE_SPELL,
    };
  }
  if (refusal.kind !== 'outside' || refusal.when !== 'now' || refusal.condition === 'ppfd') return usual;
  const { condition } = refusal;
  // Night and germination follow the day of the spell where nobody told of them.
  const key = told[condition] !== undefined ? condition : 'air_c';
  return {
    ...usual,
    path: told[key] === undefined ? path : [...path, key],
    found: `${usual.found} ${then}`,
    advice: usual.advice === LEAVE_OUT ? LEAVE_SPELL : (usual.advice ?? LEAVE_SPELL),
  };
}

const LEAVE_SPELL = 'Or leave the spell out: then its days are as usual.';

const LEAVE_OUT = 'Or leave days_at out, and give days as they are in the line.';

/** The first `days_at` of a crop; that of stage `s` if it has one. */
function daysAtOf({ stages, crops }: Scenario, c: number, s: number): Path {
  const growings = crops[c]!.stages;
  const has = ({ name }: { readonly name: string }) => growings[name]!.days_at !== undefined;
  const { name } = [stages[s]!, ...stages].find(has)!;
  return ['crops', c, 'stages', name, 'days_at'];
}

/** Where the line tells a condition. */
function nowPath({ stages, climate }: Scenario, s: number, condition: LimitedCondition): Path {
  if (condition === 'ppfd') return stages[s]!.ppfd === undefined ? ['stages', s] : ['stages', s, 'ppfd'];
  return ['climate', climate?.[condition] === undefined ? 'air_c' : condition];
}

/** Where a condition is told in which the days of a stage hold. */
function thenPath(scenario: Scenario, c: number, s: number, condition: LimitedCondition): Path {
  const told = scenario.crops[c]!.stages[scenario.stages[s]!.name]!.days_at!;
  const path = daysAtOf(scenario, c, s);
  if (told[condition] !== undefined) return [...path, condition];
  const byDay = condition === 'night_c' || condition === 'germination_c';
  return byDay && scenario.climate?.[condition] === undefined && told.air_c !== undefined
    ? [...path, 'air_c']
    : nowPath(scenario, s, condition);
}
