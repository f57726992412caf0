/** `evensow schema`: the JSON Schema of the scenario file, for editors. */

import { scenarioJsonSchema } from '../../sim/scenario/schema.js';
import { EXIT_DONE, print } from '../io/streams.js';
import { jsonText } from '../render/told.js';

export async function schema(): Promise<number> {
  await print(jsonText(scenarioJsonSchema()));
  return EXIT_DONE;
}
