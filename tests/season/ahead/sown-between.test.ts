import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { seedsDue } from '../../../sim/models/plan.js';
import { readScenario } from '../../../sim/scenario/read.js';
import { sownBetween } from '../../../sim/season/ahead/blocked-cost.js';

test('seeds of their own stay with the dates that are left', () => {
  const reading = readScenario(readFileSync('scenarios/home-shelf.yaml', 'utf8'));
  if (!reading.ok) throw new Error('unread');
  const { plan: whole } = reading.value;
  const sowing = { kind: 'due', days: [0, 7, 14, 21], seeds: 0, more: [1, 20, 300, 4000] } as const;
  const few = sownBetween({ ...whole, crops: [{ ...whole.crops[0]!, sowing }] }, 0, 21);
  expect(few.crops[0]!.sowing).toMatchObject({ days: [7, 14], more: [20, 300] });
  expect(seedsDue(few)).toBe(320);
});
