import { expect, test } from 'vitest';
import { readScenario } from '../../sim/scenario/read.js';

const head = `start: 2027-01-04
weeks: 10
stages: [{name: tray, channels: 1, holes: 20}]
crops:
  - name: leaf
    stages: {tray: {days: 7, spread: 0.1}}
`;

function faultsOf(sow: string): [path: string, found: string][] {
  const read = readScenario(`${head}    sow: ${sow}\n`);
  return read.ok ? [] : read.faults.map(({ path, found }) => [path, found]);
}

test('beside a misspelt cadence the seeds are looked at too', () => {
  expect(faultsOf('{evry: 3, seeds: ten}')).toEqual([
    ['crops[0].sow.evry', 'the key evry'],
    ['crops[0].sow.seeds', '"ten"'],
  ]);
});

test('without a cadence the seeds are looked at too', () => {
  expect(faultsOf('{seeds: -1}').map(([path]) => path)).toEqual(['crops[0].sow', 'crops[0].sow.seeds']);
});

test('right seeds beside a misspelt cadence are no fault', () => {
  expect(faultsOf('{evry: 3, seeds: 10}')).toEqual([['crops[0].sow.evry', 'the key evry']]);
});
