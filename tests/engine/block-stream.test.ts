import alea from 'seedrandom/lib/alea.js';
import { expect, test } from 'vitest';
import { BlockStream, fillUniform, streamAt, streamKey } from '../../sim/engine/random.js';

test('a block stream gives the numbers of the generator, whatever the blocks', () => {
  for (const [seed, season, name] of [
    [1, 0, ['leaf', 'stage', 'nursery', 'time']],
    [123456789, 99, ['x']],
  ] as const) {
    const key = streamKey(name);
    const expected = new Float64Array(1000);
    fillUniform(streamAt(seed, season, key), expected, 1000);
    const blocks = new BlockStream();
    blocks.start(seed, season, key);
    const actual: number[] = [];
    for (const size of [1, 2, 32, 64, 128, 256, 500, 17]) {
      const block = new Float64Array(512);
      blocks.fill(block, size);
      actual.push(...block.subarray(0, size));
    }
    expect(actual).toEqual([...expected]);
  }
});

test('a stream is the generator of seedrandom, half a cell on', () => {
  const key = streamKey(['leaf']);
  const source = alea(`5 3 ${key}`);
  const values = new Float64Array(3);
  fillUniform(streamAt(5, 3, key), values, 3);
  expect([...values]).toEqual([source(), source(), source()].map((u) => u + 2 ** -33));
});
