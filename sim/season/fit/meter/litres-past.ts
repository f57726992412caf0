/**
 * What the plants of a log took between two days, by the model at scale 1: of pasts that agree with the log, drawn as replay and
 * ahead draw them (history/stage-past.ts), each stay with the time that it was drawn.
 *
 * What died is taken to have grown until then; a seed that failed, and what stands though hardly one such plant would, took nothing.
 */

import { sumOf } from '../../../engine/lists.js';
import { openStream, type Uniform } from '../../../engine/random.js';
import type { CoverCurve } from '../../../models/physical/cover.js';
import { curveOf, type LineMatter, plantL } from '../../../models/physical/line-matter.js';
import { readyL, stayL } from '../../../models/physical/stay-water.js';
import type { WaterPace } from '../../../models/physical/transpiration.js';
import { type GrowthLaw, growthLawsOf } from '../../history/growth-law.js';
import { allGrowths, type Growth } from '../../history/growths.js';
import { stageCohorts } from '../../history/occupancy.js';
import type { SeasonBehind } from '../../history/season-behind.js';
import { StagePast } from '../../history/stage-past.js';

/** Rounds of a past before the first draw, and from one to the next. */
const FIRST_ROUNDS = 30;
const ROUNDS = 3;

/** Litres between two marks that follow each other, one entry for each. */
export interface PastLitres {
  /** Given off at scale 1. */
  readonly givenOff: Float64Array;
  /** Taken up to stay in plants. */
  readonly inPlants: Float64Array;
}

/** A stay as a past has it. */
interface DrawnStay {
  readonly from: number;
  /** Time drawn for it [d]. */
  readonly days: number;
  /** When it stopped growing, and when it stopped taking water [d]. */
  readonly grownBy: number;
  readonly until: number;
}

export class LitresPasts {
  /** How many plants stood in all stages together. */
  readonly plants: number;
  readonly #matter: LineMatter;
  /** Days, ascending. */
  readonly #marks: readonly number[];
  readonly #visits: readonly number[];
  readonly #stages: readonly { past: StagePast; lawOf: (growth: Growth) => GrowthLaw; stage: number }[];
  readonly #uniform: Uniform;
  #isFirst = true;

  /**
   * @param matter of a plan that drinks, with the season's stages and crops
   * @param marks days between which litres are told, ascending
   */
  constructor(behind: SeasonBehind, matter: LineMatter, marks: readonly number[]) {
    const { season, cohorts, came, short, unseen } = behind;
    const { plan } = season;
    const { visits } = came;
    this.#matter = matter;
    this.#marks = marks;
    this.#visits = visits;
    this.#uniform = openStream(plan.seed, 0, ['meter']);
    const all = plan.stages.map((_, s) => allGrowths(stageCohorts(cohorts, s, plan), visits, short[s]!));
    this.plants = sumOf(all.flat().map(({ count }) => count));
    this.#stages = all.flatMap((growths, stage) => {
      if (growths.length === 0) return [];
      const laws = plan.crops.map((crop) => growthLawsOf(crop, stage));
      const lawOf = ({ crop, phase }: Growth): GrowthLaw => laws[crop]![phase]!;
      const unlogged = unseen.some((loss) => loss.stage === stage);
      const uniform = openStream(plan.seed, 0, ['meter', plan.stages[stage]!.name]);
      const past = new StagePast({ growths, firstVisit: 0 }, lawOf, visits, short[stage]!, unlogged, uniform);
      return [{ past, lawOf, stage }];
    });
  }

  /** The next past. */
  next(): PastLitres {
    const spells = Math.max(0, this.#marks.length - 1);
    const litres = { givenOff: new Float64Array(spells), inPlants: new Float64Array(spells) };
    for (const { past, lawOf, stage } of this.#stages) {
      const rounds = past.settles || this.#isFirst ? (this.#isFirst ? FIRST_ROUNDS : ROUNDS) : 1;
      for (let i = 0; i < rounds; i++) past.round();
      past.tellLeft((growth, ready, at, from) => {
        const until = this.#visits[growth.visit]!;
        if (ready) this.#add(litres, growth, stage, { from, days: at - from, grownBy: at, until });
        else this.#addDead(litres, growth, stage, lawOf(growth), from, at);
      });
      past.tell((growth, fate, at, overdue, from) => {
        if (overdue || fate === 'fail') return;
        if (fate === 'ripen')
          this.#add(litres, growth, stage, { from, days: at - from, grownBy: at, until: Infinity });
        else this.#addDead(litres, growth, stage, lawOf(growth), from, at);
      });
    }
    this.#isFirst = false;
    return litres;
  }

  /** What died, unless it is a seed that failed. @param at when [d] */
  #addDead(
    litres: PastLitres,
    growth: Growth,
    stage: number,
    law: GrowthLaw,
    from: number,
    at: number,
  ): void {
    const fails = 1 - law.germination;
    const dies = law.germination * law.loss;
    if (this.#uniform() * (fails + dies) < fails) return;
    const days = law.timeWithin(at - from, Infinity, this.#uniform());
    this.#add(litres, growth, stage, { from, days, grownBy: at, until: at });
  }

  #add(litres: PastLitres, { crop, phase }: Growth, stage: number, stay: DrawnStay): void {
    const matter = this.#matter;
    const curve = curveOf(matter, crop, phase > 0 ? matter.stages.length : stage);
    if (curve === null) return;
    const { day } = matter.stages[stage]!.water!;
    const { from, until } = stay;
    let givenBefore = 0;
    let heldBefore = 0;
    for (let i = firstAfter(this.#marks, from); i < this.#marks.length; i++) {
      const mark = Math.min(this.#marks[i]!, until);
      const given = givenOffL(curve, day, stay, mark);
      const grown = Math.min(mark, stay.grownBy) - from;
      const held = plantL(matter, crop, curve.massG(grown / stay.days) - curve.fromG);
      // What was taken before the first mark lies in no spell.
      if (i > 0) {
        litres.givenOff[i - 1]! += given - givenBefore;
        litres.inPlants[i - 1]! += held - heldBefore;
      }
      if (mark >= until) return;
      givenBefore = given;
      heldBefore = held;
    }
  }
}

/** Given off from its coming until a day [L]. */
function givenOffL(
  curve: CoverCurve,
  day: WaterPace,
  { from, days, grownBy }: DrawnStay,
  until: number,
): number {
  const growing = stayL(curve, day, days, (Math.min(until, grownBy) - from) / days);
  return until > grownBy ? growing + (until - grownBy) * readyL(curve, day) : growing;
}

/** The place of the first of ascending days that lies behind a day. */
function firstAfter(days: readonly number[], day: number): number {
  let least = 0;
  let most = days.length;
  while (least < most) {
    const middle = (least + most) >> 1;
    if (days[middle]! > day) most = middle;
    else least = middle + 1;
  }
  return least;
}
