/**
 * A season log as censored observations: for each stage, which plants came in when, and at which visits they
 * left, died or still stood.
 *
 * A visit is a date with any row in the log, and within the log also a visit day of the plan on which, it
 * seems, there was nothing to do (see attended-days.ts). A visit is `short` for a stage if ready plants may
 * have been left behind (see history/short-visits.ts). Without a plan the holes are not known, and no visit counts as short.
 *
 * A batch stays together: its record says when how many came and left, not which (see survival/cohort-mixture.ts). But of a crop
 * that is cut several times, plants in the last stage are told apart as in history/cohorts.ts: the one that is most overdue
 * by the plan is taken to be picked first. That is an approximation: where a slow plant's first pick comes after a quick
 * one's second, times of growth and regrowth are mixed up a little.
 *
 * A `lose` row counts as death or failed seed, unless its note says that the plants were thrown away
 * ("discarded", "too long" and so on, see history/losses.ts): then they had been ready. In the first stage a note tells
 * the dead from the failed.
 */

import { groupedBy } from '../../engine/lists.js';
import { dayFrom } from '../../models/dates.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { barePlan, seasonOfRows } from '../history/bare-plan.js';
import { type Cohort, type CohortsByStage, cohortsOf, type Stay, type StayEnd } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import { occupancy, stageCohorts } from '../history/occupancy.js';
import { shortVisits } from '../history/short-visits.js';
import type { LogRow } from '../log/rows.js';
import { attendedDays } from './attended-days.js';
import { begunMidway } from './begun-midway.js';
import {
  type Departures,
  type Entry,
  type Group,
  type StageRecord,
  total,
  type Visit,
} from './survival/record.js';
import { type UnusedHoles, unusedHoles } from './unused-holes.js';

/** Plants that follow one law in a stage. */
export interface PlantKind {
  /** Place of the crop among the crops. */
  readonly crop: number;
  /** Growth after a pick, of a crop that is cut several times; it takes place in the last stage. */
  readonly regrowth: boolean;
}

export interface ObservedStage {
  readonly name: string;
  /** One for each crop, then one for each crop that regrows; the record counts kinds by their place here. */
  readonly kinds: readonly PlantKind[];
  readonly record: StageRecord;
  /** Name of the batch of each group of the record. */
  readonly batches: readonly string[];
  /** Batches whose coming into the stage is not known: they stood there when the log began (see begun-midway.ts). */
  readonly midway: readonly string[];
  /** Of each kind, the plants that were thrown away at short visits: they left the queue out of turn. */
  readonly thrown: readonly number[];
  /** If the next stage seems to have fewer holes than the plan says. */
  readonly unused: (UnusedHoles & { readonly stage: string; readonly visits: readonly Visit[] }) | null;
  /** Of each kind, the plants of `stand` rows that do not say closely since when: they tell nothing of a time. */
  readonly undated: readonly number[];
}

export interface Observations {
  /** In the order of their first row. */
  readonly crops: readonly string[];
  /** In the order of the line; none if there are no rows. */
  readonly stages: readonly ObservedStage[];
}

/**
 * @param rows as `readLog` hands them out: by date, no more plants leaving than there are
 * @param stages of the line, in their order
 * @param plan of the line, with these stages; null if there is none
 */
export function observe(rows: readonly LogRow[], stages: readonly string[], plan: Plan | null): Observations {
  if (rows.length === 0) return { crops: [], stages: [] };
  const season = seasonOfRows(rows, plan ?? barePlan(rows, stages));
  const cohorts = cohortsOf(season);
  const days = attendedDays(season, cohorts, plan);
  const stood = plan && occupancy(season, cohorts, days);
  const short = stood && shortVisits(season, stood, days);
  // From here on days count from the first row.
  const first = dayFrom(season.plan.start, rows[0]!.date);
  const visitsOf = (s: number): Visit[] =>
    days.map((day, v) => ({ day: day - first, short: short !== null && short[s]![v] === 1 }));
  const crops = [...new Set(season.batches.map(({ crop }) => crop))];
  const midway = begunMidway(season);
  const visitOf = new Map(days.map((day, v) => [day, v]));
  return {
    crops: crops.map((crop) => season.plan.crops[crop]!.name),
    stages: stages.map((name, s) => {
      const kinds = kindsOf(season, crops, s);
      const visits = visitsOf(s);
      const lotsOf = lotsTogether(season, cohorts, s);
      const undated = kinds.map(({ crop, regrowth }) =>
        regrowth ? 0 : total(cohorts[s]!.filter((lot) => lot.crop === crops[crop] && isUndated(lot))),
      );
      const thrown = kinds.map(() => 0);
      const observed = lotsOf.map((lots) => {
        const [{ crop, phase, batch }] = lots;
        const kind = kinds.findIndex((one) => crops[one.crop] === crop && one.regrowth === phase > 0);
        const known = lots.filter(({ since }) => since === null);
        const found = lots.flatMap((lot) => foundStanding(lot, visits, first));
        const entries = [
          ...summed(known, ({ from }) => from).map(([from, count]) => ({ day: from - first, count })),
          ...found.map(({ entry }) => entry),
        ].sort((a, b) => a.day - b.day);
        const stays = [...known, ...found].flatMap((lot) => lot.stays);
        for (const { end, to, count } of stays) {
          if (end === 'discarded' && visits[visitOf.get(to)!]!.short) thrown[kind]! += count;
        }
        const group: Group = { kind, entries, ...fatesOf(stays, s === route.first(season.plan), visitOf) };
        return { group, name: season.batches[batch]!.name };
      });
      const followed = observed.filter(({ group }) => group.entries.length > 0);
      const next = route.next(season.plan, s);
      const unused = stood && next >= 0 ? unusedHoles(stood[next]!, days) : null;
      return {
        name,
        kinds,
        record: { visits, groups: followed.map(({ group }) => group) },
        batches: followed.map((one) => one.name),
        midway: lotsOf
          .filter((lots) =>
            lots.some(({ batch, from }) => midway.has(batch) && from === season.batches[batch]!.sown),
          )
          .map(([{ batch }]) => season.batches[batch]!.name),
        thrown,
        unused: unused && {
          ...unused,
          stage: stages[next]!,
          visits: visits.map((visit, v) => ({
            ...visit,
            short: stood![next]!.empty[days[v]!]! <= unused.planned - unused.most,
          })),
        },
        undated,
      };
    }),
  };
}

