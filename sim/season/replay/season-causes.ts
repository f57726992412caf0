/**
 * What can have cost heads in a season, with what it takes to take it away.
 *
 * Each is named on evidence only. Whether it cost anything is not decided here: the season is simulated without it (costs.ts).
 */

import { isoOfDay } from '../../models/dates.js';
import { type Plan, seasonDays, seedsDue } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { IdleEvidence } from './causes.js';
import type { FailedBatch } from './failed-batches.js';
import { type SowingVisit, seedsIn } from './intended-sowings.js';
import { longGaps, type Removal } from './removals.js';
import type { SeasonDraws } from './season-draws.js';

/** What cost heads. Dates are ISO 8601, names those of the log and the plan. */
export type SeasonCause =
  /** Nobody came for longer than usual: between two visits, or so many times between these dates. */
  | {
      readonly kind: 'absent';
      readonly since: string;
      /** null if nobody came any more. */
      readonly until: string | null;
      /** Whether the plan has no visit in between; null where no plan is known. */
      readonly planned: boolean | null;
      readonly times: number;
    }
  /** Plants and sowings waited for the next visit: somebody comes every day. */
  | { readonly kind: 'between_visits' }
  /** Less was sown than planned, although cells were free: as much as planned is sown. */
  | {
      readonly kind: 'too_little_sown';
      readonly from: string;
      readonly to: string;
      readonly count: number;
      readonly sown: number;
      readonly planned: number;
    }
  /** What is sown by the plan (without one: was sown) cannot keep the scarcest stage full: so many percent more. */
  | { readonly kind: 'few_seeds'; readonly stage: string; readonly more_percent: number }
  /** Lost far more than expected: it loses what is expected. */
  | ({ readonly kind: 'batch_failed'; readonly batch: string; readonly stage: string } & Losses)
  | ({ readonly kind: 'batches_failed'; readonly batches: number } & Losses)
  /** Plants could not go on into a stage because it was full: it has so many channels more, which are as good as room for all. */
  | { readonly kind: 'stage_before_full'; readonly stage: string; readonly channels: number }
  /** Plants were thrown away, ready for too long, while somebody came: they keep. */
  | { readonly kind: 'thrown_away'; readonly from: string; readonly to: string; readonly plants: number }
  /** Plants took longer than the plan says: they take the plan's time. */
  | {
      readonly kind: 'late';
      readonly crop: string;
      readonly stage: string;
      readonly days: number;
      readonly planned_days: number;
    };

export type Losses = Pick<FailedBatch, 'came' | 'lost' | 'expected'>;

export interface Suspect {
  readonly cause: SeasonCause;
  readonly removal: Removal;
}

/** Absences, and failed batches, that are tried one by one; if there are more, the others are tried as one. */
const MOST_ALONE = 4;
/** Seeds are too few only if this many times as many are needed: a plan that keeps a fifth of the room for a bad week means it. */
const CLEARLY_MORE = 1.25;
/** Plants are late if their mean time is so many standard errors above the plan's, and so many times as long. */
const STANDARD_ERRORS = 3;
const CLEARLY_LATER = 1.02;
/** A stretch of sowings below the plan goes on over so many others. */
const OTHERS_BETWEEN = 1;

/** @param sowings of each crop, visit by visit @param draws as the season's plants were seen to grow */
export function suspects(
  evidence: IdleEvidence,
  sowings: readonly (readonly SowingVisit[])[],
  draws: SeasonDraws,
): Suspect[] {
  return [
    ...absences(evidence),
    ...betweenVisits(evidence),
    ...belowPlan(evidence, sowings),
    ...fewSeeds(evidence),
    ...failures(evidence),
    ...fullStages(evidence),
    ...thrownAway(evidence),
    ...late(evidence, draws),
  ];
}

function absences({ season, attendance: { visits, missed } }: IdleEvidence): Suspect[] {
  const { plan, days } = season;
  const date = (day: number): string => isoOfDay(plan.start, day);
  const next = (i: number): number => visits[i + 1] ?? days;
  const gaps = longGaps(visits, days).sort((a, b) => next(b) - visits[b]! - (next(a) - visits[a]!) || a - b);
  return inParts(gaps).map((some) => {
    const of = [...some].sort((a, b) => a - b);
    const since = visits[of[0]!]!;
    const until = next(of.at(-1)!);
    return {
      cause: {
        kind: 'absent',
        since: date(since),
        until: until >= days ? null : date(until),
        planned: season.planned
          ? !of.some((i) => missed.some((day) => visits[i]! < day && day < next(i)))
          : null,
        times: of.length,
      },
      removal: { absences: of.map((i) => visits[i]!) },
    };
  });
}

