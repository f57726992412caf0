/**
 * The growths of one stage that tell something of what stands there now.
 *
 * A log says how many plants of a batch left at a visit, not which. So the plants that left tell which ones are left, as far
 * as they were of the same batch; and where holes were short, since ready plants go longest ready first, how long those that
 * stayed can have been ready. What left before the oldest of these came in tells nothing any more.
 */

import type { Plan } from '../../models/plan.js';
import type { Cohort, CohortsByStage, Stay } from './cohorts.js';
import type { Span } from './logged-season.js';
import { stageCohorts } from './occupancy.js';
import type { ShortVisits } from './short-visits.js';

/** How a growth ended: moved on or picked, thrown away ready, died or failed, or not yet. */
export type GrowthEnd = 'on' | 'discarded' | 'dead' | 'standing';

/** Plants that grew (or grow) in the stage and are alike. */
export interface Growth {
  /** How many they are, at least 1. */
  readonly count: number;
  readonly batch: number;
  readonly crop: number;
  /** Picks that it had given. */
  readonly phase: number;
  /** Place of the visit at which it left; of the last visit if it stands. */
  readonly visit: number;
  readonly end: GrowthEnd;
  /** Day on which it came in [d]. Taken from the log in the order of coming; see stage-past.ts. */
  readonly from: number;
  /** When it can have come in, if a `stand` row found it there; left out if it came in on that day. */
  readonly since?: Span;
  /** Whether the chance of leaving at that visit depends on when others were ready. */
  readonly queued: boolean;
}

export interface StageGrowths {
  readonly growths: readonly Growth[];
  /** Place of the first visit that is looked at; what was ready at the visit before it is known only if holes were left. */
  readonly firstVisit: number;
}

/** How many visits with short holes are looked at behind the oldest that matters. */
const FURTHER_BACK = 8;

/**
 * @param visits at least one, ascending [d]
 * @param holes of the stage; of plants with several cuts more can seem to stand than there are
 */
export function growthsOf(
  cohorts: CohortsByStage,
  stage: number,
  plan: Plan,
  visits: readonly number[],
  short: ShortVisits,
  holes: number,
): StageGrowths {
  const here = stageCohorts(cohorts, stage, plan);
  const isOf = ({ batch, phase }: Cohort | Growth): string => `${batch} ${phase}`;
  const standing = here.filter((cohort) => cohort.stays.some(({ end }) => end === 'standing'));
  const groups = new Set(standing.map(isOf));
  const mates = here.filter((cohort) => groups.has(isOf(cohort)));
  const oldest = mates.reduce((least, { from, since }) => Math.min(least, since?.from ?? from), Infinity);
  let firstVisit = 0;
  while (firstVisit < visits.length - 1 && visits[firstVisit]! <= oldest) firstVisit++;
  for (let i = 0; i < FURTHER_BACK && firstVisit > 0 && short[firstVisit - 1] === 1; i++) firstVisit--;

  const growths = allGrowths(here, visits, short).filter(
    (growth) => groups.has(isOf(growth)) || (growth.queued && growth.visit >= firstVisit),
  );
  return { growths: thatFit(growths, holes), firstVisit };
}

/**
 * One entry a stay: what it takes goes by the rows of a log, not by its plants.
 * @param here lots of the stage
 * @param visits at least one, ascending [d]
 */
export function allGrowths(here: readonly Cohort[], visits: readonly number[], short: ShortVisits): Growth[] {
  const places = new Map(visits.map((day, i) => [day, i]));
  const last = visits.length - 1;
  const growths: Growth[] = [];
  for (const cohort of here) {
    for (const stay of cohort.stays) {
      const visit = stay.end === 'standing' ? last : places.get(stay.to)!;
      const end = endOf(stay);
      const queued =
        end === 'standing'
          ? short[last] === 1
          : end !== 'dead' && (short[visit] === 1 || (visit > 0 && short[visit - 1] === 1));
      const { batch, crop, phase, from, since } = cohort;
      const { count } = stay;
      growths.push({ count, batch, crop, phase, visit, end, from, ...(since && { since }), queued });
    }
  }
  return growths;
}

/** Without those plants that have given most picks, of these the first, if more stand than there are holes. */
function thatFit(growths: readonly Growth[], holes: number): readonly Growth[] {
  let surplus = growths.reduce((sum, { end, count }) => sum + (end === 'standing' ? count : 0), -holes);
  if (surplus <= 0) return growths;
  const left = growths.map(({ count }) => count);
  const standing = [...growths.keys()].filter((i) => growths[i]!.end === 'standing');
  standing.sort((a, b) => growths[b]!.phase - growths[a]!.phase || growths[a]!.from - growths[b]!.from);
  for (const i of standing) {
    const gone = Math.min(surplus, left[i]!);
    left[i]! -= gone;
    surplus -= gone;
  }
  return growths.flatMap((growth, i) => (left[i] === 0 ? [] : [{ ...growth, count: left[i]! }]));
}

function endOf({ end }: Stay): GrowthEnd {
  if (end === 'picked') return 'on';
  return end === 'failed' || end === 'died' ? 'dead' : end;
}
