/**
 * Why holes of a stage stood empty, day by day.
 *
 * The empty holes of a day are dealt out among causes in this order, to each as many as it explains, until none is left:
 *
 * 1. end: so near the end of the scenario's season that, by the mean times, no plant that came in could be picked any more.
 * 2. absent, between_visits: ready plants of the stage before (in the first stage: seeds that were due) waited for somebody
 *    to come. `absent` if the gap between the visits was longer than usual: 9 in 10 gaps are no longer.
 * 3. filling: what should have stood there would have had to be sown before the first day.
 * 4. batch_failed: a batch lost far more than the plan expects (failed-batches.ts): the plants above the expectation, while
 *    they would have stood there. thrown_away: plants discarded in a stage before, likewise (missing-plants.ts).
 * 5. too_little_sown: less was sown than planned although there were cells, by absences and where somebody was there. Or what was sown could not fill the stage by the
 *    mean times and losses; if the first stage was full at half or more of the visits at which more would have had to be
 *    sown, that counts as stage_before_full.
 * 6. stage_before_full: a stage before was full at half or more of the visits of the last mean stay there; that one of them
 *    which was full most often, of equals the nearest.
 * 7. late: enough was sown, but it came later or lost more than the plan's means say, without a batch that stands out.
 */

import { summedUp } from '../../engine/lists.js';
import { isoOfDay } from '../../models/dates.js';
import { seasonDays } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { usualGap } from '../history/attendance.js';
import type { LoggedSeason } from '../history/logged-season.js';
import { visitsBefore } from '../history/visits-before.js';
import type { AssignCause, CauseListener, IdleCause, IdleEvidence, TellCause } from './causes.js';
import { MissingPlants } from './missing-plants.js';
import { plannedSeeds, seedsNotSown } from './planned-sowings.js';
import { SowingDates } from './short-sowings.js';

export class IdleCauses {
  readonly #evidence: IdleEvidence;
  readonly #usual: number;
  /** Place of the last visit up to each day; -1 before the first. */
  readonly #visitBy: Int32Array;
  /** Of each stage: visits before a day after which it was full; the last entry: all visits, missed ones too. */
  readonly #fullVisits: readonly Int32Array[];
  /** Seeds that fell due up to each day. */
  readonly #due: Float64Array;
  /** Seeds of each crop that were planned up to each day and could have been sown and were not. */
  readonly #notSown: readonly Float64Array[];
  /** Seeds sown on each day. */
  readonly #sown: Float64Array;
  readonly #sowings: SowingDates;

  constructor(evidence: IdleEvidence) {
    const { season, attendance, stages } = evidence;
    const { days, batches } = season;
    this.#evidence = evidence;
    this.#usual = usualGap(attendance.visits);
    this.#visitBy = visitsBefore(attendance.visits, days)
      .subarray(1)
      .map((count) => count - 1);
    const visited = new Set([...attendance.visits, ...attendance.missed]);
    const missed = new Set(attendance.missed);
    const upTo = (counts: (day: number) => boolean): Int32Array => {
      const sums = new Int32Array(days + 1);
      for (let day = 0; day < days; day++)
        sums[day + 1] = sums[day]! + (visited.has(day) && counts(day) ? 1 : 0);
      return sums;
    };
    // What could not go on because nobody came did not wait for holes; nor is it known where no scenario tells the holes.
    const full = stages.map(({ empty }) =>
      upTo((day) => season.planned && empty[day] === 0 && !missed.has(day)),
    );
    this.#fullVisits = [...full, upTo(() => true)];
    this.#sown = new Float64Array(days);
    for (const { sown, seeds } of batches) this.#sown[sown]! += seeds;
    const planned = plannedSeeds(season);
    const { empty } = stages[route.first(season.plan)]!;
    const notSown = seedsNotSown(season, planned, empty, missed);
    this.#sowings = new SowingDates(evidence, this.#sown, planned, notSown);
    this.#notSown = notSown.map(summedUp);
    this.#due = summedUp(seedsDue(season));
  }

