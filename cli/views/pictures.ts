/** Small pictures in text: a bar, and a row of weeks. Plain characters, so that every terminal and pipe shows them. */

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

/** The piece between two shares, in its place: `     ==   `. A change too small to see is a `|`. */
export function pieceBetween(from: number, to: number, width: number): string {
  const place = (share: number): number => Math.max(0, Math.min(width, Math.round(share * width)));
  const [low, high] = [Math.min(place(from), place(to)), Math.max(place(from), place(to))];
  const piece = low === high ? '|' : '='.repeat(high - low);
  return ' '.repeat(Math.min(low, width - piece.length)) + piece;
}

/** A mark somewhere on a plane. */
export interface Mark {
  readonly x: number;
  readonly y: number;
  readonly sign: string;
}

/**
 * Marks on a plane of `width` x `height` places, the first row at the top. Where two fall on one place the later one is seen.
 * @param marks at least one, none below `bottom`, at which the last row lies
 */
export function plane(
  marks: readonly Mark[],
  { width, height, bottom }: { readonly width: number; readonly height: number; readonly bottom: number },
): string[] {
  const scale = (least: number, most: number, places: number): ((value: number) => number) => {
    const span = most - least || 1;
    return (value) => Math.round(((value - least) / span) * (places - 1));
  };
  const xs = marks.map(({ x }) => x);
  const column = scale(Math.min(...xs), Math.max(...xs), width);
  const row = scale(bottom, Math.max(...marks.map(({ y }) => y)), height);
  const rows = Array.from({ length: height }, () => new Array<string>(width).fill(' '));
  for (const { x, y, sign } of marks) rows[height - 1 - row(y)]![column(x)] = sign;
  return rows.map((places) => places.join('').trimEnd());
}
