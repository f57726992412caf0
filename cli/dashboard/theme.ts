/**
 * Signs and colours by meaning. Each state of a hole has a sign of its own, so that nothing depends on
 * colour; colours are of the 16 that every terminal has, none of them too pale for a light background or too
 * dark for a dark one.
 */

import type { HoleState } from '../../sim/models/ledger.js';

/** What a piece of text means; colours follow from it. */
export type Meaning =
  | HoleState
  | 'plain'
  | 'faint'
  | 'strong'
  | 'chosen'
  | 'band'
  | 'middle'
  | 'want'
  | 'picked'
  | 'warn';

/** A piece of text of one meaning; a row of the screen is a list of them. */
export interface Span {
  readonly text: string;
  readonly meaning: Meaning;
}

export type Row = readonly Span[];

/** All signs are one column wide. */
export interface Signs {
  readonly holes: Readonly<Record<HoleState, string>>;
  /** Shares of a cell from none to full, in eight steps: for small curves. */
  readonly steps: readonly string[];
  readonly band: string;
  /** The middle of a week's picks: low in its place, half-way up, high. */
  readonly middle: readonly [string, string, string];
  readonly want: string;
  /** What was picked in a week of the season on the screen. */
  readonly picked: string;
  readonly rule: string;
  readonly pointer: string;
  /** From one stage to the next. */
  readonly arrow: string;
  /** Between two holes of a channel. */
  readonly rail: string;
  /** Before the rows of a channel that is cut: the first, those between, the last. */
  readonly cut: readonly [string, string, string];
  /** The day on the screen, up and down the weeks, and where that meets the scale of dates. */
  readonly today: string;
  readonly crossing: string;
  /** Where a month begins. */
  readonly tick: string;
  /** Something was left out here. */
  readonly more: string;
  /** Between two short remarks. */
  readonly dot: string;
  /** Where the next letter goes. */
  readonly caret: string;
}

/** For terminals and fonts that show little more than ASCII. */
export const PLAIN: Signs = {
  holes: {
    growing: 'o',
    dead: 'x',
    unattended: '?',
    blocked: '#',
    held: '%',
    cleaning: '~',
    filling: '.',
    untended: ',',
    unsupplied: '_',
  },
  steps: [' ', '.', ':', '-', '=', '+', '*', '#', '@'],
  band: ':',
  middle: ['_', 'o', '"'],
  want: '-',
  picked: '+',
  rule: '-',
  pointer: '>',
  arrow: '>',
  rail: ' ',
  cut: ['/', '|', '\\'],
  today: '|',
  crossing: '|',
  tick: '+',
  more: '~',
  dot: '-',
  caret: '_',
};

export const DRAWN: Signs = {
  holes: {
    growing: '●',
    dead: '×',
    unattended: '◆',
    blocked: '■',
    held: '▲',
    cleaning: '~',
    filling: '·',
    untended: '◇',
    unsupplied: '○',
  },
  steps: [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'],
  band: '┊',
  middle: ['▁', '━', '▔'],
  want: '┄',
  picked: '╋',
  rule: '─',
  pointer: '›',
  arrow: '→',
  rail: '─',
  cut: ['╭', '│', '╰'],
  today: '│',
  crossing: '┼',
  tick: '┬',
  more: '…',
  dot: '·',
  caret: '▏',
};

/** Names of the 16 colours; undefined for the terminal's own. */
export interface TextStyle {
  readonly color?: Color;
  readonly bold?: boolean;
  readonly dim?: boolean;
  readonly inverse?: boolean;
}

export type Color = 'red' | 'green' | 'yellow' | 'magenta' | 'cyan' | 'blueBright';

export const TEXT_STYLES: Readonly<Record<Meaning, TextStyle>> = {
  growing: { color: 'green' },
  dead: { color: 'red' },
  unattended: { color: 'yellow', bold: true },
  blocked: { color: 'magenta', bold: true },
  held: { color: 'cyan' },
  cleaning: { color: 'blueBright' },
  filling: { dim: true },
  untended: { color: 'yellow' },
  unsupplied: {},
  plain: {},
  faint: { dim: true },
  strong: { bold: true },
  chosen: { inverse: true },
  band: { color: 'blueBright' },
  middle: { color: 'cyan', bold: true },
  want: { color: 'yellow' },
  picked: { bold: true },
  warn: { color: 'yellow', bold: true },
};

/** Which signs this terminal can show. `environment` as in process.env. */
export function signsFor(environment: Readonly<Record<string, string | undefined>>, platform: string): Signs {
  const chosen = environment['EVENSOW_SIGNS'];
  if (chosen === 'plain') return PLAIN;
  if (chosen === 'drawn') return DRAWN;
  // The console of Windows shows them only in its newer host, which tells its name.
  if (platform === 'win32') return environment['WT_SESSION'] ? DRAWN : PLAIN;
  const locale = environment['LC_ALL'] || environment['LC_CTYPE'] || environment['LANG'] || '';
  return /utf-?8/i.test(locale) ? DRAWN : PLAIN;
}
