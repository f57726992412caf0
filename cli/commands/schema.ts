/** `evensow schema`: the JSON Schema of the scenario file, for editors. */

import { scenarioJsonSchema } from '../../sim/scenario/schema.js';
import { DONE, print } from '../io/streams.js';
import { jsonText } from '../render/json.js';

export async function schema(): Promise<number> {
  await print(jsonText(scenarioJsonSchema()));
  return DONE;
}
