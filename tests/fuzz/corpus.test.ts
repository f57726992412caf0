/** What once broke the program: the files of the corpus, and what is too large or too odd to be a file of it. */

import { copyFileSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { evensow } from '../cli/program.js';
import { ownFolder } from '../support/folder.js';
import { asked, endHost, SMALL_LINE } from './program.js';
import { judge, judgeJson } from './said.js';
import { OBEYED } from './words.js';

const CORPUS = fileURLToPath(new URL('corpus', import.meta.url));
const FOLDER = ownFolder();
afterAll(endHost);

writeFileSync(join(FOLDER, 'line.yaml'), SMALL_LINE);

const files = readdirSync(CORPUS);
const ending = (end: string) => files.filter((name) => name.endsWith(end));

/** Answered or refused in words, the same by the built program. @returns the exit code */
async function codeOf(args: readonly string[]): Promise<number | null> {
  const { code, out } = await asked(args, FOLDER);
  if (code === 0 && args.includes('--json')) judgeJson(out);
  return code;
}

describe('a scenario of the corpus', () => {
  test.each(ending('.yaml'))('%s is refused by check, or runs in every command', async (name) => {
    copyFileSync(join(CORPUS, name), join(FOLDER, name));
    const checked = await evensow(['check', name], { cwd: FOLDER });
    judge(checked);
    for (const args of [
      ['run', name, '-n', '1', '--json'],
      ['compare', name, '--visits', 'daily,mon', '-n', '1', '--json'],
      ['size', name, '-n', '1', '--json'],
      ['chores', name, '-n', '1', '--json'],
    ]) {
      expect(await codeOf(args), args.join(' ')).toBe(checked.code);
    }
  });
});

describe('a log of the corpus', () => {
  test.each(ending('.csv'))('%s is answered or refused in words', async (name) => {
    copyFileSync(join(CORPUS, name), join(FOLDER, name));
    // Beside the scenario of the same name, if there is one.
    const own = name.replace('.csv', '.yaml');
    const line = files.includes(own) ? own : 'line.yaml';
    if (line === own) copyFileSync(join(CORPUS, own), join(FOLDER, own));
    const codes = new Set<number | null>();
    for (const args of [
      ['ahead', line, name, '-n', '1', '--weeks', '2', '--json'],
      ['chores', line, name, '-n', '1', '--json'],
      ['replay', name, line, '--every', '3', '--json'],
      ['fit', name, line, '--json'],
    ]) {
      codes.add(await codeOf(args));
    }
    // All of them make the same checks.
    expect(codes.size).toBe(1);
    await codeOf(['replay', name, '--every', '3']);
    judge(await evensow(['fit', name], { cwd: FOLDER }));
  });
});

describe('too large or too odd for a file of the corpus:', () => {
  test('a scenario of a million brackets', async () => {
    writeFileSync(join(FOLDER, 'brackets.yaml'), '[]'.repeat(500_000));
    expect(await codeOf(['check', 'brackets.yaml'])).toBe(2);
    writeFileSync(join(FOLDER, 'brackets.yaml'), `[${'[],'.repeat(333_000)}]`);
    expect(await codeOf(['check', 'brackets.yaml'])).toBe(2);
  });

  test.each(OBEYED.map((sign, i) => [i, sign]))(
    'a file whose name holds what a terminal obeys (%i)',
    async (_, sign) => {
      const name = `a${sign}b`;
      writeFileSync(join(FOLDER, `${name}.yaml`), SMALL_LINE);
      expect(await codeOf(['check', `${name}.yaml`])).toBe(0);
      expect(await codeOf(['check', `${name}-gone.yaml`])).toBe(2);
      const row = ['sow', '1', 'leaf', '--batch', name, '--note', name, '--date', '2027-01-05'];
      expect(await codeOf(['log', ...row, '--line', 'line.yaml', '--to', `${name}.csv`])).toBe(0);
      expect(await codeOf(['replay', `${name}.csv`, 'line.yaml'])).toBe(0);
      expect(await codeOf([`--${name}`])).toBe(2);
      expect(readFileSync(join(FOLDER, `${name}.csv`), 'utf8')).toContain(name);
    },
  );
});
