/** The film of a simulated season: the line runs once, and a recorder takes a picture of it each day. */

import { STATE_COUNT } from '../../models/ledger.js';
import { type EventObserver, Line, type PlantEvent } from '../../models/line/line.js';
import { holesOfLine, type Plan, seasonDays } from '../../models/plan.js';
import {
  blankFilm,
  Film,
  type FilmData,
  MOST_HOLES,
  WORK_CLEARED,
  WORK_DISCARDED,
  WORK_MOVED,
  WORK_PICKED,
  WORK_SOWN,
  workWidth,
} from './film-data.js';
import { HoleStates } from './film-states.js';

export { type Film, filmBuffers, type WorkDone } from './film-data.js';

/** Which season is filmed. All of it may be left out. */
export interface FilmOptions {
  /** Seed of the season's luck. Left out: the plan's own. */
  readonly seed?: number;
  /** Number of the season, from 0: the film shows what `Line.run` does with the same seed and number. Left out: 0. */
  readonly season?: number;
  /** Only the counts of a line of more holes than this are kept. Left out: 20 000. A hole takes a byte a day. */
  readonly mostHoles?: number;
}

/** What a thread is asked for: the first season of a plan. Its answer is the data of the film. */
export interface FilmErrand {
  readonly kind: 'film';
  readonly plan: Plan;
  readonly seed: number;
}

/**
 * One season of a plan, day by day: what stands in every hole, and what was done.
 *
 * @example
 * ```ts
 * const season = film(plan, { season: 3 });
 * ```
 */
export function filmOf(
  plan: Plan,
  { seed = plan.seed, season = 0, mostHoles = MOST_HOLES }: FilmOptions = {},
): Film {
  const recorder = new FilmRecorder(plan, mostHoles);
  new Line(plan).run(seed, season, recorder);
  return recorder.film();
}

/** Films one season of any line that runs this plan, whatever its luck. */
export class FilmRecorder implements EventObserver {
  readonly #states: HoleStates;
  readonly #data: FilmData;
  readonly #stageCount: number;
  readonly #holeCount: number;
  readonly #workWidth: number;
  /** The picture that is to be taken next. */
  #next = 0;

  /** @param mostHoles only the counts of a line of more holes are kept */
  constructor(plan: Plan, mostHoles = MOST_HOLES) {
    const days = seasonDays(plan);
    this.#stageCount = plan.stages.length;
    this.#holeCount = holesOfLine(plan);
    this.#workWidth = workWidth(this.#stageCount);
    this.#data = blankFilm(plan.stages, days, this.#holeCount <= mostHoles);
    if (plan.visits.kind === 'always') this.#data.visits.fill(1, 0, days);
    else for (const day of plan.visits.days) if (day < days) this.#data.visits[day] = 1;
    this.#states = new HoleStates(plan, (_from, to) => {
      while (this.#next < to) this.#take();
    });
  }

  onEvent(t: number, event: PlantEvent, plant: number, crop: number, stage: number, hole: number): void {
    // First, so that the pictures of the days before are taken.
    this.#states.onEvent(t, event, plant, crop, stage, hole);
    const place = placeOf(event, stage);
    if (place >= 0) this.#data.work[this.#next * this.#workWidth + place]!++;
  }

  /** The film, once the season is over. To be asked once. */
  film(): Film {
    this.#states.end();
    this.#take();
    return new Film(this.#data);
  }

  #take(): void {
    const { counts, holes } = this.#data;
    this.#states.putCounts(counts, this.#next * this.#stageCount * STATE_COUNT);
    if (holes !== null) this.#states.putStates(holes, this.#next * this.#holeCount);
    this.#next++;
  }
}

/** Where a deed is counted among what was done before a picture; -1 if nobody did it. */
function placeOf(event: PlantEvent, stage: number): number {
  switch (event) {
    case 'sow':
      return WORK_SOWN;
    case 'move':
      return WORK_MOVED + stage;
    case 'pick':
      return WORK_PICKED;
    case 'discard':
      return WORK_DISCARDED;
    case 'clear':
      return WORK_CLEARED;
    default:
      return -1;
  }
}
