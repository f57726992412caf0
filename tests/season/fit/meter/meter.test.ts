/** What the tank's rows tell, against lines whose scale and uptake are known. */

import { describe, expect, test } from 'vitest';
import { fit as fitted, readSeasonLog } from '../../../../sim/calls/season.js';
import { dayFrom, isoOfDay } from '../../../../sim/models/dates.js';
import type { Plan } from '../../../../sim/models/plan.js';
import { meteredOf } from '../../../../sim/season/fit/meter/meter.js';
import type { Metered } from '../../../../sim/season/fit/meter/metered.js';
import type { TankRow } from '../../../../sim/season/log/rows.js';
import { type Clockwork, oneCrop, twoCrops } from '../../../support/clockwork.js';
import { EXAMPLES, readExample } from '../../../support/examples.js';
import { type Grower, meteredLog, meteredText } from '../../../support/metered-log.js';
import { expectNear } from '../../../support/near.js';
import { repeats, shareError } from '../../../support/repeats.js';

const SCALE = 1.4;
const UPTAKE = 1.9;
const TRUE: Grower = { scale: SCALE, uptakeEc: UPTAKE, litresOff: 0, ecOff: 0 };
const BY_METERS: Grower = { ...TRUE, litresOff: 0.05, ecOff: 0.02 };

function told(plan: Plan, grower: Grower, season = 0): Metered {
  return meteredOf({ ...meteredLog(plan, 7, season, grower), plan, refused: false });
}

function withTank({ plan, physical }: Clockwork): Plan {
  return { ...plan, physical };
}

describe('a line without luck, meters without error: the truth to the last digits', () => {
  test.each([
    ['one crop, tended daily', withTank(oneCrop())],
    ['two crops, one cut twice, the tank filled anew every 16 days', withTank(twoCrops())],
  ])('%s', (_, plan) => {
    const { water, tank } = told(plan, TRUE);
    for (const [figure, truth] of [
      [water!.scale!, SCALE],
      [tank!.uptake_ec!, UPTAKE],
    ] as const) {
      expectNear(figure.value, truth, 1e-9);
      expectNear(figure.low, truth, 1e-6);
      expectNear(figure.high, truth, 1e-6);
      expect(figure.good).toBe(true);
    }
  });
});

describe('air that changes by date', () => {
  const line = withTank(oneCrop());
  const { physical } = line;
  const withDated = (humidity: number, plan = line, later = 0): Plan => ({
    ...plan,
    physical: {
      ...physical!,
      climate: {
        ...physical!.climate!,
        dated: [
          {
            from: 20 + later,
            beyond: 27 + later,
            air: { ...physical!.climate!, humidity, nightHumidity: humidity },
          },
        ],
      },
    },
  });

  test('spells in other air are left out of water.scale, for the model is held to the usual air there', () => {
    const { water, tank } = told(withDated(40), TRUE);
    expectNear(water!.scale!.value, SCALE, 1e-9);
    expect(water!.scale!.good).toBe(true);
    const left = water!.left_out.filter(({ why }) => why === 'other_air');
    // Tended daily: a spell between top-ups is a day.
    expect(left.map(({ from }) => dayFrom(line.start, from))).toEqual([20, 21, 22, 23, 24, 25, 26]);
    expectNear(tank!.uptake_ec!.value, UPTAKE, 1e-9);
    expect(told(line, TRUE).water!.days).toBe(water!.days + 7);
  });

  test('the same air by date leaves nothing out', () => {
    const log = { ...meteredLog(line, 7, 0, TRUE), refused: false };
    const same = withDated(physical!.climate!.humidity!);
    expect(meteredOf({ ...log, plan: same })).toEqual(meteredOf({ ...log, plan: line }));
  });

  test('no other days are left out where the scenario begins after the log', () => {
    const log = { ...meteredLog(withDated(40), 7, 0, TRUE), refused: false };
    const later = withDated(40, { ...line, start: isoOfDay(line.start, 7) }, -7);
    expect(meteredOf({ ...log, plan: later }).water!.left_out).toEqual(
      meteredOf({ ...log, plan: withDated(40) }).water!.left_out,
    );
  });
});

