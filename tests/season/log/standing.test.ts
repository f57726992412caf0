import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LineAction, LogRow } from '../../../sim/season/log/rows.js';
import { Standing } from '../../../sim/season/log/standing.js';
import { at, taken } from '../../support/standings.js';

const STAGES = ['germination', 'nursery', 'finishing'];

function row(action: LineAction, count: number, batch: string, stage: string, crop = 'butterhead'): LogRow {
  return {
    line: 0,
    date: '2027-01-04',
    action,
    crop,
    batch,
    stage,
    channel: null,
    count,
    grams: null,
    note: null,
  };
}

/** A standing that has taken rows, all of which must be right. */
function standingOf(rows: readonly LogRow[], cutsOf?: (crop: string) => number): Standing {
  const standing = new Standing(STAGES, cutsOf);
  for (const each of rows) expect(taken(standing, each)).toBeNull();
  return standing;
}

const TEN_ON_THEIR_WAY = [
  row('sow', 10, 'B1', 'germination'),
  row('move', 8, 'B1', 'nursery'),
  row('lose', 2, 'B1', 'germination'),
  row('move', 5, 'B1', 'finishing'),
];

describe('plants stand where the rows have put them', () => {
  test('sown, moved and lost', () => {
    const standing = standingOf(TEN_ON_THEIR_WAY);
    expect(STAGES.map((stage) => at(standing, 'B1', stage))).toEqual([0, 3, 5]);
    expect(standing.batches()).toMatchObject([
      {
        name: 'B1',
        crop: 'butterhead',
        sown: '2027-01-04',
        seeds: 10,
        standing: [0, 3, 5],
        picked: 0,
        lost: 2,
      },
    ]);
  });

  test('a plant of one cut leaves when it is picked', () => {
    const standing = standingOf([...TEN_ON_THEIR_WAY, row('pick', 4, 'B1', 'finishing')]);
    expect(at(standing, 'B1', 'finishing')).toBe(1);
    expect(standing.batch('B1')).toMatchObject({ picked: 4, lost: 2 });
  });

  test('cleaning holes moves no plant', () => {
    const standing = standingOf([
      ...TEN_ON_THEIR_WAY,
      { ...row('clean', 9, '', 'finishing'), crop: '', channel: 'F3' },
    ]);
    expect(standing.batch('B1')!.standing).toEqual([0, 3, 5]);
  });

  test('batches do not mix', () => {
    const standing = standingOf([...TEN_ON_THEIR_WAY, row('sow', 6, 'B2', 'germination', 'romaine')]);
    expect(at(standing, 'B2', 'germination')).toBe(6);
    expect(at(standing, 'B1', 'germination')).toBe(0);
    expect(standing.batches().map(({ name, crop }) => `${name} ${crop}`)).toEqual([
      'B1 butterhead',
      'B2 romaine',
    ]);
  });

  test('a line of one stage is sown into and picked from', () => {
    const standing = new Standing(['bed']);
    expect(taken(standing, row('sow', 4, 'B1', 'bed'))).toBeNull();
    expect(taken(standing, row('pick', 3, 'B1', 'bed'))).toBeNull();
    expect(at(standing, 'B1', 'bed')).toBe(1);
    expect(taken(standing, row('move', 1, 'B1', 'bed'))).toMatch(/only one stage/);
  });

  test('nothing stands of what is not known', () => {
    const standing = standingOf(TEN_ON_THEIR_WAY);
    expect(standing.batch('B9')).toBeUndefined();
  });
});

