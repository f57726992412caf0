/** `evensow schema`: the JSON Schema of the scenario file, for editors. */

import { scenarioJsonSchema } from '../../sim/scenario/schema.js';
import { DONE, print } from '../streams.js';

export async function schema(): Promise<number> {
  await print(`${JSON.stringify(scenarioJsonSchema(), null, 2)}\n`);
  return DONE;
}
