import { describe, expect, test } from 'vitest';
import { toPlan } from '../../../sim/scenario/plan.js';
import { vary } from '../../../sim/scenario/vary.js';
import { twoCrops } from '../../support/clockwork.js';
import { CELLAR, cellarWith, readWell } from '../cellar.js';
import { RACK, rackWith, WITHOUT_DAYS_AT } from './rack.js';

function planOf(text: string) {
  return readWell(text).value.plan;
}

/** A file in which nothing is told but of the line, with more keys behind it. */
function cellarAnd(keys: string, ...edits: [from: string, to: string][]): string {
  return `${cellarWith(...edits)}${keys}\n`;
}

test('everything that is told reaches the plan, as it is made by hand', () => {
  const { plan, physical } = twoCrops();
  const { crops, ...line } = planOf(RACK);
  const { crops: byHand, ...lineByHand } = plan;
  expect(line).toEqual({ ...lineByHand, physical });
  expect(crops).toEqual(byHand.map((crop) => ({ ...crop, sowing: expect.anything() })));
});

describe('a file that tells nothing beyond the line', () => {
  test('has a plan without it', () => {
    expect(planOf(CELLAR)).not.toHaveProperty('physical');
  });

  test('also where heads are weighed and crops described, of which nothing more is asked', () => {
    const text = cellarWith(['head_g: 150', 'head_g: 150\n    dry: 0.06\n    seed_mg: 2']);
    expect(planOf(text)).toEqual(planOf(CELLAR));
  });
});

describe('each group of keys works without the others', () => {
  const LAMPS: [string, string] = [
    'hole_area_cm2: 400',
    'hole_area_cm2: 400, ppfd: 200, hours: 16, efficacy: 2.5',
  ];
  const nothing = {
    climate: null,
    waterScale: 1,
    tank: null,
    tiers: [],
    work: null,
    prices: null,
  };

  test('lamps and the price of a kilowatt-hour are enough for what they cost', () => {
    const { physical } = planOf(cellarAnd('prices: {kwh: 0.3}', LAMPS));
    expect(physical).toMatchObject({
      ...nothing,
      stages: [{ lamps: null }, { lamps: null }, { lamps: { ppfd: 200, hours: 16 } }],
      prices: { kwh: 0.3, waterM3: null, hour: null, crops: [{ seed: null, sale: null }] },
    });
    expect(physical?.stages[2]?.lamps?.power).toEqual({ kind: 'made', efficacy: 2.5, reaches: 1 });
  });

  test.each([
    [
      'climate: {air_c: 20}',
      { climate: { airC: 20, nightC: 20, humidity: null, co2: 400, germinationC: 20, altitudeM: 0 } },
    ],
    ['climate: {air_c: 20, humidity: 60}', { climate: { humidity: 60, nightHumidity: 60 } }],
    ['water: {}', { waterScale: 1 }],
    [
      'tank: {litres: 60, full_l: 50, low_l: 10}',
      { tank: { ec: null, topUpEc: null, uptakeEc: null, pipesL: 0, heldMl: 20, changeDays: null } },
    ],
    [
      'work: {}',
      { work: { sowS: 4, moveS: 10, pickS: 40, clearS: 10, cleanS: 20, visitMin: 10, tankMin: 0 } },
    ],
    ['prices: {head: 2}', { prices: { crops: [{ seed: null, sale: { per: 'head', price: 2 } }] } }],
    ['prices: {kg: 12, seed: 0.02}', { prices: { crops: [{ seed: 0.02, sale: { per: 'kg', price: 12 } }] } }],
  ])('%s', (keys, told) => {
    const { physical } = planOf(cellarAnd(keys));
    expect(physical).toMatchObject({ ...nothing, ...told });
    expect(physical?.stages.every(({ lamps, channelSize }) => lamps === null && channelSize === null)).toBe(
      true,
    );
  });

  test('the tank takes its time only where there is one', () => {
    const { physical } = planOf(cellarAnd('work: {tank_min: 8}\ntank: {litres: 60, full_l: 50, low_l: 10}'));
    expect(physical?.work?.tankMin).toBe(8);
  });

  test('tiers without a name are called by their stage and a number', () => {
    const text = rackWith(
      ['{name: top, stage: channel, channels: 2', '{stage: channel, channels: 1'],
      ['{name: seedlings, stage: tray', '{stage: channel'],
    );
    expect(planOf(text).physical?.tiers.map(({ name }) => name)).toEqual(['channel 1', 'channel 2']);
  });

  test('a crop whose heads were not weighed has no matter', () => {
    const text = cellarAnd('work: {}', ['    head_g: 150\n', '']);
    expect(planOf(text).physical?.crops).toEqual([null]);
  });

  test('a dark stage needs neither hours nor an area', () => {
    const { physical } = planOf(cellarAnd('', ['holes: 40}', 'holes: 40, ppfd: 0}'], LAMPS));
    expect(physical?.stages[0]?.lamps).toEqual({ ppfd: 0, hours: 0, power: null });
  });
});

