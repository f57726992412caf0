/** The plans whose seasons are remembered: going back and forth between neighbours is common. */

import { toPlan } from '../../../sim/scenario/plan.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { PlanSeasons } from './plan-seasons.js';

/** Plans that are remembered: those of a few strips and their next neighbours. */
const MOST = 48;

export class Store {
  /** The one that was not asked for longest stands first. */
  readonly #plans = new Map<string, PlanSeasons>();

  /** The seasons of a plan, as many as a study takes. */
  of(scenario: Scenario): PlanSeasons {
    return this.#known(JSON.stringify(scenario), () => new PlanSeasons(toPlan(scenario)));
  }

  /** The same, where what there is after so many seasons will be asked for: no more than a study takes. */
  until(scenario: Scenario, seasons: number): PlanSeasons {
    const usual = this.of(scenario);
    if (usual.remember(seasons)) return usual;
    return this.#known(
      `${seasons} ${JSON.stringify(scenario)}`,
      () => new PlanSeasons(toPlan(scenario), seasons),
    );
  }

  #known(name: string, make: () => PlanSeasons): PlanSeasons {
    const plan = this.#plans.get(name) ?? make();
    this.#plans.delete(name);
    this.#plans.set(name, plan);
    if (this.#plans.size > MOST) this.#plans.delete(this.#plans.keys().next().value!);
    return plan;
  }
}
