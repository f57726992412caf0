/**
 * How often a statistical check is repeated. In every run no more than its claim needs: what is allowed to chance then follows from the
 * count, so what is right passes as surely, and what is wrong by several standard errors is found; what is wrong by less
 * may pass. `IN_FULL=1` asks for all of it, from which a claim is known more exactly.
 */

/** Asked for; `IN_FULL=0` does not. */
export const IN_FULL = !['', '0'].includes(process.env['IN_FULL'] ?? '');

/** @param usual in every run @param full with `IN_FULL` */
export function repeats(usual: number, full: number): number {
  return IN_FULL ? full : usual;
}

/**
 * Length of a simulated season of a check, of which a quarter does in every run: a figure's standard error is then twice as large.
 * @param full with `IN_FULL` @param least in every run
 */
export function lasting(full: number, least = 0): number {
  return IN_FULL ? full : Math.min(full, Math.max(least, Math.ceil(full / 4)));
}

/** Largest standard error of a figure from seasons that are `lasting`. @param full of those in full */
export function resolving(full: number): number {
  return IN_FULL ? full : 2 * full;
}

/** Standard error of a share from so many independent repeats. */
export function shareError(share: number, count: number): number {
  return Math.sqrt((share * (1 - share)) / count);
}
