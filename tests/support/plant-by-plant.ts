/**
 * What a season takes, worked out plant by plant from every single stay: the slow way, to hold faster ones against.
 */

import { toGrid } from '../../sim/engine/clock.js';
import { STATE_COUNT, STATES } from '../../sim/models/ledger.js';
import type { CoverCurve } from '../../sim/models/physical/cover.js';
import type { CropCourse } from '../../sim/models/physical/crop-course.js';
import { dailyLight, kwhPerHoleDay } from '../../sim/models/physical/light.js';
import { type Costs, costsOf, revenueOf, totalCost } from '../../sim/models/physical/money.js';
import type { PhysicalPlan } from '../../sim/models/physical/plan.js';
import { readyL, stayL } from '../../sim/models/physical/stay-water.js';
import { TankSeason } from '../../sim/models/physical/tank.js';
import { plantWaterMl } from '../../sim/models/physical/tissue.js';
import { type StageWater, stageWater } from '../../sim/models/physical/transpiration.js';
import { hoursOf, type WorkMinutes, workMinutes } from '../../sim/models/physical/work.js';
import { type GrowthSpell, growingOf, holesOf, type Plan, seasonDays } from '../../sim/models/plan.js';
import type { RecordedSeason, Stay } from './stays.js';

/** Everything that a season took. */
export interface Taken {
  /** mol by part, for each stage: the states of the ledger, `growing` split into `leaves` and `gaps`. */
  readonly light: readonly Readonly<Record<string, number>>[];
  /** By stage. */
  readonly kwh: readonly number[];
  readonly litres: Litres;
  readonly tank: TankSeason;
  readonly minutes: WorkMinutes;
  /** Of each visit, in their order. */
  readonly visitMinutes: readonly number[];
  readonly money: Money;
}

/** @param physical everything of it told */
export function takenBy(
  season: RecordedSeason,
  physical: PhysicalPlan,
  courses: readonly CropCourse[],
): Taken {
  const litres = litresOf(season, physical, courses);
  const tank = tankOf(season, physical, litres);
  return {
    light: season.plan.stages.map((_, s) => lightByPart(season, physical, courses, s)),
    kwh: kwhOf(season, physical),
    litres,
    tank,
    minutes: minutesOf(season, physical),
    visitMinutes: season.visits.map((day) => minutesOn(day, season, physical)),
    money: moneyOf(season, physical, tank.toppedUpL),
  };
}

/** The curve of a stay. */
function curveOf(course: CropCourse, { stage, cuts }: Stay): CoverCurve {
  return cuts > 0 ? course.regrow! : course.curves[course.stages.indexOf(stage)]!;
}

/** How far a stay had come at `t` [0..1]. */
function progress(plan: Plan, stay: Stay, t: number): number {
  const { from, days, grownUntil } = stay;
  const until = Math.max(from, Math.min(t, grownUntil));
  const { spells = [] } = growingOf(plan.crops[stay.crop]!, stay.stage, stay.cuts);
  return spells.length === 0
    ? (until - from) / days
    : Math.min(1, grown(spells, from, until) / toGrow(spells, stay));
}

/** Days of a spell count for less growth, or more: from day to day. */
function timesOn(spells: readonly GrowthSpell[], day: number): number {
  return spells.find(({ from, beyond }) => day >= from && day < beyond)?.times ?? 1;
}

function grown(spells: readonly GrowthSpell[], from: number, until: number): number {
  let sum = 0;
  for (let day = Math.floor(from); day < until; day++)
    sum += (Math.min(day + 1, until) - Math.max(day, from)) / timesOn(spells, day);
  return sum;
}

/** Growth that ends a stay: what ripens does so on the grid of time. */
function toGrow(spells: readonly GrowthSpell[], { from, days, dies, sprouts }: Stay): number {
  if (dies || !sprouts) return days;
  let left = days;
  let t = from;
  for (;;) {
    const times = timesOn(spells, Math.floor(t));
    const room = (Math.floor(t) + 1 - t) / times;
    if (left <= room) return grown(spells, from, from + toGrid(t + left * times - from));
    left -= room;
    t = Math.floor(t) + 1;
  }
}

