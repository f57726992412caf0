/** Numbers, dates and columns as a grower reads them. Pure functions. */

/** Columns of a text: it fits into the smallest usual terminal. */
export const WIDTH = 80;

const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `Mon 4 Jan 2027` of an ISO date. */
export function dateText(iso: string): string {
  const date = new Date(`${iso}T00:00:00Z`);
  return `${WEEKDAYS[date.getUTCDay()]} ${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]} ${date.getUTCFullYear()}`;
}

/** A number of plants, heads or seeds: whole from 100 on and where it is whole, else with one decimal. */
export function countText(value: number): string {
  if (value >= 100 || Number.isInteger(value)) return thousands(Math.round(value));
  return value.toFixed(1);
}

/** A whole number with thin groups of three: 152 400. */
export function thousands(value: number): string {
  return inThrees(String(value));
}

/** The digits of a whole number in groups of three. */
function inThrees(digits: string): string {
  return digits.replace(/\B(?=(\d{3})+(?!\d))/g, ' ');
}

/** `1 hole`, `12 holes`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${thousands(count)} ${count === 1 ? one : many}`;
}

/** The same of a mean, which may have a decimal: `1 head`, `1.3 heads`. */
export function countedMean(value: number, one: string, many = `${one}s`): string {
  const text = countText(value);
  return `${text} ${text === '1' ? one : many}`;
}

/** a, b and c */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** A share as a percentage; a share that is not 0 never reads as 0. */
export function percentText(share: number): string {
  const percent = share * 100;
  if (percent === 0) return '0 %';
  if (percent < 0.1) return '<0.1 %';
  if (percent > 99.95 && percent < 100) return '>99.9 %';
  return `${percent.toFixed(1)} %`;
}

/** A difference with its sign: +1.3, -0.2, 0.0, +1 840. */
export function gainText(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  if (Number(text) === 0) return (0).toFixed(decimals);
  const [whole, ...behind] = text.split('.');
  const grouped = [inThrees(whole!), ...behind].join('.');
  return value > 0 ? `+${grouped}` : grouped;
}

/** Decimals for a column of figures: two digits of a small largest one, one of a middling, none from 1000 on. */
export function decimalsFor(largest: number): number {
  if (largest >= 1000) return 0;
  return largest >= 1 || !(largest > 0) ? 1 : Math.min(3, 1 - Math.floor(Math.log10(largest)));
}

/** Rows as columns: the first column to the left, the others to the right. */
export function columns(rows: readonly (readonly string[])[], gap = 2): string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows.map((row) =>
    row
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
      .join(' '.repeat(gap))
      .trimEnd(),
  );
}

/** Columns, closer together if they would be wider than `width`. */
export function fitting(rows: readonly (readonly string[])[], width = WIDTH): string[] {
  const lines = columns(rows);
  return lines.some((line) => line.length > width) ? columns(rows, 1) : lines;
}

/** Lines further to the right. */
export function indented(lines: readonly string[], by = 2): string[] {
  return lines.map((line) => `${' '.repeat(by)}${line}`);
}

/** Between the beginning and the end of a name that is too long. */
const CUT = '..';

/**
 * The names of a table, none longer than `width`: what is too long loses its middle (`butterhea..reen`), and names that
 * differ stay different.
 *
 * All are cut at the same place: one third of what is left is the end of the name. If that makes two alike, another place is
 * taken that does not; if there is none, the end gives way to a number.
 * @param width at least 6
 * @returns what each name is called in the table
 */
export function shortNames(names: readonly string[], width: number): ReadonlyMap<string, string> {
  const all = [...new Set(names)];
  const long = all.filter((name) => [...name].length > width);
  const short = new Map(all.map((name) => [name, name]));
  const kept = width - CUT.length;
  const usual = Math.floor(kept / 3);
  const ends = Array.from({ length: kept }, (_, end) => end).sort(
    (a, b) => Math.abs(a - usual) - Math.abs(b - usual),
  );
  for (const end of ends) {
    for (const name of long) short.set(name, cut(name, kept - end, end));
    if (new Set(short.values()).size === all.length) return short;
  }
  const taken = new Set(all.filter((name) => !long.includes(name)));
  let number = 0;
  for (const name of long) {
    let numbered: string;
    do {
      const end = `${CUT}${++number}`;
      numbered = `${[...name].slice(0, width - end.length).join('')}${end}`;
    } while (taken.has(numbered));
    short.set(name, numbered);
  }
  return short;
}

/** So many letters of the beginning and of the end. */
function cut(name: string, beginning: number, end: number): string {
  const all = [...name];
  return `${all.slice(0, beginning).join('')}${CUT}${all.slice(all.length - end).join('')}`;
}

/** Longest name that is told in full in a table, and the shortest that is made of it where room is scarce. */
const MOST_NAME = 24;
const LEAST_NAME = 8;

/**
 * A table with names in it, as wide as it may be: first the columns come closer together, then the names get shorter.
 * @param names all that stand in it
 * @param rows of the table, given what each name is called in it
 */
export function tableOfNames(
  names: readonly string[],
  rows: (called: (name: string) => string) => readonly (readonly string[])[],
  { width = WIDTH, most = MOST_NAME }: { readonly width?: number; readonly most?: number } = {},
): string[] {
  for (let letters = most; ; letters--) {
    const short = shortNames(names, letters);
    const lines = fitting(
      rows((name) => short.get(name)!),
      width,
    );
    if (letters <= LEAST_NAME || lines.every((line) => line.length <= width)) return lines;
  }
}

/** A space between the groups of a large number: no line ends there. */
const BETWEEN_WORDS = / (?!(?<=(?<!\d)\d{1,3}(?: \d{3})* )\d{3}(?!\d))/;

/**
 * Break a sentence into lines of at most `width`, each after `indent`: between words, and within a word only if it is longer
 * than a line.
 * @param whole leave such a word in one piece, since it is the name of a file
 */
export function wrap(text: string, width: number, indent = '', whole = false): string {
  const lines: string[] = [];
  let line = indent;
  const room = whole ? Infinity : Math.max(1, width - indent.length);
  for (const word of text.split(BETWEEN_WORDS).flatMap((word) => pieces(word, room))) {
    if (line.length > indent.length && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
    }
    line += line.length > indent.length ? ` ${word}` : word;
  }
  lines.push(line);
  return lines.join('\n');
}

/** A word in pieces of at most `most` letters. */
function pieces(word: string, most: number): string[] {
  if (word.length <= most) return [word];
  return Array.from({ length: Math.ceil(word.length / most) }, (_, i) =>
    word.slice(i * most, (i + 1) * most),
  );
}
