/**
 * What to sow on the coming dates, so that no hole stands empty for want of plants and none is sown for nothing.
 *
 * The rule. The plants of a sowing come into a stage, by the mean times of the plan, some days later. Until those of the
 * next sowing come, the stage has room for as many as it has holes, less what is expected to be taken there by then without
 * them: by what stands in the line now, in futures in which nothing more is sown, and by what the sowings before bring.
 * The stage with the least room says how many seeds are sown; or the heads that are wanted in that time, if those are fewer.
 * A long gap is not filled at one go: that would make a glut, and a gap after it. So no sowing is more than twice what the
 * line can take in for ever in the days until the next.
 * Where several crops have dates of their own, each has that share of every stage which it would take if it were sown as
 * the scenario says.
 */

import { type Passage, passagesOf } from '../../models/passage.js';
import { holesOf, type Plan, seasonDays, seedsDueOf } from '../../models/plan.js';
import { chancesToPick } from '../../models/refill.js';
import * as route from '../../models/route.js';
import type { ComingSowing } from './coming-sowings.js';
import type { Load } from './load-watch.js';

/** No sowing is larger than so many times what the line can take in until the next. */
const MOST_OF_PACE = 2;

/** With `takes`: days for which a plant takes a hole, cleaning included [d]. */
type FittingPassage = Passage & { readonly takes: number };

/** Days from a sowing to the last pick of the slowest crop, waits included [d]. */
export function longestWay(plan: Plan): number {
  const ways = plan.crops.map((crop) => passagesOf(plan, crop).reduce((sum, { stay }) => sum + stay, 0));
  return Math.max(...ways);
}

/** The same without waits: the least that it can be on average, whenever somebody comes [d]. */
export function longestGrowth(plan: Plan): number {
  const ways = plan.crops.map(
    ({ stages, cuts, regrow }) =>
      stages.reduce((sum, { time }) => sum + time.days, 0) + (cuts - 1) * (regrow?.time.days ?? 0),
  );
  return Math.max(...ways);
}

/** Seeds for one sowing; with fractions. */
export interface FittingSeeds {
  readonly seeds: number;
  /** Cells that are expected to be free for them. */
  readonly cells: number;
}

/**
 * @param load of the line if nothing more is sown of the crops that have dates
 * @returns one entry a sowing, in their order
 */
export function seedsThatFit(
  plan: Plan,
  sowings: readonly ComingSowing[],
  load: Load,
): readonly FittingSeeds[] {
  const fitting = new Fitting(plan, sowings, load);
  for (let i = 0; i < sowings.length; i++) fitting.next();
  return fitting.found;
}

/**
 * Whole seeds: `multiple` of what fits, no more than there are cells. What rounding leaves is carried to the crop's next
 * sowing.
 */
export function wholeSeeds(
  sowings: readonly ComingSowing[],
  fitting: readonly FittingSeeds[],
  multiple: number,
): number[] {
  const carry = new Map<number, number>();
  return sowings.map(({ crop }, i) => {
    const { seeds, cells } = fitting[i]!;
    const exact = multiple * seeds + (carry.get(crop) ?? 0);
    const whole = Math.max(0, Math.min(Math.round(exact), Math.floor(cells)));
    // Cells that are missing are not made up for later.
    carry.set(crop, Math.max(-0.5, Math.min(0.5, exact - whole)));
    return whole;
  });
}

class Fitting {
  readonly found: FittingSeeds[] = [];
  readonly #plan: Plan;
  readonly #sowings: readonly ComingSowing[];
  readonly #load: Load;
  /** By crop and stage. */
  readonly #passages: readonly (readonly FittingPassage[])[];
  /** By stage and crop. */
  readonly #shares: readonly (readonly number[])[];

