import { expect, test } from 'vitest';
import { fifoStays } from '../../../../sim/season/fit/survival/fifo-stays.js';

const visits = [0, 3, 10, 14, 17].map((day) => ({ day, short: false }));

test('who came first leaves first, dies first or still stands last', () => {
  const group = {
    kind: 0,
    entries: [
      { day: 0, count: 2 },
      { day: 3, count: 3 },
    ],
    ready: [
      { visit: 2, count: 1 },
      { visit: 4, count: 1 },
    ],
    dead: [{ visit: 3, count: 2 }],
    standing: 1,
  };
  expect(fifoStays(group, { visits, groups: [group] })).toEqual([
    { day: 0, count: 1, end: 'ready', visit: 2 },
    { day: 0, count: 1, end: 'dead', visit: 3 },
    { day: 3, count: 1, end: 'dead', visit: 3 },
    { day: 3, count: 1, end: 'ready', visit: 4 },
    { day: 3, count: 1, end: 'standing', visit: 4 },
  ]);
});
