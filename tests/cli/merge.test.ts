/** What is wrong with a part is told as such; what is wrong with the program is not put on the part. */

import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ownFolder } from '../support/folder.js';
import { type Answer, evensow, evensowAlone } from './program.js';

const folder = ownFolder();
const parts = ['part-1.json', 'part-2.json'].map((name) => join(folder, name));
const asked = ['compare', 'scenarios/home-shelf.yaml', '--every', '2,3', '-n', '4'];

beforeAll(async () => {
  for (const [k, file] of parts.entries()) {
    const { code } = await evensow([...asked, '--shard', `${k + 1}/2`, '--out', file]);
    expect(code).toBe(0);
  }
});

/** As if somebody had made the part by hand: its sum is right. */
function signed(part: Record<string, unknown>): string {
  const { sha256: _, ...rest } = part;
  const text = JSON.stringify(rest).slice(0, -1);
  return `${text},"sha256":"${createHash('sha256').update(text).digest('hex')}"}\n`;
}

describe('a damaged part ends with 2, and its file and number are told', () => {
  test.each<[string, (text: string) => string, string]>([
    ['cut short', (text) => text.slice(0, -200), 'is cut short'],
    ['with a digit changed', (text) => text.replace(/\d(?=[^\d]*$)/, '7x'), 'is not as it was written'],
    ['without data', (text) => signed({ ...JSON.parse(text), data: null }), 'is damaged'],
    ['with the data of no plan', (text) => signed({ ...JSON.parse(text), data: [] }), 'is damaged'],
  ])('%s', async (_, damaged, words) => {
    const file = join(folder, 'damaged.json');
    await writeFile(file, damaged(await readFile(parts[0]!, 'utf8')));
    const { code, out, err } = await evensow(['merge', file, parts[1]!]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(`${file}, part 1 of 2,`);
    expect(err).toContain(words);
    expect(err).not.toContain('fault of the program');
  });
});

describe('a fault of the program ends with 1 and says where to report it, of parts that are as they were written', () => {
  /** A process in which lists cannot be gone through any more once merge has come to a step. */
  async function brokenIn(step: string): Promise<Answer> {
    const file = join(folder, 'broken.mjs');
    await writeFile(
      file,
      `const { map } = Array.prototype;
      Array.prototype.map = function (...given) {
        const { stack } = new Error();
        if (stack.includes('joinedText') && / at (async )?([\\w.]+\\.)?${step} /.test(stack)) throw new TypeError('nothing to map');
        return map.apply(this, given);
      };`,
    );
    // The stack is to reach down to merge.
    const env = { NODE_OPTIONS: `--stack-trace-limit=100 --import=${file}` };
    return await evensowAlone(['merge', ...parts], { env });
  }

  test.each(['faultOf', 'unpack', 'conclude', 'renderResult'])('%s', async (step) => {
    const { code, out, err } = await brokenIn(step);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain(
      'this is a fault of the program, not of your input. Please report it where you got evensow from',
    );
    expect(err).toContain('TypeError: nothing to map');
    expect(err).not.toContain('damaged');
  });

  test('but of none that nothing has broken', async () => {
    expect((await brokenIn('nothing')).code).toBe(0);
  });
});
