/**
 * Loaded before the program: kills it right before its n-th step that changes a file or a folder (n from 0, in KILL_AT). Beyond its
 * last step it ends by itself.
 */

import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

let left = Number(process.env.KILL_AT);

for (const [holder, names] of [
  [fs, ['mkdir', 'utimes', 'rmdir', 'rmdirSync']],
  [fs.promises, ['open', 'rename', 'rm']],
  [await handles(), ['writeFile', 'chown', 'chmod', 'sync', 'close']],
]) {
  for (const name of names) {
    const step = holder[name];
    holder[name] = function (...args) {
      if (left-- === 0) process.kill(process.pid, 'SIGKILL');
      return step.apply(this, args);
    };
  }
}
syncBuiltinESMExports();

/** What all open files have in common. */
async function handles() {
  const handle = await fs.promises.open(process.execPath);
  await handle.close();
  return Object.getPrototypeOf(handle);
}
