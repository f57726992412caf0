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

/** What the `clean` rows of a stage take out of use. */
export interface RestingChannels {
  /** Holes out of use, one entry a day. */
  readonly level: Int32Array;
  readonly rests: readonly Rest[];
  /** Holes named by the `clean` rows of a day. */
  readonly named: Int32Array;
}

/** @param standing plants in the stage, one entry a day */
export function restingChannels(
  { days, events }: LoggedSeason,
  s: number,
  holes: number,
  standing: Int32Array,
): RestingChannels {
  const named = new Int32Array(days);
  const rests: OpenRest[] = [];
  const byChannel = new Map<string, OpenRest>();
  for (const { action, stage, day, channel, count } of events) {
    if (stage !== s || !(action === 'clean' || action === 'sow' || action === 'move')) continue;
    const before = channel === null ? undefined : byChannel.get(channel);
    // Used, or named again: one channel rests once.
    if (before !== undefined) before.to = day;
    if (channel !== null) byChannel.delete(channel);
    if (action !== 'clean') continue;
    const rest = { channel, holes: count, from: day, to: days };
    rests.push(rest);
    named[day]! += count;
    if (channel !== null) byChannel.set(channel, rest);
  }
  return { ...backWhenNeeded(rests, holes, standing), named };
}

/** Let holes come back where the rest of the stage is too small for what stands in it. */
function backWhenNeeded(
  rests: readonly OpenRest[],
  holes: number,
  standing: Int32Array,
): Pick<RestingChannels, 'level' | 'rests'> {
  const open: OpenRest[] = [];
  const over: Rest[] = [];
  let next = 0;
  const level = standing.map((plants, day) => {
    for (; next < rests.length && rests[next]!.from <= day; next++) open.push(rests[next]!);
    for (let i = open.length - 1; i >= 0; i--) if (open[i]!.to <= day) over.push(...open.splice(i, 1));
    let resting = open.reduce((sum, rest) => sum + rest.holes, 0);
    const room = Math.max(0, holes - plants);
    while (resting > room) {
      const first = open[0]!;
      const back = Math.min(first.holes, resting - room);
      over.push({ ...first, holes: back, to: day });
      resting -= back;
      if (back === first.holes) open.shift();
      else first.holes -= back;
    }
    return resting;
  });
  const all = [...over, ...open].filter(({ from, to }) => to > from);
  return { level, rests: all.sort((a, b) => a.from - b.from) };
}