describe('a row that cannot be true is refused and changes nothing', () => {
  test.each<[name: string, wrong: LogRow, ...parts: RegExp[]]>([
    [
      'more moved than stand',
      row('move', 4, 'B1', 'finishing'),
      /^count: found 4 plants of B1 moved/,
      /at most 3/,
    ],
    ['more picked than stand', row('pick', 6, 'B1', 'finishing'), /at most 5/],
    ['more lost than stand', row('lose', 1, 'B1', 'germination'), /expected none/],
    ['a stage left out', row('move', 1, 'B1', 'nursery'), /none stands in germination/],
    ['a batch sown twice', row('sow', 3, 'B1', 'germination'), /^batch: .*sown already \(2027-01-04\)/],
    ['a batch that nobody sowed', row('pick', 1, 'B7', 'finishing'), /^batch: found "B7"/],
    [
      'another crop',
      row('pick', 1, 'B1', 'finishing', 'romaine'),
      /^crop: found "romaine"; expected butterhead/,
    ],
    ['an unknown stage', row('move', 1, 'B1', 'attic'), /^stage: found "attic"/],
    ['sown into a later stage', row('sow', 3, 'B2', 'nursery'), /expected germination/],
    ['moved into the first stage', row('move', 1, 'B1', 'germination'), /a later stage/],
    ['picked from an earlier stage', row('pick', 1, 'B1', 'nursery'), /expected finishing/],
    ['half a plant', row('pick', 0.5, 'B1', 'finishing'), /whole number/],
    ['no plant', row('pick', 0, 'B1', 'finishing'), /whole number/],
  ])('%s', (_, wrong, ...parts) => {
    const standing = standingOf(TEN_ON_THEIR_WAY);
    const before = structuredClone(standing.batches());
    const answer = taken(standing, wrong);
    for (const part of parts) expect(answer).toMatch(part);
    expect(standing.batches()).toEqual(before);
  });
});

test('what was picked and is picked or lost again may be a crop of several cuts: the scenario says so', () => {
  const standing = standingOf([...TEN_ON_THEIR_WAY, row('pick', 5, 'B1', 'finishing')]);
  expect(taken(standing, row('pick', 2, 'B1', 'finishing'))).toMatch(/unless the scenario .* more cuts/);
  expect(taken(standing, row('lose', 1, 'B1', 'finishing'))).toMatch(/unless the scenario .* more cuts/);
  expect(taken(standing, row('lose', 4, 'B1', 'nursery'))).not.toMatch(/cuts/);
});

describe('a crop with three cuts', () => {
  const three = () => 3;
  const two = [
    row('sow', 2, 'B1', 'germination'),
    row('move', 2, 'B1', 'nursery'),
    row('move', 2, 'B1', 'finishing'),
  ];
  const pick = (count: number) => row('pick', count, 'B1', 'finishing');

  test('a plant stays until it has given them all', () => {
    const standing = standingOf([...two, pick(2), pick(2)], three);
    expect(at(standing, 'B1', 'finishing')).toBe(2);
    expect(taken(standing, pick(2))).toBeNull();
    expect(at(standing, 'B1', 'finishing')).toBe(0);
    expect(standing.batch('B1')!.picked).toBe(6);
    expect(taken(standing, pick(1))).toMatch(/expected none/);
  });

  test('a plant that has been cut once is still one plant', () => {
    expect(at(standingOf([...two, pick(2)], three), 'B1', 'finishing')).toBe(2);
  });

  test('a plant that dies takes at least one cut with it', () => {
    // Both have one cut left; one dies, the other gives its last.
    const standing = standingOf(
      [...two, pick(2), pick(2), row('lose', 1, 'B1', 'finishing'), pick(1)],
      three,
    );
    expect(at(standing, 'B1', 'finishing')).toBe(0);
  });

  test('one row picks no plant twice', () => {
    expect(taken(standingOf(two, three), pick(3))).toMatch(/at most 2/);
  });

  test('with one pick left in all, one plant can stand at most', () => {
    expect(at(standingOf([...two, pick(2), pick(2), pick(1)], three), 'B1', 'finishing')).toBe(1);
  });

  test('a plant that dies after its second cut does not take the cuts of the other with it', () => {
    // One plant is cut twice and dies; the other can still give three.
    const standing = standingOf(
      [...two, pick(1), pick(1), row('lose', 1, 'B1', 'finishing'), pick(1), pick(1), pick(1)],
      three,
    );
    expect(at(standing, 'B1', 'finishing')).toBe(0);
  });

  test('a plant that dies uncut leaves only what the other can give', () => {
    const standing = standingOf(
      [...two, row('lose', 1, 'B1', 'finishing'), pick(1), pick(1), pick(1)],
      three,
    );
    expect(taken(standing, pick(1))).toMatch(/expected none/);
  });
});

