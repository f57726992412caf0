import { expect, test } from 'vitest';
import { CONSOLE, DRAWN, PLAIN, signsFor } from '../../../cli/dashboard/theme.js';

/** Signs that Lat15-Fixed16, Uni2-Fixed16 or Terminus16 lack. */
const LACKING = /[◆◇○▁▂▃▅▆▇▔▏]/u;

test('on the Linux console only signs that its fonts have, each state of a hole by one of its own', () => {
  const signs = signsFor({ TERM: 'linux', LANG: 'C.UTF-8' }, 'linux');
  expect(signs).toBe(CONSOLE);
  expect(JSON.stringify(DRAWN)).toMatch(LACKING);
  expect(JSON.stringify(signs)).not.toMatch(LACKING);
  const holes = Object.values(signs.holes);
  expect(new Set(holes).size).toBe(holes.length);
  expect(new Set(signs.steps).size).toBe(signs.steps.length);
});

test('plain signs where the locale has no others, also on the console; what is chosen is taken', () => {
  expect(signsFor({ TERM: 'linux', LANG: 'C' }, 'linux')).toBe(PLAIN);
  expect(signsFor({ TERM: 'xterm-256color', LANG: 'C.UTF-8' }, 'linux')).toBe(DRAWN);
  expect(signsFor({ TERM: 'linux', LANG: 'C.UTF-8', EVENSOW_SIGNS: 'drawn' }, 'linux')).toBe(DRAWN);
});
