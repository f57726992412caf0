/**
 * Signs and colours by meaning. Each state of a hole has a sign of its own, so that nothing depends on colour; colours can be read on
 * white and on black.
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
  cleaning: ['~', '&'],
  filling: ['·', '.'],
  untended: ['◇', ','],
  unsupplied: ['○', '_'],
};

const SINGLE = {
  band: ['┊', ':'],
  want: ['┄', '-'],
  /** What was picked in a week of the season on the screen. */
  picked: ['╋', '+'],
  /** The same of a week that is not over: it may go up. */
  soFar: ['↑', '^'],
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
  /** The same where it goes through the band of a week. */
  todayInBand: ['║', '!'],
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
  middle: ['_', '=', '"'],
  cut: ['/', '|', '\\'],
};

/**
 * For the Linux console: what its fonts lack is replaced. Lat15-Fixed16, Lat15-Terminus16, Uni2-Fixed16 and Uni2-Terminus16 of Debian's
 * console-setup-linux 1.221 have, by their own tables, none of ► ◄ ◆ ◇ ○ ▏ ▔ ▓ and no eighth of a block but █.
 */
export const CONSOLE: Signs = {
  ...DRAWN,
  now: '▶',
  holds: '◀',
  caret: PLAIN.caret,
  holes: { ...DRAWN.holes, unattended: '?', untended: ',', unsupplied: 'o' },
  steps: [' ', '.', ':', '-', '=', '+', '░', '▒', '█'],
  middle: ['_', '━', '"'],
};

function chosen<Name extends string>(signs: Readonly<Record<Name, Sign>>, which: 0 | 1) {
  const all = Object.entries<Sign>(signs).map(([name, sign]) => [name, sign[which]]);
  return Object.fromEntries(all) as Record<Name, string>;
}

/** How many colours a terminal shows; 0 where there are to be none. */
export type Colours = 0 | 16 | 256;

/**
 * Colours by Select Graphic Rendition (ECMA-48). Of 256 those beyond the first 16 have values of their own everywhere: levels 0, 95, 135,
 * 175, 215, 255 of red, green and blue, then 24 greys (from memory: xterm's table). These six are all that have a contrast of at least
 * 4.5 to 1 to white and to black alike. Of 16 each terminal has its own idea, so few are used, for signs alone; empty: the terminal's own
 * colour of letters.
 */
export const COLOURS = {
  green: { 256: '38;5;29', 16: '' },
  blue: { 256: '38;5;63', 16: '94' },
  violet: { 256: '38;5;98', 16: '35' },
  red: { 256: '38;5;131', 16: '91' },
  magenta: { 256: '38;5;163', 16: '35' },
  grey: { 256: '38;5;243', 16: '' },
  /** For words, which are bold already: many a terminal makes bold ones of the 16 pale. */
  notice: { 256: '38;5;163', 16: '' },
} as const satisfies Readonly<Record<string, Readonly<Record<Exclude<Colours, 0>, string>>>>;

/** Undefined: as the terminal writes. */
export interface TextStyle {
  readonly colour?: keyof typeof COLOURS;
  readonly bold?: boolean;
  readonly inverse?: boolean;
}

export const TEXT_STYLES = {
  growing: { colour: 'green' },
  dead: { colour: 'red' },
  unattended: { colour: 'violet' },
  blocked: { colour: 'magenta' },
  held: { colour: 'blue' },
  cleaning: { colour: 'blue' },
  filling: { colour: 'grey' },
  untended: { colour: 'violet' },
  unsupplied: {},
  plain: {},
  faint: { colour: 'grey' },
  strong: { bold: true },
  chosen: { inverse: true },
  band: { colour: 'blue' },
  middle: { colour: 'green', bold: true },
  want: { colour: 'violet' },
  picked: { bold: true },
  warn: { colour: 'notice', bold: true },
} as const satisfies Readonly<Record<string, TextStyle>>;

/** Which signs this terminal can show. `environment` as in process.env. */
export function signsFor(environment: Readonly<Record<string, string | undefined>>, platform: string): Signs {
  const chosen = environment['EVENSOW_SIGNS'];
  if (chosen === 'plain') return PLAIN;
  if (chosen === 'drawn') return DRAWN;
  // The console of Windows shows them only in its newer host, which tells its name.
  if (platform === 'win32') return environment['WT_SESSION'] ? DRAWN : PLAIN;
  const locale = environment['LC_ALL'] || environment['LC_CTYPE'] || environment['LANG'] || '';
  if (!/utf-?8/i.test(locale)) return PLAIN;
  return environment['TERM'] === 'linux' ? CONSOLE : DRAWN;
}