test('whatever happens to single plants, their log is taken, and seeds add up', () => {
  // Plants one by one, each with its own cuts: what such a line logs is true, so it must never be refused.
  const deed = fc.record({
    what: fc.constantFrom('sow', 'move', 'pick', 'lose'),
    which: fc.nat(30),
    count: fc.integer({ min: 1, max: 4 }),
  });
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 4 }), fc.array(deed, { maxLength: 60 }), (cuts, deeds) => {
      const standing = new Standing(STAGES, () => cuts);
      const plants: { stage: number; cutsLeft: number }[] = [];
      let sown = false;
      let seeds = 0;
      for (const { what, which, count } of deeds) {
        if (what === 'sow') {
          if (sown) continue;
          sown = true;
          seeds = count * 5;
          for (let i = 0; i < seeds; i++) plants.push({ stage: 0, cutsLeft: cuts });
          expect(taken(standing, row('sow', seeds, 'B1', 'germination'))).toBeNull();
          continue;
        }
        const chosen = plants[which % Math.max(1, plants.length)];
        if (
          chosen === undefined ||
          (what === 'move' && chosen.stage === 2) ||
          (what === 'pick' && chosen.stage !== 2)
        )
          continue;
        const some = plants.filter(({ stage }) => stage === chosen.stage).slice(-count);
        const stage = what === 'move' ? chosen.stage + 1 : chosen.stage;
        expect(taken(standing, row(what as LineAction, some.length, 'B1', STAGES[stage]!))).toBeNull();
        for (const plant of some) {
          if (what === 'move') plant.stage++;
          if (what === 'pick') plant.cutsLeft--;
          if (what === 'lose' || plant.cutsLeft === 0) plants.splice(plants.indexOf(plant), 1);
        }
        const stand = STAGES.map((_, s) => plants.filter((plant) => plant.stage === s).length);
        const told = standing.batch('B1')!.standing;
        expect(told.slice(0, 2)).toEqual(stand.slice(0, 2));
        expect(told[2]).toBeGreaterThanOrEqual(stand[2]!);
        if (cuts === 1) expect(told).toEqual(stand);
      }
      if (cuts === 1 && sown) {
        const { standing: told, picked, lost } = standing.batch('B1')!;
        expect(told.reduce((sum, plants) => sum + plants, 0) + picked + lost).toBe(seeds);
      }
    }),
    { seed: 7, numRuns: 500 },
  );
});

describe('more than can be is told with its row', () => {
  const million = (batch: string) => row('sow', 1_000_000, batch, 'germination');

  test('more plants at once than a line can have holes', () => {
    const two = [million('B1'), million('B2')];
    const standing = standingOf(two);
    expect(taken(standing, row('sow', 1, 'B3', 'germination'))).toBe(
      'count: found 1, with which 2000001 plants stand; expected at most 2000000 plants at once, for no line has more holes. Log what was picked or lost before.',
    );
    // Where some have gone others can come.
    standingOf([...two, row('lose', 1, 'B1', 'germination'), row('sow', 1, 'B3', 'germination')]);
  });

  test('more plants in all than a log is worked out of', () => {
    const ten = Array.from({ length: 10 }, (_, i) => [
      million(`B${i}`),
      row('lose', 1_000_000, `B${i}`, 'germination'),
    ]);
    expect(taken(standingOf(ten.flat()), row('sow', 1, 'more', 'germination'))).toBe(
      'count: found 1, with which the log tells of 10000001 plants; expected at most 10000000 in one log. Keep one log for each season.',
    );
  });
});
