/**
 * What the coming weeks take: on lines without luck the whole season less its first weeks, from an empty line the first weeks of its
 * seasons; and with luck, what is drawn of plants that stand.
 */

import { expect, test } from 'vitest';
import { Moments } from '../../../sim/engine/tally.js';
import { isoOfDay } from '../../../sim/models/dates.js';
import { Line } from '../../../sim/models/line/line.js';
import { lineMatter } from '../../../sim/models/physical/line-matter.js';
import type { Plan } from '../../../sim/models/plan.js';
import { waterTaken } from '../../../sim/models/taken-amounts.js';
import { TakesColumns } from '../../../sim/models/takes.js';
import { type AheadResult, lookAhead } from '../../../sim/season/ahead/ahead.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { Tallies } from '../../../sim/seasons/tallies.js';
import { type Amounts, amountsOf } from '../../../sim/study/takes/amounts.js';
import { type Clockwork, oneCrop, twoCrops } from '../../support/clockwork.js';
import { expectNear } from '../../support/near.js';
import { every, grow, time, visitDays } from '../../support/plans.js';
import { repeats } from '../../support/repeats.js';
import { simulatedLog } from '../../support/simulated-log.js';

/** Long enough for what is sown in the last week that is looked at to be picked. */
const WEEKS = 24;

/** One of the two lines that are known by heart, for longer. */
function longer({ plan, physical }: Clockwork, everyDays: readonly number[], rest: Partial<Plan> = {}): Plan {
  return {
    ...plan,
    physical,
    weeks: WEEKS,
    crops: plan.crops.map((crop, c) => ({
      ...crop,
      sowing: { ...crop.sowing, ...every(everyDays[c]!, 7 * WEEKS, 3 - c) },
    })),
    ...rest,
  };
}

const DAILY = longer(oneCrop(), [5], { visits: visitDays(WEEKS) });
const TWICE = longer(twoCrops(), [7, 14], { visits: visitDays(WEEKS, [1, 0, 0, 1, 0, 0, 0]) });