/** Whether plants of a crop can be picked again in a stage. */
function regrows({ plan }: LoggedSeason, crop: number, s: number): boolean {
  return route.isLast(plan.crops[crop]!, s) && plan.crops[crop]!.cuts > 1;
}

function kindsOf(season: LoggedSeason, crops: readonly number[], s: number): PlantKind[] {
  const grown = crops.map((_, crop): PlantKind => ({ crop, regrowth: false }));
  const again = crops.flatMap((place, crop): PlantKind[] =>
    regrows(season, place, s) ? [{ crop, regrowth: true }] : [],
  );
  return [...grown, ...again];
}

/** The lots of a stage by batch; where plants are cut again, those that began to grow on one day. */
function lotsTogether(season: LoggedSeason, cohorts: CohortsByStage, s: number): [Cohort, ...Cohort[]][] {
  const here = stageCohorts(cohorts, s, season.plan);
  const cut = here.filter(({ crop }) => regrows(season, crop, s));
  const whole = here.filter(({ crop }) => !regrows(season, crop, s));
  return [
    ...groupedBy(whole, ({ batch }) => batch).values(),
    ...groupedBy(cut, ({ batch, from, phase }) => `${batch} ${from} ${phase > 0}`).values(),
  ];
}

/**
 * The widest span of which the plants of a `stand` row tell of times [d], first and last day counted. Of a wider one it matters
 * whether its plants came in one by one in these days or together on one of them, which nobody says: taken for the first while
 * the second was true, intervals of the mean days held in 87 and 89 % of 200 logs with spans of 4 days.
 */
export const WIDEST_SPAN = 2;

function isUndated({ since }: Pick<Cohort, 'since'>): boolean {
  return since !== null && since.to - since.from >= WIDEST_SPAN;
}

/**
 * Plants of a `stand` row that are followed: those that still stood after the first visit from then on that left nothing ready
 * behind. What had left by then, and plants of which nobody knows closely since when they stand there, tell nothing of a time.
 * @param first day of the first row [d from the start]
 */
function foundStanding(
  { since, seen, from, stays }: Cohort,
  visits: readonly Visit[],
  first: number,
): { entry: Entry; stays: readonly Stay[] }[] {
  if (since === null || isUndated({ since })) return [];
  const sure = visits.find(({ day, short }) => day >= seen - first && !short)?.day ?? Infinity;
  const left = stays.filter(({ to }) => to - first > sure);
  if (left.length === 0) return [];
  const stood = { from: since.from - first, to: since.to - first, seen: sure };
  return [{ entry: { day: from - first, count: total(left), stood }, stays: left }];
}

/** What became of plants. @param first whether they stood in the first stage */
function fatesOf(
  stays: readonly Stay[],
  first: boolean,
  visitOf: ReadonlyMap<number, number>,
): Pick<Group, 'ready' | 'dead' | 'standing'> {
  const seen = (which: (stay: Stay) => boolean): Departures[] =>
    summed(stays.filter(which), ({ to }) => visitOf.get(to)!).map(([visit, count]) => ({ visit, count }));
  const dead = (cause: Cause) => seen((stay) => causeOf(stay, first) === cause);
  const because = (cause: 'died' | 'failed') => dead(cause).map((left) => ({ ...left, cause }));
  return {
    ready: seen(({ end }) => READY.has(end)),
    dead: [...dead('unknown'), ...because('died'), ...because('failed')],
    standing: total(stays.filter(({ end }) => end === 'standing')),
  };
}

const READY: ReadonlySet<StayEnd> = new Set(['on', 'picked', 'discarded']);

type Cause = 'died' | 'failed' | 'unknown';

/** Why plants were cleared, as far as it matters: in later stages nothing can fail. @returns null if they were not */
function causeOf({ end, told }: Stay, first: boolean): Cause | null {
  if (end !== 'died' && end !== 'failed') return null;
  return first && told ? end : 'unknown';
}

/** Counts of the same day (or visit) in one, the first day first. */
function summed<Some extends { readonly count: number }>(
  list: readonly Some[],
  placeOf: (one: Some) => number,
): [number, number][] {
  const groups = [...groupedBy(list, placeOf)].map(([at, some]): [number, number] => [at, total(some)]);
  return groups.sort(([a], [b]) => a - b);
}
