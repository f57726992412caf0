/**
 * The line of sim/models/line once more, written the straightforward way: an object a plant, a closure an event,
 * a binary heap, arrays for the plants that wait.
 *
 * Two uses: the benchmark measures the simulator against it, and tests/models/agreement.test.ts holds the averages of
 * the two against each other. It shares the plan and the distributions with the simulator, nothing else, and draws
 * its luck from one stream as it goes: same averages, other seasons. It cannot sow to refill.
 */

import { gammaLaw } from '../../sim/engine/gamma-law.js';
import {
  exponentialLaw,
  fixedLaw,
  type Law,
  lognormalLaw,
  observedLaw,
  triangularLaw,
  weibullLaw,
} from '../../sim/engine/laws.js';
import { stream } from '../../sim/engine/random.js';
import {
  BLOCKED,
  CLEANING,
  type CountName,
  DEAD,
  FILLING,
  GROWING,
  HELD,
  STATE_COUNT,
  UNATTENDED,
  UNSUPPLIED,
  UNTENDED,
} from '../../sim/models/ledger.js';
import {
  type Growing,
  type GrowthSpell,
  type GrowthTime,
  holesOf,
  type Plan,
  seasonDays,
} from '../../sim/models/plan.js';

export interface Outcome {
  counts: Record<CountName, number>;
  /** Hole-days [d]: one row a stage, one column a state. */
  ledger: number[][];
  /** Picks in each week. */
  weekPicks: number[];
  /** Time of the first pick [d]; NaN if never. */
  firstPick: number;
}

interface Crop {
  germination: number;
  cuts: number;
  seedsPerSowing: number;
  /** Seeds that fell due since the last visit. */
  seedsDue: number;
  /** Seeds that fell due before another sowing did, and are dropped. */
  seedsDropped: number;
  /** What it does in each stage. */
  stages: Growth[];
  regrow: Growth | null;
}

interface Growth {
  law: Law;
  loss: number;
  keeps: number;
  /** Spells in which it takes longer or shorter; null if there are none. */
  spells: readonly GrowthSpell[] | null;
}

interface Stage {
  index: number;
  cleanDays: number;
  /** Holes that can be used and hold nothing. */
  free: number;
  /** Holes that are clean again and wait for a visit to take them back into use; booked as being cleaned. */
  cleaned: number;
  /** Holes in each occupied state and in cleaning, by place in the ledger. */
  holes: number[];
  /** Whether anything was ever ready to come in. */
  supplied: boolean;
  /** Whether a plant that waits here can ever be too old. */
  expires: boolean;
  /** Ready plants, longest ready first. */
  waiting: WaitingList;
  /** Plants that became ready since the last visit. */
  unseen: Plant[];
  holeDays: number[];
}

interface Plant {
  number: number;
  crop: Crop;
  stage: Stage;
  /** State of its hole, or GONE. */
  state: number;
  readyAt: number;
  picks: number;
}

const GONE = -1;

