/** What watches futures: it is told of one after the other, and gives what it saw of each, to be brought together later. */

import type { Recorder } from '../../models/line.js';
import type { Opening } from '../../models/opening.js';

/** @typeParam Seen what is seen of one future: plain data, since futures may be run on other threads */
export interface Watcher<Seen> extends Recorder {
  /** A future begins. @param opening null: with an empty line, at the start of the season */
  begin(opening: Opening | null): void;
  /** It is over. */
  end(): Seen;
}

/** What each of some watchers sees of a future, by their names. */
type SeenByAll<All> = { readonly [Name in keyof All]: All[Name] extends Watcher<infer Seen> ? Seen : never };

/** Several watchers as one, which hear of everything in this order. */
export function together<All extends Readonly<Record<string, Watcher<unknown>>>>(
  all: All,
): Watcher<SeenByAll<All>> {
  const watchers = Object.values(all);
  return {
    begin: (opening) => {
      for (const watcher of watchers) watcher.begin(opening);
    },
    note: (t, deed, plant, crop, stage, hole) => {
      for (const watcher of watchers) watcher.note(t, deed, plant, crop, stage, hole);
    },
    visited: (t, free) => {
      for (const watcher of watchers) watcher.visited?.(t, free);
    },
    end: () =>
      Object.fromEntries(
        Object.entries(all).map(([name, watcher]) => [name, watcher.end()]),
      ) as SeenByAll<All>,
  };
}
