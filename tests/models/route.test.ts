import { describe, expect, test } from 'vitest';
import * as route from '../../sim/models/route.js';
import { crop, every, grow, line, stage, time } from '../support/plans.js';

function lineOf(stages: number) {
  const indices = Array.from({ length: stages }, (_, s) => s);
  const leaf = crop(
    indices.map(() => grow(time(5))),
    every(7, 70, 10),
  );
  return line(
    indices.map((s) => stage(`stage ${s}`, 10)),
    [leaf],
    { weeks: 10 },
  );
}

describe.each(['line', 'crop'])('the route of a %s', (of) => {
  const routeOf = (stages: number) => (of === 'line' ? lineOf(stages) : lineOf(stages).crops[0]!);

  test('leads through every stage in order, from the first to the last, and ends there', () => {
    const three = routeOf(3);
    const passed = [];
    for (let s = route.first(three); s >= 0; s = route.next(three, s)) passed.push(s);
    expect(passed).toEqual([0, 1, 2]);
    expect(passed.map((s) => route.isLast(three, s))).toEqual([false, false, true]);
    expect(route.last(three)).toBe(2);
  });

  test('leads back through the same stages, and nothing comes before the first', () => {
    const three = routeOf(3);
    const passed = [];
    for (let s = route.last(three); s >= 0; s = route.before(three, s)) passed.push(s);
    expect(passed).toEqual([2, 1, 0]);
  });

  test('of one stage begins and ends in it', () => {
    const one = routeOf(1);
    expect(route.first(one)).toBe(0);
    expect(route.isLast(one, 0)).toBe(true);
    expect(route.next(one, 0)).toBe(-1);
    expect(route.before(one, 0)).toBe(-1);
  });
});
