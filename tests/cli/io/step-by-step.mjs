/**
 * Loaded before the program. Before each of its steps that changes a file or a folder, the folder of the log (OF) is copied into a folder
 * of its own (INTO), named by the number of the step from 0: what somebody finds if the program is killed there. Or it is killed, right
 * before one of the steps (KILL_AT); beyond the last one it ends by itself.
 */

import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { join } from 'node:path';

const { OF, INTO, KILL_AT } = process.env;
let done = 0;

for (const [holder, names] of [
  [fs, ['mkdir', 'utimes', 'rmdir', 'rmdirSync']],
  [fs.promises, ['open', 'rename', 'rm']],
  [await handles(), ['writeFile', 'chown', 'chmod', 'sync', 'close']],
]) {
  for (const name of names) {
    const step = holder[name];
    holder[name] = function (...args) {
      if (KILL_AT === `${done}`) process.kill(process.pid, 'SIGKILL');
      if (INTO !== undefined) fs.cpSync(OF, join(INTO, `${done}`), { recursive: true });
      done++;
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
