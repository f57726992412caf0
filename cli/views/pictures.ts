/** Small pictures in text: a bar, and a row of weeks. Plain characters, so that every terminal and pipe shows them. */

/** A bar of at most `width` places for a share from 0 to 1: `======    `. */
export function bar(share: number, width: number): string {
  const filled = Math.max(0, Math.min(width, Math.round(share * width)));
  return '='.repeat(filled) + ' '.repeat(width - filled);
}