/** The first few one by one, the rest together. */
function inParts<Item>(items: readonly Item[]): Item[][] {
  const alone = items.length <= MOST_ALONE + 1 ? items.length : MOST_ALONE;
  const rest = items.slice(alone);
  return [...items.slice(0, alone).map((item) => [item]), ...(rest.length === 0 ? [] : [rest])];
}

function betweenVisits({ attendance: { visits }, season }: IdleEvidence): Suspect[] {
  const long = new Set(longGaps(visits, season.days));
  const waits = visits.some((day, i) => !long.has(i) && (visits[i + 1] ?? season.days) > day + 1);
  return waits ? [{ cause: { kind: 'between_visits' }, removal: { daily: true } }] : [];
}

/** Sowings of a visit, all crops together. */
interface Sown {
  readonly day: number;
  readonly sown: number;
  readonly planned: number;
  /** Of what was planned for visits that were made; a sowing below it is too small. */
  readonly below: boolean;
}

function belowPlan(
  { season, attendance: { missed } }: IdleEvidence,
  sowings: readonly (readonly SowingVisit[])[],
): Suspect[] {
  const visits = (sowings[0] ?? []).slice(0, -1).map(({ day }, i): Sown => {
    const mine = sowings.map((crop) => crop[i]!);
    const owed = mine.map(({ since, due }) => {
      const last = missed.findLast((on) => since < on && on < day) ?? since;
      return seedsIn(due.filter((one) => one.day > last));
    });
    return {
      day,
      sown: mine.reduce((sum, { sown }) => sum + sown, 0),
      planned: owed.reduce((sum, seeds) => sum + seeds, 0),
      below: mine.some(({ sown, asPlanned }, c) => !asPlanned && sown < owed[c]!),
    };
  });
  const stretches: Sown[][] = [];
  let open: Sown[] | null = null;
  let others = 0;
  for (const visit of visits) {
    if (visit.sown === 0 && visit.planned === 0) continue;
    if (visit.below) {
      if (open === null) {
        open = [];
        stretches.push(open);
      }
      others = 0;
    } else others++;
    // What is sown beyond the plan after too small a sowing makes up for it.
    if (open !== null && others > OTHERS_BETWEEN && visit.sown <= visit.planned) open = null;
    open?.push(visit);
  }
  const date = (day: number): string => isoOfDay(season.plan.start, day);
  return stretches.flatMap((visits) => {
    const few = visits.slice(0, visits.findLastIndex(({ below }) => below) + 1);
    const all = visits.reduce((sum, { sown }) => sum + sown, 0);
    const planned = visits.reduce((sum, visit) => sum + visit.planned, 0);
    if (all >= planned) return [];
    const short = few.filter(({ below }) => below);
    return [
      {
        cause: {
          kind: 'too_little_sown',
          from: date(short[0]!.day),
          to: date(short.at(-1)!.day),
          count: short.length,
          sown: short.reduce((sum, { sown }) => sum + sown, 0),
          planned: short.reduce((sum, visit) => sum + visit.planned, 0),
        },
        removal: { asPlanned: visits.map(({ day }) => day) },
      },
    ];
  });
}

function fewSeeds({ season, meanFlow }: IdleEvidence): Suspect[] {
  const { plan, planned, batches, days } = season;
  const scarcest = meanFlow.scarcest();
  if (scarcest === null) return [];
  const due = planned && plan.crops.every(({ sowing }) => sowing.kind === 'due');
  const a_day = due
    ? seedsDue(plan) / seasonDays(plan)
    : batches.reduce((sum, { seeds }) => sum + seeds, 0) / days;
  const { picks, reaches } = meanFlow.mean(scarcest);
  const needed = meanFlow.capacity(scarcest) / (picks * reaches);
  const times = needed / a_day;
  if (!(times > CLEARLY_MORE && times < Infinity)) return [];
  const more_percent = Math.round(100 * (times - 1));
  return [
    {
      cause: { kind: 'few_seeds', stage: plan.stages[scarcest]!.name, more_percent },
      removal: { seeds: 1 + more_percent / 100 },
    },
  ];
}

