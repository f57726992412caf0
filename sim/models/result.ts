/**
 * How a reader or a study answers: with what was asked for, or with what is wrong with what it was given.
 *
 * A RangeError is for a caller that breaks a written contract; it is nothing that a grower could mend.
 */

/** @typeParam Value what was asked for @typeParam Fault what is wrong, at least one: a sentence, or a place in a file with what was found there */
export type Result<Value, Fault> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly faults: readonly Fault[] };

export function success<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

/** @param faults at least one */
export function failure<Fault>(faults: readonly Fault[]): {
  readonly ok: false;
  readonly faults: readonly Fault[];
} {
  return { ok: false, faults };
}
