/**
 * How a reader or a study answers: with what was asked for, or with what is wrong with what it was given.
 *
 * A RangeError is for a caller that breaks a written contract; it is nothing that a grower could mend.
 */

/** @typeParam Value what was asked for @typeParam Fault what is wrong, at least one: a sentence, or a place in a file with what was found there */
export type Result<Value, Fault> = Success<Value> | Failure<Fault>;

/** It can be done: here it is. */
export interface Success<Value> {
  readonly ok: true;
  readonly value: Value;
}

/** It cannot be done: here is why. */
export interface Failure<Fault> {
  readonly ok: false;
  /** At least one. */
  readonly faults: readonly Fault[];
}

export function success<Value>(value: Value): Success<Value> {
  return { ok: true, value };
}

/** @param faults at least one */
export function failure<Fault>(faults: readonly Fault[]): Failure<Fault> {
  return { ok: false, faults };
}
