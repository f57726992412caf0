/**
 * From an empty hole back to the sowing that should have filled it, by the mean times of the plan.
 *
 * A plant stands in stage s from `lead` days after its sowing (the mean stays in the stages before, waits for visits
 * included) for `stay` days. So whatever should stand there on a day was sown from `lead` + `stay` to `lead` days
 * before. Where several crops share the holes, means are weighted by what was sown of each.
 */

import { summedUp } from '../../engine/lists.js';
import { type Passage as BarePassage, passagesOf } from '../../models/passage.js';
import { holesOf, seasonDays } from '../../models/plan.js';
import { chancesToPick } from '../../models/refill.js';
import type { LoggedSeason } from '../history/logged-season.js';

/** Mean figures of one crop in one stage. */
interface Passage extends BarePassage {
  /** Picks to be expected of a plant that has come in. */
  readonly picks: number;
}

/** The same for all crops together. */
export interface MeanPassage extends Passage {
  /** Hole-days that a plant takes, cleaning included [d]. */
  readonly needs: number;
}

export class MeanFlow {
  readonly #holes: readonly number[];
  readonly #passages: readonly (readonly Passage[])[];
  readonly #means: readonly MeanPassage[];
  /** Share of each crop among the seeds. */
  readonly #shares: readonly number[];
  /** Heads wanted a day; Infinity if no number is wanted [1/d]. */
  readonly #wanted: number;
  /** Seeds sown of each crop up to each day and on it. */
  readonly #sown: readonly Float64Array[];

  constructor({ plan, batches, days }: LoggedSeason) {
    this.#holes = plan.stages.map(holesOf);
    const { want } = plan;
    this.#wanted = want === null ? Infinity : (want.heads * want.days.length) / seasonDays(plan);
    this.#sown = plan.crops.map(() => new Float64Array(days));
    for (const { crop, sown, seeds } of batches) this.#sown[crop]![sown]! += seeds;
    this.#sown.forEach(summedUp);
    const totals = this.#sown.map((sown) => sown.at(-1) ?? 0);
    const all = totals.reduce((sum, seeds) => sum + seeds, 0);
    this.#shares = totals.map((seeds) => (all === 0 ? 1 / totals.length : seeds / all));

    const byCrop = plan.crops.map((crop) => {
      const chances = chancesToPick(crop);
      return passagesOf(plan, crop).map(
        (passage, s): Passage => ({ ...passage, picks: chances[s]! * crop.cuts }),
      );
    });
    this.#passages = plan.stages.map((_, s) => byCrop.map((stages) => stages[s]!));
    this.#means = plan.stages.map(({ cleanDays }, s) => {
      const mean = (figure: (passage: Passage) => number): number =>
        this.#passages[s]!.reduce((sum, passage, c) => sum + this.#shares[c]! * figure(passage), 0);
      const stay = mean((passage) => passage.stay);
      return {
        lead: mean((passage) => passage.lead),
        stay,
        reaches: mean((passage) => passage.reaches),
        picks: mean((passage) => passage.picks),
        needs: stay + cleanDays,
      };
    });
  }

  mean(s: number): MeanPassage {
    return this.#means[s]!;
  }

  /** The means of one crop. */
  passage(s: number, crop: number): Passage {
    return this.#passages[s]![crop]!;
  }

  /** Mean days from entering a stage to the last pick [d]. */
  remaining(s: number): number {
    return this.#means.slice(s).reduce((sum, { stay }) => sum + stay, 0);
  }

  /** Heads a day that a stage can give when it is always full [1/d]. */
  capacity(s: number): number {
    const { picks, needs } = this.#means[s]!;
    return (this.#holes[s]! * picks) / needs;
  }

  /**
   * The stage that holds the line back: the one whose capacity is least (the first of equals).
   * @returns null if not more heads are wanted than it can give
   */
  scarcest(): number | null {
    let least = 0;
    for (let s = 1; s < this.#means.length; s++) if (this.capacity(s) < this.capacity(least)) least = s;
    return this.#wanted <= this.capacity(least) ? null : least;
  }

  /** Plants that should have stood in a stage on a day, by the mean times and what was sown. */
  expected(s: number, day: number): number {
    return this.standing(this.#sown, s, day);
  }

  /**
   * Plants that would stand in a stage on a day by the mean times.
   * @param sown seeds of each crop up to each day and on it
   */
  standing(sown: readonly Float64Array[], s: number, day: number): number {
    return this.#passages[s]!.reduce((sum, { lead, stay, reaches }, c) => {
      const seeds = upTo(sown[c]!, day - lead) - upTo(sown[c]!, day - lead - stay);
      return sum + seeds * reaches;
    }, 0);
  }

  /** Share of what should stand in a stage on a day that would have had to be sown before the first day. */
  beforeTheStart(s: number, day: number): number {
    return this.#passages[s]!.reduce((sum, { lead, stay }, c) => {
      const before = Math.min(stay, Math.max(0, lead + stay - day));
      return sum + (this.#shares[c]! * before) / stay;
    }, 0);
  }

  /** Seeds a day that keep a stage full [1/d]. */
  seedsNeeded(s: number): number {
    const { stay, reaches } = this.#means[s]!;
    return reaches === 0 ? 0 : this.#holes[s]! / (stay * reaches);
  }

  /** First and last day on which that was sown which should have stood in a stage from one day to another. */
  sowingsFor(s: number, from: number, to: number): { from: number; to: number } {
    const { lead, stay } = this.#means[s]!;
    return { from: Math.max(0, Math.floor(from - lead - stay) + 1), to: Math.floor(to - lead) };
  }
}

/** Seeds up to a moment. */
function upTo(sums: Float64Array, t: number): number {
  return t < 0 ? 0 : (sums[Math.min(sums.length - 1, Math.floor(t))] ?? 0);
}
