/** A bar in text. Plain characters, so that every terminal and pipe shows them. */

/** A bar of at most `width` places for a share from 0 to 1: `======    `. */
export function bar(share: number, width: number): string {
  const filled = Math.max(0, Math.min(width, Math.round(share * width)));
  return '='.repeat(filled) + ' '.repeat(width - filled);
}

/** A bar for a share, and dashes from there up to another: `=====---   `. */
export function barUpTo(share: number, upTo: number, width: number): string {
  const filled = bar(share, width).trimEnd();
  const whole = bar(Math.max(share, upTo), width);
  return filled + whole.slice(filled.length).replaceAll('=', '-');
}
