/**
 * A few sets of fronts that may well have been, for all stretches of a stage.
 *
 * What a batch of several cohorts makes of a stretch (see cohort-mixture.ts) depends on all the fronts at once, too
 * much to sum out. So it is averaged over a few paths of fronts. The paths are no chance: path m takes, at
 * each visit, one of PATHS equal parts of the probability, another part than every other path, and at each
 * visit in another order (a Latin square). The same shares serve every trial of the parameters, so the
 * likelihood stays smooth.
 */

/** A prime, so that each multiple of 0 ... PATHS - 1 is an order of its own. */
export const CUTOFF_PATHS = 7;

/** Share of the probability below the front, for each visit of a stretch. */
export function sharesOf(path: number, visits: number): number[] {
  return Array.from({ length: visits }, (_, visit) => {
    const order = 1 + (visit % (CUTOFF_PATHS - 1));
    return (((order * path + visit) % CUTOFF_PATHS) + 0.5) / CUTOFF_PATHS;
  });
}
