import { describe, expect, test } from 'vitest';
import { cellarWith, faultLines, faultsOf } from '../cellar.js';
import { RACK, rackWith, WITHOUT_DAYS_AT } from './rack.js';

const AMOUNT = 'a number from 0 to 1000000';
const PRICE = 'a number from 0 to 1000000000 (your money)';
const PRICES = `${PRICE}, or such numbers by crop`;
const PPFD = 'a number from 0 to 5000 (umol m-2 s-1)';
const WARMTH = 'a number from -50 to 150 (degC)';
const PER_CENT = 'a number from 0 to 100 (per cent)';
const MODEL = 'where days_at stands: the growth model knows no other';
const MATTER =
  'name, germination, sow, cuts, regrow, head_g, dry, sla_cm2_g, seed_mg, emerge_days, left, stages';

/** Each: what is claimed, what is replaced by what in the correct file, the faults. */
const CASES: Record<string, [title: string, from: string, to: string, ...faults: string[]][]> = {
  light: [
    [
      'light needs the area that it falls on',
      ' hole_area_cm2: 25,',
      '',
      '{name @ stages[0].hole_area_cm2 | nothing | a number above 0 and at most 10000000 (cm2) | null',
      'days_at @ crops[0].stages.tray.days_at | the key days_at alone | days_at together with hole_area_cm2 of tray | null',
      'days_at @ crops[1].stages.channel.days_at | the key days_at alone | days_at together with hole_area_cm2 of tray | null',
    ],
    [
      'light needs its hours',
      ', hours: 18',
      '',
      '{name @ stages[0].hours | nothing | a number from 0 to 24 (hours) | null',
    ],
    [
      'a day has 24 hours',
      'hours: 18',
      'hours: 25',
      '25 @ stages[0].hours | 25 | a number from 0 to 24 (hours) | null',
    ],
    [
      'there is no light below none',
      'ppfd: 160',
      'ppfd: -160',
      `-160 @ stages[0].ppfd | -160 | ${PPFD} | null`,
    ],
    [
      'hours without light tell nothing, nor does days_at then',
      'ppfd: 160, ',
      '',
      `{name @ stages[0].ppfd | nothing | ${PPFD} | null`,
      'days_at @ crops[0].stages.tray.days_at | the key days_at alone | days_at together with ppfd (0 if it is dark) of tray | null',
      'days_at @ crops[1].stages.channel.days_at | the key days_at alone | days_at together with ppfd (0 if it is dark) of tray | null',
    ],
    [
      'lamps make some light of a joule',
      'efficacy: 2.6',
      'efficacy: 0',
      '0 @ stages[1].efficacy | 0 | a number from 0.01 to 100 (umol per joule) | null',
    ],
    [
      'no more light reaches the holes than there is',
      'reaches: 0.85',
      'reaches: 1.1',
      '1.1 @ stages[1].reaches | 1.1 | a number from 0.01 to 1 | null',
    ],
    [
      'and not none of it',
      'reaches: 0.85',
      'reaches: 0',
      '0 @ stages[1].reaches | 0 | a number from 0.01 to 1 | null',
    ],
    [
      'what reaches the holes is a share of what lamps make',
      'efficacy: 2.6, ',
      '',
      '{name @ stages[1].efficacy | nothing | a number from 0.01 to 100 (umol per joule) | null',
    ],
    [
      'a meter says all',
      'watts: 12',
      'watts: 12, efficacy: 2',
      'efficacy @ stages[0].efficacy | the key efficacy beside watts | watts, or efficacy (and reaches) | null',
    ],
    [
      'also of what reaches the holes',
      'watts: 12',
      'watts: 12, reaches: 0.8',
      'reaches @ stages[0].reaches | the key reaches beside watts | watts, or efficacy (and reaches) | null',
    ],
    [
      'a misspelt key has its nearest',
      'efficacy: 2.6',
      'efficiency: 2.6',
      'efficiency @ stages[1].efficiency | the key efficiency | one of the keys name, channels, holes, hole_area_cm2, clean_days, ppfd, hours, watts, efficacy, reaches, channel_size | efficacy',
    ],
  ],
  crops: [
    [
      'a head is heavier than the seed',
      'head_g: 120',
      'head_g: 0.01',
      '0.01 @ crops[0].head_g | 0.01 g, 0.538 mg dry with the root | more than what it grows from (1 mg dry) | null',
    ],
    [
      'masses are not negative',
      'seed_mg: 1.5',
      'seed_mg: -1.5',
      `-1.5 @ crops[1].seed_mg | -1.5 | a number from 0.001 to 1000000 (mg) | null`,
    ],
    [
      'what was weighed is heavier than the seed',
      '{days: 15.75, shape: fixed}',
      '{days: 15.75, shape: fixed, ready_g: 0.001}',
      '0.001 @ crops[1].stages.tray.ready_g | 0.001 g, 0.086 mg dry with the root | more than what it grows from (1.5 mg dry) | null',
    ],
    [
      'and lighter than the head',
      '{days: 15.75, shape: fixed}',
      '{days: 15.75, shape: fixed, ready_g: 50}',
      '30 @ crops[1].head_g | 30 g, 4300 mg dry with the root | more than what it grows from (4300 mg dry) | null',
    ],
    [
      'no head grows on no room at all',
      'hole_area_cm2: 400',
      'hole_area_cm2: 1e-320',
      '120 @ crops[0].head_g | 120 g that no light could make there | days and areas (hole_area_cm2) in which a plant can grow | null',
      '30 @ crops[1].head_g | 30 g that no light could make there | days and areas (hole_area_cm2) in which a plant can grow | null',
    ],
    [
      'what is ready in the last stage is a head',
      '{days: 18.5, shape: fixed, days_at: {hours: 14}}',
      '{days: 18.5, shape: fixed, ready_g: 20}',
      'ready_g @ crops[1].stages.channel.ready_g | the key ready_g in the last stage | head_g of the crop: what is ready there is a head | null',
    ],
    [
      'a misspelt key of a crop has its nearest',
      'seed_mg: 1.5',
      'seed_g: 0.0015',
      `seed_g @ crops[1].seed_g | the key seed_g | one of the keys ${MATTER} | seed_mg`,
    ],
  ],
  'days at': [
    [
      'needs the head',
      '    head_g: 120\n',
      '',
      'days_at @ crops[0].stages.tray.days_at | the key days_at alone | days_at together with head_g of the crop | null',
    ],
    [
      'refuses light that the model does not know',
      'ppfd: 160',
      'ppfd: 40',
      `40 @ stages[0].ppfd | 40 | ppfd from 50 to 750 ${MODEL} | null`,
    ],
    [
      'and such light where the days hold',
      'ppfd: 140',
      'ppfd: 900',
      `900 @ crops[0].stages.tray.days_at.ppfd | 900 (where the days of tray hold) | ppfd from 50 to 750 ${MODEL} | null`,
    ],
    [
      'refuses air that the model does not know',
      'climate: {air_c: 23.5',
      'climate: {air_c: 31',
      `31 @ climate.air_c | 31 | air_c from 10 to 30 ${MODEL} | null`,
    ],
    [
      'refuses it once, where night and germination are as the day',
      'climate: {air_c: 23.5, night_c: 20, humidity: 60, night_humidity: 70, co2: 500, germination_c: 27',
      'climate: {air_c: 72',
      `72 @ climate.air_c | 72 | air_c from 10 to 30 ${MODEL} | null`,
    ],
    [
      'and such air where the days hold',
      'ppfd: 200, air_c: 22',
      'ppfd: 200, air_c: 9',
      `9 @ crops[0].stages.channel.days_at.air_c | 9 (where the days of channel hold) | air_c from 10 to 30 ${MODEL} | null`,
    ],
    [
      'refuses CO2 that the model does not know',
      'co2: 500',
      'co2: 1700',
      `1700 @ climate.co2 | 1700 | co2 from 300 to 1600 ${MODEL} | null`,
    ],
    [
      'refuses seeds in such warmth',
      'germination_c: 27',
      'germination_c: 31',
      `31 @ climate.germination_c | 31 | germination_c of at most 30 ${MODEL} | null`,
    ],
    [
      'does not believe that days change to more than twice',
      'ppfd: 200, air_c: 22, night_c: 18',
      'ppfd: 750, hours: 24, co2: 1600',
      'days_at @ crops[0].stages.channel.days_at | conditions under which channel takes 0.46 times as long as in the line | conditions nearer to those of the line (the days change by a factor from 0.5 to 2) | null',
    ],
    [
      'refuses conditions in which no head would ever be ready',
      'ppfd: 200, air_c: 22, night_c: 18',
      'ppfd: 60, co2: 300, hours: 8',
      'days_at @ crops[0].stages.channel.days_at | a plant that by the growth model is not ready to leave channel within a year where its days hold | light and warmth in which the crop grows | null',
    ],
    [
      'refuses a stage that was dark and is lit',
      'ppfd: 140, air_c: 22',
      'ppfd: 0, air_c: 22',
      'days_at @ crops[0].stages.tray.days_at | tray lit in the line and dark where its days hold | a stage that is lit in both or dark in both | null',
    ],
  ],
  climate: [
    ['needs the air', 'air_c: 23.5, ', '', `{night_c @ climate.air_c | nothing | ${WARMTH} | null`],
    [
      'seeds below 5 degrees are beyond all that is known',
      'germination_c: 27',
      'germination_c: 4',
      '4 @ climate.germination_c | 4 | a number from 5 to 150 (degC) | null',
    ],
    [
      'humidity is no more than all',
      'humidity: 60, night',
      'humidity: 101, night',
      `101 @ climate.humidity | 101 | ${PER_CENT} | null`,
    ],
    [
      'nor less than none',
      'night_humidity: 70',
      'night_humidity: -1',
      `-1 @ climate.night_humidity | -1 | ${PER_CENT} | null`,
    ],
    [
      'dated air has spells (all else about them: dated.test.ts)',
      'altitude_m: 300',
      'altitude_m: 300, dated: []',
      '[] @ climate.dated | an empty list | a list of 1 to 100 spells, each with the keys from and to and what is other air then | null',
    ],
  ],
  water: [
    [
      'no tank is filled above its brim',
      'full_l: 46',
      'full_l: 53',
      '53 @ tank.full_l | 53 | at most what the tank can hold (litres: 52) | null',
    ],
    [
      'what is low is below what is full',
      'low_l: 15',
      'low_l: 46',
      '46 @ tank.low_l | 46 | less than full_l (46) | null',
    ],
    [
      'a tank has more than runs in channels and pipes',
      'pipes_l: 3',
      'pipes_l: 45',
      '46 @ tank.full_l | 46, and 46.2 litres in channels and pipes | more litres than run in channels and pipes | null',
    ],
    [
      'a film in centimetres is more than a tank has',
      'height_cm: 5, kg: 2}}',
      'height_cm: 5, film_mm: 200, kg: 2}}',
      '46 @ tank.full_l | 46, and 75.5 litres in channels and pipes | more litres than run in channels and pipes | null',
    ],
  ],
  tiers: [
    [
      'bear channels of a stage of the line',
      'stage: channel,',
      'stage: chanel,',
      'chanel @ tiers[0].stage | "chanel" | a stage of the line: tray, channel | channel',
    ],
    [
      'whose size is known',
      ',\n     channel_size: {length_cm: 120, width_cm: 10, height_cm: 5, kg: 2}',
      '',
      'channel @ tiers[0].stage | "channel", a stage without channel_size | a stage with channel_size, which says what its channels weigh | null',
    ],
    [
      'have each its name',
      'name: seedlings',
      'name: top',
      'top @ tiers[1].name | "top" a second time | a name that no other tier has | null',
    ],
    [
      'are allowed some kilograms',
      'rated_kg: 40',
      'rated_kg: -40',
      '-40 @ tiers[0].rated_kg | -40 | a number above 0 and at most 1000000 (kg) | null',
    ],
    [
      'bear nothing that lifts them',
      'lamps_kg: 5',
      'lamps_kg: -5',
      `-5 @ tiers[0].lamps_kg | -5 | ${AMOUNT} (kg) | null`,
    ],
  ],
  'work and prices': [
    [
      'whoever is always there makes no visits',
      'visits: [mon, thu]',
      'visits: always',
      'work @ work | the key work with visits: always | no work with visits: always (whoever is always there makes no visits) | null',
    ],
    [
      'no deed takes less than no time',
      'work: {}',
      'work: {pick_s: -4}',
      '-4 @ work.pick_s | -4 | a number from 0 to 100000 (seconds) | null',
    ],
    ['prices are not negative', 'kwh: 0.3', 'kwh: -0.3', `-0.3 @ prices.kwh | -0.3 | ${PRICE} | null`],
    [
      'nor are those of a crop',
      'basil: 0.02',
      'basil: -0.02',
      `-0.02 @ prices.seed.basil | -0.02 | ${PRICE} | null`,
    ],
    [
      'a price has no unit',
      '{lettuce: 0.03, basil: 0.02}',
      '0.03 EUR',
      `0.03 @ prices.seed | "0.03 EUR" | ${PRICES} | null`,
    ],
    [
      'a list is no price',
      '{lettuce: 0.03, basil: 0.02}',
      '[0.03]',
      `[0.03] @ prices.seed | a list of 1 | ${PRICES} | null`,
    ],
    [
      'prices are those of crops of the line',
      'basil: 0.02',
      'basel: 0.02',
      'basel @ prices.seed.basel | the crop basel | a crop of the line: lettuce, basil | basil',
    ],
    [
      'a crop is sold by the head or by the kilogram',
      'kg: {basil: 30}',
      'kg: {lettuce: 30}',
      'lettuce @ prices.kg.lettuce | a price by the kilogram and one by the head for lettuce | one of head and kg for a crop | null',
    ],
    [
      'also where one price is that of all crops',
      'kg: {basil: 30}',
      'kg: 30',
      'kg @ prices.kg | a price by the kilogram and one by the head for lettuce | one of head and kg for a crop | null',
    ],
  ],
};

