/**
 * Plants that one stage missed because they were lost before: those of failed batches beyond the expectation, and those
 * that were thrown away.
 *
 * Where they were lost, the holes of a failed batch stand empty from then on. In a later stage they are missed while they
 * would have stood there by the mean times of the plan: counted from their sowing, or for plants that were thrown away (and
 * so were ready to go on) from that day. Of what was lost, the plan's usual losses on the way are taken off.
 */

import { groupedBy } from '../../engine/lists.js';
import { isoOfDay } from '../../models/dates.js';
import type { CropPlan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { AssignCause, IdleCause, IdleEvidence } from './causes.js';

/** Plants that are missed in a stage, and when [d]. */
interface Missing {
  readonly key: string;
  readonly cause: IdleCause;
  readonly from: number;
  readonly to: number;
  readonly plants: number;
}

export class MissingPlants {
  readonly #missing: readonly Missing[];
  #next = 0;
  #open: Missing[] = [];

  constructor(evidence: IdleEvidence, s: number) {
    this.#missing = [...ofFailedBatches(evidence, s), ...thrownAway(evidence, s)].sort(
      (a, b) => a.from - b.from,
    );
  }

  /** Put the holes of a day down to those that are missed. Days are to be asked for in their order. */
  give(day: number, give: AssignCause): void {
    while (this.#next < this.#missing.length && this.#missing[this.#next]!.from <= day)
      this.#open.push(this.#missing[this.#next++]!);
    if (this.#open.length === 0) return;
    this.#open = this.#open.filter(({ to }) => day < to);
    for (const { key, cause, plants } of this.#open) give(key, () => cause, plants);
  }
}

function ofFailedBatches({ season, failed, meanFlow }: IdleEvidence, s: number): Missing[] {
  const { plan, batches } = season;
  return failed
    .filter(({ stage }) => stage <= s)
    .map((failure) => {
      const { batch, stage, came, lost, expected } = failure;
      const { name, crop, sown } = batches[batch]!;
      const { lead, stay } = meanFlow.passage(s, crop);
      return {
        key: `failed ${batch} ${stage}`,
        cause: { kind: 'batch_failed', batch: name, stage: plan.stages[stage]!.name, came, lost, expected },
        from: s === stage ? Math.round((failure.from + failure.to) / 2) : sown + lead,
        to: sown + lead + stay,
        plants: (lost - expected) * survive(plan.crops[crop]!, stage, s),
      };
    });
}

function thrownAway({ season, cohorts, meanFlow }: IdleEvidence, s: number): Missing[] {
  const { plan } = season;
  const thrown = cohorts
    .slice(0, s)
    .flatMap((lots, stage) =>
      lots.flatMap(({ crop, stays }) =>
        stays
          .filter(({ end }) => end === 'discarded')
          .map(({ to, count }) => ({ key: `thrown ${to} ${stage} ${crop}`, day: to, stage, crop, count })),
      ),
    );
  return [...groupedBy(thrown, ({ key }) => key).values()].map((alike) => {
    const { key, day, stage, crop } = alike[0];
    const plants = alike.reduce((sum, { count }) => sum + count, 0);
    const next = route.next(plan.crops[crop]!, stage);
    const from = day + meanFlow.passage(s, crop).lead - meanFlow.passage(next, crop).lead;
    return {
      key,
      cause: {
        kind: 'thrown_away',
        date: isoOfDay(plan.start, day),
        stage: plan.stages[stage]!.name,
        plants,
      },
      from,
      to: from + meanFlow.passage(s, crop).stay,
      plants: plants * survive(plan.crops[crop]!, stage, s),
    };
  });
}

/** Chance of coming through the stages between two. */
function survive(crop: CropPlan, from: number, to: number): number {
  let chance = 1;
  for (let k = route.next(crop, from); k >= 0 && k < to; k = route.next(crop, k))
    chance *= 1 - crop.stages[k]!.loss;
  return chance;
}
