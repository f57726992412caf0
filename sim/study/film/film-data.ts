/**
 * A film: the state of every hole on every day of a season, and what was done between the pictures.
 *
 * It knows nothing of how a season came about: film.ts films a simulated one, and whoever fills `FilmData` films
 * another. The data are plain and their buffers can be handed from one thread to another.
 */

import { STATE_COUNT } from '../../models/ledger.js';

/** A stage as the maker of a film tells it. */
export interface FilmedStage {
  readonly name: string;
  readonly channels: number;
  readonly holesPerChannel: number;
}

/** A stage and where its holes are: they are counted through all stages. */
export interface FilmStage extends FilmedStage {
  readonly holes: number;
  readonly firstHole: number;
}

/** What was done between the picture before and this one, in plants. */
export interface WorkDone {
  readonly sown: number;
  /** Moved into each stage; 0 for the first. */
  readonly moved: readonly number[];
  /** Picks: a plant with several cuts counts once at each. */
  readonly picked: number;
  /** Thrown away because they had been ready for longer than they keep. */
  readonly discarded: number;
  /** Dead plants and failed seeds that were cleared away. */
  readonly cleared: number;
}

/** All that a film holds. Every array has a buffer of its own. `blankFilm` makes arrays of the right lengths. */
export interface FilmData {
  readonly days: number;
  readonly stages: readonly FilmedStage[];
  /** States, hole h of picture d at d x holes + h; null if only the counts are kept. */
  readonly holes: Uint8Array<ArrayBuffer> | null;
  /** Holes in state k of stage s of picture d, at (d x stages + s) x STATE_COUNT + k. */
  readonly counts: Uint32Array<ArrayBuffer>;
  /** What was done before picture d, from d x `workWidth(stages)` on: see `WORK_*`. */
  readonly work: Uint32Array<ArrayBuffer>;
  /** 1 for a day with a visit; one entry a picture. */
  readonly visits: Uint8Array<ArrayBuffer>;
}

/** Holes of a line that are filmed one by one, if nobody says otherwise; of more only the counts are kept. */
export const MOST_HOLES = 20_000;

/** Places within what was done before a picture; moved into stage s at WORK_MOVED + s. */
export const WORK_SOWN = 0;
export const WORK_PICKED = 1;
export const WORK_DISCARDED = 2;
export const WORK_CLEARED = 3;
export const WORK_MOVED = 4;

/** Figures of what was done before one picture of a line of so many stages. */
export function workWidth(stages: number): number {
  return WORK_MOVED + stages;
}

/** A film of nothing yet, to be filled in: every figure is 0, every hole in state 0. */
export function blankFilm(stages: readonly FilmedStage[], days: number, withHoles: boolean): FilmData {
  const frames = days + 1;
  return {
    days,
    stages: stages.map(({ name, channels, holesPerChannel }) => ({ name, channels, holesPerChannel })),
    holes: withHoles ? new Uint8Array(frames * holesOfAll(stages)) : null,
    counts: new Uint32Array(frames * stages.length * STATE_COUNT),
    work: new Uint32Array(frames * workWidth(stages.length)),
    visits: new Uint8Array(frames),
  };
}

/**
 * The buffers of a film's data, to be handed over to another thread instead of copied:
 * `port.postMessage(film.data, filmBuffers(film.data))`. The film at hand is empty from then on.
 */
export function filmBuffers({ holes, counts, work, visits }: FilmData): ArrayBuffer[] {
  const buffers = [counts.buffer, work.buffer, visits.buffer];
  return holes === null ? buffers : [...buffers, holes.buffer];
}

function holesOfAll(stages: readonly FilmedStage[]): number {
  return stages.reduce((sum, { channels, holesPerChannel }) => sum + channels * holesPerChannel, 0);
}

/**
 * The states of a line day by day. Picture d shows the line right after the work at the start of day d; the last one,
 * picture `days`, shows it at the end of the season. A state is its place in `STATES`.
 *
 * Which of the empty holes of a stage are called untended is arbitrary: the lowest-numbered.
 */
