import { describe, expect, test } from 'vitest';
import {
  COLOURS,
  CONSOLE,
  DRAWN,
  PLAIN,
  signsFor,
  TEXT_STYLES,
  type TextStyle,
} from '../../../cli/dashboard/theme.js';
import { STATES } from '../../../sim/models/ledger.js';
import { LACKING } from './fonts.js';

test('on the Linux console only signs that its fonts have, each state of a hole by one of its own', () => {
  const signs = signsFor({ TERM: 'linux', LANG: 'C.UTF-8' }, 'linux');
  expect(signs).toBe(CONSOLE);
  expect(JSON.stringify(DRAWN)).toMatch(LACKING);
  expect(JSON.stringify(signs)).not.toMatch(LACKING);
  const holes = Object.values(signs.holes);
  expect(new Set(holes).size).toBe(holes.length);
  expect(new Set(signs.steps).size).toBe(signs.steps.length);
});

test('plain signs where the locale has no others, also on the console; what is chosen is taken', () => {
  expect(signsFor({ TERM: 'linux', LANG: 'C' }, 'linux')).toBe(PLAIN);
  expect(signsFor({ TERM: 'xterm-256color', LANG: 'C.UTF-8' }, 'linux')).toBe(DRAWN);
  expect(signsFor({ TERM: 'linux', LANG: 'C.UTF-8', EVENSOW_SIGNS: 'drawn' }, 'linux')).toBe(DRAWN);
});

type Rgb = readonly [red: number, green: number, blue: number];

const WHITE: Rgb = [255, 255, 255];
const BLACK: Rgb = [0, 0, 0];

/** Contrast of two colours, 1 to 21: WCAG 2.1, definitions of contrast ratio and relative luminance (from memory). */
function contrast(one: Rgb, other: Rgb): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(rgb: Rgb): number {
  const [red, green, blue] = rgb.map((value) => {
    const share = value / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as unknown as Rgb;
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Colour of a place beyond the first 16 of 256 (from memory: xterm's table). */
function fixed(place: number): Rgb {
  if (place >= 232) return Array(3).fill(8 + 10 * (place - 232)) as unknown as Rgb;
  const level = (step: number): number => [0, 95, 135, 175, 215, 255][step]!;
  const at = place - 16;
  return [level(Math.floor(at / 36)), level(Math.floor(at / 6) % 6), level(at % 6)];
}

/** What the 16 are in two usual tables, xterm's and VGA's (from memory), by their code. */
const TABLES: readonly Readonly<Record<string, Rgb>>[] = [
  { 35: [205, 0, 205], 91: [255, 0, 0], 94: [92, 92, 255] },
  { 35: [170, 0, 170], 91: [255, 85, 85], 94: [85, 85, 255] },
];

describe('what is written can be read on white and on black', () => {
  // From memory: black on white is 21 to 1; the grey #767676 is known as the palest with 4.5 on white.
  test('(the contrast is that of WCAG)', () => {
    expect(contrast(BLACK, WHITE)).toBeCloseTo(21, 10);
    expect(contrast([0x76, 0x76, 0x76], WHITE)).toBeGreaterThan(4.5);
    expect(contrast([0x77, 0x77, 0x77], WHITE)).toBeLessThan(4.5);
    expect(fixed(243)).toEqual([0x76, 0x76, 0x76]);
    expect(fixed(16)).toEqual(BLACK);
    expect(fixed(231)).toEqual(WHITE);
  });

  // WCAG 2.1, success criterion 1.4.3: 4.5 to 1 for text.
  test.each(Object.entries(COLOURS))('where there are 256 colours: %s', (_, { 256: codes }) => {
    const place = Number(/^38;5;(\d+)$/.exec(codes)![1]);
    expect(place).toBeGreaterThanOrEqual(16);
    expect(contrast(fixed(place), WHITE)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(fixed(place), BLACK)).toBeGreaterThanOrEqual(4.5);
  });

  // WCAG 2.1, success criterion 1.4.11: 3 to 1 for what is no text.
  test.each(Object.entries(COLOURS))('where there are 16: %s', (_, { 16: code }) => {
    if (code === '') return;
    for (const table of TABLES) {
      expect(contrast(table[code]!, WHITE)).toBeGreaterThanOrEqual(3);
      expect(contrast(table[code]!, BLACK)).toBeGreaterThanOrEqual(3);
    }
  });

  test('of 16 none colours words, nor anything bold: it would come out pale', () => {
    for (const [meaning, style] of Object.entries<TextStyle>(TEXT_STYLES)) {
      const isSign = STATES.some((state) => state === meaning) || ['band', 'want'].includes(meaning);
      const code = style.colour === undefined ? '' : COLOURS[style.colour][16];
      if (!isSign || style.bold) expect([meaning, code]).toEqual([meaning, '']);
    }
  });
});
