import { describe, expect, test } from 'vitest';
import { litresFactor } from '../../../sim/models/physical/assumes.js';
import type { CropPlan, GrowthTime, Plan } from '../../../sim/models/plan.js';
import type { FitResult, StageFit } from '../../../sim/season/fit/fit.js';
import { fitChangesOf } from '../../../sim/season/fit/fit-changes.js';
import type { FittedFigure } from '../../../sim/season/fit/fitted-figure.js';
import { fittedPlan } from '../../../sim/season/fit/fitted-plan.js';
import { readWell } from '../../scenario/cellar.js';
import { RACK, rackWith } from '../../scenario/physical/rack.js';
import { crop, every, grow, line, stage, time } from '../../support/plans.js';

const figure = (value: number, rest: Partial<FittedFigure> = {}): FittedFigure => ({
  value,
  low: 0.9 * value,
  high: 1.1 * value,
  good: true,
  ...rest,
});

const stageFit = (rest: Partial<StageFit>): StageFit => ({
  stage: 'nursery',
  regrowth: false,
  in_turn: false,
  entered: 200,
  stood: 0,
  undated: 0,
  ready: 180,
  dead: 10,
  cause_unknown: 0,
  standing: 10,
  waited: false,
  doubts: [],
  cleared_rarely: false,
  unmentioned: 0,
  unmentioned_batches: [],
  short: 0,
  stay: null,
  days: null,
  spread: null,
  loss: null,
  germination: null,
  shape: 'lognormal',
  shapes: [],
  told_apart: false,
  contradictions: [],
  ...rest,
});

const result = (stages: StageFit[], name = 'leaf'): FitResult => ({
  from: '2027-01-04',
  to: '2027-05-01',
  holes_known: true,
  crops: [{ crop: name, known: true, stages }],
});

const plan = (nursery: GrowthTime = time(14, 0.12)): Plan =>
  line(
    [stage('tray', 10), stage('nursery', 10)],
    [
      crop([grow(time(7, 0.1))], every(7, 28, 4), { name: 'other' }),
      crop([grow(time(7, 0.1)), grow(nursery, { loss: 0.03 })], every(7, 28, 4), {
        germination: 0.92,
        cuts: 2,
        regrow: grow(time(12, 0.15)),
      }),
    ],
    { weeks: 4 },
  );

const all = {
  days: figure(13.8765),
  spread: figure(0.14567),
  loss: figure(0.02345),
  germination: figure(0.9123),
};

test('each figure has its place in the scenario, rounded to what is known of it', () => {
  const changes = fitChangesOf(result([stageFit(all)]), plan());
  expect(changes.map(({ path, present, value }) => [path, present, value])).toEqual([
    [['crops', 1, 'stages', 'nursery', 'days'], 14, 13.88],
    [['crops', 1, 'stages', 'nursery', 'spread'], 0.12, 0.146],
    [['crops', 1, 'stages', 'nursery', 'loss'], 0.03, 0.0234],
    [['crops', 1, 'germination'], 0.92, 0.912],
  ]);
});

test('regrowth has a place of its own', () => {
  const changes = fitChangesOf(result([stageFit({ regrowth: true, days: figure(11) })]), plan());
  expect(changes[0]).toMatchObject({
    path: ['crops', 1, 'regrow', 'days'],
    present: 12,
    value: 11,
    regrowth: true,
  });
});

test('what is not good, or as it is already, is left alone', () => {
  const doubtful = stageFit({ days: figure(13, { good: false }), spread: figure(0.12), loss: null });
  expect(fitChangesOf(result([doubtful]), plan())).toEqual([]);
});

test('a crop that the scenario does not have is left alone', () => {
  expect(fitChangesOf(result([stageFit(all)], 'cress'), plan())).toEqual([]);
});

test('what the scenario says is outside the interval or within it', () => {
  const outside = (value: number): boolean =>
    fitChangesOf(result([stageFit({ days: figure(value) })]), plan())[0]!.outside;
  // The interval of 13 ends at 14.3, that of 12 at 13.2.
  expect(outside(13)).toBe(false);
  expect(outside(12)).toBe(true);
});

describe('the shape of the scenario stays, and with it what it takes', () => {
  const keys = (nursery: GrowthTime, spread = 0.15): string[] =>
    fitChangesOf(
      result([stageFit({ ...all, spread: figure(spread), germination: null })]),
      plan(nursery),
    ).map(({ key }) => key);

  test.each([
    ['gamma', time(14, 0.12, 'gamma'), ['days', 'spread', 'loss']],
    ['triangular', time(14, 0.12, 'triangular'), ['days', 'spread', 'loss']],
    ['exponential', { shape: 'exponential', days: 14, spread: 1, times: [] }, ['days', 'loss']],
    ['fixed', time(14), ['days', 'loss']],
    ['observed', { shape: 'observed', days: 14, spread: 0.1, times: [13, 15] }, ['loss']],
  ] as [string, GrowthTime, string[]][])('%s', (_, nursery, expected) => {
    expect(keys(nursery)).toEqual(expected);
  });

  test('a spread that no triangle can have is not written for one', () => {
    expect(keys(time(14, 0.12, 'triangular'), 0.5)).toEqual(['days', 'loss']);
  });
});