/** Run one season. @throws Error for a plan that sows to refill */
export function runStraightforward(plan: Plan, seed: number, season: number): Outcome {
  const draw = stream(seed, season, ['straightforward']);
  const uniform = (): number => draw() + 2 ** -33;
  const end = seasonDays(plan);
  const always = plan.visits.kind === 'always';
  const events = new EventHeap();
  const stages = plan.stages.map((stage, index): Stage => {
    return {
      index,
      cleanDays: stage.cleanDays,
      free: holesOf(stage),
      cleaned: 0,
      holes: new Array<number>(STATE_COUNT).fill(0),
      supplied: false,
      expires: plan.crops.some((crop) => crop.stages[index]!.keeps < Infinity),
      waiting: new WaitingList(),
      unseen: [],
      holeDays: new Array<number>(STATE_COUNT).fill(0),
    };
  });
  const first = stages[0]!;
  const last = stages[stages.length - 1]!;
  const crops = plan.crops.map((crop): Crop => {
    if (crop.sowing.kind !== 'due') throw new Error('the straightforward version cannot sow to refill');
    return {
      germination: crop.germination,
      cuts: crop.cuts,
      seedsPerSowing: crop.sowing.seeds,
      seedsDue: 0,
      seedsDropped: 0,
      stages: crop.stages.map(growthOf),
      regrow: crop.regrow === null ? null : growthOf(crop.regrow),
    };
  });
  const counts: Record<CountName, number> = {
    sown: 0,
    unsown: 0,
    failed: 0,
    lost: 0,
    discarded: 0,
    picked: 0,
    picked_out: 0,
    wanted: 0,
    short: 0,
    standing: 0,
  };
  const weekPicks = new Array<number>(plan.weeks).fill(0);
  let firstPick = Number.NaN;
  let now = 0;
  /** Heads that may still be picked today. */
  let quota = plan.want === null ? Infinity : 0;
  let visitDue = false;

  // Time.

  function advance(to: number): void {
    const span = to - now;
    if (span > 0) {
      for (const stage of stages) {
        const { free, holes, holeDays } = stage;
        for (let state = 0; state <= CLEANING; state++) holeDays[state] += holes[state]! * span;
        if (!stage.supplied) {
          holeDays[FILLING] += free * span;
        } else {
          const waiting = stage === first ? 0 : stages[stage.index - 1]!.holes[UNATTENDED]!;
          const untended = Math.min(free, waiting);
          holeDays[UNTENDED] += untended * span;
          holeDays[UNSUPPLIED] += (free - untended) * span;
        }
      }
    }
    now = to;
  }

  function after(delay: number, action: () => void): void {
    events.push(now + delay, action);
  }

  // What happens to a plant by itself.

  function setState(plant: Plant, state: number): void {
    plant.stage.holes[plant.state]!--;
    plant.stage.holes[state]!++;
    plant.state = state;
  }

  function grow(plant: Plant, growth: Growth, sprouts: boolean): void {
    const time = growth.law.quantile(uniform());
    const takes = (part: number): number => daysFor(growth.spells, now, part);
    if (!sprouts) after(takes(time), () => die(plant, 'failed'));
    else if (growth.loss > 0 && uniform() < growth.loss)
      after(takes(time * uniform()), () => die(plant, 'lost'));
    else after(takes(time), () => becomeReady(plant));
  }

  function die(plant: Plant, why: 'failed' | 'lost'): void {
    setState(plant, DEAD);
    counts[why]++;
  }

  function becomeReady(plant: Plant): void {
    const stage = plant.stage;
    setState(plant, UNATTENDED);
    plant.readyAt = now;
    stage.waiting.add(plant);
    stage.unseen.push(plant);
    if (stage !== last) stages[stage.index + 1]!.supplied = true;
  }

  // Holes.

  function leaveHole(stage: Stage, state: number): void {
    stage.holes[state]!--;
    if (stage.cleanDays === 0) {
      stage.free++;
      return;
    }
    stage.holes[CLEANING]!++;
    after(stage.cleanDays, () => {
      stage.cleaned++;
    });
  }

  function enterHole(plant: Plant, stage: Stage): void {
    stage.free--;
    stage.holes[GROWING]!++;
    plant.stage = stage;
    plant.state = GROWING;
  }

  function discard(plant: Plant): void {
    leaveHole(plant.stage, plant.state);
    plant.state = GONE;
    counts.discarded++;
  }

  // A visit.

  function visit(): void {
    for (const stage of stages) clear(stage);
    pickReady();
    for (let i = stages.length - 2; i >= 0; i--) moveOn(stages[i]!, stages[i + 1]!);
    for (const crop of crops) sowDue(crop);
    for (const stage of stages) see(stage);
  }

  function clear(stage: Stage): void {
    stage.free += stage.cleaned;
    stage.holes[CLEANING] -= stage.cleaned;
    stage.cleaned = 0;
    while (stage.holes[DEAD]! > 0) leaveHole(stage, DEAD);
    // With `always`, each plant's own event discards it.
    if (stage.expires && !always) {
      for (const plant of stage.waiting.takeOut((p) => now - p.readyAt > p.crop.stages[stage.index]!.keeps)) {
        discard(plant);
      }
    }
  }

  function pickReady(): void {
    while (quota > 0) {
      const plant = last.waiting.takeFirst();
      if (plant === undefined) return;
      quota--;
      counts.picked++;
      weekPicks[Math.floor(now / 7)]!++;
      if (Number.isNaN(firstPick)) firstPick = now;
      plant.picks++;
      if (plant.picks < plant.crop.cuts) {
        setState(plant, GROWING);
        grow(plant, plant.crop.regrow!, true);
      } else {
        leaveHole(last, plant.state);
        plant.state = GONE;
        counts.picked_out++;
      }
    }
  }

  function moveOn(from: Stage, to: Stage): void {
    while (to.free > 0) {
      const plant = from.waiting.takeFirst();
      if (plant === undefined) return;
      leaveHole(from, plant.state);
      enterHole(plant, to);
      grow(plant, plant.crop.stages[to.index]!, true);
    }
  }

  function sowDue(crop: Crop): void {
    const seeds = Math.min(crop.seedsDue, first.free);
    counts.unsown += crop.seedsDue - seeds + crop.seedsDropped;
    crop.seedsDue = 0;
    crop.seedsDropped = 0;
    for (let i = 0; i < seeds; i++) {
      const plant = { number: counts.sown, crop, stage: first, state: GONE, readyAt: 0, picks: 0 };
      counts.sown++;
      enterHole(plant, first);
      grow(plant, crop.stages[0]!, crop.germination >= 1 || uniform() < crop.germination);
    }
    if (seeds > 0) first.supplied = true;
  }

  function see(stage: Stage): void {
    if (stage.unseen.length === 0) return;
    for (const plant of stage.unseen) {
      // It may have been picked or moved on, and be in any state elsewhere by now.
      if (plant.stage !== stage || plant.state !== UNATTENDED) continue;
      setState(plant, stage === last ? HELD : BLOCKED);
      if (always) discardInTime(plant);
    }
    stage.unseen = [];
  }

  /** With `always`: the plant was seen at the instant at which it became ready, and keeps from then on. */
  function discardInTime(plant: Plant): void {
    const { stage, readyAt } = plant;
    const { keeps } = plant.crop.stages[stage.index]!;
    if (keeps === Infinity) return;
    after(keeps, () => {
      const stillWaits =
        plant.stage === stage &&
        plant.readyAt === readyAt &&
        (plant.state === BLOCKED || plant.state === HELD);
      if (stillWaits) discard(plant);
    });
  }

  // What is known of the season beforehand.

  if (plan.visits.kind === 'days') {
    for (const day of plan.visits.days) {
      events.push(day, () => {
        visitDue = true;
      });
    }
  }
  plan.crops.forEach((crop, i) => {
    if (crop.sowing.kind !== 'due') return;
    const { days, missed } = crop.sowing;
    for (const day of days) {
      events.push(day, () => {
        const due = crops[i]!;
        if (missed === 'dropped') {
          due.seedsDropped += due.seedsDue;
          due.seedsDue = 0;
        }
        due.seedsDue += due.seedsPerSowing;
      });
    }
  });
  const { want } = plan;
  if (want !== null) {
    for (const day of want.days) {
      events.push(day, () => {
        quota = want.heads;
        counts.wanted += want.heads;
      });
      // Before the quota of the day after opens, which is a later event of the same instant.
      if (day + 1 < end) events.push(day + 1, closeQuota);
    }
  }

  function closeQuota(): void {
    counts.short += quota;
    quota = 0;
  }

  // The season.

  while (events.nextTime() < end) {
    advance(events.nextTime());
    while (events.nextTime() === now) events.pop()();
    if (always || visitDue) visit();
    visitDue = false;
  }
  advance(end);
  if (want !== null) closeQuota();
  for (const { holes } of stages) {
    counts.standing += holes[GROWING]! + holes[UNATTENDED]! + holes[BLOCKED]! + holes[HELD]!;
  }
  return { counts, ledger: stages.map((stage) => stage.holeDays), weekPicks, firstPick };
}