function failures({ season, failed }: IdleEvidence): Suspect[] {
  const { plan, batches } = season;
  const worst = [...failed].sort((a, b) => b.lost - b.expected - (a.lost - a.expected));
  return inParts(worst).map((some) => {
    const of = (figure: keyof Losses): number => some.reduce((sum, one) => sum + one[figure], 0);
    const losses = { came: of('came'), lost: of('lost'), expected: of('expected') };
    const { batch, stage } = some[0]!;
    return {
      cause:
        some.length > 1
          ? { kind: 'batches_failed', batches: some.length, ...losses }
          : {
              kind: 'batch_failed',
              batch: batches[batch]!.name,
              stage: plan.stages[stage]!.name,
              ...losses,
            },
      removal: { failed: some },
    };
  });
}

/** Stages before the last that a visit left full. Without a scenario the holes are not known, so none is. */
function fullStages({ season, attendance: { visits }, stages }: IdleEvidence): Suspect[] {
  const { plan, planned } = season;
  if (!planned) return [];
  return plan.stages.flatMap((_, s) =>
    !route.isLast(plan, s) && visits.some((day) => stages[s]!.empty[day] === 0)
      ? [channelsMore(plan, s, Infinity)]
      : [],
  );
}

/** @param more channels; Infinity: room for all */
export function channelsMore({ stages }: Plan, stage: number, more: number): Suspect {
  return {
    cause: { kind: 'stage_before_full', stage: stages[stage]!.name, channels: more },
    removal: { channels: [{ stage, more }] },
  };
}

/** Thrown away, but for what follows from an absence or from a stage that was full. */
function thrownAway({ season, attendance: { visits }, stages, cohorts }: IdleEvidence): Suspect[] {
  const { plan, days } = season;
  const returns = new Set(longGaps(visits, days).map((i) => visits[i + 1]));
  const all = plan.stages.flatMap((_, s) =>
    cohorts[s]!.flatMap(({ stays }) =>
      stays.filter(({ end }) => end === 'discarded').map((stay) => ({ ...stay, stage: s })),
    ),
  );
  const thrown = all.filter(({ to, stage }) => {
    if (returns.has(to)) return false;
    const next = route.next(plan, stage);
    const before = visits.findLast((day) => day < to);
    return next < 0 || route.isLast(plan, next) || before === undefined || stages[next]!.empty[before]! > 0;
  });
  const plantsOf = (some: typeof all): number => some.reduce((sum, { count }) => sum + count, 0);
  const plants = plantsOf(thrown);
  // If they keep, all do; so where most were thrown away for another cause, that cause is what is told.
  if (2 * plants <= plantsOf(all)) return [];
  const on = thrown.map(({ to }) => to).sort((a, b) => a - b);
  return [
    {
      cause: {
        kind: 'thrown_away',
        from: isoOfDay(plan.start, on[0]!),
        to: isoOfDay(plan.start, on.at(-1)!),
        plants,
      },
      removal: { keeps: true },
    },
  ];
}

function late({ season: { plan, planned }, cohorts }: IdleEvidence, { drawsOf }: SeasonDraws): Suspect[] {
  if (!planned) return [];
  return plan.crops.flatMap((crop, c) =>
    plan.stages.flatMap((stage, s): Suspect[] => {
      if (!cohorts[s]!.some((cohort) => cohort.crop === c)) return [];
      const { times, moments, sprouts } = drawsOf(c, s);
      const ready = times.filter((_, k) => moments[k]! >= 1 && sprouts[k] === 1);
      const { days: planned_days, spread } = crop.stages[s]!.time;
      const days = ready.reduce((sum, time) => sum + time, 0) / ready.length;
      const margin = Math.max(
        (STANDARD_ERRORS * spread * planned_days) / Math.sqrt(ready.length),
        (CLEARLY_LATER - 1) * planned_days,
      );
      if (!(days > planned_days + margin)) return [];
      return [
        {
          cause: { kind: 'late', crop: crop.name, stage: stage.name, days, planned_days },
          removal: { pace: [{ crop: c, stage: s, times: planned_days / days }] },
        },
      ];
    }),
  );
}
