import { describe, expect, test } from 'vitest';
import { readScenario } from '../../sim/scenario/read.js';
import { type Variation, variationText, vary } from '../../sim/scenario/vary.js';
import { CELLAR, cellarWith } from './cellar.js';

function scenario(text = CELLAR) {
  const read = readScenario(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.scenario;
}

const REFILLED = cellarWith(['sow: {every: 3, seeds: 10}', 'sow: {refill: true}']);
const DROPPED = cellarWith(['seeds: 10}', 'seeds: 10, missed: dropped}']);
const DATED = cellarWith(['sow: {every: 3, seeds: 10}', 'sow: {dates: [2027-01-04], seeds: 10}']);

describe('sowing', () => {
  test.each<[string, Variation, object]>([
    ['another cadence keeps the seeds', { cadence: { every: 4 } }, { every: 4, seeds: 10 }],
    ['weekdays keep the seeds', { cadence: { on: ['mon', 'thu'] } }, { on: ['mon', 'thu'], seeds: 10 }],
    ['other seeds keep the cadence', { seeds: 6 }, { every: 3, seeds: 6 }],
    ['both can change', { cadence: { every: 7 }, seeds: 20 }, { every: 7, seeds: 20 }],
    ['21 seeds a week are 9 every 3 days', { seedsAWeek: 21 }, { every: 3, seeds: 9 }],
    [
      '21 seeds a week are 12 every 4 days',
      { cadence: { every: 4 }, seedsAWeek: 21 },
      { every: 4, seeds: 12 },
    ],
    [
      '20 seeds a week are 10 on each of two days',
      { cadence: { on: ['mon', 'thu'] }, seedsAWeek: 20 },
      { on: ['mon', 'thu'], seeds: 10 },
    ],
    ['a sowing has at least one seed', { cadence: { every: 1 }, seedsAWeek: 1 }, { every: 1, seeds: 1 }],
    ['refill has neither', { cadence: { refill: true }, seeds: 9 }, { refill: true }],
  ])('%s', (_, variation, sow) => {
    const varied = vary(scenario(), variation);
    expect(varied.ok ? varied.value.crops[0]!.sow : varied.faults).toEqual(sow);
  });

  test.each<[string, string, Variation, RegExp]>([
    ['a refilled crop has no seeds to change', REFILLED, { seeds: 4 }, /^Crop butterhead is refilled/],
    ['a refilled crop needs seeds for a cadence', REFILLED, { cadence: { every: 3 } }, /needs seeds/],
    ['dates have no week', DATED, { seedsAWeek: 20 }, /^Crop butterhead is sown on dates/],
  ])('%s', (_, text, variation, message) => {
    expect(vary(scenario(text), variation)).toEqual({ ok: false, faults: [expect.stringMatching(message)] });
  });

  test('what becomes of missed sowings stays, whatever the cadence', () => {
    const varied = vary(scenario(DROPPED), { cadence: { every: 4 } });
    expect(varied.ok && varied.value.crops[0]!.sow).toEqual({ every: 4, seeds: 10, missed: 'dropped' });
  });

  test('dates take other seeds', () => {
    const varied = vary(scenario(DATED), { seeds: 4 });
    expect(varied.ok ? varied.value.crops[0]!.sow : varied.faults).toEqual({
      dates: ['2027-01-04'],
      seeds: 4,
    });
  });
});

test('visits and channels change, the rest stays', () => {
  const before = scenario();
  const varied = vary(before, { visits: ['mon'], channels: { nursery: 5 } });
  expect(varied).toEqual({
    ok: true,
    value: {
      ...before,
      visits: ['mon'],
      stages: before.stages.map((stage) => (stage.name === 'nursery' ? { ...stage, channels: 5 } : stage)),
    },
  });
});

test('a stage that is not there is named, with those that are', () => {
  expect(vary(scenario(), { channels: { cellar: 2 } })).toEqual({
    ok: false,
    faults: ['There is no stage cellar. The stages are germination, nursery, finishing.'],
  });
});

test.each<[Variation, string]>([
  [
    { cadence: { every: 0 } },
    'crops[0].sow.every must not be 0. It must be a number from 0.01 to 3650 (days). Example: every: 3',
  ],
  [
    { cadence: { every: -2 }, seedsAWeek: 20 },
    'crops[0].sow.every must not be -2. It must be a number from 0.01 to 3650 (days). Example: every: 3',
  ],
  [
    { seeds: 2.5 },
    'crops[0].sow.seeds must not be 2.5. It must be a whole number from 1 to 1000000 (seeds). Example: seeds: 10',
  ],
  [
    { seedsAWeek: Number.NaN },
    'seedsAWeek must not be NaN. It must be a number above 0. Example: seedsAWeek: 20',
  ],
  [{ seedsAWeek: -20 }, 'seedsAWeek must not be -20. It must be a number above 0. Example: seedsAWeek: 20'],
  [
    { channels: { nursery: 0 } },
    'stages[1].channels must not be 0. It must be a whole number from 1 to 100000 (channels). Example: channels: 8',
  ],
])('what a scenario file could not say is refused in its words: %j', (variation, fault) => {
  expect(vary(scenario(), variation)).toEqual({ ok: false, faults: [fault] });
});

test('all that is wrong with a variation is told at once', () => {
  const varied = vary(scenario(), { cadence: { on: [] }, channels: { nursery: -1, finishing: 1.5 } });
  expect(varied.ok ? [] : varied.faults.map((fault) => fault.split(' ')[0])).toEqual([
    'stages[1].channels',
    'stages[2].channels',
    'crops[0].sow.on',
  ]);
});

test('an empty variation changes nothing', () => {
  expect(vary(scenario(), {})).toEqual({ ok: true, value: scenario() });
});

test.each<[Variation, string]>([
  [{}, 'as it is'],
  [{ cadence: { every: 3 }, seeds: 8 }, 'every 3 d, 8 seeds'],
  [{ cadence: { on: ['mon', 'thu'] }, seedsAWeek: 20 }, 'on mon+thu, 20 seeds a week'],
  [{ cadence: { refill: true }, visits: 'daily' }, 'refill, visits daily'],
  [{ seeds: 1, visits: ['sat'], channels: { nursery: 3 } }, '1 seed, visits sat, 3 x nursery'],
])('%j is called "%s"', (variation, text) => {
  expect(variationText(variation)).toBe(text);
});
