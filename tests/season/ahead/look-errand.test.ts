/** A look that is taken on another thread tells what it would tell here, and how many futures were run. */

import { MessageChannel } from 'node:worker_threads';
import { expect, test } from 'vitest';
import { lookTaken } from '../../../sim/season/ahead/look-errand.js';
import { startThreads } from '../../../sim/seasons/threads.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';

const WORKER = new URL('../../../dist/worker.js', import.meta.url);

test.each([0, 2])('with %i further threads', async (threads) => {
  const plan = line(
    [stage('tray', 12), stage('wide', 16)],
    [crop([grow(time(4, 0.2)), grow(time(10, 0.2), { loss: 0.1 })], every(2, 98, 3))],
    { weeks: 14, visits: visitDays(14) },
  );
  const rows = simulatedLog(plan, 1, 0, { until: 20 });
  const asked = { look: 'chores', plan, rows, attended: null, days: 7 } as const;
  const options = { today: null, futures: 6 };
  const { port1, port2: port } = new MessageChannel();
  let runs = 0;
  port1.on('message', (more: number) => {
    runs += more;
  });
  const over = new Promise((resolve) => port1.once('close', resolve));
  const thread = await startThreads(1, null, WORKER);
  const told = await thread.send({ kind: 'look', asked, threads, port, ...options }, [port]);
  // With the thread its port is closed, when all that was sent has come.
  await thread.close();
  await over;
  expect(told).toEqual(await lookTaken(asked, options));
  expect(runs).toBe(options.futures);
});
