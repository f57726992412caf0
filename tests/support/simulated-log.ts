/**
 * The log that a grower would have kept of a simulated season.
 *
 * One row for each group of plants that were treated alike at one visit: same action, batch, stage, channel and note.
 * The rows of a date stand in the order of a visit: dead, failed and discarded ones cleared, picks, moves from the
 * last stage back, sowings. What only the simulator knows (when a plant ripened or died) is not in it.
 */

import { isoOfDay } from '../../sim/models/dates.js';
import { type EventObserver, Line, type LineOptions, type PlantEvent } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import { COLUMNS, type LineAction, type LogRow } from '../../sim/season/log/rows.js';

export interface LogOptions extends LineOptions {
  /** Day at which the log ends: nothing from this day on is in it [d]; the end of the season if left out. */
  readonly until?: number;
  /**
   * Tell the channel too: of sown and moved plants the one that they come into, else the one in which they stood. A
   * sowing is one row: if it takes several trays, none is told.
   */
  readonly channels?: boolean;
}

/**
 * @param plan with visits on days; with `always` there are no dates on which something is done
 * @param seed of the season's luck
 * @param season number of the season
 * @throws RangeError for a plan with `visits: always`
 */
export function simulatedLog(plan: Plan, seed: number, season: number, options: LogOptions = {}): LogRow[] {
  if (plan.visits.kind === 'always') throw new RangeError('a log needs visits on days');
  const logbook = new Logbook(plan, options);
  new Line(plan, options).run(seed, season, logbook);
  return logbook.rows();
}

/** Rows as the text of a log file. */
export function logText(rows: readonly LogRow[]): string {
  const lines = rows.map((row) => COLUMNS.map((column) => field(row[column])).join(','));
  return `${[COLUMNS.join(','), ...lines].join('\r\n')}\r\n`;
}

function field(value: string | number | null): string {
  const text = value === null ? '' : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** How a deed is logged; null for what the grower does not see or logs later. */
const ACTION_OF: Readonly<Record<PlantEvent, LineAction | null>> = {
  sow: 'sow',
  move: 'move',
  pick: 'pick',
  discard: 'lose',
  clear: 'lose',
  ripen: null,
  die: null,
  fail: null,
};

type OpenRow = { -readonly [K in keyof LogRow]: LogRow[K] };

class Logbook implements EventObserver {
  readonly #plan: Plan;
  readonly #until: number;
  readonly #channels: boolean;
  /** Rows by what they have in common, in the order of their first plant. */
  readonly #rows = new Map<string, OpenRow>();
  readonly #batchOfPlant: string[] = [];
  readonly #batchNames = new Map<string, string>();
  readonly #endOfPlant = new Map<number, 'died' | 'failed'>();
  readonly #firstHole: number[] = [];
  /** Of the visit at which the deeds are done, and its date. */
  #visit = Number.NaN;
  #date = '';

  constructor(plan: Plan, { until = Infinity, channels = false }: LogOptions) {
    this.#plan = plan;
    this.#until = until;
    this.#channels = channels;
    let holes = 0;
    for (const stage of plan.stages) {
      this.#firstHole.push(holes);
      holes += stage.channels * stage.holesPerChannel;
    }
  }

  rows(): LogRow[] {
    return [...this.#rows.values()];
  }

  onEvent(t: number, deed: PlantEvent, plant: number, crop: number, stage: number, hole: number): void {
    if (t >= this.#until) return;
    if (deed === 'die') this.#endOfPlant.set(plant, 'died');
    if (deed === 'fail') this.#endOfPlant.set(plant, 'failed');
    if (deed === 'sow') this.#batchOfPlant[plant] = this.#batchOf(t, crop);
    const action = ACTION_OF[deed];
    if (action === null) return;
    this.#write({
      line: 0,
      date: this.#dateOf(t),
      action,
      crop: this.#plan.crops[crop]!.name,
      batch: this.#batchOfPlant[plant]!,
      stage: this.#plan.stages[stage]!.name,
      channel: this.#channels ? this.#channelOf(stage, hole) : null,
      count: 1,
      grams: action === 'pick' ? this.#plan.crops[crop]!.headG : null,
      note: deed === 'discard' ? 'discarded' : deed === 'clear' ? this.#endOfPlant.get(plant)! : null,
    });
  }

  #write(row: OpenRow): void {
    const channel = row.action === 'sow' ? null : row.channel;
    const key = `${row.date}|${row.action}|${row.batch}|${channel}|${row.note}|${row.stage}`;
    const open = this.#rows.get(key);
    if (open === undefined) {
      this.#rows.set(key, row);
      return;
    }
    open.count++;
    if (open.channel !== row.channel) open.channel = null;
    if (open.grams !== null) open.grams += row.grams!;
  }

  #dateOf(t: number): string {
    if (t !== this.#visit) this.#date = isoOfDay(this.#plan.start, t);
    this.#visit = t;
    return this.#date;
  }

  /** One sowing of one crop: B1, B2 and so on. */
  #batchOf(t: number, crop: number): string {
    const key = `${t} ${crop}`;
    let name = this.#batchNames.get(key);
    if (name === undefined) {
      name = `B${this.#batchNames.size + 1}`;
      this.#batchNames.set(key, name);
    }
    return name;
  }

  #channelOf(stage: number, hole: number): string {
    return String(
      Math.floor((hole - this.#firstHole[stage]!) / this.#plan.stages[stage]!.holesPerChannel) + 1,
    );
  }
}
