/** A plan as lines of the scenario file. */

import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { textOf } from '../../../cli/render/text.js';
import { planLines } from '../../../cli/sections/search/words.js';
import { section } from '../../../cli/sections/section.js';

test.each(['nursery', 'x'.repeat(60), '12', 'true', 'a: b, "c" #d', `${'shelf, '.repeat(8)}left`])(
  'stages stand in it as in the file, in lines that fit: %s',
  (name) => {
    const text = textOf([section(null, planLines({ channels: { [name]: 100_000 }, seeds: 5 }))], 78);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(78);
    const [sow, stage] = [text.slice(0, text.indexOf('\n')), text.slice(text.indexOf('\n') + 1)];
    expect(parse(sow)).toEqual({ sow: { seeds: 5 } });
    expect(parse(stage)).toEqual([{ name, channels: 100_000 }]);
  },
);
