/** What the rows of the tank tell, through the built program. */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { EXAMPLES, planOf, readExample } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { meteredLog, meteredText } from '../support/metered-log.js';
import { evensow } from './program.js';

const folder = ownFolder();
const file = (name: string): string => join(folder, name);
const RACK = `${EXAMPLES}lettuce-rack.yaml`;

/** A season of ten weeks of the rack, by meters that are off by some percent. */
const { plan } = readExample(RACK, (text) => text.replace('weeks: 26', 'weeks: 10'));
const truth = { scale: 1.4, uptakeEc: 1.9, litresOff: 0.05, ecOff: 0.02 };
writeFileSync(file('log.csv'), meteredText(meteredLog(plan, 7, 0, truth)));

const flat = (text: string): string => text.replace(/\s+/g, ' ');

test('fit tells both figures, as text, CSV and JSON, and --write puts them into the scenario', async () => {
  const args = ['fit', file('log.csv'), RACK];
  const out = file('fitted.yaml');
  const written = await evensow([...args, '--write', out]);
  expect(written.code).toBe(0);
  const told = JSON.parse((await evensow([...args, '--json'])).out);
  const { scale } = told.water;
  const { uptake_ec } = told.tank;
  for (const [{ value, low, high, good }, true_] of [
    [scale, truth.scale],
    [uptake_ec, truth.uptakeEc],
  ] as const) {
    expect(good).toBe(true);
    expect(Math.abs(value - true_)).toBeLessThan(high - low);
  }
  const digits = (value: number): string => String(Number(value.toPrecision(3)));
  expect(flat(written.out)).toContain(
    `The tank, by your meters Leaves gave off ${digits(scale.value)} (95 %: ${digits(scale.low)} to ${digits(scale.high)}) times the litres that the model tells of them: water.scale. From ${told.water.spells} spells between two top-ups, ${told.water.days} days,`,
  );
  expect(flat(written.out)).toContain(
    `Plants took up water of ${digits(uptake_ec.value)} (95 %: ${digits(uptake_ec.low)} to ${digits(uptake_ec.high)}) mS/cm: tank.uptake_ec.`,
  );
  expect(written.out).toMatch(/\n +water\.scale +- +1\.\d+ +1\.\d+ to 1\.\d+ +differs\n/);
  for (const line of written.out.split('\n'))
    expect(line.length).toBeLessThanOrEqual(Math.max(80, RACK.length + 30));
  const csv = (await evensow([...args, '--csv'])).out.trimEnd().split(/\r?\n/);
  expect(csv.slice(-2)).toEqual([
    `,,,water.scale,${scale.value},${scale.low},${scale.high},true`,
    `,,,tank.uptake_ec,${uptake_ec.value},${uptake_ec.low},${uptake_ec.high},true`,
  ]);
  const { physical } = planOf(out);
  expect(physical!.waterScale).toBe(Number(digits(scale.value)));
  expect(physical!.tank!.uptakeEc).toBe(Number(digits(uptake_ec.value)));
  // What it says else it says as it did: a line more, and one value.
  const before = readFileSync(RACK, 'utf8').split('\n');
  const after = readFileSync(out, 'utf8').split('\n');
  expect(after.filter((line) => !before.includes(line))).toContainEqual(
    `water: {scale: ${digits(scale.value)}}`,
  );
  expect(after).toHaveLength(before.length + 1);
  const run = flat((await evensow(['run', out, '--seasons', '2'])).out);
  expect(run).toContain('scaled to your meter');
  expect(run).not.toContain('factor of 1.5');
});

test('what is left out, and what is too little, is told in words', async () => {
  const rows = meteredLog(plan, 7, 0, {
    ...truth,
    written: (row) => (row.date > '2027-01-20' && row.date < '2027-02-10' ? null : { ...row, ec: 1.6 }),
  });
  writeFileSync(file('gap.csv'), meteredText(rows));
  const { out } = await evensow(['fit', file('gap.csv'), RACK]);
  expect(flat(out)).toMatch(
    /Spells left out: 1 so long that a row may be missing in between \(Wed 20 Jan 2027 to Wed 10 Feb 2027\); 1 up to a new filling/,
  );
  expect(flat(out)).toContain('tank.uptake_ec is not sure: all readings are alike');
  expect(out).not.toMatch(/\n +tank\.uptake_ec +1/);
});
