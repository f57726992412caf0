/**
 * How far the figures move with what is told: the table in docs/what-it-takes.md, and the same changes in a table of worked values (from
 * a program that shares no code with this one). `UPDATE_DOCS=1` writes the table anew.
 */

import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { cropCourse } from '../../sim/models/physical/crop-course.js';
import { dailyLight } from '../../sim/models/physical/light.js';
import type { CropMatter, LampPlan } from '../../sim/models/physical/plan.js';
import { readyL, stayL } from '../../sim/models/physical/stay-water.js';
import { plantWaterMl } from '../../sim/models/physical/tissue.js';
import { stageWater } from '../../sim/models/physical/transpiration.js';
import { crop, every, grow, stage, time } from '../support/plans.js';

const DAYS = [8, 13, 20];
const AREAS_CM2 = [20, 81, 400];
const LAMPS = [150, 200, 260].map((ppfd): LampPlan => ({ ppfd, hours: 16, power: null }));
const EMERGENCE = 47.3 / 19.2;

interface Change {
  readonly extinction?: number;
  readonly headG?: number;
  readonly nurseryG?: number;
  readonly matter?: Partial<CropMatter>;
  readonly humidity?: number;
  readonly air?: readonly [day: number, night: number];
}

/** Efficiency [g/mol], share on leaves, fresh mass at the end of the nursery [g], L/kg, and mL a day of a ready plant. */
function figures({
  extinction,
  headG = 150,
  nurseryG,
  matter = {},
  humidity = 65,
  air = [22, 19],
}: Change): number[] {
  const climate = {
    airC: air[0],
    nightC: air[1],
    humidity,
    nightHumidity: humidity,
    co2: 600,
    germinationC: air[0],
    altitudeM: 0,
    dated: [],
  };
  const plan = {
    stages: AREAS_CM2.map((holeAreaCm2) => ({ ...stage('stage', 1), holeAreaCm2 })),
    crops: [
      crop(
        DAYS.map((days) => grow(time(days))),
        every(7, 84, 1),
        { headG },
      ),
    ],
  };
  const told: CropMatter = {
    dry: 0.05,
    slaCm2G: 350,
    seedMg: 1,
    emergeDays: null,
    left: 0.3,
    regrowDays: null,
    stages: DAYS.map((days, s) => ({ days, readyG: s === 1 ? (nurseryG ?? null) : null, daysAt: null })),
    ...matter,
  };
  const physical = { stages: LAMPS.map((lamps) => ({ lamps, channelSize: null })), crops: [told], climate };
  const course = cropCourse(plan, physical, 0, extinction);
  if (!course?.ok) throw new Error(JSON.stringify(course));
  const { curves, efficiencies, readyG, dry, pickG } = course.value;
  const waters = LAMPS.map((lamps) => stageWater(lamps, climate)!);
  const sum = (of: (s: number) => number): number => DAYS.reduce((total, _, s) => total + of(s), 0);
  const mol = (s: number): number => curves[s]!.areaM2 * DAYS[s]! * dailyLight(LAMPS[s]!.ppfd, 16);
  const given = sum((s) => stayL(curves[s]!, waters[s]!.day, DAYS[s]!, 1));
  return [
    efficiencies[0]!,
    sum((s) => mol(s) * curves[s]!.coverTime(1)) / sum(mol),
    readyG[1]!,
    (given + plantWaterMl(pickG - told.seedMg / 1000, dry) / 1000) / (headG / 1000),
    1000 * readyL(curves[2]!, waters[2]!.day),
  ];
}

const CHANGES: readonly (readonly [string, Change, readonly number[]])[] = [
  ['as it is', {}, [1.307, 0.463, 1.506, 9.782, 128.684]],
  ['extinction 0.5', { extinction: 0.5 }, [1.467, 0.412, 1.328, 9.249, 128.286]],
  ['extinction 0.66', { extinction: 0.66 }, [1.188, 0.509, 1.709, 10.289, 128.929]],
  ['leaf of 250 cm2/g', { matter: { slaCm2G: 250 } }, [1.708, 0.354, 1.164, 7.559, 127.583]],
  ['leaf of 450 cm2/g', { matter: { slaCm2G: 450 } }, [1.091, 0.554, 1.958, 11.602, 129.089]],
  ['dry share 3.5 %', { matter: { dry: 0.035 } }, [1.176, 0.36, 1.413, 7.671, 127.494]],
  ['dry share 7 %', { matter: { dry: 0.07 } }, [1.478, 0.573, 1.814, 11.942, 129.167]],
  ['seed of 0.5 mg', { matter: { seedMg: 0.5 } }, [1.385, 0.437, 1.013, 9.289, 128.684]],
  ['seed of 2 mg', { matter: { seedMg: 2 } }, [1.232, 0.491, 2.216, 10.328, 128.684]],
  [
    'emergence half as long again',
    { matter: { emergeDays: 1.5 * EMERGENCE } },
    [1.335, 0.453, 1.309, 9.601, 128.684],
  ],
  ['humidity 55 %', { humidity: 55 }, [1.307, 0.463, 1.506, 11.868, 159.565]],
  ['humidity 75 %', { humidity: 75 }, [1.307, 0.463, 1.506, 7.695, 97.803]],
  ['2 degC warmer', { air: [24, 21] }, [1.302, 0.464, 1.545, 10.513, 138.904]],
  ['a head of 120 g', { headG: 120 }, [1.221, 0.396, 1.142, 10.278, 128.034]],
  ['a nursery plant weighed 4 g', { nurseryG: 4 }, [1.637, 0.538, 4, 11.264, 128.684]],
  ['a nursery plant weighed 12 g', { nurseryG: 12 }, [2.114, 0.652, 12, 13.683, 128.684]],
];
/** Printed to three decimals. */
const ROUNDING = 0.0005 + 1e-9;

describe('worked values', () => {
  test.each(CHANGES)('%s', (_, change, known) => {
    for (const [i, figure] of figures(change).entries()) {
      expect(Math.abs(figure - known[i]!)).toBeLessThanOrEqual(ROUNDING);
    }
  });
});

test('the table of the docs is what is computed', () => {
  const page = 'docs/what-it-takes.md';
  const text = readFileSync(page, 'utf8');
  const rows = CHANGES.map(([what, change]) => {
    const [efficiency, share, nursery, litres, ml] = figures(change);
    return `| ${what} | ${efficiency!.toFixed(2)} | ${share!.toFixed(2)} | ${nursery!.toFixed(1)} | ${litres!.toFixed(1)} | ${ml!.toFixed(0)} |`;
  });
  const table = /(<!-- what moves the figures -->\n.*\n.*\n)[\s\S]*?(<!-- \/what moves the figures -->)/;
  const wanted = text.replace(table, (_, head, foot) => `${head}${rows.join('\n')}\n${foot}`);
  if (process.env['UPDATE_DOCS'] === '1') writeFileSync(page, wanted);
  else expect(text).toBe(wanted);
});
