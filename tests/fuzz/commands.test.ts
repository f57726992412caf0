/** What `check` accepts runs in every command, and what the commands say is what may be said. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { holesOfLine, type Plan } from '../../sim/models/plan.js';
import { plantsOf } from '../../sim/seasons/workload.js';
import { ownFolder } from '../support/folder.js';
import { logText, simulatedLog } from '../support/simulated-log.js';
import { amount } from './amount.js';
import { anyLog, rightLog } from './logs.js';
import { asked, endHost } from './program.js';
import { readAnyScenario } from './reading.js';
import { judgeJson } from './said.js';
import { rightText } from './scenarios.js';

const FOLDER = ownFolder();
afterAll(endHost);

/** Lines whose seasons are short, so that thousands can be tried; million.test.ts has large ones. */
function isSmall(plan: Plan): boolean {
  return plan.weeks <= 60 && plantsOf(plan) < 20_000 && holesOfLine(plan) < 200_000;
}

const form = fc.constantFrom('', '--json', '--csv');
const seasons = fc.integer({ min: 1, max: 3 }).map((n) => ['-n', String(n)]);

/** It answers, or says why it does not, in the form that it was asked for. @returns whether it answered */
async function answers(args: readonly string[], how = ''): Promise<boolean> {
  const words = how === '' ? args : [...args, how];
  try {
    const { code, out } = await asked(words, FOLDER);
    if (code === 0 && how === '--json') judgeJson(out);
    return code === 0;
  } catch (error) {
    const files = args
      .filter((word) => word in written)
      .map((word) => `${word}: ${JSON.stringify(written[word])}`);
    throw new Error(`evensow ${words.join(' ')}\n${files.join('\n')}\n${(error as Error).message}`);
  }
}

async function mustAnswer(args: readonly string[], how = ''): Promise<void> {
  if (!(await answers(args, how))) throw new Error(`evensow ${args.join(' ')} refused what check accepts`);
}

/** The files as they are. */
const written: Record<string, string> = {};

function put(name: string, text: string): void {
  written[name] = text;
  writeFileSync(join(FOLDER, name), text);
}

test('a scenario that check accepts runs in every command, and its season can be looked into', async () => {
  let run = 0;
  await fc.assert(
    fc.asyncProperty(rightText, form, seasons, async (text, how, n) => {
      const plan = readAnyScenario(text);
      fc.pre(plan !== null && isSmall(plan));
      put('line.yaml', text);
      await mustAnswer(['check', 'line.yaml']);
      await mustAnswer(['run', 'line.yaml', ...n], how);
      await mustAnswer(['compare', 'line.yaml', '--visits', 'daily,mon', ...n], how);
      await mustAnswer(['size', 'line.yaml', ...n], how);
      await mustAnswer(['chores', 'line.yaml', ...n], how);
      // A season may be too short for it.
      await answers(['search', 'line.yaml', '--heads', '1', '--visits', 'daily,mon', '--first', '5'], how);
      run++;
      if (plan.visits.kind === 'always') return;
      const season = simulatedLog(plan, 1, 0, { until: Math.min(60, plan.weeks * 7) });
      // A log has no place for the mass of a head of 5e-324 g.
      const rows = season.map((row) => ({ ...row, grams: null }));
      if (rows.length === 0 || rows.length > 300) return;
      put('season.csv', logText(rows));
      await mustAnswer(['ahead', 'line.yaml', 'season.csv', '--weeks', '2', ...n], how);
      await mustAnswer(['chores', 'line.yaml', 'season.csv', ...n], how);
      await mustAnswer(['replay', 'line.yaml', 'season.csv'], how);
      await mustAnswer(['fit', 'line.yaml', 'season.csv'], how);
    }),
    amount(30),
  );
  expect(run).toBeGreaterThan(amount(20).numRuns);
});

test('whatever log stands beside a line is answered or refused in words', async () => {
  let answered = 0;
  const log = fc.oneof(anyLog, rightLog);
  await fc.assert(
    fc.asyncProperty(rightText, log, form, seasons, async (text, { besides }, how, n) => {
      const plan = readAnyScenario(text);
      fc.pre(plan !== null && isSmall(plan));
      put('line.yaml', text);
      put('season.csv', besides(plan));
      if (await answers(['ahead', 'line.yaml', 'season.csv', '--weeks', '2', ...n], how)) answered++;
      await answers(['chores', 'line.yaml', 'season.csv', ...n], how);
      await answers(['replay', 'line.yaml', 'season.csv', '--every', '3'], how);
      await answers(['replay', 'season.csv'], how);
      await answers(['fit', 'line.yaml', 'season.csv'], how);
      await answers(['fit', 'season.csv'], how);
      await answers(['log', 'sow', '1', plan.crops[0]!.name, '--to', 'season.csv']);
    }),
    amount(30),
  );
  // 23 in 100 are; of the 15 of the ordinary suite that may be only 2.
  expect(answered).toBeGreaterThan(amount(2).numRuns);
});