/** Plants in the order in which they became ready; those that are gone are passed over. */
class WaitingList {
  private plants: Plant[] = [];
  private head = 0;

  add(plant: Plant): void {
    const { plants } = this;
    plants.push(plant);
    // Of plants that became ready at one instant, the lower number comes first.
    let i = plants.length - 1;
    while (i > this.head && comesBefore(plant, plants[i - 1]!)) {
      plants[i] = plants[i - 1]!;
      i--;
    }
    plants[i] = plant;
  }

  takeFirst(): Plant | undefined {
    while (this.head < this.plants.length) {
      const plant = this.plants[this.head++]!;
      if (this.head > 1000 && this.head * 2 > this.plants.length) {
        this.plants = this.plants.slice(this.head);
        this.head = 0;
      }
      if (plant.state !== GONE) return plant;
    }
    return undefined;
  }

  takeOut(isWanted: (plant: Plant) => boolean): Plant[] {
    const waiting = this.plants.slice(this.head);
    this.plants = waiting.filter((plant) => !isWanted(plant));
    this.head = 0;
    return waiting.filter(isWanted);
  }
}

function comesBefore(a: Plant, b: Plant): boolean {
  return a.readyAt < b.readyAt || (a.readyAt === b.readyAt && a.number < b.number);
}

