/**
 * A season log as censored observations: for each stage, which plants came in when, and at which visits they
 * left, died or still stood.
 *
 * A visit is a date with any row in the log, and within the log also a visit day of the plan on which, it
 * seems, there was nothing to do (see attended-days.ts). A visit is `short` for a stage if ready plants may
 * have been left behind: the next stage had no free hole when the visit was over, or (last stage, with
 * `want`) no more heads were wanted. Without a plan the holes are not known, and no visit counts as short.
 *
 * A `lose` row counts as death or failed seed, unless its note says that the plants were thrown away
 * ("discarded", "too long" and so on, see replay/losses.ts): then they had been ready. In the first stage a note tells
 * the dead from the failed.
 */

import { dayFrom, isoOfDay } from '../../models/dates.js';
import { holesOf, type Plan } from '../../models/plan.js';
import { lossKind } from '../history/losses.js';
import type { LogRow } from '../log/rows.js';
import { attendedDays } from './attended-days.js';
import { Cuts } from './cuts.js';
import { type Group, type StageRecord, total } from './survival/record.js';

/** Plants that follow one law in a stage. */
export interface Kind {
  /** Place of the crop among the crops. */
  readonly crop: number;
  /** Growth after a pick, of a crop that is cut several times; it takes place in the last stage. */
  readonly regrowth: boolean;
}

export interface ObservedStage {
  readonly name: string;
  /** One for each crop, then one for each crop that regrows; the record counts kinds by their place here. */
  readonly kinds: readonly Kind[];
  readonly record: StageRecord;
}

export interface Observations {
  /** ISO dates of the first and the last row; the same empty text if there are no rows. */
  readonly from: string;
  readonly to: string;
  /** In the order of their first row. */
  readonly crops: readonly string[];
  /** In the order of the line. */
  readonly stages: readonly ObservedStage[];
  /** False without a plan: whether plants waited for a hole cannot be told. */
  readonly holesKnown: boolean;
}

/**
 * @param rows as `readLog` hands them out: by date, no more plants leaving than there are
 * @param stages of the line, in their order
 * @param plan of the line, with these stages; null if there is none
 */
export function observe(rows: readonly LogRow[], stages: readonly string[], plan: Plan | null): Observations {
  if (rows.length === 0) {
    return { from: '', to: '', crops: [], stages: stages.map(noStage), holesKnown: plan !== null };
  }
  const from = rows[0]!.date;
  const to = rows.at(-1)!.date;
  const days = attendedDays(rows, plan);
  const watcher = new Watcher(stages, plan, days);
  let next = 0;
  for (const [v, day] of days.entries()) {
    const date = isoOfDay(from, day);
    while (next < rows.length && rows[next]!.date === date) watcher.take(rows[next++]!, v);
    watcher.endVisit(v, from);
  }
  return { from, to, crops: watcher.crops, stages: watcher.stages(), holesKnown: plan !== null };
}

function noStage(name: string): ObservedStage {
  return { name, kinds: [], record: { visits: [], groups: [] } };
}

interface OpenGroup {
  readonly crop: number;
  readonly entries: Map<number, number>;
  readonly ready: Map<number, number>;
  /** By what the note says. */
  readonly dead: Readonly<Record<'died' | 'failed' | 'unknown', Map<number, number>>>;
  standing: number;
}

/** Why plants were cleared, as far as it matters: in later stages nothing can fail. */
function causeOf(row: LogRow, s: number): 'died' | 'failed' | 'unknown' {
  const kind = s === 0 ? lossKind(row.note) : null;
  return kind === 'died' || kind === 'failed' ? kind : 'unknown';
}

/** Holes out of use by a `clean` row. */
interface Cleaning {
  readonly channel: string | null;
  readonly count: number;
}

/** Follows the log visit by visit. */
class Watcher {
  readonly crops: string[] = [];
  readonly #names: readonly string[];
  readonly #plan: Plan | null;
  readonly #days: readonly number[];
  readonly #last: number;
  /** By stage: batches by name, in the order of their coming. */
  readonly #groups: Map<string, OpenGroup>[];
  /** By stage: plants that stand there. */
  readonly #standing: number[];
  /** By stage: holes that were left, and when. */
  readonly #left: { day: number; count: number }[][];
  readonly #cleaning: Cleaning[][];
  readonly #short: boolean[][];
  readonly #cuts: Cuts;
  #picked = 0;

  constructor(names: readonly string[], plan: Plan | null, days: readonly number[]) {
    this.#names = names;
    this.#plan = plan;
    this.#days = days;
    this.#last = names.length - 1;
    this.#groups = names.map(() => new Map());
    this.#standing = names.map(() => 0);
    this.#left = names.map(() => []);
    this.#cleaning = names.map(() => []);
    this.#short = names.map(() => []);
    this.#cuts = new Cuts(plan, days);
  }

  take(row: LogRow, visit: number): void {
    const s = this.#names.indexOf(row.stage);
    switch (row.action) {
      case 'sow':
        this.#enter(0, row, visit);
        break;
      case 'move':
        this.#leave(s - 1, row, visit, 'ready');
        this.#enter(s, row, visit);
        break;
      case 'pick':
        this.#picked += row.count;
        this.#leave(s, row, visit, 'ready');
        break;
      case 'lose':
        this.#leave(s, row, visit, lossKind(row.note) === 'discarded' ? 'ready' : 'dead');
        break;
      case 'clean':
        this.#cleaning[s]!.push(row);
        break;
    }
  }