/** Dry mass of the plant of a stay at `t` [g]. A seed that does not sprout stays what it was. */
function massAt(plan: Plan, stay: Stay, curve: CoverCurve, t: number): number {
  if (!stay.sprouts) return curve.fromG;
  return curve.massG(stay.grew === 'ready' && t >= stay.grownUntil ? 1 : progress(plan, stay, t));
}

/** One day (or what of it a stay had) of light on leaves and on leaf layers, and of waiting [d]. */
interface DayOfStay {
  readonly day: number;
  readonly cover: number;
  readonly layers: number;
  readonly waits: number;
}

/** A stay from its beginning to `t`, day by day: growth goes on evenly within a day. */
function* daysOf(plan: Plan, stay: Stay, curve: CoverCurve, t: number): Generator<DayOfStay> {
  if (!stay.sprouts) return;
  const { from, grownUntil, grew } = stay;
  const until = Math.min(t, stay.until);
  for (let day = Math.floor(from); day < until; day++) {
    const [start, end] = [Math.max(day, from), Math.min(day + 1, until)];
    const growsUntil = Math.max(start, Math.min(end, grownUntil));
    const u = progress(plan, stay, start);
    const next = grew === 'ready' && end >= grownUntil ? 1 : progress(plan, stay, growsUntil);
    const pace = next > u ? (growsUntil - start) / (next - u) : 0;
    yield {
      day,
      cover: pace * (curve.coverTime(next) - curve.coverTime(u)),
      layers: pace * (curve.leafTime(next) - curve.leafTime(u)),
      waits: grew === 'ready' ? end - growsUntil : 0,
    };
  }
}

function isDated(physical: PhysicalPlan): boolean {
  return physical.climate!.dated.length > 0;
}

/** What a square metre of a stage gives off on a day. */
function waterOn({ stages, climate }: PhysicalPlan, s: number, day: number): StageWater {
  const spell = climate!.dated.find(({ from, beyond }) => day >= from && day < beyond);
  return stageWater(stages[s]!.lamps!, spell?.air ?? climate!)!;
}

/** What a stay has given off by `t` [L], at scale 1, day by day. */
function givenOffByDay(plan: Plan, physical: PhysicalPlan, stay: Stay, curve: CoverCurve, t: number): number {
  let litres = 0;
  for (const { day, cover, layers, waits } of daysOf(plan, stay, curve, t)) {
    const { day: pace } = waterOn(physical, stay.stage, day);
    litres += curve.areaM2 * (pace.cover * cover + pace.leaf * layers) + waits * readyL(curve, pace);
  }
  return litres;
}

/** Is the plant of a stay alive at `t`, as far as anybody can tell? */
function lives(stay: Stay, t: number): boolean {
  return !((stay.grew === 'dead' || stay.grew === 'failed') && t >= stay.grownUntil);
}

/** What a stay has given off from its beginning to `t` [L], at scale 1. */
function givenOff(
  plan: Plan,
  physical: PhysicalPlan,
  stay: Stay,
  curve: CoverCurve,
  { day }: StageWater,
  t: number,
): number {
  if (isDated(physical)) return givenOffByDay(plan, physical, stay, curve, t);
  if (!stay.sprouts) return 0;
  const ready = stay.grew === 'ready' && t > stay.grownUntil;
  const growing = stayL(curve, day, stay.days, ready ? 1 : progress(plan, stay, t));
  return ready ? growing + (Math.min(t, stay.until) - stay.grownUntil) * readyL(curve, day) : growing;
}

/** Days of a stay on which light fell on nothing but its leaves [d]. */
function leafDays(plan: Plan, physical: PhysicalPlan, stay: Stay, curve: CoverCurve): number {
  const end = seasonDays(plan);
  if (isDated(physical)) return sum([...daysOf(plan, stay, curve, end)], ({ cover }) => cover);
  return stay.sprouts
    ? stay.days * curve.coverTime(stay.grew === 'ready' ? 1 : progress(plan, stay, end))
    : 0;
}