/** The rack, half as long. */
const rack = readExample(`${EXAMPLES}lettuce-rack.yaml`, (text) =>
  text.replace('weeks: 26', 'weeks: 13'),
).plan;

const held = (figure: { low: number; high: number }, truth: number): boolean =>
  figure.low <= truth && truth <= figure.high;

test('of planted seasons the intervals of good figures hold the truth in 95 of 100', () => {
  const seasons = repeats(24, 150);
  const found = Array.from({ length: seasons }, (_, k) => told(rack, BY_METERS, k));
  for (const [figures, truth] of [
    [found.map(({ water }) => water!.scale!), SCALE],
    [found.map(({ tank }) => tank!.uptake_ec!), UPTAKE],
  ] as const) {
    expect(figures.filter(({ good }) => good).length).toBeGreaterThan(0.9 * seasons);
    const share = figures.filter((figure) => held(figure, truth)).length / seasons;
    expect(Math.abs(share - 0.95)).toBeLessThan(4 * shareError(0.95, seasons));
  }
});

/** With so many digits as a log takes. */
function toTheDrop(row: TankRow): TankRow {
  return { ...row, litres: Number(row.litres!.toFixed(4)), ec: Number(row.ec!.toFixed(4)) };
}

test('the line is taken with the times that the log tells, not with those of the scenario', () => {
  const rackOf = (days: number) =>
    readExample(`${EXAMPLES}lettuce-rack.yaml`, (text) => text.replace('{days: 24, ', `{days: ${days}, `))
      .plan;
  const plan = rackOf(24);
  const log = readSeasonLog(meteredText(meteredLog(rackOf(18), 7, 0, { ...TRUE, written: toTheDrop })), {
    plan,
  });
  if (!log.ok) throw new Error(JSON.stringify(log.faults));
  const { rows, tank } = log.value;
  const scaleBy = (told: Plan) => meteredOf({ rows, tank, plan: told, refused: false }).water!.scale!;
  // As sure as it is with the times that are true: wrong times widen the interval as well.
  const { low, high } = scaleBy(rackOf(18));
  expect(Math.abs(fitted(log.value, { plan }).water!.scale!.value - SCALE)).toBeLessThan(high - low);
  expect(Math.abs(scaleBy(plan).value - SCALE)).toBeGreaterThan(high - low);
});

describe('as logs are kept', () => {
  /** Of a few seasons: what they tell, none of which may miss the truth by more than four of its own standard errors. */
  function kept(written: NonNullable<Grower['written']>, seasons = 2): Metered[] {
    return Array.from({ length: seasons }, (_, k) => {
      const metered = told(rack, { ...BY_METERS, written }, k);
      for (const [{ value, low, high }, truth] of [
        [metered.water!.scale!, SCALE],
        [metered.tank!.uptake_ec!, UPTAKE],
      ] as const) {
        // An interval is about two of them to either side.
        expect(Math.abs(value - truth)).toBeLessThan(high - low);
      }
      return metered;
    });
  }
  const of = ({ water }: Metered, why: string) => water!.left_out.filter((spell) => spell.why === why);

  test('a fortnight forgotten is one spell of which nothing is made', () => {
    const isForgotten = ({ date }: TankRow) => date >= '2027-03-10' && date < '2027-03-24';
    for (const metered of kept((row) => (isForgotten(row) ? null : row))) {
      expect(of(metered, 'gap')).toEqual([{ why: 'gap', from: '2027-03-08', to: '2027-03-24' }]);
      expect(metered.water!.scale!.good).toBe(true);
    }
  });

  test('rows forgotten now and then, litres or conductivities missing now and then', () => {
    const slips: NonNullable<Grower['written']>[] = [
      (row, _, luck) => (luck() < 0.15 ? null : row),
      (row, _, luck) => (luck() < 0.15 && !row.changed ? { ...row, litres: null } : row),
      (row, _, luck) => (luck() < 0.3 ? { ...row, ec: null } : row),
    ];
    for (const slip of slips) kept(slip);
  });

  test('a new filling ends what can be told of the old one', () => {
    const [metered] = kept((row) => row, 1);
    expect(of(metered!, 'drained').map(({ to }) => to)).toEqual(['2027-02-01', '2027-03-01', '2027-03-29']);
    expect(metered!.tank!.fillings).toBe(4);
  });

  test('rows before the first sowing tell of no plants', () => {
    const { rows, tank } = meteredLog(rack, 7, 0, BY_METERS);
    const before = { line: 0, action: 'tank', litres: 9, ec: 1.6, changed: false, note: null } as const;
    const early = [{ ...before, date: '2027-01-04' }, ...tank.slice(1)];
    const plan = { ...rack, start: '2026-12-28', weeks: 14 };
    const older = [{ ...before, date: '2026-12-30' }, { ...before, date: '2027-01-02' }, ...tank];
    const metered = (tank: TankRow[], plan: Plan) => meteredOf({ rows, tank, plan, refused: false }).water!;
    expect(metered(older, plan).scale!.value).toBeCloseTo(metered(early, rack).scale!.value, 1);
    expect(
      metered(older, plan)
        .left_out.map(({ why, to }) => [why, to])
        .slice(0, 2),
    ).toEqual([
      ['untold', '2027-01-02'],
      ['untold', '2027-01-04'],
    ]);
  });
});

