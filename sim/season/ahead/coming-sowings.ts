/** The sowings that are to come by the scenario, of the crops that have dates; and the same plan with other seeds on them. */

import { isoOfDay } from '../../models/dates.js';
import type { Missed, Plan, Sowing } from '../../models/plan.js';
import { usualGap } from '../history/attendance.js';
import { dailyVisits } from '../history/plan-days.js';

/** A visit at which seeds of a crop are sown that were due. */
export interface ComingSowing {
  /** Place of the crop in the plan. */
  readonly crop: number;
  /** Day of the visit [d from the start]. */
  readonly day: number;
  /** When they fall due, the earliest of those that are sown then [d from the start]. */
  readonly due: number;
  /** How many of the plan's sowings fell due since the visit before, and the seeds of one. */
  readonly sowings: number;
  readonly each: number;
  /** How many of them fell due longer ago than visits usually lie apart. */
  readonly missed: number;
  /** Seeds that the plan sows: of all of them, or of the latest where missed sowings are dropped. */
  readonly planned: number;
  /** Day of the crop's next sowing; a gap as before, or a week, if there is none [d from the start]. */
  readonly next: number;
}

/**
 * @param over the last visit that is over; what was due by then is not sown any more [d from the start]
 * @param from first day to come
 * @param to the end of what is looked at, not included
 * @returns in the order of the visits
 */
export function comingSowings(plan: Plan, over: number, from: number, to: number): ComingSowing[] {
  const usual = usualGap(dailyVisits(plan));
  const visits = dailyVisits(plan).filter((day) => day >= from);
  return plan.crops
    .flatMap(({ sowing }, crop) => {
      if (sowing.kind === 'refill') return [];
      const found: { day: number; due: number; sowings: number; missed: number }[] = [];
      for (const due of sowing.days) {
        const day = due > over ? visits.find((visit) => visit >= due) : undefined;
        if (day === undefined) continue;
        if (found.at(-1)?.day !== day) found.push({ day, due, sowings: 0, missed: 0 });
        const sown = found.at(-1)!;
        sown.sowings++;
        if (day - due >= usual) sown.missed++;
      }
      return found.map(({ day, due, sowings, missed }, i): ComingSowing => {
        const gap = i > 0 ? day - found[i - 1]!.day : 7;
        const each = sowing.seeds;
        const planned = sowing.missed === 'dropped' ? each : sowings * each;
        return { crop, day, due, sowings, each, missed, planned, next: found[i + 1]?.day ?? day + gap };
      });
    })
    .filter(({ day }) => day < to)
    .sort((a, b) => a.day - b.day || a.crop - b.crop);
}

/** A visit at which a crop's rule for missed sowings matters: some were missed, and more than one is due. */
export interface MadeUpFor {
  /** ISO date of the visit. */
  readonly date: string;
  readonly crop: string;
  /** Sowings that were missed, for nobody came as usual. */
  readonly missed: number;
  /** Seeds of one sowing, and of all that fell due. */
  readonly one: number;
  readonly all: number;
  readonly rule: Missed;
}

/** @param plan of the sowings */
export function madeUpFor(plan: Plan, sowings: readonly ComingSowing[]): MadeUpFor[] {
  return sowings
    .filter(({ sowings: due, missed }) => due > 1 && missed > 0)
    .map(({ crop, day, sowings: due, each, missed }) => {
      const { name, sowing } = plan.crops[crop]!;
      const rule = (sowing.kind === 'due' && sowing.missed) || 'made_up';
      return { date: isoOfDay(plan.start, day), crop: name, missed, one: each, all: due * each, rule };
    });
}

/** Seeds that fall due and that nobody comes to sow. */
export interface MissedSowing {
  /** Place of the crop in the plan. */
  readonly crop: number;
  /** When they fall due [d from the start]. */
  readonly due: number;
  readonly seeds: number;
}

/**
 * What falls due in the time that is looked at and is not sown in it, as no visit follows.
 * @param over as in `comingSowings` @param from likewise @param to likewise
 * @returns in the order in which they fall due
 */
export function sowingsWithoutVisit(plan: Plan, over: number, from: number, to: number): MissedSowing[] {
  const last = dailyVisits(plan).findLast((day) => day >= from && day < to);
  return plan.crops
    .flatMap(({ sowing }, crop) =>
      sowing.kind === 'refill'
        ? []
        : sowing.days
            .filter((due) => due > Math.max(over, last ?? -Infinity) && due < to)
            .map((due) => ({ crop, due, seeds: sowing.seeds })),
    )
    .sort((a, b) => a.due - b.due || a.crop - b.crop);
}

/** The plan with other seeds on these dates, and from the last of them on as it was. */
export function withSeeds(plan: Plan, sowings: readonly ComingSowing[], seeds: readonly number[]): Plan {
  return withDueDays(plan, (sowing, c) => {
    const mine = sowings
      .map((coming, i) => ({ ...coming, seeds: seeds[i]! }))
      .filter(({ crop }) => crop === c);
    const last = mine.at(-1)?.day ?? -Infinity;
    const later = sowing.days.filter((day) => day > last).map((due) => ({ due, seeds: sowing.seeds }));
    return [...mine, ...later];
  });
}

/** The plan with nothing sown any more of the crops that have dates. */
export function withoutSowings(plan: Plan): Plan {
  return withDueDays(plan, () => []);
}

/**
 * The plan with other sowings of the crops that have dates.
 * @param sowingsOf when they fall due and their seeds
 */
function withDueDays(
  plan: Plan,
  sowingsOf: (
    sowing: Extract<Sowing, { kind: 'due' }>,
    crop: number,
  ) => readonly { readonly due: number; readonly seeds: number }[],
): Plan {
  const crops = plan.crops.map((crop, c) => {
    if (crop.sowing.kind === 'refill') return crop;
    // Of what is not sown nothing falls due: it would drop what was missed before.
    const sown = sowingsOf(crop.sowing, c).filter(({ seeds }) => seeds > 0);
    const [days, more] = [sown.map(({ due }) => due), sown.map(({ seeds }) => seeds)];
    return { ...crop, sowing: { ...crop.sowing, days, seeds: 0, more } };
  });
  return { ...plan, crops };
}
