/**
 * Holes that `clean` rows take out of use in one stage.
 *
 * They are out of use from the date of the row until the next row that uses them: plants come into the channel that the
 * row names. Where either row names no channel, what comes in takes other holes as long as there are any; then
 * those that have rested longest come back.
 */

import type { LoggedSeason } from './logged-season.js';

/** Holes that a `clean` row took out of use. */
export interface Rest {
  readonly channel: string | null;
  readonly holes: number;
  /** [d from the start] */
  readonly from: number;
  /** Day on which they were back in use; the end of what the log tells if they were not. */
  readonly to: number;
}

type OpenRest = { -readonly [K in keyof Rest]: Rest[K] };

export class RestingChannels {
  /** Holes out of use, one entry a day. */
  readonly level: Int32Array;
  readonly rests: Rest[];
  /** Holes named by the `clean` rows of a day. */
  readonly #named: Int32Array;

  constructor(season: LoggedSeason, s: number, holes: number, standing: Int32Array) {
    const { days, events } = season;
    this.#named = new Int32Array(days);
    const rests: OpenRest[] = [];
    const byChannel = new Map<string, OpenRest>();
    for (const { action, stage, day, channel, count } of events) {
      if (stage !== s) continue;
      if (action === 'clean') {
        const rest = { channel, holes: count, from: day, to: days };
        rests.push(rest);
        this.#named[day]! += count;
        if (channel !== null) {
          // Named again: one channel rests once.
          const before = byChannel.get(channel);
          if (before !== undefined) before.to = day;
          byChannel.set(channel, rest);
        }
      } else if (channel !== null && (action === 'sow' || action === 'move')) {
        const resting = byChannel.get(channel);
        if (resting !== undefined) resting.to = day;
        byChannel.delete(channel);
      }
    }
    this.level = new Int32Array(days);
    this.rests = rests.length === 0 ? [] : this.#backWhenNeeded(rests, holes, standing);
  }

  /** Of the holes that plants left on a day, those that a `clean` row of that day names. */
  readonly holesTaken = (day: number, left: number): number => Math.min(left, this.#named[day]!);

  /** Let holes come back where the rest of the stage is too small for what stands in it. */
  #backWhenNeeded(rests: readonly OpenRest[], holes: number, standing: Int32Array): Rest[] {
    const open: OpenRest[] = [];
    const over: Rest[] = [];
    let next = 0;
    for (let day = 0; day < standing.length; day++) {
      for (; next < rests.length && rests[next]!.from <= day; next++) open.push(rests[next]!);
      for (let i = open.length - 1; i >= 0; i--) if (open[i]!.to <= day) over.push(...open.splice(i, 1));
      let resting = open.reduce((sum, rest) => sum + rest.holes, 0);
      const room = Math.max(0, holes - standing[day]!);
      while (resting > room) {
        const first = open[0]!;
        const back = Math.min(first.holes, resting - room);
        over.push({ ...first, holes: back, to: day });
        resting -= back;
        if (back === first.holes) open.shift();
        else first.holes -= back;
      }
      this.level[day] = resting;
    }
    return [...over, ...open].filter(({ from, to }) => to > from).sort((a, b) => a.from - b.from);
  }
}
