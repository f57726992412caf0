/**
 * What stood in single channels, where a log names them.
 *
 * Rows name the channel that sown and moved plants come into, and in which picked and lost ones stood. Of a move no
 * row says which channel the plants came from: those of the batch that came first are taken to have left, and where the
 * batch stood in several channels of that stage, both are marked as not told from then on.
 */

import { isoOfDay } from '../../models/dates.js';
import * as route from '../../models/route.js';
import type { LoggedSeason } from '../history/logged-season.js';

export interface ChannelDays {
  readonly channel: string;
  /** Plants that stood there from each date on which that changed. */
  readonly changes: readonly { readonly date: string; readonly standing: number }[];
  /** Date from which on the log leaves open what stood there; null if it never does. */
  readonly told_until: string | null;
}

/** Plants of one batch in one channel. */
interface Part {
  readonly channel: Channel;
  count: number;
}

class Channel {
  readonly changes: { day: number; standing: number }[] = [];
  toldUntil: number | null = null;
  #standing = 0;

  add(day: number, count: number): void {
    this.#standing += count;
    const last = this.changes.at(-1);
    if (last?.day === day) last.standing = this.#standing;
    else this.changes.push({ day, standing: this.#standing });
  }

  doubt(day: number): void {
    this.toldUntil ??= day;
  }
}

/** @returns the channels of each stage, in the order in which the log names them; none where it names none */
export function channelDays(season: LoggedSeason): ChannelDays[][] {
  const { plan, events, batches } = season;
  if (events.every(({ channel }) => channel === null)) return plan.stages.map(() => []);
  const channels = plan.stages.map(() => new Map<string, Channel>());
  /** By batch and stage: where its plants stand, those that came first in front. */
  const parts = batches.map(() => plan.stages.map((): Part[] => []));
  const channelOf = (stage: number, name: string | null): Channel => {
    // Plants without a channel stand somewhere: in a place of no name, which is not shown.
    const key = name ?? '';
    const channel = channels[stage]!.get(key) ?? new Channel();
    channels[stage]!.set(key, channel);
    return channel;
  };
  for (const { action, batch, stage, channel, count, day } of events) {
    if (action === 'clean') continue;
    const crop = plan.crops[batches[batch]!.crop]!;
    // A plant of a crop with several cuts stays where it is picked; which pick was its last is not logged.
    if (action === 'pick' && crop.cuts > 1) {
      for (const part of parts[batch]![route.last(crop)]!) part.channel.doubt(day);
      continue;
    }
    const from = action === 'move' ? route.before(crop, stage) : stage;
    if (action !== 'sow' && action !== 'stand')
      take(parts[batch]![from]!, action === 'move' ? null : channel, channels[from]!, day, count);
    if (action === 'sow' || action === 'move' || action === 'stand') {
      const into = channelOf(stage, channel);
      into.add(day, count);
      const mine = parts[batch]![stage]!;
      const part = mine.find((one) => one.channel === into);
      if (part === undefined) mine.push({ channel: into, count });
      else part.count += count;
    }
  }
  return channels.map((named) =>
    [...named]
      .filter(([name]) => name !== '')
      .map(([name, { changes, toldUntil }]) => ({
        channel: name,
        changes: changes.map(({ day, standing }) => ({ date: isoOfDay(plan.start, day), standing })),
        told_until: toldUntil === null ? null : isoOfDay(plan.start, toldUntil),
      })),
  );
}

/** Take plants of a batch out of a stage: out of the channel named, as far as it has them, else the first. */
function take(
  parts: Part[],
  name: string | null,
  channels: ReadonlyMap<string, Channel>,
  day: number,
  count: number,
): void {
  const named = name === null ? undefined : parts.find(({ channel }) => channel === channels.get(name));
  let left = count;
  const leave = (part: Part): void => {
    const n = Math.min(left, part.count);
    left -= n;
    part.channel.add(day, -n);
    part.count -= n;
    if (part.count === 0) parts.splice(parts.indexOf(part), 1);
  };
  if (named !== undefined) leave(named);
  if (left === 0) return;
  if (parts.length > 1) for (const { channel } of parts) channel.doubt(day);
  while (left > 0 && parts.length > 0) leave(parts[0]!);
}