/** The parts of a stage's light, in mol: the states of the ledger, `growing` split. */
function lightByPart(
  { plan, stays, ledger }: RecordedSeason,
  physical: PhysicalPlan,
  courses: readonly CropCourse[],
  s: number,
): Record<string, number> {
  const { ppfd, hours } = physical.stages[s]!.lamps!;
  const molPerHoleDay = (plan.stages[s]!.holeAreaCm2! / 1e4) * dailyLight(ppfd, hours);
  const here = stays.filter(({ stage }) => stage === s);
  const leaves = sum(here, (stay) => leafDays(plan, physical, stay, curveOf(courses[stay.crop]!, stay)));
  const growing = sum(here, ({ from, grownUntil }) => grownUntil - from);
  const parts = Object.fromEntries(
    STATES.map((state, k) => [state, ledger[s * STATE_COUNT + k]! * molPerHoleDay] as const),
  );
  const { growing: _, ...others } = parts;
  return { leaves: leaves * molPerHoleDay, gaps: (growing - leaves) * molPerHoleDay, ...others };
}

/** Litres of a season. */
export interface Litres {
  readonly transpired: number;
  readonly picked: number;
  readonly standing: number;
  readonly thrownOut: number;
  readonly seeds: number;
  /** Taken from the tank. */
  readonly used: number;
  /** The same from one visit to the next: before the first, and so on, the last after the last visit. */
  readonly usedByVisit: readonly number[];
  /** Given off in each stage. */
  readonly transpiredInStage: readonly number[];
}

function litresOf(
  { plan, stays, visits }: RecordedSeason,
  physical: PhysicalPlan,
  courses: readonly CropCourse[],
): Litres {
  const end = seasonDays(plan);
  const { waterScale, climate } = physical;
  const waters = physical.stages.map(({ lamps }) => stageWater(lamps!, climate!)!);
  const inPlant = (stay: Stay, w: number): number => plantWaterMl(w, courses[stay.crop]!.dry) / 1000;
  const litres = { picked: 0, standing: 0, thrownOut: 0, seeds: 0 };
  const transpiredInStage = plan.stages.map(() => 0);
  const bounds = [...visits, end];
  const usedByVisit = bounds.map(() => 0);
  for (const stay of stays) {
    const course = courses[stay.crop]!;
    const curve = curveOf(course, stay);
    const water = waters[stay.stage]!;
    const until = Math.min(stay.until, end);
    transpiredInStage[stay.stage]! += waterScale * givenOff(plan, physical, stay, curve, water, until);
    if (stay.stage === course.stages[0] && stay.cuts === 0) litres.seeds += inPlant(stay, curve.fromG);
    const whole = massAt(plan, stay, curve, until);
    const taken = stay.ended === 'picked' || stay.ended === 'cut' ? course.pickG : 0;
    litres.picked += inPlant(stay, taken);
    if (stay.ended === 'picked') litres.thrownOut += inPlant(stay, whole - taken);
    if (stay.ended === 'discarded' || !lives(stay, until)) litres.thrownOut += inPlant(stay, whole);
    else if (stay.ended === 'standing') litres.standing += inPlant(stay, whole);
    // What it had taken up by each visit, and so between them.
    let before = 0;
    for (const [i, t] of bounds.entries()) {
      if (t <= stay.from) continue;
      const upTo = Math.min(t, until);
      const taken =
        waterScale * givenOff(plan, physical, stay, curve, water, upTo) +
        inPlant(stay, massAt(plan, stay, curve, upTo) - curve.fromG);
      usedByVisit[i]! += taken - before;
      before = taken;
      if (t >= until) break;
    }
  }
  return {
    ...litres,
    transpired: sum(transpiredInStage, (l) => l),
    transpiredInStage,
    used: sum(usedByVisit, (l) => l),
    usedByVisit,
  };
}

