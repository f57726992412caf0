import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { comparisonText } from '../../../../cli/dashboard/terminal/save.js';
import { ownFolder } from '../../../support/folder.js';
import { evensow } from '../../program.js';

const folder = ownFolder();

test('a comparison is saved as compare writes it, whatever turns the direction of the text in a name', async () => {
  const plan = join(folder, 'turned.yaml');
  const text = await readFile('scenarios/home-shelf.yaml', 'utf8');
  await writeFile(plan, text.replaceAll(/(?<=name: | {2})finishing/g, '"fin\\u202eishing"'));
  const asked = ['compare', plan, '--every', '3,2', '--seasons', '10'];
  const said = async (form: string[]): Promise<string> => (await evensow([...asked, ...form])).out;
  const result = JSON.parse(await said(['--json']));
  expect(comparisonText(result, 'text')).toBe(await said([]));
  expect(comparisonText(result, 'csv')).toBe(await said(['--csv']));
  expect(await said([])).toContain('fin\ufffdishing');
});
