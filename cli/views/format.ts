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
  return String(value).replace(/\B(?=(\d{3})+(?!\d))/g, ' ');
}

/** `1 hole`, `12 holes`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${thousands(count)} ${count === 1 ? one : many}`;
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

/** A difference with its sign: +1.3, -0.2, 0.0. */
export function gainText(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  if (Number(text) === 0) return (0).toFixed(decimals);
  return value > 0 ? `+${text}` : text;
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

/** Lines further to the right. */
export function indented(lines: readonly string[], by = 2): string[] {
  return lines.map((line) => `${' '.repeat(by)}${line}`);
}

/** Break a sentence into lines of at most `width`, each after `indent`. */
export function wrap(text: string, width: number, indent = ''): string {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(' ')) {
    if (line.length > indent.length && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
    }
    line += line.length > indent.length ? ` ${word}` : word;
  }
  lines.push(line);
  return lines.join('\n');
}
