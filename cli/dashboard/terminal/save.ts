/** What is saved: the plan on the screen as a scenario file, which is the text that was read with what was changed; the comparison of the strip. */

import type { Result } from '../../../sim/models/result.js';
import { amendScenario } from '../../../sim/scenario/amend.js';
import type { Fault } from '../../../sim/scenario/faults.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import type { CompareResult } from '../../../sim/study/compare.js';
import { toldAs } from '../../render/told.js';
import { compareRows, compareSections } from '../../sections/compare.js';

/**
 * @param text of the scenario file that was opened
 * @param before what it says
 * @param now the plan on the screen: other sowings, channels, visits or want
 * @returns faults if the text cannot be changed where they stand
 */
export function scenarioText(text: string, before: Scenario, now: Scenario): Result<string, Fault> {
  const changes: { path: (string | number)[]; value: unknown }[] = [];
  const note = (path: (string | number)[], was: unknown, is: unknown): void => {
    if (JSON.stringify(was) !== JSON.stringify(is)) changes.push({ path, value: is });
  };
  now.crops.forEach((crop, c) => {
    note(['crops', c, 'sow'], before.crops[c]!.sow, crop.sow);
  });
  now.stages.forEach((stage, s) => {
    note(['stages', s, 'channels'], before.stages[s]!.channels, stage.channels);
    note(['stages', s, 'watts'], before.stages[s]!.watts, stage.watts);
  });
  note(['visits'], before.visits, now.visits);
  note(['want'], before.want, now.want);
  return amendScenario(text, changes);
}

/** A comparison as `evensow compare` prints it. */
export function comparisonText(result: CompareResult, form: 'text' | 'csv'): string {
  return toldAs(form, result, compareSections, compareRows);
}
