/** Air that changes by date, from the scenario to the season: what is refused, what it does to days and water, and what it leaves alone. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TICK } from '../../../sim/engine/clock.js';
import { growingsOf } from '../../../sim/models/growings.js';
import { Line } from '../../../sim/models/line/line.js';
import type { Plan } from '../../../sim/models/plan.js';
import { readScenario } from '../../../sim/scenario/read.js';
import { Tallies } from '../../../sim/seasons/tallies.js';
import { type Amounts, amountsOf } from '../../../sim/study/takes/amounts.js';
import { standingOf } from '../../../sim/study/takes/standing.js';
import { faultsOf } from '../cellar.js';
import { rackWith, WITHOUT_DAYS_AT } from './rack.js';

const AIR = 'altitude_m: 300}';

/** Of days_at all is named, so that another climate leaves it as it is. */
const NAMED = [
  [
    '{ppfd: 140, air_c: 22, night_c: 18, germination_c: 20}',
    '{ppfd: 140, air_c: 22, night_c: 18, co2: 450, germination_c: 20}',
  ],
  ['{ppfd: 200, air_c: 22, night_c: 18}', '{ppfd: 200, air_c: 22, night_c: 18, co2: 450, germination_c: 20}'],
  ['{hours: 14}', '{hours: 14, air_c: 21, night_c: 19, co2: 450, germination_c: 20}'],
] as const;

/** The rack with spells. It lasts from 2027-01-04 to 2027-03-28. */
function dated(spells: string, ...edits: readonly (readonly [from: string, to: string])[]): string {
  return rackWith(...edits, [AIR, `altitude_m: 300, dated: [${spells}]}`]);
}

