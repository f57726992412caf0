/**
 * The likelihood of what was seen of a stage.
 *
 * A plant needs a time T with distribution F. With probability `loss` it dies, at U T with U uniform; D(t) =
 * P(U T <= t). In the first stage a seed sprouts with probability `germination` g; one that does not is seen
 * to have failed when T is over. Plants are seen on visits only. By its age a on leaving the stage at a
 * visit, with b its age at the visit before (at the front of those that are ready, see stretch.ts, if holes
 * were short), a plant contributes
 *
 *     moved, picked or thrown away as ready too long    g (1 - loss) (F(a) - F(b))
 *     cleared as dead                                   g loss (D(a) - D(b))
 *     cleared as a seed that failed                     (1 - g) (F(a) - F(b))
 *     cleared, nobody says why                          the sum of the last two
 *     still standing                                    g (1 - loss) (1 - F) + g loss (1 - D) + (1 - g) (1 - F)
 *
 * if all that is dead is cleared at the next visit; for growers who do otherwise see clearings.ts.
 * The deaths are looked at on every visit, whether or not holes were short. Plants of a batch that came in on
 * different dates cannot be told apart afterwards: see cohort-mixture.ts. Of plants that were found standing, all this is a mean over
 * the days on which they can have come in, divided by the same mean of the chance to be standing when they were found.
 * Interval censoring as in Sun, J. (2006), The Statistical Analysis of Interval-censored Failure Time Data, chapter 2 (from memory); the competing
 * fates and the rest from the rules of the line.
 */

import { Clearings } from './clearings.js';
import { CohortMixture, tilted } from './cohort-mixture.js';
import { CUTOFF_PATHS, sharesOf } from './cutoff-paths.js';
import { Grids } from './grids.js';
import {
  type GroupFates,
  intervalsOf,
  type KnownFate,
  type StretchFate,
  type StretchRecord,
} from './intervals.js';
import { type GrowthParameters, LifeTable } from './life-table.js';
import type { StageRecord } from './record.js';

/** What a group of several cohorts needs; filled anew at each trial. */
interface Mixed {
  readonly cohorts: CohortMixture;
  /** Chances of the known fates, then of those in stretches, with the fronts of one path. */
  readonly chances: Float64Array;
  /** On average over the paths. */
  readonly mean: Float64Array;
}

/** Fronts by stretch and visit [units] */
type Cutoffs = readonly (readonly number[])[];

/** Tilts of the cohorts of each group. */
type Tilts = readonly (readonly number[])[];

export class StageLikelihood {
  /** This and the next by kind. */
  readonly #tables: readonly LifeTable[];
  readonly #clearings: readonly Clearings[];
  readonly #members: readonly GroupFates[];
  /** By member; null for a group of one cohort. */
  readonly #mixed: readonly (Mixed | null)[];
  readonly #stretches: readonly StretchRecord[];
  /** By piece. */
  readonly #grids: readonly Grids[];
  /** By path, piece and visit: see cutoff-paths.ts. */
  readonly #shares: readonly (readonly number[])[][];
  /** Whether a group of several cohorts takes part in a stretch. */
  readonly #mixedInStretches: boolean;

