/** A plan as lines of the scenario file. */

import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { planLines } from '../../../cli/views/search-words.js';

test.each(['nursery', 'x'.repeat(60)])('stages stand in it as in the file, within 78 columns: %s', (name) => {
  const lines = planLines({ channels: { [name]: 100_000 } });
  for (const line of lines) expect(line.length).toBeLessThanOrEqual(78);
  expect(parse(lines.join('\n'))).toEqual([{ name, channels: 100_000 }]);
});