test('the file that is spoiled here is correct', () => {
  expect(rackWith()).toBe(RACK);
});

/** The faults of a text, each with the word at its place: `word @ path | found | expected | nearest`. */
function pointed(text: string): string[] {
  const lines = text.split('\n');
  return faultsOf(text).map(({ line, column, path, found, expected, nearest }) => {
    const [word] = /^[^,:}\s]*/.exec(lines[line - 1]!.slice(column - 1))!;
    return `${word} @ ${path} | ${found} | ${expected} | ${nearest}`;
  });
}

for (const [subject, cases] of Object.entries(CASES)) {
  describe(subject, () => {
    test.each(cases)('%s', (_title, from, to, ...faults) => {
      expect(pointed(rackWith([from, to]))).toEqual(faults);
    });
  });
}

test('no head grows in the dark', () => {
  const dark = rackWith(...WITHOUT_DAYS_AT, ['ppfd: 160', 'ppfd: 0'], ['ppfd: 240', 'ppfd: 0']);
  const lit = 'light (ppfd and hours above 0) in at least one stage before';
  expect(pointed(dark)).toEqual([
    `120 @ crops[0].head_g | 120 g that would have to grow in the dark | ${lit} | null`,
    `30 @ crops[1].head_g | 30 g that would have to grow in the dark | ${lit} | null`,
  ]);
});