/** From a day on that is still to come. */
async function from(
  plan: Plan,
  day: number,
  { weeks = 4, futures = 3, rows = simulatedLog(plan, 1, 0, { until: day }) as readonly LogRow[] } = {},
): Promise<AheadResult> {
  const reading = await lookAhead(plan, rows, { today: isoOfDay(plan.start, day), weeks, futures });
  if (reading === null || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
}

/** What `run` tells of so many weeks. */
function ofRun(plan: Plan, weeks: number, seasons = 1): Required<Amounts> {
  const days = (all: readonly number[]): number[] => all.filter((day) => day < 7 * weeks);
  const short: Plan = {
    ...plan,
    weeks,
    visits: plan.visits.kind === 'days' ? { ...plan.visits, days: days(plan.visits.days) } : plan.visits,
    crops: plan.crops.map((crop) => ({
      ...crop,
      sowing: crop.sowing.kind === 'due' ? { ...crop.sowing, days: days(crop.sowing.days) } : crop.sowing,
    })),
  };
  const tallies = new Tallies(short);
  const line = new Line(short);
  for (let season = 0; season < seasons; season++) tallies.add(line.run(plan.seed, season));
  return amountsOf({ plan: short, tallies, whole: tallies }) as Required<Amounts>;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

test.each([
  ['one crop, tended daily', DAILY],
  ['two crops, one of them cut twice, tended twice a week', TWICE],
])('%s: the four weeks after six that are logged are those of the whole season', async (_, plan) => {
  const { takes } = await from(plan, 42);
  const [ten, six] = [ofRun(plan, 10), ofRun(plan, 6)];
  const all = (of: (week: NonNullable<typeof takes>['weeks'][number]) => number): number =>
    sum(takes!.weeks.map(of));
  expect(takes!.weeks).toHaveLength(4);
  expectNear(
    all(({ kwh }) => kwh!),
    ten.light.kwh! - six.light.kwh!,
    1e-9,
    'kWh',
  );
  expectNear(
    all(({ used_l }) => used_l!.mean),
    ten.water.used_l - six.water.used_l,
    1e-9,
    'litres',
  );
  expectNear(
    all(({ minutes }) => minutes!.mean),
    60 * (ten.work.hours - six.work.hours),
    1e-9,
    'minutes',
  );
  expectNear(
    all(({ picked_kg }) => picked_kg!.mean),
    ten.mass.picked_kg - six.mass.picked_kg,
    1e-9,
    'kg',
  );
  // The same but for water: in the whole season it is what is topped up, here what plants use.
  const { waterM3, nutrientsL } = plan.physical!.prices!;
  const withoutWater = ({ money }: Required<Amounts>): number =>
    money.cost.total - money.cost.water! - money.cost.nutrients!;
  const water = all(({ used_l }) => used_l!.mean) * (waterM3! / 1000 + nutrientsL!);
  expectNear(
    all(({ cost }) => cost!.mean),
    withoutWater(ten) - withoutWater(six) + water,
    1e-9,
    'cost',
  );
  for (const { used_l } of takes!.weeks) expectNear(used_l!.p90, used_l!.p10, 1e-9);
  // There is something to be missed: half of these litres went through plants that stood on day 42.
  expect(all(({ used_l }) => used_l!.mean)).toBeGreaterThan(1);
});

function momentsOf(values: readonly number[]): Moments {
  const moments = new Moments();
  for (const value of values) moments.add(value);
  return moments;
}

/** With luck: times that vary, and plants that die. */
const LUCKY: Plan = {
  ...DAILY,
  crops: DAILY.crops.map((crop) => ({
    ...crop,
    germination: 0.9,
    stages: crop.stages.map(({ time: { days } }) => grow(time(days, 0.2), { loss: 0.1, keeps: 6 })),
  })),
};

test('from an empty line on its first day: the first weeks of its seasons', async () => {
  const { takes } = await from(LUCKY, 0, { rows: [], futures: 6, weeks: 5 });
  let before = { litres: 0, minutes: 0, kg: 0 };
  takes!.weeks.forEach(({ kwh, used_l, minutes, picked_kg }, week) => {
    const { light, water, work, mass } = ofRun(LUCKY, week + 1, 6);
    const by = { litres: water.used_l, minutes: 60 * work.hours, kg: mass.picked_kg };
    expectNear(kwh! * (week + 1), light.kwh!, 1e-9);
    // Rounding is that of the litres by then.
    expect(Math.abs(used_l!.mean - (by.litres - before.litres))).toBeLessThan(1e-9 * by.litres);
    expectNear(minutes!.mean, by.minutes - before.minutes, 1e-9);
    expectNear(picked_kg!.mean, by.kg - before.kg, 1e-9);
    before = by;
  });
  expect(before.kg).toBeGreaterThan(0);
});

/** What a whole season used from a day on, for a week [L]. */
function trulyUsed(plan: Plan, season: number, day: number): number {
  const heard: Float64Array[] = [];
  new Line(plan).run(plan.seed, season, {
    takesAt: [day, day + 7],
    onEvent: () => {},
    onTakes: (_, taken) => void heard.push(Float64Array.from(taken)),
  });
  const matter = lineMatter(plan)!;
  const of = (column: number): number => heard[1]![column]! - heard[0]![column]!;
  return waterTaken(plan, matter, { columns: new TakesColumns(plan, matter), of }).used;
}

test('with luck the litres of the next week are those of the seasons that were logged, on average', async () => {
  const DAY = 45;
  const logs = repeats(40, 400);
  const off: number[] = [];
  for (let season = 0; season < logs; season++) {
    const rows = simulatedLog(LUCKY, LUCKY.seed, season, { until: DAY });
    const { takes } = await from(LUCKY, DAY, { rows, futures: 4, weeks: 1 });
    const used = trulyUsed(LUCKY, season, DAY);
    off.push(takes!.weeks[0]!.used_l!.mean - used);
  }
  const { mean, standardError } = momentsOf(off);
  // 4 standard errors. In full one is 1.2 % of the litres.
  expect(Math.abs(mean)).toBeLessThan(4 * standardError);
});

test('a scenario that tells of holes only has no such key', async () => {
  const { physical: _, ...bare } = DAILY;
  expect(await from(bare, 10)).not.toHaveProperty('takes');
});
