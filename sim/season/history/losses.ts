/** How plants were lost, as far as the note of a `lose` row tells. */

export type LossKind = 'failed' | 'died' | 'discarded';

/** Words in a note that tell, in the order in which they are looked for. */
const WORDS: readonly (readonly [RegExp, LossKind])[] = [
  [/discard|thrown|overgrown|bolt|too (?:old|big|large|long)/i, 'discarded'],
  [/fail|sprout|germinat|empty/i, 'failed'],
  [/die|dead|death|rot|damp|wilt|mould|mold|pest|eaten/i, 'died'],
];

/** @returns null if the note does not say */
export function lossKind(note: string | null): LossKind | null {
  if (note === null) return null;
  return WORDS.find(([words]) => words.test(note))?.[1] ?? null;
}
