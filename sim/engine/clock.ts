/**
 * The grid of time: every time in the simulator is a multiple of one tick.
 *
 * Why a grid: sums of multiples of a power of two are exact in doubles as long as they stay below 2^53 ticks. So the
 * days that a season books to its states add up to the days there are, to the last digit and in any order, up to
 * 2^29 (536 million) hole-days; 150 000 holes for a year are 55 million. A tick is 5 ms, far below anything that
 * a plant or a grower notices.
 */

/** Ticks per day: a power of two, so that whole days lie on the grid. */
export const TICKS_PER_DAY = 2 ** 24;

/** The shortest time that is not none [d]. */
export const TICK = 1 / TICKS_PER_DAY;

/** The time on the grid that is nearest to `days` [d]. Infinity stays Infinity. */
export function toGrid(days: number): number {
  return Math.round(days * TICKS_PER_DAY) * TICK;
}
