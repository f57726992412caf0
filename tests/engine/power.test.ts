/** Powers are the same wherever the program runs. */

import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { power } from '../../sim/engine/power.js';

test.each([
  [2, 0.5, Math.SQRT2],
  [10, -3, 1e-3],
  [0.5, 52, 2 ** -52],
  [0, 0.7, 0],
  [0, 0, 1],
  [1, 1e300, 1],
])('%s to the power of %s', (x, y, known) => {
  // Relative, 1e-16 times y ln x, which is 36 at most here.
  expect(Math.abs(power(x, y) - known)).toBeLessThanOrEqual(4e-15 * known);
});

test('no other power is taken in the simulator than squares and powers of 2 and 10, which are exact everywhere', () => {
  const files = readdirSync('sim', { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  expect(files.length).toBeGreaterThan(100);
  const found = files.flatMap((name) => {
    const text = readFileSync(path.join('sim', name), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
    const powers = [...text.matchAll(/(\S+) \*\* ([^\s;,)]+)/g)];
    const inexact = powers.filter(
      ([, base, exponent]) => !/(^|\W)(2|10)$/.test(base!) && !/^2n?$/.test(exponent!),
    );
    return [...inexact.map(([power]) => power), ...(text.match(/Math\.pow/g) ?? [])].map(
      (one) => `${name}: ${one}`,
    );
  });
  expect(found).toEqual([]);
});
