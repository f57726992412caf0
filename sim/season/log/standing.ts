/**
 * What stands in the line according to a log: plants by batch and stage, after the rows taken so far.
 *
 * It is the one judge of whether a row can be true: the reader asks it row by row, and so does whoever writes one.
 */

import { sumOf } from '../../engine/lists.js';
import { LINE_HOLES, LOGGED_PLANTS } from '../../models/limits.js';
import * as route from '../../models/route.js';
import type { LogRow } from './rows.js';
import { sinceFault } from './since.js';

/** What is wrong with a row, as data. */
export interface Slip {
  readonly column: 'crop' | 'batch' | 'stage' | 'count' | 'note';
  readonly found: string;
  readonly expected: string;
  /** The names that may stand there; none if it is not about a name. */
  readonly names: () => readonly string[];
  /** What else helps, in a sentence; empty if nothing does. */
  readonly advice: string;
}

/** One batch: what became of it. */
export interface BatchStanding {
  readonly name: string;
  readonly crop: string;
  /** ISO date of its sowing; where it stood before the log told of it, of its `stand` rows. */
  readonly sown: string;
  /** Seeds sown; 0 if it stood before the log told of it. */
  readonly seeds: number;
  /** Plants that stood when the log began to tell of it; 0 if its sowing is logged. */
  readonly stood: number;
  /** Plants (in the first stage: seeds) in each stage, in the order of the stages. */
  readonly standing: readonly number[];
  /** Picks so far; a plant with 3 cuts counts up to 3 times. */
  readonly picked: number;
  /** Dead, failed or discarded so far, in all stages. */
  readonly lost: number;
}

type Batch = { -readonly [K in keyof BatchStanding]: BatchStanding[K] } & {
  readonly standing: number[];
  readonly cuts: number;
  /** Whether it began with something else than its sowing. */
  readonly stands: boolean;
  /** Picks that the plants in the last stage can still give, at most. */
  picksLeft: number;
};

const NONE: readonly Slip[] = [];

/** The columns of a row that a Standing looks at. */
export type StandingRow = Pick<LogRow, 'action' | 'crop' | 'batch' | 'stage' | 'count' | 'date' | 'note'>;

/**
 * Rules: `sow` puts seeds of a new batch into the first stage; `move` takes plants from the stage right before the
 * one moved into; `pick` takes from the last stage; `lose` takes from the stage named; `clean` is about holes and
 * changes nothing. `stand` puts plants of a batch into a stage whose sowing is not in the log: all such rows of a batch
 * are of one date, that from which on the log tells of it.
 *
 * A plant of a crop with several cuts stays where it is picked, until it has given them all. A log does not say which
 * plants of a batch were picked, so the picks left are counted for the batch. Whatever cannot be known is taken
 * so that no true log is refused: a plant counts as gone only when too few picks are left for all to have one, and a
 * lost plant takes one pick with it (more only if those that remain could not give the rest). So with several cuts the
 * plants that stand in the last stage are the most that can stand there; with one cut they are exact.
 */
export class Standing {
  readonly #stages: readonly string[];
  readonly #first: number;
  readonly #last: number;
  readonly #places: ReadonlyMap<string, number>;
  readonly #cutsOf: (crop: string) => number;
  readonly #batches = new Map<string, Batch>();
  /** Seeds and plants that stand now, and all that the rows have told of. */
  #standing = 0;
  #told = 0;

  /**
   * @param stages names of the line's stages in the order in which plants pass through them, at least one
   * @param cutsOf picks per plant of a crop, at least 1
   */
  constructor(stages: readonly string[], cutsOf: (crop: string) => number = () => 1) {
    this.#stages = stages;
    this.#first = route.first({ stages });
    this.#last = route.last({ stages });
    this.#places = new Map(stages.map((name, place) => [name, place]));
    this.#cutsOf = cutsOf;
  }

  /** Names of the stages, in their order. */
  get stages(): readonly string[] {
    return this.#stages;
  }

  /** A batch by its name; undefined if it has not been sown. */
  batch(name: string): BatchStanding | undefined {
    return this.#batches.get(name);
  }