export class Film {
  /** What it was made from: plain, to be sent to another thread and made into a film again there. */
  readonly data: FilmData;
  /** Length of the season [d]. */
  readonly days: number;
  /** Pictures: one for the start of each day and one for the end. */
  readonly frames: number;
  readonly stages: readonly FilmStage[];
  /** Holes of all stages. */
  readonly holeCount: number;
  /** States of all holes of picture d from d x `holeCount` on; null if only the counts were kept. */
  readonly holes: Uint8Array | null;
  readonly #workWidth: number;
  /** Picks up to each picture. */
  readonly #picks: Float64Array;

  /**
   * @param data not copied
   * @throws RangeError if an array is not as long as days and stages ask for
   */
  constructor(data: FilmData) {
    const stages = data.stages.length;
    this.data = data;
    this.days = data.days;
    this.frames = data.days + 1;
    this.holes = data.holes;
    this.holeCount = holesOfAll(data.stages);
    this.#workWidth = workWidth(stages);
    if (data.holes !== null) demandLength('holes', data.holes, this.frames * this.holeCount);
    demandLength('counts', data.counts, this.frames * stages * STATE_COUNT);
    demandLength('work', data.work, this.frames * this.#workWidth);
    demandLength('visits', data.visits, this.frames);

    let firstHole = 0;
    this.stages = data.stages.map((filmed) => {
      const stage = { ...filmed, holes: filmed.channels * filmed.holesPerChannel, firstHole };
      firstHole += stage.holes;
      return stage;
    });
    this.#picks = new Float64Array(this.frames);
    let picks = 0;
    for (let day = 0; day < this.frames; day++) {
      picks += data.work[day * this.#workWidth + WORK_PICKED]!;
      this.#picks[day] = picks;
    }
  }

  /** States of all holes, a view. @throws RangeError if there is no such picture, or if only the counts were kept */
  statesAt(day: number): Uint8Array {
    demandPlace('day', day, this.frames);
    if (this.holes === null) throw new RangeError('only the counts of this film were kept');
    return this.holes.subarray(day * this.holeCount, (day + 1) * this.holeCount);
  }

  /** Holes of a stage in each state, a view; they add up to its holes. @throws RangeError for no such picture or stage */
  countsAt(day: number, stage: number): Uint32Array {
    demandPlace('day', day, this.frames);
    demandPlace('stage', stage, this.stages.length);
    const at = (day * this.stages.length + stage) * STATE_COUNT;
    return this.data.counts.subarray(at, at + STATE_COUNT);
  }

  /** What was done since the picture before (with visits on days: at the visit of that day). @throws RangeError */
  workAt(day: number): WorkDone {
    demandPlace('day', day, this.frames);
    const at = day * this.#workWidth;
    const { work } = this.data;
    return {
      sown: work[at + WORK_SOWN]!,
      moved: [...work.subarray(at + WORK_MOVED, at + this.#workWidth)],
      picked: work[at + WORK_PICKED]!,
      discarded: work[at + WORK_DISCARDED]!,
      cleared: work[at + WORK_CLEARED]!,
    };
  }

  /** Picks from the start up to this picture. @throws RangeError for no such picture */
  picksUpTo(day: number): number {
    demandPlace('day', day, this.frames);
    return this.#picks[day]!;
  }

  /** Was somebody there at the start of the day? Never at the end of the season. */
  isVisit(day: number): boolean {
    return this.data.visits[day] === 1;
  }
}

function demandPlace(what: string, place: number, count: number): void {
  if (!(Number.isInteger(place) && place >= 0 && place < count)) {
    throw new RangeError(`${what} must be a whole number from 0 to ${count - 1}: ${place}`);
  }
}

function demandLength(what: string, array: { readonly length: number }, length: number): void {
  if (array.length !== length) throw new RangeError(`${what} must have ${length} entries: ${array.length}`);
}
