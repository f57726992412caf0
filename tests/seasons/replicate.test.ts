import { describe, expect, test } from 'vitest';
import { defaultSeasons, MOST_SEASONS, replicate } from '../../sim/seasons/replicate.js';
import { summarise } from '../../sim/study/summary.js';
import { large, small } from '../bench/plans.js';
import { crop, every, grow, line, stage, time } from '../support/plans.js';

const plan = line(
  [stage('tray', 20), stage('finishing', 30)],
  [crop([grow(time(6, 0.2)), grow(time(15, 0.2))], every(4, 70, 6))],
  { weeks: 10 },
);

test('the same seed gives the same study, another seed another one', async () => {
  const study = async (seed: number): Promise<string> =>
    JSON.stringify(summarise(plan, seed, await replicate(plan, { seasons: 5, seed }), null, false).counts);
  expect(await study(3)).toBe(await study(3));
  expect(await study(4)).not.toBe(await study(3));
});

test('pausing changes nothing but the time it takes', async () => {
  const plain = await replicate(plan, { seasons: 6 });
  const paused = await replicate(plan, { seasons: 6, pause: () => Promise.resolve(true) });
  expect(paused.counts).toEqual(plain.counts);
});

test('a study that is stopped keeps the seasons that were run', async () => {
  const tallies = await replicate(plan, { seasons: 100, pause: (done) => Promise.resolve(done < 7) });
  expect(tallies.seasons).toBe(7);
  expect(tallies.counts).toEqual((await replicate(plan, { seasons: 7 })).counts);
});

test.each([0, -1, 1.5, Number.NaN, MOST_SEASONS + 1])('%d seasons are refused', async (seasons) => {
  await expect(replicate(plan, { seasons })).rejects.toThrow(RangeError);
});

describe('the usual number of seasons', () => {
  test('is 200 for a small line', () => {
    expect(defaultSeasons(small)).toBe(200);
  });
  test('is fewer for a very large one, but at least 20', () => {
    expect(defaultSeasons(large)).toBe(27);
    const huge = { ...large, crops: large.crops.map((c) => ({ ...c, sowing: every(1, 364, 100_000) })) };
    expect(defaultSeasons(huge)).toBe(20);
  });
});
