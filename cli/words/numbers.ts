/** Numbers as a grower reads them: one plural, one way to write a figure, one to write an interval. */

/** How a figure is written. */
export type Form =
  /** Plants, heads, seeds: whole from 100 on and where it is whole, else with one decimal. */
  | { readonly as: 'count' }
  /** A share from 0 to 1, in percent. */
  | { readonly as: 'share' }
  | { readonly as: 'number'; readonly decimals: number }
  /** With so many digits that tell something. */
  | { readonly as: 'digits'; readonly digits: number }
  /** A day of the season, from 0. */
  | { readonly as: 'day' }
  /** A difference with its sign. @property percent whether it is one of shares */
  | { readonly as: 'gain'; readonly decimals: number; readonly percent?: boolean };

export const COUNT: Form = { as: 'count' };
export const SHARE: Form = { as: 'share' };

export function fixed(decimals: number): Form {
  return { as: 'number', decimals };
}

export function signed(decimals: number, percent = false): Form {
  return { as: 'gain', decimals, percent };
}

/** A figure with the unit of its form: `18.6`, `+0.3`, `1.2 %`. */
export function figureText(value: number, form: Form): string {
  return bare(value, form) + unitOf(form);
}

/** `+0.1 to +0.5`, `88.5 to 93.3 %`. */
export function intervalText({ low, high }: Bounds, form: Form): string {
  return `${bare(low, form)} to ${bare(high, form)}${unitOf(form)}`;
}

/** The ends of an interval. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
}

function unitOf(form: Form): string {
  return form.as === 'share' || (form.as === 'gain' && form.percent) ? ' %' : '';
}

function bare(value: number, form: Form): string {
  switch (form.as) {
    case 'count':
      return value >= 100 || Number.isInteger(value) ? thousands(Math.round(value)) : value.toFixed(1);
    case 'share':
      return percent(value * 100);
    case 'number':
      return grouped(unsignedZero(value.toFixed(form.decimals)));
    case 'digits':
      return grouped(String(Number(value.toPrecision(form.digits))));
    case 'day':
      return `day ${Math.round(value)}`;
    case 'gain': {
      const text = unsignedZero((form.percent ? value * 100 : value).toFixed(form.decimals));
      return value > 0 && Number(text) !== 0 ? `+${grouped(text)}` : grouped(text);
    }
  }
}

/** What is rounded to 0 has no sign. */
function unsignedZero(text: string): string {
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** A share that is not 0 never reads as 0, and one that is not all never as 100. */
function percent(value: number): string {
  if (value === 0) return '0';
  if (value < 0.1) return '<0.1';
  return value > 99.95 && value < 100 ? '>99.9' : value.toFixed(1);
}

/** A number of plants, heads or seeds. */
export function countText(value: number): string {
  return bare(value, COUNT);
}

/** A share from 0 to 1 as a percentage. */
export function percentText(share: number): string {
  return figureText(share, SHARE);
}

/** A difference with its sign: +1.3, -0.2, 0.0, +1 840. */
export function gainText(value: number, decimals: number): string {
  return figureText(value, signed(decimals));
}

/** A whole number with thin groups of three: 152 400. */
export function thousands(value: number): string {
  return grouped(String(value));
}

/** The digits before the point in groups of three. */
function grouped(text: string): string {
  const [whole, ...behind] = text.split('.');
  return [whole!.replace(/\B(?=(\d{3})+(?!\d))/g, ' '), ...behind].join('.');
}

/** `1 hole`, `12 holes`, `1.3 heads`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  const text = countText(count);
  return `${text} ${plural(text, one, many)}`;
}

/** What follows on heads of which 1 week in 10 brings no more: nothing is fewer than none. */
export function orFewer(heads: number): string {
  return heads > 0 ? ' or fewer' : '';
}

/** `hole` of a text that reads 1, else `holes`. */
export function plural(count: string, one: string, many = `${one}s`): string {
  return count === '1' ? one : many;
}

/** a, b and c */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** `B1, B2, B3 and 4 more`: the first few, and how many others there are. */
export function firstOf(names: readonly string[], most: number): string {
  const few = names.slice(0, most).join(', ');
  return names.length > most ? `${few} and ${names.length - most} more` : few;
}

/** Decimals for a column of figures: two digits of a small largest one, one of a middling, none from 1000 on. */
export function decimalsFor(largest: number): number {
  if (largest >= 1000) return 0;
  return largest >= 1 || !(largest > 0) ? 1 : Math.min(3, 1 - Math.floor(Math.log10(largest)));
}

/** Stands between words that no line should part; it reads as a space. */
export const TIE = '\u00a0';

/** Whole numbers beside shares that add up to a whole: each rounded down, and one more for those that lack most (Hamilton's method). */
export function parted(whole: number, shares: readonly number[]): number[] {
  const down = shares.map(Math.floor);
  const left = down.reduce((rest, share) => rest - share, whole);
  const lack = (i: number): number => shares[i]! - down[i]!;
  const most = [...shares.keys()].sort((a, b) => lack(b) - lack(a)).slice(0, Math.max(0, left));
  return down.map((share, i) => share + (most.includes(i) ? 1 : 0));
}