interface TimedEvent {
  time: number;
  seq: number;
  action: () => void;
}

/** A binary heap of events: by time, first in first out among equals. */
class EventHeap {
  private readonly events: TimedEvent[] = [];
  private pushed = 0;

  /** Time of the next event; Infinity if there is none. */
  nextTime(): number {
    return this.events.length === 0 ? Infinity : this.events[0]!.time;
  }

  push(time: number, action: () => void): void {
    const { events } = this;
    const event = { time, seq: this.pushed++, action };
    let i = events.length;
    events.push(event);
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!isEarlier(event, events[parent]!)) break;
      events[i] = events[parent]!;
      i = parent;
    }
    events[i] = event;
  }

  /** Take the next event out. @returns its action */
  pop(): () => void {
    const { events } = this;
    const top = events[0]!;
    const moved = events.pop()!;
    const { length } = events;
    if (length > 0) {
      let i = 0;
      for (;;) {
        let child = 2 * i + 1;
        if (child >= length) break;
        if (child + 1 < length && isEarlier(events[child + 1]!, events[child]!)) child++;
        if (!isEarlier(events[child]!, moved)) break;
        events[i] = events[child]!;
        i = child;
      }
      events[i] = moved;
    }
    return top.action;
  }
}

function isEarlier(a: TimedEvent, b: TimedEvent): boolean {
  return a.time < b.time || (a.time === b.time && a.seq < b.seq);
}

function growthOf(growing: Growing): Growth {
  return {
    law: lawOf(growing.time),
    loss: growing.loss,
    keeps: growing.keeps,
    spells: growing.spells ?? null,
  };
}

/** Days that some growth takes from `now` on, where a day of a spell brings 1/times of a day's growth. */
function daysFor(spells: readonly GrowthSpell[] | null, now: number, growth: number): number {
  if (spells === null) return growth;
  let t = now;
  let left = growth;
  for (;;) {
    const times = spells.find(({ from, beyond }) => t >= from && t < beyond)?.times ?? 1;
    const room = (Math.floor(t) + 1 - t) / times;
    if (left <= room) return t + left * times - now;
    left -= room;
    t = Math.floor(t) + 1;
  }
}

/** Laws already made: a gamma law takes longer to make than a small season to run. */
const laws = new WeakMap<GrowthTime, Law>();

function lawOf(time: GrowthTime): Law {
  let law = laws.get(time);
  if (law === undefined) {
    law = makeLaw(time);
    laws.set(time, law);
  }
  return law;
}

function makeLaw({ shape, days, spread, times }: GrowthTime): Law {
  switch (shape) {
    case 'lognormal':
      return lognormalLaw(days, spread);
    case 'gamma':
      return gammaLaw(days, spread);
    case 'weibull':
      return weibullLaw(days, spread);
    case 'triangular':
      return triangularLaw(days, spread);
    case 'exponential':
      return exponentialLaw(days);
    case 'fixed':
      return fixedLaw(days);
    case 'observed':
      return observedLaw(times);
  }
}
