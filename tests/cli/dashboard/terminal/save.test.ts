import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { failureWords, scenarioText } from '../../../../cli/dashboard/terminal/save.js';
import { CELLAR, pressing, read, start } from '../given.js';

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
