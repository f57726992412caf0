/**
 * What usually is so, for a line of which nothing was measured yet. One schedule is published (docs/sources.md); the rest is common
 * practice, from memory, and is said to be.
 */

/** A kind of plant with its usual days: to sprout, close together, at the final spacing. */
export interface Kind {
  readonly name: string;
  readonly days: readonly [germination: number, nursery: number, finishing: number];
  readonly published: boolean;
}

export const KINDS: readonly Kind[] = [
  // Brechner & Both, Hydroponic Lettuce Handbook, Cornell University: 35 days to a head, moved on days 11 and 21.
  { name: 'lettuce', days: [11, 10, 14], published: true },
  { name: 'butterhead', days: [7, 14, 21], published: false },
  { name: 'romaine', days: [7, 14, 24], published: false },
  { name: 'loose-leaf', days: [7, 12, 16], published: false },
  { name: 'pak choi', days: [6, 12, 18], published: false },
  { name: 'basil', days: [9, 14, 21], published: false },
];

/** Where a figure of a kind is from, in a word or two. */
export function originOf({ published }: Kind): string {
  return published ? 'a published schedule' : 'common practice';
}

/** Stages to which usual days can be dealt: of more, nobody knows what they are for. */
const MOST_STAGES = 4;

/**
 * Usual days of a kind in so many stages: with fewer than three the first ones are one, with four the nursery has two halves.
 * @returns null if it cannot be said
 */
export function usualDays(
  { days: [germination, nursery, finishing] }: Kind,
  stages: number,
): number[] | null {
  if (stages > MOST_STAGES) return null;
  if (stages === 1) return [germination + nursery + finishing];
  if (stages === 2) return [germination + nursery, finishing];
  const parts = stages - 2;
  return [germination, ...Array.from({ length: parts }, () => nursery / parts), finishing];
}

/** Usual names of so many stages, in their order. */
export function usualNames(stages: number): string[] {
  if (stages === 1) return ['finishing'];
  if (stages === 2) return ['nursery', 'finishing'];
  const parts = stages - 2;
  const nursery = (i: number): string => (parts === 1 ? 'nursery' : `nursery ${i + 1}`);
  return ['germination', ...Array.from({ length: parts }, (_, i) => nursery(i)), 'finishing'];
}

/** Common practice, from memory. */
export const USUAL = {
  /** Share of the seeds that sprout. */
  germination: 0.9,
  /** Standard deviation of a growing time over its mean; docs/keys.md: 0.10 to 0.20. */
  spread: 0.12,
  /** Share of the plants that die in a stage behind the first. */
  loss: 0.02,
  /** Days that a ready plant keeps where it stands [d]. */
  keeps: 7,
} as const;
