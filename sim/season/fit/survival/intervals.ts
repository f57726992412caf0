/**
 * A stage's record as intervals: between which moments each plant became ready or died.
 *
 * Between two visits if holes were left over at both. What happened at visits at which holes were short is
 * gathered into stretches (see stretch.ts), each with the visit that ended it.
 */

import type { Entry, Group, StageRecord, Visit } from './record.js';
import type { Leaving } from './stretch.js';

/** `dead`: died or failed, nobody says which. */
export type Outcome = 'ready' | 'dead' | 'died' | 'failed' | 'standing';

/** A fate whose interval is known. Days as units of the lattice. */
export interface KnownFate {
  readonly outcome: Outcome;
  readonly count: number;
  /** Of those that stand, the visit by which none of them was ready. */
  readonly from: number;
  /** Of those that stand, the last visit. */
  readonly to: number;
}

/** A fate in a stretch, or at the visit that ended it. */
export interface StretchFate {
  readonly outcome: 'ready' | 'standing';
  readonly count: number;
  /** Number of the stretch. */
  readonly stretch: number;
  /** Which of its visits; one more than the last for the end. */
  readonly place: number;
}

/** When the plants of a cohort came in. */
export interface EntryDays {
  /** On one of these days, each as likely [units]. */
  readonly days: readonly number[];
  /** Visit after which all of them stood, neither ready nor dead [units]; null if they are seen from their entry on. */
  readonly seen: number | null;
}

/** A span of more days is looked at on so many of them. */
const MOST_DAYS = 32;

/** The fates of a group. */
export interface GroupFates {
  readonly kind: number;
  /** In units, and plants; the largest cohort last, which costs least (see cohort-mixture.ts). */
  readonly entries: readonly EntryDays[];
  readonly sizes: readonly number[];
  readonly known: KnownFate[];
  readonly unknown: StretchFate[];
}

/** A short visit at which plants left. */
export interface StretchVisit {
  readonly day: number;
  /** By the place of their groups among those that take part. */
  readonly leaving: readonly Leaving[];
}

/** A stretch and what is around it. Days in units. */
export interface StretchRecord {
  /** The last visit before it. */
  readonly start: number;
  /** At least one. */
  readonly visits: readonly StretchVisit[];
  /** Visit at which all ready plants found a hole again, or the last visit of all. */
  readonly end: number;
  readonly outcome: 'ready' | 'standing';
  /** Groups that take part. */
  readonly members: readonly number[];
  /** Plants that left at the end, or still stand. */
  readonly atEnd: readonly Leaving[];
}

export interface Intervals {
  /** Of the visits [units] */
  readonly days: readonly number[];
  readonly members: readonly GroupFates[];
  readonly stretches: readonly StretchRecord[];
  /** Days from the first entry to the last visit [units] */
  readonly longest: number;
}

/** @param unit of the lattice [d]: a power of a half, so that days lie on it */
export function intervalsOf({ visits, groups }: StageRecord, unit: number): Intervals {
  const inUnits = (day: number): number => Math.round(day / unit);
  const last = visits.length === 0 ? 0 : inUnits(visits.at(-1)!.day);
  const entered = groups.flatMap(({ entries }) => entries.map(({ day, stood }) => stood?.from ?? day));
  const first = entered.reduce((least, day) => Math.min(least, inUnits(day)), last);
  const members = groups.map((group) => memberOf(group, visits, inUnits));
  const stretches: StretchRecord[] = [];
  const leaving = visits.map((): Leaving[] => []);
  for (const [batch, { ready }] of groups.entries()) {
    for (const { visit, count } of ready) leaving[visit]!.push({ batch, count });
  }
  let start = inUnits(visits[0]?.day ?? 0);
  let short: StretchVisit[] = [];
  for (const [v, visit] of visits.entries()) {
    const day = inUnits(visit.day);
    if (visit.short) {
      // A visit at which nobody left says nothing: the front stays where it was.
      if (leaving[v]!.length > 0) short.push({ day, leaving: leaving[v]! });
      continue;
    }
    close(members, stretches, { start, short, end: day, outcome: 'ready', atEnd: leaving[v]! });
    start = day;
    short = [];
  }
  const atEnd = groups.flatMap(({ standing }, batch) => (standing > 0 ? [{ batch, count: standing }] : []));
  close(members, stretches, { start, short, end: last, outcome: 'standing', atEnd });
  return { days: visits.map(({ day }) => inUnits(day)), members, stretches, longest: last - first };
}

/** With the deaths, which are looked at on every visit. */
function memberOf(
  { kind, entries, dead }: Group,
  visits: readonly Visit[],
  inUnits: (day: number) => number,
): GroupFates {
  const bySize = [...entries].sort((a, b) => a.count - b.count);
  return {
    kind,
    entries: bySize.map((entry) => entryDays(entry, inUnits)),
    sizes: bySize.map(({ count }) => count),
    known: dead.map(({ visit, count, cause }) => ({
      outcome: cause ?? 'dead',
      count,
      from: inUnits(visits[Math.max(0, visit - 1)]!.day),
      to: inUnits(visits[visit]!.day),
    })),
    unknown: [],
  };
}

function entryDays({ day, stood }: Entry, inUnits: (day: number) => number): EntryDays {
  if (stood === undefined) return { days: [inUnits(day)], seen: null };
  const { from, to, seen } = stood;
  const count = Math.min(MOST_DAYS, to - from + 1);
  // In the middle of as many parts of one size.
  const part = (to - from + 1) / count;
  const days = Array.from({ length: count }, (_, i) => inUnits(from - 0.5 + (i + 0.5) * part));
  return { days, seen: inUnits(seen) };
}

interface Open extends Pick<StretchRecord, 'start' | 'end' | 'outcome' | 'atEnd'> {
  readonly short: readonly StretchVisit[];
}

/** Book what happened since the last visit with holes left over. */
function close(
  members: readonly GroupFates[],
  stretches: StretchRecord[],
  { start, short, end, outcome, atEnd }: Open,
): void {
  if (short.length === 0) {
    for (const { batch, count } of atEnd) {
      members[batch]!.known.push({ outcome, count, from: start, to: end });
    }
    return;
  }
  const piece = stretches.length;
  for (const [place, { leaving }] of short.entries()) {
    for (const { batch, count } of leaving) {
      members[batch]!.unknown.push({ outcome: 'ready', count, stretch: piece, place });
    }
  }
  for (const { batch, count } of atEnd) {
    members[batch]!.unknown.push({ outcome, count, stretch: piece, place: short.length });
  }
  const taking = [
    ...new Set([...short.flatMap(({ leaving }) => leaving), ...atEnd].map(({ batch }) => batch)),
  ];
  const local = ({ batch, count }: Leaving): Leaving => ({ batch: taking.indexOf(batch), count });
  stretches.push({
    start,
    visits: short.map(({ day, leaving }) => ({ day, leaving: leaving.map(local) })),
    end,
    outcome,
    members: taking,
    atEnd: atEnd.map(local),
  });
}
