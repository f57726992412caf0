/**
 * Runs the program again and again in one process, as tests/cli/host.mjs does, but loaded once: what is loaded anew each time
 * stays in memory, and how much memory the program takes is to be seen.
 */

import { Readable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { taken } from '../cli/taken.mjs';

const [binary] = process.argv.slice(2);
const { main } = await import(pathToFileURL(binary).href);

process.on('message', async ({ args, input, cwd }) => {
  process.chdir(cwd);
  process.argv = [process.execPath, binary, ...args];
  Object.defineProperty(process, 'stdin', { value: Readable.from([Buffer.from(input)]), configurable: true });
  const out = taken(process.stdout);
  const err = taken(process.stderr);
  let code = null;
  let fault = null;
  try {
    code = await main(args);
  } catch (error) {
    fault = String(error?.stack ?? error);
  }
  const megabytes = process.resourceUsage().maxRSS / 1000;
  process.send({ answer: { code, out: out(), err: err() }, fault, megabytes });
});
