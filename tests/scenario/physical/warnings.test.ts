import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/scenario/read.js';
import { RACK, rackWith, WITHOUT_DAYS_AT } from './rack.js';

/** The warnings of a text, each with the word at its place: `word @ path | message`. */
function pointed(text: string): string[] {
  const read = readScenario(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const lines = text.split('\n');
  return read.value.warnings.map(({ line, column, path, message }) => {
    const [word] = /^[^,:}\s]*/.exec(lines[line - 1]!.slice(column - 1))!;
    return `${word} @ ${path} | ${message}`;
  });
}

/** A file of which nothing is warned: seeds are cooler than the correct file's, and basil is made of what lettuce is. */
const CALM = [
  ...WITHOUT_DAYS_AT,
  ['germination_c: 27', 'germination_c: 24'],
  ['dry: 0.08', 'dry: 0.05'],
] as const;
const EFFICIENCY = /g of plant of a mol of light/;

function calmWith(...edits: readonly (readonly [from: string, to: string])[]): string[] {
  return pointed(rackWith(...CALM, ...edits)).filter((line) => !EFFICIENCY.test(line));
}

test('a file that tells all, and nothing odd, is warned of nothing', () => {
  expect(calmWith()).toEqual([]);
});

test('light that is used better than crops can is warned of', () => {
  // 1.88500752562 and 1.79099972716 g/mol, worked by an independent program; growth after a cut, with 0.717, is usual.
  const told = (crop: string, efficiency: number) =>
    `${crop} would have to make ${efficiency} g of plant of a mol of light on its leaves; crops make 0.5 to 1.6. Look at head_g, dry, days, ppfd, hours and the areas.`;
  expect(pointed(RACK).filter((line) => EFFICIENCY.test(line))).toEqual([
    `120 @ crops[0].head_g | ${told('lettuce', 1.89)}`,
    `30 @ crops[1].head_g | ${told('basil', 1.79)}`,
  ]);
});

describe('warned of, at its place:', () => {
  test.each([
    [
      'lamps that no one sells',
      ['efficacy: 2.6', 'efficacy: 5.2'],
      '5.2 @ stages[1].efficacy | 5.2 umol/J: lamps have 0.9 to 4.1. Is it light (umol) over power (W)?',
    ],
    [
      'and those that nobody would light',
      ['efficacy: 2.6', 'efficacy: 0.8'],
      '0.8 @ stages[1].efficacy | 0.8 umol/J: lamps have 0.9 to 4.1. Is it light (umol) over power (W)?',
    ],
    [
      'light that burns the tips of leaves near picking',
      ['ppfd: 240', 'ppfd: 300'],
      '300 @ stages[1].ppfd | 17.3 mol of light a day and m2 in channel: above 17 the tips of leaves may burn.',
    ],
    [
      'light in which heads hardly grow',
      ['ppfd: 240', 'ppfd: 100'],
      '100 @ stages[1].ppfd | 5.76 mol of light a day and m2 in channel: below 6 heads hardly grow.',
    ],
    [
      'a stage of which no light is told',
      [' ppfd: 160, hours: 18, watts: 12,', ''],
      '{name @ stages[0] | Nothing is told of light in tray: its lamps are in no sum, and plants are taken to grow in the dark there. Write ppfd: 0 if it is dark.',
    ],
    [
      'dry air',
      ['humidity: 60, night', 'humidity: 39, night'],
      '39 @ climate.humidity | 39 per cent: rooms with plants have 40 to 90.',
    ],
    [
      'wet air',
      ['night_humidity: 70', 'night_humidity: 91'],
      '91 @ climate.night_humidity | 91 per cent: rooms with plants have 40 to 90.',
    ],
    [
      'humidity as a share',
      ['humidity: 60, night', 'humidity: 0.6, night'],
      '0.6 @ climate.humidity | 0.6 per cent is dry as nothing. A share? Then write 60.',
    ],
    [
      'warmth in Fahrenheit',
      ['air_c: 23.5', 'air_c: 74'],
      '74 @ climate.air_c | 74 degC is no air for plants. Fahrenheit? Then write 23.3.',
    ],
    [
      'cold nights',
      ['night_c: 20', 'night_c: 9'],
      '9 @ climate.night_c | 9 degC: leaf crops grow from 10 to 30.',
    ],
    [
      'hot days',
      ['air_c: 23.5', 'air_c: 32'],
      '32 @ climate.air_c | 32 degC: leaf crops grow from 10 to 30.',
    ],
    [
      'seeds that may refuse',
      ['germination_c: 24', 'germination_c: 26'],
      '26 @ climate.germination_c | 26 degC: above 25 seeds of lettuce may refuse to sprout.',
    ],
    [
      'heads of hardly any water',
      ['dry: 0.05', 'dry: 0.5'],
      '0.5 @ crops[1].dry | 0.5 dry: heads of leaf crops have 0.035 to 0.07 of their fresh mass. Dry one in an oven.',
    ],
    [
      'conductivity in uS/cm',
      ['top_up_ec: 2.8', 'top_up_ec: 2800'],
      '2800 @ tank.top_up_ec | 2800 mS/cm is too much for leaf crops. uS/cm? Then write 2.8.',
    ],
    [
      // 1 channel of 0.45 L and 3 of 0.24 L, and 3 L of pipes.
      'a tank that spills when the pump stops',
      ['litres: 52', 'litres: 48'],
      '46 @ tank.full_l | When the pump stops, 4.17 litres come back, and the tank has room for 2: 2.17 litres run onto the floor. Top up less, or take a larger tank.',
    ],
    [
      // 22.2722580645 kg, worked by an independent program; 27 is less than a fifth more.
      'a tier with little left',
      ['rated_kg: 40', 'rated_kg: 27'],
      '27 @ tiers[0].rated_kg | top bears 22.3 kg with its channels full to the brim, as a blocked drain fills them; its label allows 27 kg: less than a fifth of that is left.',
    ],
    [
      'a tier that bears too much',
      ['rated_kg: 40', 'rated_kg: 20'],
      '20 @ tiers[0].rated_kg | top bears 22.3 kg with its channels full to the brim, as a blocked drain fills them; its label allows 20 kg: 2.27 kg too much.',
    ],
    [
      'more channels on tiers than there are',
      ['channels: 2, rated', 'channels: 4, rated'],
      '4 @ tiers[0].channels | The tiers of channel bear 4 channels, and it has 3.',
    ],
    [
      'a price by the kilogram of what was not weighed',
      ['    head_g: 30\n', ''],
      '30 @ prices.kg.basil | Heads of basil have no head_g: they are in no sum of what is earned.',
    ],
    [
      'a crop whose heads have no price, where others have one',
      [', kg: {basil: 30}', ''],
      '{lettuce @ prices.head | Heads of basil have no price: what they earn is in no margin.',
    ],
    [
      'a crop whose seeds have no price, where others have one',
      ['seed: {lettuce: 0.03, basil: 0.02}', 'seed: {lettuce: 0.03}'],
      '{lettuce @ prices.seed | Seeds of basil have no price: they are in no sum of costs.',
    ],
  ] as const)('%s', (_title, edit, warning) => {
    expect(calmWith(edit)).toContain(warning);
  });
});