  constructor(plan: Plan, sowings: readonly ComingSowing[], load: Load) {
    this.#plan = plan;
    this.#sowings = sowings;
    this.#load = load;
    this.#passages = plan.crops.map((crop) =>
      passagesOf(plan, crop).map((way, s) => ({ ...way, takes: way.stay + plan.stages[s]!.cleanDays })),
    );
    this.#shares = sharesOf(plan, this.#passages);
  }

  /** Settle the next sowing. */
  next(): void {
    const sowing = this.#sowings[this.found.length]!;
    const { crop, day, next } = sowing;
    const first = route.first(this.#plan.crops[crop]!);
    const chance = chancesToPick(this.#plan.crops[crop]!)[first]!;
    // Cells must be free when the seeds are sown, further holes until the next ones come.
    const cells = Math.max(0, this.#room(crop, first, day, day + 1));
    let seeds = Math.min(cells, this.#forWanted(sowing, chance));
    for (const s of this.#plan.stages.keys()) {
      const { lead } = this.#passages[crop]![s]!;
      if (s !== first) seeds = Math.min(seeds, this.#room(crop, s, day + lead, next + lead));
    }
    seeds = Math.min(seeds, MOST_OF_PACE * this.#pace(crop) * (next - day));
    // A crop that never gives a head needs no seeds.
    this.found.push({ seeds: chance > 0 ? Math.max(0, seeds) : 0, cells });
  }

  /** Seeds of a crop that its share of the scarcest stage can take in for ever [1/d]. */
  #pace(crop: number): number {
    const paces = this.#plan.stages.map((stage, s) => {
      const { takes, reaches } = this.#passages[crop]![s]!;
      return (this.#shares[s]![crop]! * holesOf(stage)) / (takes * reaches);
    });
    return Math.min(...paces);
  }

  /**
   * Seeds whose plants find room in a stage.
   * @param from day on which they come
   * @param to day until which there must be room for them
   * @returns Infinity if that lies behind the end of what is looked at
   */
  #room(crop: number, s: number, from: number, to: number): number {
    const plan = this.#plan;
    const { lead, takes, reaches } = this.#passages[crop]![s]!;
    if (reaches === 0 || to > seasonDays(plan)) return Infinity;
    let holes = holesOf(plan.stages[s]!) - this.#load.cleaning(s, from, to);
    plan.crops.forEach(({ sowing }, c) => {
      if (sowing.kind === 'refill') holes -= this.#load.standing(s, c, from, to);
    });
    let taken = this.#load.standing(s, crop, from, to);
    this.#ofCrop(crop, (before, seeds) => {
      const came = before.day + lead;
      taken += seeds * reaches * (overlap(came, came + takes, from, to) / (to - from));
    });
    const mine = overlap(from, from + takes, from, to) / (to - from);
    return (this.#shares[s]![crop]! * holes - taken) / (reaches * mine);
  }

  /** Seeds whose heads are wanted and not there otherwise; Infinity if no number of heads is wanted. */
  #forWanted({ crop, day, next }: ComingSowing, chance: number): number {
    const { want, crops } = this.#plan;
    const { cuts, stages } = crops[crop]!;
    const last = route.last(crops[crop]!);
    const { lead, takes } = this.#passages[crop]![last]!;
    const growing = stages[last]!.time.days;
    const [from, to] = [day + lead + growing, next + lead + growing];
    if (want === null || to > seasonDays(this.#plan)) return Infinity;
    const share = this.#shares[last]![crop]!;
    const wanted = share * want.heads * want.days.filter((one) => one >= from && one < to).length;
    let there = this.#load.ripe(crop, from, to);
    // The cuts of a plant are spread evenly over its time in the last stage.
    const again = (takes - this.#plan.stages[last]!.cleanDays - growing) / Math.max(1, cuts - 1);
    this.#ofCrop(crop, (before, seeds) => {
      const gap = before.next - before.day;
      for (let cut = 0; cut < cuts; cut++) {
        const ready = before.day + lead + growing + cut * again;
        there += seeds * chance * (overlap(ready, ready + gap, from, to) / gap);
      }
    });
    return (wanted - there) / chance;
  }

  /** The sowings of a crop that are settled. */
  #ofCrop(crop: number, take: (sowing: ComingSowing, seeds: number) => void): void {
    this.found.forEach(({ seeds }, i) => {
      if (this.#sowings[i]!.crop === crop) take(this.#sowings[i]!, seeds);
    });
  }
}

/** Days that the spans from `a` to `b` and from `from` to `to` have in common. */
function overlap(a: number, b: number, from: number, to: number): number {
  return Math.max(0, Math.min(b, to) - Math.max(a, from));
}

/** Share of each stage for each crop that has dates. */
function sharesOf(plan: Plan, passages: readonly (readonly FittingPassage[])[]): number[][] {
  return plan.stages.map((_, s) => {
    const needs = plan.crops.map((crop, c) => {
      if (crop.sowing.kind === 'refill') return 0;
      const { takes, reaches } = passages[c]![s]!;
      return seedsDueOf(plan, crop) * reaches * takes;
    });
    const all = needs.reduce((sum, need) => sum + need, 0);
    return needs.map((need) => (all === 0 ? 0 : need / all));
  });
}
