import { readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { comparisonText, failureWords, scenarioText } from '../../../../cli/dashboard/terminal/save.js';
import { ownFolder } from '../../../support/folder.js';
import { evensow } from '../../program.js';
import { CELLAR, pressing, read, start } from '../given.js';

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

test('a plan that is saved as JSON is JSON, and the same plan', () => {
  const before = read(JSON.stringify(CELLAR));
  const now = pressing(start(before), '+').scenario;
  const text = `# a remark\n${JSON.stringify(CELLAR)}`;
  const saved = scenarioText(text, before, now, 'json');
  expect(saved.ok && read(JSON.stringify(JSON.parse(saved.value)))).toEqual(now);
  const yaml = scenarioText(text, before, now);
  expect(yaml.ok && yaml.value).toMatch(/^# a remark/);
});

test('why a file was not written comes first, and a long folder loses its middle', () => {
  const path = `${'very-long-name/'.repeat(8)}plan.yaml`;
  const folder = resolve(path, '..');
  const words = failureWords(
    path,
    `${path}: the file cannot be written: there is no folder ${folder}. Make it first.`,
    '…',
  );
  expect(words).toMatch(/^there is no folder .{1,29}…?.*\. Make it first\.$/);
  expect(words.length).toBeLessThan(70);
  expect(failureWords('a.yaml', 'a.yaml: this is a folder. Name a file in it.', '…')).toBe(
    'this is a folder. Name a file in it.',
  );
});