describe('days that were counted under other conditions (days_at)', () => {
  const { plan: rack } = readWell(RACK).value;
  const lettuce = rack.crops[0]!.stages[1]!.time.days;

  test('are written as those under these conditions, with their interval', () => {
    const [change] = fitChangesOf(
      result([stageFit({ stage: 'channel', days: figure(1.2 * lettuce) })], 'lettuce'),
      rack,
    );
    expect(change).toMatchObject({ key: 'days', present: 20.25, value: 24.3 });
    expect(change!.low / change!.value).toBeCloseTo(0.9, 4);
    expect(change!.high / change!.value).toBeCloseTo(1.1, 4);
  });

  test('give then the days that the log tells, but for what other days change of the masses in between', () => {
    const days = 1.1 * lettuce;
    const [change] = fitChangesOf(
      result([stageFit({ stage: 'channel', days: figure(days) })], 'lettuce'),
      rack,
    );
    const written = readWell(rackWith(['days: 20.25', `days: ${change!.value}`])).value.plan;
    expect(Math.abs(written.crops[0]!.stages[1]!.time.days / days - 1)).toBeLessThan(0.005);
  });

  test('so it is with growth after a cut, which goes with the last stage', () => {
    const [change] = fitChangesOf(
      result([stageFit({ stage: 'channel', regrowth: true, days: figure(12) })], 'basil'),
      rack,
    );
    // The ratio was worked by an independent program: 0.907118246.
    expect(change).toMatchObject({ path: ['crops', 1, 'regrow', 'days'], present: 11.5, value: 13.23 });
  });

  test('change nothing where the log tells what the line has', () => {
    const same = result([stageFit({ stage: 'channel', days: figure(lettuce) })], 'lettuce');
    expect(fitChangesOf(same, rack)).toEqual([]);
  });
});

describe('what the tank tells', () => {
  const { plan: rack } = readWell(RACK).value;
  const metered = (value: number, good = true): FitResult => ({
    ...result([]),
    water: {
      scale: figure(value, { good }),
      ...{ spells: 20, days: 60, litres: 90, in_plants_l: 9, transpired_l: 60, left_out: [], doubts: [] },
    },
    tank: { uptake_ec: figure(1.8765, { good }), readings: 20, fillings: 2, doubts: [] },
  });
  const whole = { crop: null, stage: null, regrowth: false };

  test('is of the whole line; what the scenario does not say differs', () => {
    expect(fitChangesOf(metered(1.2345), rack)).toMatchObject([
      { ...whole, path: ['water', 'scale'], key: 'scale', present: 1.2, value: 1.23, outside: false },
      { ...whole, path: ['tank', 'uptake_ec'], key: 'uptake_ec', present: null, value: 1.88, outside: true },
    ]);
    expect(fitChangesOf(metered(1.2345, false), rack)).toEqual([]);
  });

  test('a scale of 1 by the meter is another thing than none', () => {
    const { plan: unmetered } = readWell(rackWith(['water: {scale: 1.2}\n', ''])).value;
    expect(fitChangesOf(metered(1.001), unmetered)[0]).toMatchObject({
      present: null,
      value: 1,
      outside: true,
    });
    expect(litresFactor(unmetered)).toBe(1.5);
    const { plan: one } = readWell(rackWith(['{scale: 1.2}', '{scale: 1}'])).value;
    expect(litresFactor(one)).toBeNull();
    expect(fitChangesOf(metered(1.001), one).map(({ key }) => key)).toEqual(['uptake_ec']);
  });

  test('fitted values make the line of which the tank is told', () => {
    const stages = [
      stageFit({ stage: 'tray', days: figure(13), germination: figure(0.8) }),
      stageFit({
        stage: 'channel',
        regrowth: true,
        days: figure(12),
        spread: figure(0.2),
        loss: figure(0.1),
      }),
    ];
    const basil = fittedPlan(result(stages, 'basil'), rack);
    const { value: written } = readWell(
      rackWith(
        ['tray: {days: 15.75', 'tray: {days: 13'],
        ['regrow: {days: 11.5, ', 'regrow: {days: 13.23, loss: 0.1, '],
        ['    cuts: 2', '    cuts: 2\n    germination: 0.8'],
      ),
    );
    const [, told] = basil.crops;
    const [, asked] = written.plan.crops;
    expect(told!.germination).toBe(0.8);
    expect(told!.stages[0]!.time.days).toBe(13);
    expect(told!.regrow!.loss).toBe(0.1);
    // The ratio of days there is good to some hundredths of a day.
    expect(told!.regrow!.time.days).toBeCloseTo(asked!.regrow!.time.days, 1);
    expect(basil.physical!.crops[1]!.stages[0]!.days).toBe(13);
    expect(basil.physical!.crops[1]!.regrowDays).toBe(13.23);
    expect(basil.crops[0]).toBe(rack.crops[0]);
  });

  test('days that a log tells have its spells in them, and are not lengthened by these once more', () => {
    const spells = [{ from: 3, beyond: 9, times: 2 }];
    const [parsley, basil] = rack.crops as [CropPlan, CropPlan];
    const stages = basil.stages.map((growing) => ({ ...growing, spells }));
    const spelled = { ...rack, crops: [parsley, { ...basil, stages }] };
    const told = [stageFit({ stage: 'tray', days: figure(13) })];
    const [tray, channel] = fittedPlan(result(told, 'basil'), spelled).crops[1]!.stages;
    expect(tray!.time.days).toBe(13);
    expect(tray!.spells).toBeUndefined();
    // Of what the log tells nothing sure the scenario's own holds.
    expect(channel!.spells).toBe(spells);
    const lossOnly = [stageFit({ stage: 'channel', loss: figure(0.1) })];
    expect(fittedPlan(result(lossOnly, 'basil'), spelled).crops[1]!.stages[1]).toMatchObject({
      loss: 0.1,
      spells,
    });
  });
});