  /** All batches, in the order of their sowing. */
  batches(): readonly BatchStanding[] {
    return [...this.#batches.values()];
  }

  /** What is wrong with the names of a row (batch, crop, stage), whatever its count is. */
  nameSlips(row: StandingRow): readonly Slip[] {
    const slips = [this.#batchSlip(row), this.#stageSlip(row), noteSlip(row)].filter((one) => one !== null);
    return slips.length === 0 ? NONE : slips;
  }

  /** What is wrong with the count of a row whose names are right; null if nothing is. */
  countSlip(row: StandingRow): Slip | null {
    const { action, count } = row;
    if (!(Number.isInteger(count) && count >= 1)) {
      return slip('count', String(count), 'a whole number of at least 1');
    }
    if (action === 'clean') return null;
    if (action === 'sow' || action === 'stand') return this.#sumSlip(count);
    const batch = this.#batches.get(row.batch)!;
    const place = this.#places.get(row.stage)!;
    const from = action === 'move' ? route.before(this, place) : place;
    const stands = batch.standing[from]!;
    if (count <= stands) return null;
    const plants = `${count} ${count === 1 ? 'plant' : 'plants'} of ${batch.name}`;
    const found =
      action === 'move'
        ? `${plants} moved into ${row.stage}`
        : action === 'pick'
          ? `${plants} picked`
          : `${plants} lost in ${row.stage}`;
    const where = this.#stages[from];
    const expected =
      stands === 0 ? `none, for none stands in ${where}` : `at most ${stands}, for so many stand in ${where}`;
    const now = this.#stages.map((name, s) => `${batch.standing[s]} in ${name}`).join(', ');
    const cuts =
      from === this.#last && batch.cuts === 1 && batch.picked > 0
        ? ' A plant is gone with its one pick, unless the scenario gives the crop more cuts.'
        : '';
    return {
      ...slip('count', found, expected),
      advice: `Of ${batch.name} there are by then ${now}.${cuts}`,
    };
  }

  /** More than any line can hold, or than can be worked with. */
  #sumSlip(count: number): Slip | null {
    if (this.#standing + count > LINE_HOLES.most) {
      return {
        ...slip(
          'count',
          `${count}, with which ${this.#standing + count} plants stand`,
          `at most ${LINE_HOLES.most} plants at once, for no line has more holes`,
        ),
        advice: 'Log what was picked or lost before.',
      };
    }
    if (this.#told + count <= LOGGED_PLANTS.most) return null;
    return {
      ...slip(
        'count',
        `${count}, with which the log tells of ${this.#told + count} plants`,
        `at most ${LOGGED_PLANTS.most} in one log`,
      ),
      advice: 'Keep one log for each season.',
    };
  }

  /** Book a row in which neither `nameSlips` nor `countSlip` finds anything. */
  apply(row: StandingRow): void {
    if (row.action === 'clean') return;
    const before = sumOf(this.#batches.get(row.batch)?.standing ?? []);
    this.#book(row);
    this.#standing += sumOf(this.#batches.get(row.batch)!.standing) - before;
    if (row.action === 'sow' || row.action === 'stand') this.#told += row.count;
  }

  #book(row: StandingRow): void {
    if (row.action === 'sow') {
      this.know(row);
      const sown = this.#batches.get(row.batch)!;
      sown.seeds = row.count;
      sown.standing[this.#first] = row.count;
      if (this.#last === this.#first) sown.picksLeft = row.count * sown.cuts;
      return;
    }
    if (row.action === 'stand' && this.#batches.get(row.batch) === undefined) this.know(row);
    const batch = this.#batches.get(row.batch)!;
    const place = this.#places.get(row.stage)!;
    if (row.action === 'stand') this.#stand(batch, place, row.count);
    else if (row.action === 'move') this.#move(batch, place, row.count);
    else if (row.action === 'pick') this.#pick(batch, row.count);
    else this.#lose(batch, place, row.count);
  }

  /** Make a batch known of which nothing stands: what remains of a row whose count cannot be read. */
  know(row: Pick<LogRow, 'batch' | 'crop' | 'date'> & { readonly action: LogRow['action'] | null }): void {
    this.#batches.set(row.batch, {
      name: row.batch,
      crop: row.crop,
      sown: row.date,
      cuts: this.#cutsOf(row.crop),
      stands: row.action !== 'sow',
      seeds: 0,
      stood: 0,
      standing: this.#stages.map(() => 0),
      picked: 0,
      lost: 0,
      picksLeft: 0,
    });
  }

  #batchSlip({ action, batch: name, crop, date }: StandingRow): Slip | null {
    if (action === 'clean') return null;
    const batch = this.#batches.get(name);
    const known =
      batch && `${quoted(name)}, ${batch.stood > 0 ? 'standing' : 'sown'} already (${batch.sown})`;
    if (action === 'sow') {
      return known === undefined ? null : slip('batch', known, 'a name that no batch has yet');
    }
    if (action === 'stand' && batch === undefined) {
      return crop === ''
        ? slip('crop', 'nothing', `the crop of ${name}, which was not sown in this log`)
        : null;
    }
    if (action === 'stand' && !(batch!.stands && (batch!.stood === 0 || batch!.sown === date))) {
      return {
        ...slip('batch', known!, 'a batch of which the log does not tell yet'),
        advice: 'Its plants are counted already: log what was moved, picked or lost since.',
      };
    }
    if (batch === undefined) {
      return slip('batch', quoted(name), 'a batch that has been sown', () => [...this.#batches.keys()]);
    }
    if (crop === batch.crop || crop === '' || batch.crop === '') return null;
    return slip('crop', quoted(crop), `${batch.crop}, the crop of ${batch.name}`, () => [batch.crop]);
  }

  #stageSlip({ action, stage }: StandingRow): Slip | null {
    const place = this.#places.get(stage);
    if (place === undefined) {
      const expected =
        this.#last === this.#first
          ? `${this.#stages[this.#first]}, the only stage`
          : `one of the stages ${this.#stages.join(', ')}`;
      return slip('stage', quoted(stage), expected, () => this.#stages);
    }
    if (action === 'sow' && place !== this.#first) {
      return slip('stage', quoted(stage), `${this.#stages[this.#first]}, the stage that seeds are sown into`);
    }
    if (action === 'pick' && place !== this.#last) {
      return slip(
        'stage',
        quoted(stage),
        `${this.#stages[this.#last]}, the stage that plants are picked from`,
      );
    }
    if (action === 'move' && place === this.#first) {
      const later = this.#stages.filter((_, s) => s !== this.#first);
      const expected =
        later.length === 0 ? 'no move: there is only one stage' : `a later stage: ${later.join(', ')}`;
      return { ...slip('stage', quoted(stage), expected), advice: 'A move names the stage moved into.' };
    }
    return null;
  }

  #stand(batch: Batch, place: number, count: number): void {
    batch.stood += count;
    batch.standing[place]! += count;
    if (place === this.#last) batch.picksLeft += count * batch.cuts;
  }

  #move(batch: Batch, into: number, count: number): void {
    batch.standing[route.before(this, into)]! -= count;
    batch.standing[into]! += count;
    if (into === this.#last) batch.picksLeft += count * batch.cuts;
  }

  #pick(batch: Batch, count: number): void {
    batch.picked += count;
    batch.picksLeft -= count;
    batch.standing[this.#last] = Math.min(batch.standing[this.#last]!, batch.picksLeft);
  }

  #lose(batch: Batch, place: number, count: number): void {
    batch.lost += count;
    batch.standing[place]! -= count;
    if (place === this.#last) {
      batch.picksLeft = Math.min(batch.picksLeft - count, batch.standing[place]! * batch.cuts);
    }
  }
}

/** What is wrong with since when plants stand. */
function noteSlip({ action, note, date }: StandingRow): Slip | null {
  const fault = action === 'stand' ? sinceFault(note, date) : null;
  return fault && { column: 'note', names: () => [], ...fault };
}

function slip(
  column: Slip['column'],
  found: string,
  expected: string,
  names: Slip['names'] = () => [],
): Slip {
  return { column, found, expected, names, advice: '' };
}

function quoted(name: string): string {
  return JSON.stringify(name);
}
