import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EventQueue } from '../../sim/engine/event-queue.js';

const HORIZON = 100;

/** Everything that is pending, in order: `id@time`. */
function drain(queue: EventQueue): string[] {
  const events: string[] = [];
  for (let id = queue.next(); id >= 0; id = queue.next()) events.push(`${id}@${queue.now}`);
  return events;
}

describe('order', () => {
  test('events come in order of time, not of scheduling', () => {
    const queue = new EventQueue(4, HORIZON, 4);
    queue.schedule(0, 30);
    queue.schedule(1, 10);
    queue.schedule(2, 99.5);
    queue.schedule(3, 20);
    expect(drain(queue)).toEqual(['1@10', '3@20', '0@30', '2@99.5']);
  });

  test('among equal times the first to be scheduled comes first', () => {
    const queue = new EventQueue(5, HORIZON, 5);
    for (const id of [3, 0, 4, 1, 2]) queue.schedule(id, 7);
    expect(drain(queue)).toEqual(['3@7', '0@7', '4@7', '1@7', '2@7']);
  });

  test('what is scheduled for now while now is at work comes behind what was there', () => {
    const queue = new EventQueue(4, HORIZON, 4);
    queue.schedule(0, 5);
    queue.schedule(1, 5);
    expect(queue.next()).toBe(0);
    queue.schedule(2, 5);
    queue.schedule(3, 5);
    expect(drain(queue)).toEqual(['1@5', '2@5', '3@5']);
  });

  test('what is scheduled into the bucket that is open comes in order of time, then of scheduling', () => {
    // One bucket is 100/64 d wide: all this happens within the first.
    const queue = new EventQueue(8, HORIZON, 8);
    queue.schedule(0, 0.25);
    queue.schedule(1, 1);
    expect(queue.next()).toBe(0);
    queue.schedule(2, 1.25);
    queue.schedule(3, 0.5);
    queue.schedule(4, 1);
    queue.schedule(5, 0.5);
    queue.schedule(6, 1);
    expect(drain(queue)).toEqual(['3@0.5', '5@0.5', '1@1', '4@1', '6@1', '2@1.25']);
  });

  test('an event may be scheduled again once it has happened, also by itself', () => {
    const queue = new EventQueue(1, HORIZON, 1);
    const times: number[] = [];
    queue.schedule(0, 0);
    while (queue.next() === 0) {
      times.push(queue.now);
      queue.schedule(0, queue.now + 40);
    }
    expect(times).toEqual([0, 40, 80]);
  });

  test('hundreds of events in one bucket are sorted too, and equal ones keep their order', () => {
    // More than the 24 up to which a bucket is sorted by insertion, and not a multiple of it.
    for (const n of [25, 48, 49, 97, 500]) {
      const queue = new EventQueue(n, HORIZON, 0);
      const events = Array.from({ length: n }, (_, id) => ({ id, time: ((id * 7919) % 31) / 32 }));
      for (const { id, time } of events) queue.schedule(id, time);
      const sorted = [...events].sort((a, b) => a.time - b.time || a.id - b.id);
      expect(drain(queue)).toEqual(sorted.map(({ id, time }) => `${id}@${time}`));
    }
  });
});

describe('what is refused', () => {
  test('a time that is not a number', () => {
    const queue = new EventQueue(1, HORIZON, 1);
    expect(() => queue.schedule(0, Number.NaN)).toThrow(RangeError);
  });

  test('the past', () => {
    const queue = new EventQueue(2, HORIZON, 2);
    queue.schedule(0, 10);
    queue.next();
    expect(() => queue.schedule(1, 10 - 2 ** -40)).toThrow('event 1 at');
    expect(() => queue.schedule(1, 10)).not.toThrow();
    expect(() => new EventQueue(1, HORIZON, 1).schedule(0, -1)).toThrow(RangeError);
  });

  test('an event that is pending already, in a bucket to come or in the open one', () => {
    const queue = new EventQueue(3, HORIZON, 3);
    queue.schedule(0, 0);
    queue.schedule(1, 50);
    expect(() => queue.schedule(1, 60)).toThrow('event 1 is pending already');
    queue.next();
    queue.schedule(2, 0);
    expect(() => queue.schedule(2, 0)).toThrow('event 2 is pending already');
  });

  test.each([
    [0, HORIZON, 1],
    [1.5, HORIZON, 1],
    [1, 0, 1],
    [1, Infinity, 1],
    [1, Number.NaN, 1],
    [1, HORIZON, -1],
    [1, HORIZON, Number.NaN],
  ])('a queue of %d ids up to %d with %d expected events', (ids, horizon, expected) => {
    expect(() => new EventQueue(ids, horizon, expected)).toThrow(RangeError);
  });
});

