/** Whoever stops the program is heard while a season runs, however long it is and with one thread only. */

import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { until } from '../support/patience.js';
import { BINARY } from './program.js';

/** One season has 364 million seeds: minutes of processor time. */
const HUGE = `
title: Huge
start: 2027-01-04
weeks: 52
seed: 7
visits: daily
stages: [{name: tray, channels: 10, holes: 100000}, {name: bed, channels: 10, holes: 100000}]
crops:
  - name: leaf
    germination: 0.92
    sow: {every: 1, seeds: 1000000}
    stages: {tray: {days: 7, spread: 0.1, keeps: 4}, bed: {days: 14, spread: 0.12, loss: 0.03, keeps: 7}}
`;
/** Processor time after which the first season is running [s]; starting takes a third of a second. */
const BUSY = 1;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'evensow-stopping-'));
  await writeFile(join(folder, 'huge.yaml'), HUGE);
});
afterAll(() => rm(folder, { recursive: true }));

/** Seconds that a process has used. */
function used(pid: number): number {
  const [, minutes, seconds] = /(\d+):(\d+(?:\.\d+)?)\s*$/.exec(
    execFileSync('ps', ['-o', 'time=', '-p', String(pid)], { encoding: 'utf8' }),
  )!;
  return 60 * Number(minutes) + Number(seconds);
}

/**
 * Start the program, and send it a signal once it is busy.
 * @param what it does then, in words
 * @returns its exit code, the signal that ended it, and what it said
 */
async function stopped(args: readonly string[], signal: NodeJS.Signals, what: string) {
  const asked = spawn(process.execPath, [BINARY, ...args]);
  let told = '';
  for (const stream of [asked.stdout, asked.stderr]) {
    stream.on('data', (text) => {
      told += text;
    });
  }
  const ended = once(asked, 'close');
  await until(
    () => asked.exitCode !== null || used(asked.pid!) >= BUSY,
    what,
    () => told,
    100,
  );
  asked.kill(signal);
  return [...(await ended), told];
}

test.each(['SIGINT', 'SIGTERM'] as const)('%s in the first season', async (signal) => {
  const args = ['run', join(folder, 'huge.yaml'), '--workers', '1'];
  // Not after the season, of which something would then be known.
  expect(await stopped(args, signal, 'the first season to run')).toEqual([
    130,
    null,
    'evensow: stopped before anything was known; there is nothing to show.\n',
  ]);
});

test.each(['watch', 'replay'])(
  'SIGINT ends %s while it goes through a log of many plants',
  async (command) => {
    const files = ['huge.yaml', 'season.csv'].map((name) => join(folder, name));
    await writeFile(
      files[1]!,
      `date,action,crop,batch,stage,channel,count,grams,note
2027-01-04,sow,leaf,B1,,,600000,,
2027-01-11,move,,B1,bed,,540000,,
2027-01-26,pick,,B1,,,300000,,
`,
    );
    const args = [command, ...(command === 'watch' ? files : files.reverse())];
    // By the signal itself, not when what it was busy with is done.
    expect(await stopped(args, 'SIGINT', 'the log to be gone through')).toEqual([null, 'SIGINT', '']);
  },
);