function planOf(text: string): Plan {
  const read = readScenario(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.plan;
}

function faults(text: string): string[] {
  return faultsOf(text).map(({ path, found, expected }) => `${path} | ${found} | ${expected}`);
}

function warnings(text: string): string[] {
  const read = readScenario(text);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.warnings
    .filter(({ path }) => path.startsWith('climate'))
    .map(({ path, message }) => `${path}: ${message}`);
}

const KEYS = 'air_c, night_c, humidity, night_humidity, co2, altitude_m, germination_c';
const MODEL = 'where days_at stands: the growth model knows no other';

describe('what cannot be is refused, with its place', () => {
  test.each([
    [
      'a spell that ends before it begins',
      '{from: 2027-02-08, to: 2027-02-01, air_c: 22}',
      ['climate.dated[0].to | "2027-02-01", before from | a date that is not before 2027-02-08'],
    ],
    [
      'two spells that claim a day',
      '{from: 2027-02-01, to: 2027-02-08, air_c: 22}, {from: 2027-02-08, to: 2027-02-09, air_c: 21}',
      [
        'climate.dated[1].from | 2027-02-08 to 2027-02-09, which has days of the spell 2027-02-01 to 2027-02-08 before | spells of which no two have a day in common',
      ],
    ],
    [
      'a spell that names no air',
      '{from: 2027-02-01, to: 2027-02-08}',
      [`climate.dated[0] | a spell that names no other air | from, to and at least one of ${KEYS}`],
    ],
    [
      'a key that the air does not have',
      '{from: 2027-02-01, to: 2027-02-08, air: 22}',
      [
        `climate.dated[0].air | the key air | one of the keys from, to, ${KEYS}`,
        `climate.dated[0] | a spell that names no other air | from, to and at least one of ${KEYS}`,
      ],
    ],
    [
      'a value that no air has',
      '{from: 2027-02-01, to: 2027-02-08, humidity: 140}',
      ['climate.dated[0].humidity | 140 | a number from 0 to 100 (per cent)'],
    ],
    [
      'air that the growth model does not know, where it stands',
      '{from: 2027-01-10, to: 2027-01-12, air_c: 21}, {from: 2027-02-01, to: 2027-02-08, co2: 200}',
      [`climate.dated[1].co2 | 200 from 2027-02-01 to 2027-02-08 | co2 from 300 to 1600 ${MODEL}`],
    ],
  ])('%s', (_, spells, expected) => {
    expect(faults(dated(spells)).sort()).toEqual([...expected].sort());
  });

  test('a night that follows the day of the spell is refused where the day stands', () => {
    const text = dated(
      '{from: 2027-02-01, to: 2027-02-08, air_c: 31}',
      [', night_c: 20', ''],
      [', germination_c: 27', ''],
    );
    expect(faults(text)).toEqual([
      `climate.dated[0].air_c | 31 from 2027-02-01 to 2027-02-08 | air_c from 10 to 30 ${MODEL}`,
    ]);
  });

  test('air in which days would change by more than is believed', () => {
    const text = dated('{from: 2027-02-01, to: 2027-02-08, air_c: 10, night_c: 10, co2: 300}', [
      '{ppfd: 200, air_c: 22, night_c: 18}',
      '{ppfd: 350, air_c: 22, night_c: 22, co2: 1000}',
    ]);
    const [first] = faults(text);
    expect(first).toMatch(
      /^climate\.dated\[0\] \| air from 2027-02-01 to 2027-02-08 in which \w+ takes lettuce [2-9]\.?\d* times as long as where its days hold \| air nearer to that of days_at \(the days change by a factor from 0\.5 to 2\)$/,
    );
  });
});

describe('what reads well and is probably not meant', () => {
  test('spells outside of the season, and odd air, each where it stands', () => {
    const text = dated(
      '{from: 2026-02-01, to: 2026-02-08, air_c: 22}, {from: 2027-02-01, to: 2027-02-08, humidity: 0.6}',
    );
    expect(warnings(text)).toEqual([
      'climate.germination_c: 27 degC: above 25 seeds of lettuce may refuse to sprout.',
      'climate.dated[0]: 2026-02-01 to 2026-02-08 is before the start of the season: it changes nothing.',
      'climate.dated[1].humidity: 0.6 per cent is dry as nothing. A share? Then write 60.',
    ]);
  });

  test('without days_at spells change only water, and without humidity nothing: one sentence', () => {
    const spell =
      '{from: 2027-02-01, to: 2027-02-08, air_c: 22}, {from: 2027-03-01, to: 2027-03-08, air_c: 21}';
    const plain = (text: string) => warnings(text).filter((one) => one.startsWith('climate.dated'));
    const why = 'no crop says with days_at in what air its days hold, so they are the same in any.';
    expect(plain(dated(spell, ...WITHOUT_DAYS_AT))).toEqual([
      `climate.dated: The spells of dated change nothing but water: ${why}`,
    ]);
    expect(plain(dated(spell, ...WITHOUT_DAYS_AT, [' humidity: 60, night_humidity: 70,', '']))).toEqual([
      `climate.dated: The spells of dated change nothing (no humidity is told either): ${why}`,
    ]);
  });

  test('warmer than 24 degC only in a spell, days are at best: one sentence a crop', () => {
    const read = readScenario(
      dated('{from: 2027-02-01, to: 2027-02-08, air_c: 27}, {from: 2027-03-01, to: 2027-03-08, air_c: 26}'),
    );
    const said = read.ok ? read.value.warnings.filter(({ message }) => /at best/.test(message)) : [];
    expect(said.map(({ path }) => path)).toEqual([
      'crops[0].stages.tray.days_at',
      'crops[1].stages.channel.days_at',
    ]);
  });
});

describe('days in a spell', () => {
  const days = (plan: Plan): number[] =>
    plan.crops.flatMap((crop) => growingsOf(crop).map(({ time }) => time.days));
  const times = (plan: Plan): number[] =>
    plan.crops.flatMap((crop) => growingsOf(crop).map(({ spells }) => spells?.[0]?.times ?? 1));

  test('are those of a line that always has that air, stage by stage, growth after a cut included', () => {
    const usual = days(planOf(rackWith(...NAMED)));
    for (const [spell, ...edits] of [
      ['air_c: 18', ['air_c: 23.5', 'air_c: 18']],
      ['night_c: 14, co2: 800', ['night_c: 20', 'night_c: 14'], ['co2: 500', 'co2: 800']],
      [
        'air_c: 26, germination_c: 15',
        ['air_c: 23.5', 'air_c: 26'],
        ['germination_c: 27', 'germination_c: 15'],
      ],
    ] as const) {
      const always = days(planOf(rackWith(...NAMED, ...edits)));
      const then = times(planOf(dated(`{from: 2027-02-01, to: 2027-02-08, ${spell}}`, ...NAMED)));
      expect(then.some((one) => one !== 1)).toBe(true);
      // A product and a quotient of doubles.
      for (const [i, one] of then.entries())
        expect(Math.abs(one * usual[i]! - always[i]!)).toBeLessThanOrEqual(1e-13 * always[i]!);
    }
  });

  test('lie on both the days that are named, in whatever order the spells stand', () => {
    const { crops } = planOf(
      dated('{from: 2027-03-01, to: 2027-03-01, air_c: 20}, {from: 2027-01-09, to: 2027-01-12, air_c: 18}'),
    );
    expect(crops[0]!.stages[0]!.spells!.map(({ from, beyond }) => [from, beyond])).toEqual([
      [5, 9],
      [56, 57],
    ]);
  });

  // The model's own best lies a little above 20 degC: only below that is colder slower.
  test('colder than 20 degC, they are never fewer', () => {
    const ratios = [20, 18, 16, 14, 12].map((air) =>
      times(planOf(dated(`{from: 2027-02-01, to: 2027-02-08, air_c: ${air}}`, ['air_c: 23.5', 'air_c: 20']))),
    );
    for (const [i, colder] of ratios.slice(1).entries())
      for (const [k, one] of colder.entries()) {
        // Basil in the tray has no days_at.
        if (k === 2) expect(one).toBe(1);
        else expect(one).toBeGreaterThan(ratios[i]![k]!);
      }
  });

  test('of night and damp follow the day of the spell where the climate does not name them', () => {
    const { climate } = planOf(
      dated(
        '{from: 2027-02-01, to: 2027-02-08, air_c: 18, humidity: 50}',
        [', night_c: 20', ''],
        [', night_humidity: 70', ''],
        [', germination_c: 27', ''],
      ),
    ).physical!;
    expect(climate!.dated[0]!.air).toEqual({
      airC: 18,
      nightC: 18,
      humidity: 50,
      nightHumidity: 50,
      co2: 500,
      germinationC: 18,
      altitudeM: 300,
    });
    const named = planOf(dated('{from: 2027-02-01, to: 2027-02-08, air_c: 18, humidity: 50}')).physical!;
    expect(named.climate!.dated[0]!.air).toMatchObject({ nightC: 20, nightHumidity: 70, germinationC: 27 });
  });
});

/** Everything that a season comes to. */
function seasonOf(plan: Plan): { counts: number[]; ledger: number[]; amounts: Amounts } {
  const tallies = new Tallies(plan);
  const season = new Line(plan).run(plan.seed, 0);
  tallies.add(season);
  const { counts, ledger } = season;
  return { counts: [...counts], ledger: [...ledger], amounts: amountsOf({ plan, tallies, whole: tallies })! };
}

/** Any rack: its air, what its crops do, and its luck. */
const arbitraryRack = fc
  .record({
    seed: fc.integer({ min: 0, max: 999 }),
    airC: fc.integer({ min: 17, max: 26 }),
    nightC: fc.option(fc.integer({ min: 15, max: 22 }), { nil: null }),
    co2: fc.constantFrom(400, 500, 900),
    spread: fc.constantFrom(0, 0.1, 0.3),
    loss: fc.constantFrom(0, 0.1),
    visits: fc.constantFrom('daily', '[mon, thu]'),
    cuts: fc.constantFrom(1, 2),
  })
  .map(({ seed, airC, nightC, co2, spread, loss, visits, cuts }) => {
    const air = `air_c: ${airC}${nightC === null ? '' : `, night_c: ${nightC}`}, co2: ${co2}`;
    const text = (more: string, daysAt: (stage: number) => string, told = air): string => `
start: 2027-01-04
weeks: 14
seed: ${seed}
visits: ${visits}
stages:
  - {name: tray, channels: 1, holes: 20, hole_area_cm2: 25, ppfd: 160, hours: 18}
  - {name: bed, channels: 1, holes: 24, hole_area_cm2: 300, clean_days: 1, ppfd: 220, hours: 16}
crops:
  - name: lettuce
    germination: 0.9
    head_g: 120
    cuts: ${cuts}
    ${cuts > 1 ? `regrow: {days: 9, spread: ${spread}}` : ''}
    sow: {every: 3, seeds: 5}
    stages:
      tray: {days: 12, spread: ${spread}, loss: ${loss}, keeps: 6${daysAt(0)}}
      bed: {days: 22, spread: ${spread}, loss: ${loss}, keeps: 8${daysAt(1)}}
climate: {${told}, humidity: 62${more}}
tank: {litres: 80, full_l: 60, low_l: 10, ec: 1.6, top_up_ec: 1.6, change_days: 20}
`;
    return { air, text };
  });

const OWN = ['{ppfd: 160, hours: 18, AIR}', '{ppfd: 220, hours: 16, AIR}'];

describe('a season', () => {
  test('is the same to the last digit where days_at and the spells name the air that there is anyway', () => {
    const law = fc.property(arbitraryRack, ({ air, text }) => {
      const bare = seasonOf(planOf(text('', () => '')));
      const own = (s: number) => `, days_at: ${OWN[s]!.replace('AIR', air)}`;
      const spells = `, dated: [{from: 2027-01-20, to: 2027-02-10, ${air}}, {from: 2027-03-01, to: 2027-03-02, humidity: 62}]`;
      expect(seasonOf(planOf(text('', own)))).toEqual(bare);
      expect(seasonOf(planOf(text(spells, own)))).toEqual(bare);
      expect(seasonOf(planOf(text(spells, () => '')))).toEqual(bare);
    });
    fc.assert(law, { seed: 20270801, numRuns: 25 });
  });

  test('with one spell from its first day to its last is that of a line which always has that air', () => {
    const law = fc.property(arbitraryRack, fc.integer({ min: 18, max: 26 }), ({ text }, warm) => {
      const told = () => ', days_at: {air_c: 21, night_c: 19, co2: 450, germination_c: 20}';
      const other = `air_c: ${warm}, night_c: 17, co2: 600`;
      const always = seasonOf(planOf(text('', told, other)));
      const whole = seasonOf(planOf(text(`, dated: [{from: 2027-01-04, to: 2027-04-11, ${other}}]`, told)));
      expect(whole.counts).toEqual(always.counts);
      // One draw in some hundred thousand lies so near to the middle of two ticks that its product rounds to the other one.
      for (const [i, days] of whole.ledger.entries())
        expect(Math.abs(days - always.ledger[i]!)).toBeLessThanOrEqual(4 * TICK);
      const [found, known] = [numbersOf(whole.amounts), numbersOf(always.amounts)];
      // A time that is drawn is put on the grid before or after it is lengthened: of a plant that dies, half a tick (3e-8 days) of its
      // days, which are more than 4.
      for (const [i, one] of found.entries())
        expect(Math.abs(one - known[i]!)).toBeLessThanOrEqual(1e-8 * (Math.abs(known[i]!) + 1));
    });
    fc.assert(law, { seed: 20270801, numRuns: 25 });
  });

  test('with a colder month brings no first pick earlier, where nothing is left to chance', () => {
    let later = 0;
    const law = fc.property(arbitraryRack, fc.integer({ min: 12, max: 16 }), ({ text }, cold) => {
      const told = () => ', days_at: {air_c: 20, night_c: 18}';
      const first = (more: string): number => {
        const sure = text(more, told, 'air_c: 20, night_c: 18, co2: 400').replaceAll(
          /spread: [\d.]+/g,
          'spread: 0',
        );
        return new Line(
          planOf(sure.replaceAll(/loss: [\d.]+/g, 'loss: 0').replace('germination: 0.9', 'germination: 1')),
        ).run(1, 0).firstPick;
      };
      const usual = first('');
      const air = `air_c: ${cold}, night_c: ${cold}`;
      const colder = first(`, dated: [{from: 2027-01-06, to: 2027-02-05, ${air}}]`);
      expect(colder).toBeGreaterThanOrEqual(usual);
      if (colder > usual) later++;
    });
    fc.assert(law, { seed: 20270801, numRuns: 40 });
    // Where visits are rare a pick may fall on the same day.
    expect(later).toBeGreaterThan(20);
  });
});

function numbersOf(tree: unknown): number[] {
  if (typeof tree === 'number') return [tree];
  return tree !== null && typeof tree === 'object' ? Object.values(tree).flatMap(numbersOf) : [];
}

describe('what holds of the plan', () => {
  test('the ratio of each spell stands beside the usual one, and the tank is told by the thirstiest of the season', () => {
    const usual = standingOf(planOf(rackWith(...NAMED)))!;
    const spell = 'from: 2027-02-01, to: 2027-02-08, air_c: 26, humidity: 45';
    const then = standingOf(planOf(dated(`{${spell}}`, ...NAMED)))!;
    const always = standingOf(
      planOf(rackWith(...NAMED, ['air_c: 23.5', 'air_c: 26'], ['humidity: 60', 'humidity: 45'])),
    )!;
    expect(usual.growth![0]!.dated).toBeUndefined();
    expect(then.growth![0]!.ratio).toEqual(usual.growth![0]!.ratio);
    expect(then.growth!.map((one) => one.dated)).toEqual(
      always.growth!.map(({ ratio }) => [{ from: '2027-02-01', to: '2027-02-08', ratio }]),
    );
    expect(always.tank!.days_to_low!).toBeLessThan(usual.tank!.days_to_low!);
    // A quotient of the days, once more.
    expect(Math.abs(then.tank!.days_to_low! / always.tank!.days_to_low! - 1)).toBeLessThanOrEqual(1e-12);
    expect(then.tank!.dry_hours).toEqual(always.tank!.dry_hours);
    // A spell that takes less leaves it as it is.
    const damp = standingOf(planOf(dated('{from: 2027-02-01, to: 2027-02-08, humidity: 75}', ...NAMED)))!;
    expect(damp.tank).toEqual(usual.tank);
  });
});
