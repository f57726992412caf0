/** What the README says must be so. */

import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readScenario, STATES, scenarioKeyTable } from '../../sim/index.js';
import { evensow } from './program.js';

const root = fileURLToPath(new URL('../../', import.meta.url));
const readme = readFileSync(`${root}README.md`, 'utf8');

test('its table of keys is that of the schema (else: npm run docs)', () => {
  const written = /<!-- keys:.*? -->\n([\s\S]*?)<!-- \/keys -->/.exec(readme)![1]!;
  const rows = written
    .trimEnd()
    .split('\n')
    .slice(2)
    .map((row) => row.split(' | ').map((cell) => cell.replace(/^\| | \|$/g, '')));
  expect(rows).toEqual(
    scenarioKeyTable().map(({ key, meaning, expected }) => [`\`${key}\``, meaning, expected]),
  );
});

test('its example is a scenario without a fault', () => {
  const example = /```yaml\n([\s\S]*?)```/.exec(readme)![1]!.replaceAll(/^ {3}/gm, '');
  expect(readScenario(example)).toMatchObject({ ok: true, warnings: [] });
});

test('its table of states names every state', () => {
  for (const state of STATES) expect(readme).toContain(`| \`${state}\` |`);
});

test('its files exist', () => {
  const links = [...readme.matchAll(/\]\(([^)#]+)\)/g)].map(([, target]) => target!);
  const copied = [...readme.matchAll(/\bscenarios\/[\w.-]+/g)].map(([path]) => path);
  expect(links.length).toBeGreaterThan(0);
  for (const path of [...links, ...copied]) expect(existsSync(root + path), path).toBe(true);
});

test('its commands are those of the program', async () => {
  const { out } = await evensow(['--help']);
  for (const [, command] of readme.matchAll(/\| `evensow (\w+)/g)) expect(out).toContain(`  ${command} `);
});
