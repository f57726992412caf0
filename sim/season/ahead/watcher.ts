/** What watches futures: it is told of one after the other, and gives what it saw of each, to be brought together later. */

import type { InitialState } from '../../models/initial-state.js';
import type { EventObserver } from '../../models/line/line.js';

/** @typeParam Seen what is seen of one future: plain data, since futures may be run on other threads */
export interface Watcher<Seen> extends EventObserver {
  /** A future begins. @param initial null: with an empty line, at the start of the season */
  begin(initial: InitialState | null): void;
  /** It is over. */
  end(): Seen;
}

/** What each of some watchers sees of a future, by their names. */
type SeenByAll<All> = { readonly [Name in keyof All]: All[Name] extends Watcher<infer Seen> ? Seen : never };

/** Several watchers as one, which hear of everything in this order. */
export function combineWatchers<All extends Readonly<Record<string, Watcher<unknown>>>>(
  all: All,
): Watcher<SeenByAll<All>> {
  const watchers = Object.values(all);
  return {
    begin: (initial) => {
      for (const watcher of watchers) watcher.begin(initial);
    },
    onEvent: (t, event, plant, crop, stage, hole) => {
      for (const watcher of watchers) watcher.onEvent(t, event, plant, crop, stage, hole);
    },
    onVisitEnd: (t, free) => {
      for (const watcher of watchers) watcher.onVisitEnd?.(t, free);
    },
    end: () =>
      Object.fromEntries(
        Object.entries(all).map(([name, watcher]) => [name, watcher.end()]),
      ) as SeenByAll<All>,
  };
}