describe('the end', () => {
  test('what would happen at or after the horizon does not happen, and its id stays free', () => {
    const queue = new EventQueue(2, HORIZON, 2);
    expect(queue.schedule(0, HORIZON)).toBe(false);
    expect(queue.schedule(0, Infinity)).toBe(false);
    expect(queue.schedule(0, HORIZON - 2 ** -24)).toBe(true);
    expect(drain(queue)).toEqual([`0@${HORIZON - 2 ** -24}`]);
  });

  test('nothing pending is -1, again and again, and the clock stands still', () => {
    const queue = new EventQueue(1, HORIZON, 1);
    expect(queue.next()).toBe(-1);
    queue.schedule(0, 3);
    queue.next();
    expect(queue.next()).toBe(-1);
    expect(queue.next()).toBe(-1);
    expect(queue.now).toBe(3);
  });

  test('after a reset it is as new', () => {
    const queue = new EventQueue(3, HORIZON, 3);
    for (let id = 0; id < 3; id++) queue.schedule(id, 10 * id);
    queue.next();
    queue.reset();
    expect(queue.now).toBe(0);
    expect(queue.next()).toBe(-1);
    for (let id = 0; id < 3; id++) queue.schedule(id, 5);
    expect(drain(queue)).toEqual(['0@5', '1@5', '2@5']);
  });
});

test('hasMoreNow tells whether another event is pending at exactly this instant', () => {
  const queue = new EventQueue(4, HORIZON, 4);
  queue.schedule(0, 5);
  queue.schedule(1, 5);
  queue.schedule(2, 5 + 2 ** -24);
  queue.next();
  expect(queue.hasMoreNow()).toBe(true);
  queue.next();
  expect(queue.hasMoreNow()).toBe(false);
  queue.schedule(3, 5);
  expect(queue.hasMoreNow()).toBe(true);
  queue.next();
  expect(queue.hasMoreNow()).toBe(false);
  queue.next();
  expect(queue.hasMoreNow()).toBe(false);
});

test('does what a sorted list does, however scheduling and taking are mixed', () => {
  const IDS = 80;
  const step = fc.oneof(
    // A few distinct delays, so that equal times are common; 0 is now.
    fc.record({ id: fc.nat(IDS - 1), delay: fc.constantFrom(0, 0, 0.125, 0.5, 1, 1.5, 10, 120) }),
    fc.record({ id: fc.nat(IDS - 1), delay: fc.double({ min: 0, max: 30, noNaN: true }) }),
    fc.constant('next' as const),
  );
  const steps = fc.array(step, { minLength: 1, maxLength: 400, size: 'max' });
  fc.assert(
    fc.property(steps, fc.constantFrom(0, 1000, 1e5), (script, expected) => {
      const queue = new EventQueue(IDS, HORIZON, expected);
      let list: { id: number; time: number }[] = [];
      let now = 0;
      const take = (): void => {
        // Stable: of equal times the one that was put in first stays first.
        list.sort((a, b) => a.time - b.time);
        const first = list.shift();
        const id = queue.next();
        if (id !== (first?.id ?? -1)) throw new Error(`${id} came instead of ${first?.id}`);
        now = first?.time ?? now;
        if (queue.now !== now) throw new Error(`clock at ${queue.now} instead of ${now}`);
        const more = list.some(({ time }) => time === now);
        if (queue.hasMoreNow() !== more) throw new Error(`hasMoreNow is not ${more} at ${now}`);
      };
      for (const action of script) {
        if (action === 'next') {
          take();
          continue;
        }
        const { id, delay } = action;
        if (list.some((event) => event.id === id)) continue;
        const time = now + delay;
        if (queue.schedule(id, time) !== time < HORIZON) throw new Error(`wrong answer for ${time}`);
        if (time < HORIZON) list.push({ id, time });
      }
      while (list.length > 0) take();
      take();
      list = [];
    }),
    { seed: 24, numRuns: 300 },
  );
});
