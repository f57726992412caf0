/**
 * Which stage comes next. Whoever asks that asks it here.
 *
 * A crop is asked where plants of a crop go, a plan where the stages of the line stand.
 */

/** What has stages in the order in which plants pass them: a crop, or the line as its plan has it. */
export interface Route {
  readonly stages: readonly unknown[];
}

/** The stage in which seeds are sown: its place in the plan. */
export function first(_route: Route): number {
  return 0;
}

/** The stage from which heads are picked: its place in the plan. */
export function last(route: Route): number {
  return route.stages.length - 1;
}

/** Is stage `s` the one from which heads are picked? */
export function isLast(route: Route, s: number): boolean {
  return s === last(route);
}

/** The stage into which plants go from stage `s`; -1 if it is the last. */
export function next(route: Route, s: number): number {
  return isLast(route, s) ? -1 : s + 1;
}

/** The stage from which plants come into stage `s`; -1 if it is the first. */
export function before(_route: Route, s: number): number {
  return s - 1;
}