test('days_at needs all that growth depends on, told in one fault', () => {
  expect(
    faultLines(cellarWith(['days: 14, spread: 0.12', 'days: 14, spread: 0.12, days_at: {air_c: 20}'])),
  ).toEqual([
    '19:41 crops[0].stages.nursery.days_at | the key days_at alone | days_at together with climate with air_c; ppfd (0 if it is dark) of germination, nursery, finishing; hole_area_cm2 of germination | null',
  ]);
});

describe('what to do', () => {
  test.each([
    [' hole_area_cm2: 25,', '', 'Light needs the area that it falls on. Example: hole_area_cm2: 400'],
    ['ppfd: 160, ', '', 'hours tells nothing without ppfd. Example: ppfd: 200'],
    ['watts: 12', 'watts: 12, efficacy: 2', 'What the meter says counts: leave efficacy out.'],
    ['{lettuce: 0.03, basil: 0.02}', '0.03 EUR', 'Write the number without its unit: 0.03.'],
    ['{lettuce: 0.03, basil: 0.02}', '"0,03"', 'Write a point for the comma: 0.03.'],
    ['head_g: 120', 'head_g: 0.01', 'Look at seed_mg (mg, dry), at ready_g of the stages before and at dry.'],
    ['ppfd: 140', 'ppfd: 900', 'Or leave days_at out, and give days as they are in the line.'],
    ['climate: {air_c: 23.5', 'climate: {air_c: 72', 'Fahrenheit? Then write 22.2.'],
    ['full_l: 46', 'full_l: 53', 'full_l is the level after topping up, with the pump running.'],
    ['visits: [mon, thu]', 'visits: always', 'Use visits: daily, or leave work out.'],
    ['kg: {basil: 30}', 'kg: 30', 'Leave one of them out.'],
  ])('instead of %s, %s: %s', (from, to, advice) => {
    expect(faultsOf(rackWith([from, to]))[0]!.advice).toBe(advice);
  });
});