  /** Deal out the empty holes of stage `s`, from the first day to the last. */
  each(s: number, hear: CauseListener): void {
    const { season, stages, meanFlow } = this.#evidence;
    const { empty, holes } = stages[s]!;
    const first = route.first(season.plan);
    const end = season.planned ? seasonDays(season.plan) - meanFlow.remaining(s) : Infinity;
    const missing = new MissingPlants(this.#evidence, s);
    const midway = season.batches.some(({ seeds }) => seeds === 0);
    for (let day = 0; day < season.days; day++) {
      let left = empty[day]!;
      const give = (key: string, tell: TellCause, n: number): void => {
        const given = Math.min(left, Math.round(n));
        if (!(given > 0)) return;
        left -= given;
        hear(day, key, tell, given);
      };
      if (left === 0) continue;
      if (day >= end) give('end', () => ({ kind: 'end' }), left);
      this.#giveWaiting(s, day, give);
      const filling = holes * meanFlow.beforeTheStart(s, day);
      give('filling', () => ({ kind: 'filling', midway }), filling);
      missing.give(day, give);
      const notSown = Math.max(0, meanFlow.standing(this.#notSown, s, day));
      const tooLittle = (from: number, to: number): IdleCause => ({
        kind: 'too_little_sown',
        sowings: this.#sowings.short(s, from, to),
      });
      if (notSown > 0) {
        const key = this.#sowings.belowOn(s, day);
        const below: TellCause = (from, to) => ({
          kind: 'too_little_sown',
          sowings: this.#sowings.below(s, from, to, key),
        });
        give(`below ${key}`, below, notSown);
      }
      const lack = holes - meanFlow.expected(s, day) - filling - notSown;
      const window = meanFlow.sowingsFor(s, day, day);
      if (s !== first && this.#shareFull(first, window.from, window.to) >= 0.5)
        this.#giveFull(first, lack, give);
      else give('sown', tooLittle, lack);
      const full = this.#fullBefore(s, day);
      if (full !== null) this.#giveFull(full, left, give);
      give('late', (from, to) => this.#late(s, from, to), left);
    }
  }

  #giveWaiting(s: number, day: number, give: AssignCause): void {
    const { attendance, season, waiting } = this.#evidence;
    const i = this.#visitBy[day]!;
    if (i < 0) return;
    const since = attendance.visits[i]!;
    const until = attendance.visits[i + 1] ?? season.days;
    const before = route.before(season.plan, s);
    const waits = before < 0 ? this.#seedsWaiting(since, until, day) : waiting[before]![day]!;
    if (until - since <= this.#usual) {
      give('between', () => ({ kind: 'between_visits' }), waits);
      return;
    }
    const planned = season.planned
      ? !attendance.missed.some((missed) => since < missed && missed < until)
      : null;
    const date = (day: number): string => isoOfDay(season.plan.start, day);
    const tell: TellCause = () => ({
      kind: 'absent',
      since: date(since),
      until: until >= season.days ? null : date(until),
      planned,
    });
    give(`absent ${since}`, tell, waits);
  }

  #giveFull(s: number, n: number, give: AssignCause): void {
    const stage = this.#evidence.season.plan.stages[s]!.name;
    give(`full ${s}`, () => ({ kind: 'stage_before_full', stage }), n);
  }

  #late(s: number, from: number, to: number): IdleCause {
    const { season, meanFlow } = this.#evidence;
    const before = route.before(season.plan, s);
    if (before < 0) return { kind: 'late', stay: null, planned_stay: null };
    const stay = this.#meanStay(before, from, to);
    return { kind: 'late', stay, planned_stay: meanFlow.mean(before).stay };
  }

  /** Mean stay in a stage of the plants that left it for the next one from one day to the other or a usual gap later. */
  #meanStay(s: number, from: number, to: number): number | null {
    let plants = 0;
    let days = 0;
    for (const cohort of this.#evidence.cohorts[s]!) {
      if (cohort.since !== null) continue;
      for (const stay of cohort.stays) {
        if (stay.end !== 'on' || stay.to < from || stay.to > to + this.#usual) continue;
        plants += stay.count;
        days += stay.count * (stay.to - cohort.from);
      }
    }
    return plants === 0 ? null : days / plants;
  }

  /** Seeds that were due by a day and not sown before the next visit; without a cadence, what that visit sowed. */
  #seedsWaiting(since: number, until: number, day: number): number {
    const { plan, planned } = this.#evidence.season;
    if (planned && plan.crops.every(({ sowing }) => sowing.kind === 'due'))
      return this.#due[day]! - this.#due[since]!;
    return day > since && until < this.#sown.length ? this.#sown[until]! : 0;
  }

  /** The stage between the first and stage `s` that was full most often of late, if at half of the visits or more. */
  #fullBefore(s: number, day: number): number | null {
    let stage: number | null = null;
    let most = 0.5;
    const { season, meanFlow } = this.#evidence;
    for (let j = route.before(season.plan, s); j >= 0; j = route.before(season.plan, j)) {
      const share = this.#shareFull(j, day - meanFlow.mean(j).stay, day);
      if (share < most || (share === most && stage !== null)) continue;
      most = share;
      stage = j;
    }
    return stage;
  }

  /** Share of the visits from one day to another after which a stage was full; 0 if there were none. */
  #shareFull(stage: number, from: number, to: number): number {
    const first = Math.max(0, Math.ceil(from));
    const beyond = Math.min(this.#visitBy.length, Math.floor(to) + 1);
    if (beyond <= first) return 0;
    const between = (sums: Int32Array): number => sums[beyond]! - sums[first]!;
    const all = between(this.#fullVisits.at(-1)!);
    return all === 0 ? 0 : between(this.#fullVisits[stage]!) / all;
  }
}

/** Seeds that fall due on each day, or before it since the day before. */
function seedsDue({ plan, days }: LoggedSeason): Float64Array {
  const due = new Float64Array(days);
  for (const { sowing } of plan.crops) {
    if (sowing.kind !== 'due') continue;
    for (const day of sowing.days) if (Math.ceil(day) < days) due[Math.ceil(day)]! += sowing.seeds;
  }
  return due;
}
