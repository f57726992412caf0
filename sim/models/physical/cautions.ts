/** What can hurt somebody, beside the figures of what a plan takes: wherever they are told these are told too, and nothing turns them off. */

/** Beside any of these figures. */
export const TAKES_CAUTION =
  'Mains beside water, loaded shelves, lamps and eyes, clean food: labels, local codes and licensed people decide, not these figures.';

/** Beside what a shelf bears, whatever it is. */
export const LOAD_CAUTION =
  "The shelf's own label and a competent person decide; even static load only; add people, sloshing, overdue heads and water on the floor; rack and floor are not checked.";