describe('warned of nothing at the limits', () => {
  test.each([
    ['efficacy: 2.6', 'efficacy: 4.1'],
    ['efficacy: 2.6', 'efficacy: 0.9'],
    ['humidity: 60, night', 'humidity: 40, night'],
    ['night_humidity: 70', 'night_humidity: 90'],
    ['air_c: 23.5', 'air_c: 30'],
    ['night_c: 20', 'night_c: 10'],
    ['germination_c: 24', 'germination_c: 25'],
    ['dry: 0.05', 'dry: 0.07'],
    ['top_up_ec: 2.8', 'top_up_ec: 5'],
    ['ppfd: 240', 'ppfd: 295'],
    // What comes back just fits.
    ['litres: 52', 'litres: 50.17'],
    // A fifth and a little more.
    ['rated_kg: 40', 'rated_kg: 28'],
    ['channels: 2, rated', 'channels: 3, rated'],
  ] as const)('%s: %s', (from, to) => {
    expect(calmWith([from, to])).toEqual([]);
  });
});

describe('days under other conditions', () => {
  const about = (text: string) => pointed(text).filter((line) => line.includes('days_at'));
  const BASIL =
    '{hours @ crops[1].stages.channel.days_at | The days of basil are reckoned as those of lettuce change: the growth model knows no other crop.';

  test('are those of lettuce, whatever the crop is called', () => {
    expect(about(RACK)).toEqual([BASIL]);
    for (const name of ['Lettuce, green', 'butterhead', 'Little Gem', 'oak leaf', 'cos']) {
      expect(
        about(
          rackWith(
            ['name: basil', `name: "${name}"`],
            ['basil: 0.02', `"${name}": 0.02`],
            ['basil: 30', `"${name}": 30`],
          ),
        ),
      ).toEqual([]);
    }
  });

  test('are at best where it is warm', () => {
    const warm = 'are at best: tipburn, bolting and root rot are left out.';
    expect(about(rackWith(['climate: {air_c: 23.5', 'climate: {air_c: 24']))).toEqual([BASIL]);
    expect(about(rackWith(['climate: {air_c: 23.5', 'climate: {air_c: 24.5']))).toEqual([
      `{ppfd @ crops[0].stages.tray.days_at | Above 24 degC the days of lettuce ${warm}`,
      BASIL,
      `{hours @ crops[1].stages.channel.days_at | Above 24 degC the days of basil ${warm}`,
    ]);
  });
});
