/**
 * Signs and colours by meaning. Each state of a hole has a sign of its own, so that nothing depends on
 * colour; colours are of the 16 that every terminal has, none of them too pale for a light background or too
 * dark for a dark one.
 */

import type { HoleState } from '../../sim/models/ledger.js';

/** What a piece of text means; colours follow from it. */
export type Meaning = keyof typeof TEXT_STYLES;

/** A piece of text of one meaning; a row of the screen is a list of them. */
export interface Span {
  readonly text: string;
  readonly meaning: Meaning;
}

export type Row = readonly Span[];

/** A sign, and what stands for it on terminals and in fonts that show little more than ASCII. */
type Sign = readonly [drawn: string, plain: string];

const HOLES: Readonly<Record<HoleState, Sign>> = {
  growing: ['●', 'o'],
  dead: ['×', 'x'],
  unattended: ['◆', '?'],
  blocked: ['■', '#'],
  held: ['▲', '%'],
  cleaning: ['~', '~'],
  filling: ['·', '.'],
  untended: ['◇', ','],
  unsupplied: ['○', '_'],
};

const SINGLE = {
  band: ['┊', ':'],
  want: ['┄', '-'],
  /** What was picked in a week of the season on the screen. */
  picked: ['╋', '+'],
  rule: ['─', '-'],
  pointer: ['›', '>'],
  /** Before the plan on the screen, among others. */
  now: ['►', '*'],
  /** Behind what holds the line back. */
  holds: ['◄', '<'],
  /** A bar of heads, and the bad week on it. */
  bar: ['━', '='],
  bad: ['┿', '+'],
  /** From one stage to the next. */
  arrow: ['→', '>'],
  /** Between two holes of a channel. */
  rail: ['─', ' '],
  /** The day on the screen, up and down the weeks, and where that meets the scale of dates. */
  today: ['│', '|'],
  crossing: ['┼', '|'],
  /** Where a month begins. */
  tick: ['┬', '+'],
  /** Something was left out here. */
  more: ['…', '~'],
  /** Between two short remarks. */
  dot: ['·', '-'],
  /** Where the next letter goes. */
  caret: ['▏', '_'],
} as const satisfies Readonly<Record<string, Sign>>;

/** All signs are one column wide. */
export interface Signs extends Readonly<Record<keyof typeof SINGLE, string>> {
  readonly holes: Readonly<Record<HoleState, string>>;
  /** Shares of a cell from none to full, in eight steps: for small curves. */
  readonly steps: readonly string[];
  /** The middle of a week's picks: low in its place, half-way up, high. */
  readonly middle: readonly [string, string, string];
  /** Before the rows of a channel that is cut: the first, those between, the last. */
  readonly cut: readonly [string, string, string];
}

export const DRAWN: Signs = {
  ...chosen(SINGLE, 0),
  holes: chosen(HOLES, 0),
  steps: [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'],
  middle: ['▁', '━', '▔'],
  cut: ['╭', '│', '╰'],
};

export const PLAIN: Signs = {
  ...chosen(SINGLE, 1),
  holes: chosen(HOLES, 1),
  steps: [' ', '.', ':', '-', '=', '+', '*', '#', '@'],
  middle: ['_', 'o', '"'],
  cut: ['/', '|', '\\'],
};

function chosen<Name extends string>(signs: Readonly<Record<Name, Sign>>, which: 0 | 1) {
  const all = Object.entries<Sign>(signs).map(([name, sign]) => [name, sign[which]]);
  return Object.fromEntries(all) as Record<Name, string>;
}

/** Names of the 16 colours; undefined for the terminal's own. */
export interface TextStyle {
  readonly color?: Color;
  readonly bold?: boolean;
  readonly dim?: boolean;
  readonly inverse?: boolean;
}

export type Color = 'red' | 'green' | 'yellow' | 'magenta' | 'cyan' | 'blueBright';

export const TEXT_STYLES = {
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
} as const satisfies Readonly<Record<string, TextStyle>>;

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
