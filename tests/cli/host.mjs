/**
 * Runs the built program again and again in one process: starting it takes longer than most of what the tests ask of it. Each time the
 * program is given its arguments, its folder and its input as if it had just been started, and what it says is handed back.
 */

import { Readable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { taken } from './taken.mjs';

const [binary] = process.argv.slice(2);
let runs = 0;

process.on('message', async ({ args, input, cwd }) => {
  process.chdir(cwd);
  process.argv = [process.execPath, binary, ...args];
  Object.defineProperty(process, 'stdin', { value: Readable.from([Buffer.from(input)]), configurable: true });
  let both = '';
  const heard = (text) => {
    both += text;
  };
  const out = taken(process.stdout, heard);
  const err = taken(process.stderr, heard);
  process.exitCode = undefined;
  let fault = null;
  try {
    // Another address each time, or it would be loaded only once. The parts beside it stay.
    await import(`${pathToFileURL(binary)}?${runs++}`);
  } catch (error) {
    fault = String(error?.stack ?? error);
  }
  process.send({ answer: { code: process.exitCode, out: out(), err: err() }, both, fault });
});
