/** A thread that is given back without work is the thread of the next who asks for one. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { MessageChannel } from 'node:worker_threads';
import { expect, test } from 'vitest';
import { lentThread } from '../../sim/seasons/threads.js';
import { ownFolder } from '../support/folder.js';

const file = join(ownFolder(), 'worker.mjs');
writeFileSync(
  file,
  `import { threadId } from 'node:worker_threads';
export default ({ port, fault }) => {
  if (fault) throw new Error(fault);
  port?.postMessage('begun');
  return port ? new Promise(() => {}) : threadId;
};
`,
);
const worker = pathToFileURL(file);

/** Which thread is lent, and then given back. */
async function lent(): Promise<number | null> {
  const thread = await lentThread(worker);
  const told = await thread.send<number>({});
  await thread.close();
  return told;
}

test('two at the same time are two; the next has one of them', async () => {
  const [one, other] = [await lentThread(worker), await lentThread(worker)];
  const ids = [await one.send<number>({}), await other.send<number>({})];
  expect(new Set(ids).size).toBe(2);
  await one.close();
  await other.close();
  // Who gives it back has no more of it, and cannot give it back again.
  expect(await one.send({})).toBeNull();
  const next = await lentThread(worker);
  expect(await next.send({})).toBe(ids[0]);
  await one.close();
  const beside = await lentThread(worker);
  expect(await beside.send({})).not.toBe(ids[0]);
  await beside.close();
  await next.close();
});

test('one whose errand failed is not lent again', async () => {
  const before = await lent();
  expect(await lent()).toBe(before);
  const thread = await lentThread(worker);
  await expect(thread.send({ fault: 'broken' })).rejects.toThrow('broken');
  await thread.close();
  expect(await lent()).not.toBe(before);
});

test('one that is given back while it works ends: its work is dropped, and it is not lent again', async () => {
  const before = await lent();
  const thread = await lentThread(worker);
  const { port1, port2 } = new MessageChannel();
  const begun = new Promise((resolve) => port1.once('message', resolve));
  const answer = thread.send({ port: port2 }, [port2]);
  await begun;
  await thread.close();
  expect(await answer).toBeNull();
  port1.close();
  expect(await lent()).not.toBe(before);
});
