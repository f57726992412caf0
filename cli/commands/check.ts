/** `evensow check [FILE]`: is the scenario right, and what does it say? */

import { holesOf } from '../../sim/models/plan.js';
import { loadScenario, scenarioPath } from '../inputs/scenario-file.js';
import { DONE, print } from '../io/streams.js';
import { textOf } from '../render/text.js';
import { checkSections } from '../sections/check.js';

export async function check(file: string | undefined): Promise<number> {
  const { plan } = await loadScenario(file, 'optional');
  await print(textOf(checkSections(scenarioPath(file).name, plan, plan.stages.map(holesOf))));
  return DONE;
}
