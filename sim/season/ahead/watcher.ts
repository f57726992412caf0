/** What watches futures: each is watched anew, and what was seen of it is brought together later. */

import type { InitialState } from '../../models/initial-state.js';
import type { EventObserver } from '../../models/line/line.js';

/** Watches one future. @typeParam Seen plain data, since futures may be run on other threads */
export interface Watch<Seen> extends EventObserver {
  /** The future is over. */
  end(): Seen;
}

/** Begins to watch a future. @param initial null: with an empty line, at the start of the season */
export type Watcher<Seen> = (initial: InitialState | null) => Watch<Seen>;

/** What each of some watches sees of a future, by their names. */
type SeenByAll<All> = { readonly [Name in keyof All]: All[Name] extends Watch<infer Seen> ? Seen : never };

/** Several watches as one, which hear of everything in this order. */
export function combineWatches<All extends Readonly<Record<string, Watch<unknown>>>>(
  all: All,
): Watch<SeenByAll<All>> {
  const watches = Object.values(all);
  return {
    onEvent: (t, event, plant, crop, stage, hole) => {
      for (const watch of watches) watch.onEvent(t, event, plant, crop, stage, hole);
    },
    onVisitEnd: (t, free) => {
      for (const watch of watches) watch.onVisitEnd?.(t, free);
    },
    end: () =>
      Object.fromEntries(Object.entries(all).map(([name, watch]) => [name, watch.end()])) as SeenByAll<All>,
  };
}
