import { expect, test } from 'vitest';
import { evensow } from './program.js';

const WIDTH = 80;

/** The commands that the help of the program lists. */
async function commands(): Promise<string[]> {
  const { out } = await evensow(['--help']);
  const list = out.slice(out.indexOf('Commands:'));
  return [...list.matchAll(/^ {2}(\w+) /gm)].map(([, name]) => name!).filter((name) => name !== 'help');
}

test(`the help of every command fits ${WIDTH} columns`, async () => {
  const names = await commands();
  expect(names).toEqual(expect.arrayContaining(['run', 'log', 'ahead', 'chores', 'replay', 'fit', 'schema']));
  for (const args of [['--help'], ...names.map((name) => ['help', name])]) {
    const { code, out } = await evensow(args);
    expect({ args, code }).toEqual({ args, code: 0 });
    expect(out.split('\n').filter((line) => line.length > WIDTH)).toEqual([]);
  }
});
