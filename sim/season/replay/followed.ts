/**
 * Of a season with very many plants one in so many is followed, in a line with as many holes fewer: what is drawn and simulated
 * plant by plant then takes no more memory, however many a log tells of. What is counted off the log is counted of all.
 *
 * Those that are followed are a stratified sample (Cochran, Sampling Techniques, from memory): of each so many that came in one
 * after the other one, at random. So each plant is as likely to be, and nothing that recurs in a log from day to day is met with
 * each time or never.
 */

import { sumOf } from '../../engine/lists.js';
import { openStream, type Uniform } from '../../engine/random.js';
import { type CropPlan, holesOf, type Plan, type Sowing } from '../../models/plan.js';
import type { Cohort, CohortsByStage, Stay } from '../history/cohorts.js';

/** Growths, of all plants in all stages, that are followed one by one: the eight ways in which they can have been take 170 bytes each. */
const MOST_FOLLOWED = 500_000;

/** For how many plants each that is followed stands; 1 but where a log tells of very many. @param most growths that are followed */
export function plantsForEach(cohorts: CohortsByStage, most = MOST_FOLLOWED): number {
  const growths = sumOf(cohorts.map((lots) => sumOf(lots.map(({ count }) => count))));
  return Math.max(1, Math.ceil(growths / most));
}

/**
 * The lots with the plants that are followed.
 * @param each for how many plants one stands, a whole number of at least 1 @param sample number of the sample
 */
export function followed(
  cohorts: CohortsByStage,
  { seed, stages }: Plan,
  each: number,
  sample: number,
): CohortsByStage {
  if (each === 1) return cohorts;
  const uniform = openStream(seed, sample, ['followed']);
  const regrown = stages.length;
  /** Of those that grow again after a pick as many as were followed until then. */
  const again = new Map<string, number>();
  return cohorts.map((lots, s) => {
    const groupOf = ({ crop, phase, from }: Cohort): string =>
      s === regrown ? pickOf(crop, phase, from) : String(crop);
    const all = new Map<string, number>();
    for (const lot of lots) all.set(groupOf(lot), (all.get(groupOf(lot)) ?? 0) + lot.count);
    const samples = new Map<string, Sample>();
    return lots.flatMap((lot) => {
      const group = groupOf(lot);
      let sample = samples.get(group);
      if (sample === undefined) {
        const plants = all.get(group)!;
        const chosen = s === regrown ? (again.get(group) ?? 0) : Math.round(plants / each);
        sample = new Sample(plants, chosen, uniform);
        samples.set(group, sample);
      }
      const stays = staysOf(lot, sample);
      for (const { to, count, end, vacates } of stays) {
        if (end !== 'picked' || vacates) continue;
        const pick = pickOf(lot.crop, lot.phase + 1, to);
        again.set(pick, (again.get(pick) ?? 0) + count);
      }
      const count = sumOf(stays.map((stay) => stay.count));
      return count === 0 ? [] : [{ ...lot, count, stays }];
    });
  });
}

/** @param phase picks given, this one too @param day of it */
function pickOf(crop: number, phase: number, day: number): string {
  return `${crop} ${phase} ${day}`;
}

function staysOf({ stays }: Cohort, sample: Sample): Stay[] {
  return stays.flatMap((stay) => {
    const count = sample.next(stay.count);
    return count === 0 ? [] : [{ ...stay, count }];
  });
}

/** So many of all, one at random of each of as many equal parts. */
class Sample {
  readonly #part: number;
  readonly #chosen: number;
  readonly #uniform: Uniform;
  #passed = 0;
  #taken = 0;
  /** Place of the next one. */
  #place: number;

  constructor(plants: number, chosen: number, uniform: Uniform) {
    this.#part = plants / chosen;
    this.#chosen = chosen;
    this.#uniform = uniform;
    this.#place = this.#placed();
  }

  /** How many there are among the next so many plants. */
  next(plants: number): number {
    this.#passed += plants;
    let count = 0;
    while (this.#place < this.#passed) {
      count++;
      this.#taken++;
      this.#place = this.#placed();
    }
    return count;
  }

  #placed(): number {
    return this.#taken < this.#chosen ? (this.#taken + this.#uniform()) * this.#part : Infinity;
  }
}

/** The plan of a line in which one plant stands for several: as many holes, seeds and wanted heads fewer. */
export function planOfFollowed(plan: Plan, each: number): Plan {
  if (each === 1) return plan;
  const part = (count: number): number => Math.max(1, Math.round(count / each));
  return {
    ...plan,
    stages: plan.stages.map((stage) => ({ ...stage, channels: part(holesOf(stage)), holesPerChannel: 1 })),
    crops: plan.crops.map((crop): CropPlan => ({ ...crop, sowing: sowingOfFollowed(crop.sowing, each) })),
    want: plan.want && { ...plan.want, heads: part(plan.want.heads) },
    physical: null,
  };
}

/** Seeds of each sowing so that their sum is that of the fractions. */
function sowingOfFollowed(sowing: Sowing, each: number): Sowing {
  if (sowing.kind === 'refill') return sowing;
  let all = 0;
  let sown = 0;
  const more = sowing.days.map((_, i) => {
    all += sowing.seeds + (sowing.more?.[i] ?? 0);
    const before = sown;
    sown = Math.round(all / each);
    return sown - before;
  });
  return { ...sowing, seeds: 0, more };
}
