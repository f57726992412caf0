/** The valid word that somebody most likely meant. */

import { distance } from 'fastest-levenshtein';

/** Shorter pieces than this are found inside too many words to mean anything. */
const SHORTEST_PIECE = 3;

/**
 * The candidate nearest to `word`, or null if none is near.
 *
 * Near is: at most about 2 letters in 5 wrong, the same letters in another order, or one word inside the other.
 * Upper and lower case do not matter. Among equally near candidates the first wins.
 */
export function nearest(word: string, candidates: readonly string[]): string | null {
  const given = word.trim().toLowerCase();
  // Comparing costs the product of the lengths; nobody mistypes a word by this much.
  if (given.length === 0 || given.length > 100) return null;
  let best: string | null = null;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const valid = candidate.toLowerCase();
    const off = sameLetters(given, valid) ? Math.min(1, distance(given, valid)) : distance(given, valid);
    const allowed = Math.max(1, Math.floor(Math.max(given.length, valid.length) * 0.4));
    if (off <= allowed && off < Math.min(bestDistance, valid.length)) {
      best = candidate;
      bestDistance = off;
    }
  }
  return best ?? candidates.find((candidate) => oneInsideOther(given, candidate.toLowerCase())) ?? null;
}

function sameLetters(a: string, b: string): boolean {
  return a.length === b.length && [...a].sort().join('') === [...b].sort().join('');
}

function oneInsideOther(a: string, b: string): boolean {
  if (Math.min(a.length, b.length) < SHORTEST_PIECE) return false;
  return a.includes(b) || b.includes(a);
}