describe('days that hold under other conditions', () => {
  const days = (text: string) => planOf(text).crops.map(({ stages }) => stages.map(({ time }) => time.days));
  const TOLD = [
    [12.5, 20.25],
    [15.75, 18.5],
  ];
  // Worked by an independent program, with seven to nine digits.
  const RATIOS = [
    [0.892762122, 0.908768569],
    [1, 0.907118246],
  ];

  test('become those of the line', () => {
    for (const [c, crop] of days(RACK).entries()) {
      for (const [s, reckoned] of crop.entries()) {
        expect(reckoned / TOLD[c]![s]!).toBeCloseTo(RATIOS[c]![s]!, 6);
      }
    }
  });

  test('and growth after a cut goes with the last stage', () => {
    const { regrow, stages } = planOf(RACK).crops[1]!;
    expect(regrow!.time.days / 11.5).toBeCloseTo(stages[1]!.time.days / 18.5, 12);
  });

  test('stay as they are told where nothing is told of their conditions', () => {
    expect(days(rackWith(...WITHOUT_DAYS_AT))).toEqual(TOLD);
  });

  test('stay to the last digit where the conditions are those of the line', () => {
    const same = rackWith(
      [
        'days_at: {ppfd: 140, air_c: 22, night_c: 18, germination_c: 20}',
        'days_at: {ppfd: 160, hours: 18, air_c: 23.5}',
      ],
      ['days_at: {ppfd: 200, air_c: 22, night_c: 18}', 'days_at: {night_c: 20, co2: 500, germination_c: 27}'],
      ['days_at: {hours: 14}', 'days_at: {}'],
    );
    expect(days(same)).toEqual(TOLD);
    expect(planOf(same).crops).toEqual(planOf(rackWith(...WITHOUT_DAYS_AT)).crops);
  });

  test('change observed times alike, and no spread', () => {
    const observed = 'observed: [10, 12.5, 15]';
    const told = planOf(rackWith(['days: 12.5, shape: fixed, days_at', `${observed}, days_at`])).crops[0]!
      .stages[0]!.time;
    const plain = planOf(rackWith(...WITHOUT_DAYS_AT, ['days: 12.5, shape: fixed', observed])).crops[0]!
      .stages[0]!.time;
    const ratio = told.days / plain.days;
    expect(ratio).toBeCloseTo(RATIOS[0]![0]!, 6);
    for (const [i, time] of told.times.entries()) expect(time / plain.times[i]!).toBeCloseTo(ratio, 12);
    expect(told.spread).toBe(plain.spread);
  });

  test('night and germination that nobody told of are as the day that is told', () => {
    const text = rackWith(
      [', night_c: 20, humidity', ', humidity'],
      [', germination_c: 27', ''],
      ['air_c: 22, night_c: 18, germination_c: 20', 'air_c: 22'],
      ['air_c: 22, night_c: 18', 'air_c: 22'],
    );
    const daysAt = planOf(text).physical?.crops[0]?.stages[0]?.daysAt;
    expect(daysAt).toMatchObject({ airC: 22, nightC: 22, germinationC: 22, co2: 500, hours: 18 });
  });
});

test('another number of channels has lamps of the same watts a channel', () => {
  const { scenario } = readWell(RACK).value;
  const varied = vary(scenario, { channels: { tray: 3 } });
  if (!varied.ok) throw new Error(varied.faults.join());
  expect(toPlan(varied.value).physical?.stages[0]?.lamps?.power).toEqual({ kind: 'metered', watts: 36 });
});

test('nobody is always there where work is told by the visit', () => {
  const { scenario } = readWell(RACK).value;
  expect(vary(scenario, { visits: 'always' })).toEqual({
    ok: false,
    faults: [
      'visits must not be always where the scenario tells of work: whoever is always there makes no visits. Leave work out.',
    ],
  });
});