  endVisit(visit: number, from: string): void {
    for (const s of this.#names.keys()) this.#short[s]!.push(this.#isShort(s, visit, from));
    this.#picked = 0;
  }

  stages(): ObservedStage[] {
    const crops = this.crops.map((_, crop): Kind => ({ crop, regrowth: false }));
    return this.#names.map((name, s): ObservedStage => {
      const visits = this.#days.map((day, v) => ({ day, short: this.#short[s]![v]! }));
      const groups = [...this.#groups[s]!.values()].map((group) => this.#closed(group));
      if (s < this.#last) return { name, kinds: crops, record: { visits, groups } };
      const regrown = this.crops.flatMap((crop, c) => (this.#cuts.concerns(crop) ? [c] : []));
      const kinds = [...crops, ...regrown.map((crop): Kind => ({ crop, regrowth: true }))];
      const cut = this.#cuts.groups((crop, regrowth) =>
        kinds.findIndex((kind) => kind.crop === crop && kind.regrowth === regrowth),
      );
      return { name, kinds, record: { visits, groups: [...groups, ...cut] } };
    });
  }

  #closed({ crop, entries, ready, dead, standing }: OpenGroup): Group {
    const seen = (counts: Map<number, number>) => [...counts].map(([visit, count]) => ({ visit, count }));
    const because = (cause: 'died' | 'failed') => seen(dead[cause]).map((some) => ({ ...some, cause }));
    return {
      kind: crop,
      entries: [...entries].map(([visit, count]) => ({ day: this.#days[visit]!, count })),
      ready: seen(ready),
      dead: [...seen(dead.unknown), ...because('died'), ...because('failed')],
      standing,
    };
  }

  #cropOf(row: LogRow): number {
    const [only, ...more] = this.#plan?.crops ?? [];
    // Where the line has one crop only, a sowing need not name it.
    const crop = row.crop === '' && only !== undefined && more.length === 0 ? only.name : row.crop;
    const known = this.crops.indexOf(crop);
    return known >= 0 ? known : this.crops.push(crop) - 1;
  }

  #enter(s: number, row: LogRow, visit: number): void {
    const crop = this.#cropOf(row);
    this.#standing[s]! += row.count;
    this.#backIntoUse(s, row);
    if (s === this.#last && this.#cuts.concerns(row.crop)) {
      this.#cuts.enter(crop, row, visit);
      return;
    }
    let group = this.#groups[s]!.get(row.batch);
    if (group === undefined) {
      const dead = { died: new Map(), failed: new Map(), unknown: new Map() };
      group = { crop, entries: new Map(), ready: new Map(), dead, standing: 0 };
      this.#groups[s]!.set(row.batch, group);
    }
    group.standing += row.count;
    add(group.entries, visit, row.count);
  }

  /**
   * A hole is out until the next row that uses it. Where a channel is not told, only so many are taken to be back in use as
   * must be, by the holes that the stage has.
   */
  #backIntoUse(s: number, row: LogRow): void {
    const plan = this.#plan;
    let must =
      plan === null ? Infinity : this.#standing[s]! + total(this.#cleaning[s]!) - holesOf(plan.stages[s]!);
    this.#cleaning[s] = this.#cleaning[s]!.flatMap((one): Cleaning[] => {
      if (one.channel !== null && row.channel !== null) return one.channel === row.channel ? [] : [one];
      const used = Math.max(0, Math.min(must, one.count));
      must -= used;
      return used === one.count ? [] : [{ channel: one.channel, count: one.count - used }];
    });
  }

  #leave(s: number, row: LogRow, visit: number, how: 'ready' | 'dead'): void {
    let gone = row.count;
    if (s === this.#last && this.#cuts.concerns(row.crop)) gone = this.#cuts.leave(row, visit, how);
    else {
      const group = this.#groups[s]!.get(row.batch)!;
      group.standing -= row.count;
      add(how === 'ready' ? group.ready : group.dead[causeOf(row, s)], visit, row.count);
    }
    this.#standing[s]! -= gone;
    if (gone > 0) this.#left[s]!.push({ day: this.#days[visit]!, count: gone });
  }

  #isShort(s: number, visit: number, from: string): boolean {
    const plan = this.#plan;
    if (plan === null) return false;
    const day = this.#days[visit]!;
    if (s === this.#last) {
      if (plan.want === null) return false;
      const wanted = plan.want.days.includes(day + dayFrom(plan.start, from)) ? plan.want.heads : 0;
      return this.#picked >= wanted;
    }
    const { cleanDays } = plan.stages[s + 1]!;
    const resting = total(this.#left[s + 1]!.filter((left) => left.day + cleanDays > day));
    // A grower who logs cleaning logs what the plan's days of cleaning count as well.
    const cleaning = Math.max(resting, total(this.#cleaning[s + 1]!));
    return this.#standing[s + 1]! + cleaning >= holesOf(plan.stages[s + 1]!);
  }
}

function add(counts: Map<number, number>, key: number, count: number): void {
  counts.set(key, (counts.get(key) ?? 0) + count);
}
