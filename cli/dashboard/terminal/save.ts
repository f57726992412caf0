/** What is saved: the plan on the screen as a scenario file, which is the text that was read with what was changed; the comparison of the strip. */

import { dirname, resolve } from 'node:path';
import { parse } from 'yaml';
import { type Result, success } from '../../../sim/models/result.js';
import { amendScenario } from '../../../sim/scenario/amend.js';
import type { Fault } from '../../../sim/scenario/faults.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import type { CompareResult } from '../../../sim/study/compare.js';
import { plainLines } from '../../render/obeyed.js';
import { toldAs } from '../../render/told.js';
import { compareRows, compareSections } from '../../sections/compare.js';
import { named } from '../rows/rows.js';

/**
 * @param text of the scenario file that was opened
 * @param before what it says
 * @param now the plan on the screen: other sowings, channels, visits or want
 * @param form JSON has no comments: those of the text are not in it
 * @returns faults if the text cannot be changed where they stand
 */
export function scenarioText(
  text: string,
  before: Scenario,
  now: Scenario,
  form: 'yaml' | 'json' = 'yaml',
): Result<string, Fault> {
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
  const amended = amendScenario(text, changes);
  if (form === 'yaml' || !amended.ok) return amended;
  return success(`${JSON.stringify(parse(amended.value), null, 2)}\n`);
}

/** A comparison as `evensow compare` writes it. */
export function comparisonText(result: CompareResult, form: 'text' | 'csv'): string {
  return plainLines(toldAs(form, result, compareSections, compareRows));
}

/** Columns of a folder in a sentence about it, at most. */
const FOLDER = 30;

/** Why a file could not be written, the reason first: the name is seen where it was typed, and a long folder loses its middle. */
export function failureWords(path: string, message: string, more: string): string {
  const said = message.startsWith(`${path}: `) ? message.slice(path.length + 2) : message;
  const folder = dirname(resolve(path));
  return said.replace(/^the file cannot be written: /, '').replaceAll(folder, named(folder, FOLDER, more));
}
