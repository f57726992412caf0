/** `compare`: several plans with the same luck. */

import { failure, type Result, success } from '../models/result.js';
import { type CompareResult, type Contender, compareStudy, ORDERS } from '../study/compare.js';
import { carriedOut, type StudyOptions, seasonsAndSeed } from './carry-out.js';

/** What a comparison can be told beside how it is carried out. */
export interface CompareOptions extends StudyOptions {
  /** Name of the figure by which the plans are ordered, the best first, such as `heads_a_week`. Left out: as given. */
  readonly by?: string;
}

/**
 * Several plans with the same luck: the figures of each, and how they differ from those of the first.
 *
 * @param plans at least 2, of different names, with seasons of the same length
 * @returns faults, a sentence each, if the plans cannot be compared
 * @throws RangeError if an option is out of range; the signal's reason if it was stopped before the first season was over
 * @example
 * ```ts
 * const compared = await compare([{ name: 'as it is', plan }, { name: 'daily', plan: daily }], { workers: 2 });
 * if (compared.ok) console.log(compared.value.plans[1]!.figures.heads_a_week);
 * ```
 */
export async function compare(
  plans: readonly Contender[],
  options: CompareOptions = {},
): Promise<Result<CompareResult, string>> {
  const { by = null } = options;
  if (by !== null && !ORDERS.includes(by)) {
    throw new RangeError(`by must be one of ${ORDERS.join(', ')}: ${by}`);
  }
  const faults = comparisonFaults(plans);
  if (faults.length > 0) return failure(faults);
  const { seasons, seed } = seasonsAndSeed(
    plans.map(({ plan }) => plan),
    options,
  );
  return success(await carriedOut(compareStudy(plans, seed, seasons, by), options));
}

/** What keeps plans from being compared, a sentence each. */
export function comparisonFaults(plans: readonly Contender[]): string[] {
  const names = plans.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) {
    return [`${twice} must not be named twice: there is nothing to compare in it. Leave one out.`];
  }
  if (plans.length < 2) return ['There is only one plan, and nothing to compare it with.'];
  const weeks = new Set(plans.map(({ plan }) => plan.weeks));
  if (weeks.size === 1) return [];
  return [
    `The scenarios must not have seasons of different lengths (${[...weeks].join(', ')} weeks): their picks could not be compared week by week. Give them the same number of weeks.`,
  ];
}