/** The tank of the season, led from visit to visit. */
function tankOf({ visits }: RecordedSeason, physical: PhysicalPlan, { usedByVisit }: Litres): TankSeason {
  const tank = new TankSeason(physical.tank!);
  for (const [i, day] of visits.entries()) tank.visit(day, usedByVisit[i]!);
  tank.end(usedByVisit[visits.length]!);
  return tank;
}

/** Lamps of the season, by stage [kWh]. */
function kwhOf({ plan }: RecordedSeason, { stages }: PhysicalPlan): number[] {
  return plan.stages.map((stage, s) => {
    const holes = holesOf(stage);
    const perHoleDay = kwhPerHoleDay(stages[s]!.lamps!, stage.holeAreaCm2! / 1e4, holes)!;
    return perHoleDay * holes * seasonDays(plan);
  });
}

/** Minutes of each deed. */
function minutesOf({ plan, stays, visits }: RecordedSeason, { work }: PhysicalPlan): WorkMinutes {
  const count = (is: (stay: Stay) => boolean): number => stays.filter(is).length;
  const gone = (stay: Stay): boolean => stay.ended !== 'standing' && stay.ended !== 'cut';
  return workMinutes(work!, {
    sown: count(({ stage, cuts }) => stage === 0 && cuts === 0),
    moved: count(({ ended }) => ended === 'moved'),
    picked: count(({ ended }) => ended === 'picked' || ended === 'cut'),
    cleared: count(({ ended }) => ended === 'cleared' || ended === 'discarded'),
    cleaned: count((stay) => gone(stay) && plan.stages[stay.stage]!.cleanDays > 0),
    visits: visits.length,
  });
}

/** Minutes of the visit of a day: of all stays, those that began or ended then. */
function minutesOn(day: number, season: RecordedSeason, physical: PhysicalPlan): number {
  const stays = season.stays.flatMap((stay): Stay[] => {
    const came = stay.from === day && stay.stage === 0 && stay.cuts === 0;
    const went = stay.until === day && stay.ended !== 'standing';
    if (!came && !went) return [];
    // Minutes are counted by what a stay tells: of one that came, sowing; of one that went, the rest.
    return [
      ...(came ? [{ ...stay, ended: 'standing' as const }] : []),
      ...(went ? [{ ...stay, cuts: Number.NaN }] : []),
    ];
  });
  return 60 * hoursOf(minutesOf({ ...season, stays, visits: [day] }, physical));
}

export interface Money {
  readonly costs: Costs;
  readonly total: number;
  readonly revenue: number | null;
  /** Picks by crop, and what they weigh in sum [kg]. */
  readonly picked: readonly number[];
  readonly pickedKg: number;
}

/** @param litres bought */
function moneyOf(season: RecordedSeason, physical: PhysicalPlan, litres: number): Money {
  const { plan, stays } = season;
  const prices = physical.prices!;
  const of = (c: number, is: (stay: Stay) => boolean): number =>
    stays.filter((stay) => stay.crop === c && is(stay)).length;
  const picked = plan.crops.map((_, c) => of(c, ({ ended }) => ended === 'picked' || ended === 'cut'));
  const costs = costsOf(prices, {
    kwh: sum(kwhOf(season, physical), (kwh) => kwh),
    litres,
    sown: plan.crops.map((_, c) => of(c, ({ stage, cuts }) => stage === 0 && cuts === 0)),
    picked,
    hours: hoursOf(minutesOf(season, physical)),
    holes: sum(plan.stages, holesOf),
    days: seasonDays(plan),
  });
  const revenue = revenueOf(
    prices,
    picked,
    plan.crops.map(({ headG }) => headG),
  );
  const pickedKg = sum(picked, (count, c) => (count * plan.crops[c]!.headG!) / 1000);
  return { costs, total: totalCost(costs), revenue, picked, pickedKg };
}

function sum<Item>(items: readonly Item[], of: (item: Item, i: number) => number): number {
  return items.reduce((total, item, i) => total + of(item, i), 0);
}