describe('what is not sure is not good, and says why', () => {
  const doubts = (written: NonNullable<Grower['written']>, grower = BY_METERS) => {
    const { water, tank } = told(rack, { ...grower, written });
    expect([water?.scale?.good ?? false, tank?.uptake_ec?.good ?? false]).toContain(false);
    return [water?.doubts.map(({ why }) => why), tank?.doubts.map(({ why }) => why)];
  };

  test('few rows', () => {
    const [water, tank] = doubts((row) => (row.date > '2027-03-10' && row.date < '2027-03-20' ? row : null));
    expect(water).toContain('few_top_ups');
    expect(tank).toContain('few_readings');
  });

  test('readings that are all alike, litres without readings, readings without litres', () => {
    expect(doubts((row) => ({ ...row, ec: 1.6 }))[1]).toContain('same_readings');
    expect(doubts((row) => ({ ...row, ec: null }))[1]).toBeUndefined();
    expect(doubts((row) => (row.changed ? null : { ...row, litres: null }))).toEqual([
      undefined,
      ['few_readings'],
    ]);
  });

  test('a line that takes far more than plants do', () => {
    expect(doubts((row) => row, { ...BY_METERS, scale: 4 })[0]).toEqual(['far_off']);
  });

  test('a scenario that does not tell enough', () => {
    const dry = {
      ...rack,
      physical: { ...rack.physical!, climate: { ...rack.physical!.climate!, humidity: null } },
    };
    const { water, tank } = told(rack, BY_METERS);
    const log = meteredLog(rack, 7, 0, BY_METERS);
    expect(meteredOf({ ...log, plan: dry, refused: false })).toMatchObject({
      water: { scale: null, spells: 0, doubts: [{ why: 'untold_line' }], left_out: water!.left_out },
      tank,
    });
    const untold = {
      ...rack,
      physical: { ...rack.physical!, tank: { ...rack.physical!.tank!, topUpEc: null } },
    };
    expect(meteredOf({ ...log, plan: untold, refused: false }).tank).toMatchObject({
      uptake_ec: null,
      doubts: [{ why: 'untold_line' }],
    });
    expect(meteredOf({ ...log, plan: { ...rack, physical: null }, refused: false })).toEqual({});
  });

  test('a log that does not fit, crops that the scenario has not', () => {
    const log = meteredLog(rack, 7, 0, BY_METERS);
    const whys = (metered: Metered) => metered.water!.doubts.map(({ why }) => why);
    expect(whys(meteredOf({ ...log, plan: rack, refused: true }))).toEqual(['refused_log']);
    const rows = log.rows.map((row) => (row.batch === 'B9' ? { ...row, crop: 'cress' } : row));
    expect(whys(meteredOf({ ...log, rows, plan: rack, refused: false }))).toEqual(['unknown_crops']);
  });
});