  /**
   * @param kinds how many there are
   * @param unit of the lattice of ages [d]: a power of a half. Only what happened at short visits depends on
   * it.
   */
  constructor(record: StageRecord, kinds: number, unit: number) {
    const { days, members, stretches, longest } = intervalsOf(record, unit);
    this.#tables = Array.from({ length: kinds }, () => new LifeTable(unit, longest + 1));
    this.#clearings = this.#tables.map((table) => new Clearings(table, days));
    this.#members = members;
    this.#mixed = members.map((member) => (member.sizes.length > 1 ? mixedOf(member) : null));
    this.#stretches = stretches;
    this.#grids = stretches.map((stretch) => new Grids(stretch, members, this.#tables));
    this.#shares = Array.from({ length: CUTOFF_PATHS }, (_, path) =>
      stretches.map(({ visits }) => sharesOf(path, visits.length)),
    );
    this.#mixedInStretches = members.some(({ sizes, unknown }) => sizes.length > 1 && unknown.length > 0);
  }

  /** Whether holes were ever short, so that all kinds must be looked at together. */
  get kindsTogether(): boolean {
    return this.#stretches.length > 0;
  }

  /** Plants of a kind that left ready. */
  readyOf(kind: number): number {
    return this.#members
      .filter((member) => member.kind === kind)
      .flatMap(({ known, unknown }) => [...known, ...unknown])
      .reduce((sum, { outcome, count }) => sum + (outcome === 'ready' ? count : 0), 0);
  }

  /**
   * ln of the likelihood, but for a constant.
   * @param chances of each kind
   * @param kind whose parameters are looked for: where holes were never short, only its plants count
   */
  value(chances: readonly GrowthParameters[], kind: number): number {
    const counts = (k: number): boolean => k === kind || this.kindsTogether;
    for (const [k, one] of chances.entries()) {
      if (!counts(k)) continue;
      this.#tables[k]!.set(one);
      this.#clearings[k]!.set(one.cleared);
    }
    const before = this.#mixedInStretches ? this.#pathsBefore() : [];
    let sum = 0;
    const t = this.#members.map((member, m) => {
      const mixed = counts(member.kind) ? this.#mixed[m]! : null;
      return mixed === null ? evenTilts(member) : this.#tilts(member, mixed, before);
    });
    for (const [p, stretch] of this.#stretches.entries()) {
      sum += this.#grids[p]!.value(tiltsOf(stretch, t), (cutoff) => this.#ending(stretch, t, cutoff));
    }
    const paths = this.#mixedInStretches ? this.#paths(false) : [];
    for (const [m, member] of this.#members.entries()) {
      if (!counts(member.kind)) continue;
      const mixed = this.#mixed[m]!;
      sum -= this.#found(member);
      if (mixed !== null) sum += this.#mixedValue(member, mixed, t[m]!, paths);
      else for (const fate of member.known) sum += fate.count * logOf(this.#chance(member, 0, fate));
    }
    return sum;
  }

  /** Of a fate of a plant of cohort `j`: on average over the days on which it can have come in. */
  #chance({ kind, entries }: GroupFates, j: number, fate: Omit<KnownFate, 'count'>): number {
    const { days } = entries[j]!;
    let sum = 0;
    for (let i = 0; i < days.length; i++) sum += this.#chanceSince(kind, days[i]!, fate);
    return sum / days.length;
  }

  /** ln of the chance that the plants of a group which were found standing did stand then. */
  #found(member: GroupFates): number {
    let sum = 0;
    for (const [j, { seen }] of member.entries.entries()) {
      if (seen === null) continue;
      const standing = { outcome: 'standing', from: seen, to: seen } as const;
      sum += member.sizes[j]! * logOf(this.#chance(member, j, standing));
    }
    return sum;
  }

  #chanceSince(kind: number, entry: number, { outcome, from, to }: Omit<KnownFate, 'count'>): number {
    const table = this.#tables[kind]!;
    const clearings = this.#clearings[kind]!;
    switch (outcome) {
      case 'ready':
        return table.readyBetween(from - entry, to - entry);
      case 'dead':
        return clearings.died(entry, to) + clearings.failed(entry, to);
      case 'died':
        return clearings.died(entry, to);
      case 'failed':
        return clearings.failed(entry, to);
      case 'standing':
        return table.standing(from - entry, to - entry) + clearings.left(entry, to);
    }
  }

  /** Of a group of several cohorts. @param paths of the fronts, none if it takes part in no stretch */
  #tilts(member: GroupFates, { cohorts, chances, mean }: Mixed, paths: readonly Cutoffs[]): number[] {
    this.#fillKnown(member, chances);
    if (member.unknown.length === 0) return cohorts.tilts(chances);
    mean.fill(0);
    for (const cutoffs of paths) {
      this.#fillUnknown(member, chances, cutoffs);
      for (let i = 0; i < mean.length; i++) mean[i]! += chances[i]! / paths.length;
    }
    return cohorts.tilts(mean);
  }

  /** ln of the likelihood of a group of several cohorts, but for its part in the stretches. */
  #mixedValue(member: GroupFates, mixed: Mixed, t: readonly number[], paths: readonly Cutoffs[]): number {
    const { known, unknown, sizes } = member;
    const { cohorts, chances } = mixed;
    let sum = 0;
    for (let v = 0; v < known.length; v++) sum += known[v]!.count * logOf(tilted(chances, v, t));
    for (let j = 0; j < sizes.length; j++) sum -= sizes[j]! * Math.log(t[j]!);
    cohorts.begin(chances, t, known.length);
    if (unknown.length === 0) return sum + logOf(cohorts.hit(chances, t));
    let hit = 0;
    for (const cutoffs of paths) {
      this.#fillUnknown(member, chances, cutoffs);
      hit += cohorts.hit(chances, t);
    }
    return sum + logOf(hit / paths.length);
  }

  #fillKnown(member: GroupFates, chances: Float64Array): void {
    const { sizes, known } = member;
    for (let v = 0; v < known.length; v++) {
      for (let j = 0; j < sizes.length; j++)
        chances[v * sizes.length + j] = this.#chance(member, j, known[v]!);
    }
  }

  /** With the fronts of one path. */
  #fillUnknown(
    { kind, entries, sizes, known, unknown }: GroupFates,
    chances: Float64Array,
    cutoffs: Cutoffs,
  ): void {
    chances.fill(0, known.length * sizes.length);
    for (let j = 0; j < sizes.length; j++) {
      const { days } = entries[j]!;
      const first = known.length * sizes.length + j;
      for (let i = 0; i < days.length; i++) {
        this.#addStretchChances(kind, days[i]!, unknown, cutoffs, chances, first, sizes.length);
      }
      // On average over the days on which it can have come in.
      for (let u = 0; u < unknown.length; u++) chances[first + u * sizes.length]! /= days.length;
    }
  }

  /** Add the chances of fates in stretches, since the day of entry, to every `stride`-th of `chances`. */
  #addStretchChances(
    kind: number,
    entry: number,
    fates: readonly StretchFate[],
    cutoffs: Cutoffs,
    chances: Float64Array,
    first: number,
    stride: number,
  ): void {
    const table = this.#tables[kind]!;
    // Where one fate ends the next one mostly begins.
    let known = Number.NaN;
    let by = 0;
    for (let u = 0; u < fates.length; u++) {
      const { outcome, stretch: piece, place } = fates[u]!;
      const { start, end } = this.#stretches[piece]!;
      const fronts = cutoffs[piece]!;
      const before = place === 0 ? start : fronts[place - 1]!;
      if (outcome === 'standing') {
        chances[first + u * stride]! +=
          table.standingAbout(before - entry, end - entry) + this.#clearings[kind]!.left(entry, end);
        continue;
      }
      const byBefore = before === known ? by : table.readyByAbout(before - entry);
      known = fronts[place] ?? end;
      by = table.readyByAbout(known - entry);
      chances[first + u * stride]! += by - byBefore;
    }
  }

  /** Paths of the fronts before there are tilts: these are made from them. */
  #pathsBefore(): Cutoffs[] {
    const even = this.#members.map(evenTilts);
    for (const [p, stretch] of this.#stretches.entries()) {
      this.#grids[p]!.prepare(tiltsOf(stretch, even), (cutoff) => this.#ending(stretch, even, cutoff));
    }
    return this.#paths(true);
  }

  #paths(rough: boolean): Cutoffs[] {
    return this.#shares.map((shares) => this.#grids.map((grid, p) => grid.path(shares[p]!, rough)));
  }

  /** ln of the likelihood of what came after a stretch, by its last front. */
  #ending({ end, outcome, members, atEnd }: StretchRecord, t: Tilts, cutoff: number): number {
    let sum = 0;
    for (const { batch, count } of atEnd) {
      const m = members[batch]!;
      const { kind, entries } = this.#members[m]!;
      const table = this.#tables[kind]!;
      const clearings = this.#clearings[kind]!;
      const tilts = t[m]!;
      let chance = 0;
      for (let j = 0; j < tilts.length; j++) {
        const { days } = entries[j]!;
        let one = 0;
        for (let i = 0; i < days.length; i++) {
          const entry = days[i]!;
          if (outcome === 'ready') one += table.readyBetween(cutoff - entry, end - entry);
          else one += table.standing(cutoff - entry, end - entry) + clearings.left(entry, end);
        }
        chance += tilts[j]! * (one / days.length);
      }
      sum += count * logOf(chance);
    }
    return sum;
  }
}

function tiltsOf({ members }: StretchRecord, t: Tilts): Tilts {
  return members.map((m) => t[m]!);
}

function evenTilts({ sizes }: GroupFates): number[] {
  return sizes.map(() => 1);
}

function mixedOf({ sizes, known, unknown }: GroupFates): Mixed {
  const counts = [...known, ...unknown].map(({ count }) => count);
  const chances = (): Float64Array => new Float64Array(counts.length * sizes.length);
  return { cohorts: new CohortMixture(sizes, counts), chances: chances(), mean: chances() };
}

/** ln p; of a chance that has vanished, of the smallest there is, so that a search finds its way back. */
function logOf(p: number): number {
  return Math.log(Math.max(p, 1e-300));
}
