/** Two stages against each other: heads a week of each size beside what holes and times allow, then its bad week. */

import type { SizeOfLine, SizeResult } from '../../sim/study/size/size.js';
import { shortNames } from '../render/short-names.js';
import { countText } from '../words/numbers.js';
import { WIDTH } from './format.js';
import { headsText, KNEE, PRESENT, signsOf } from './size-words.js';

/** More rows than these are no picture any more. */
const MOST_ROWS = 20;
/** Longest name of a stage that is printed whole. */
const NAME = 14;

/** true if the sizes that were asked for are a grid of two stages that fits the page. */
export function isGrid(result: SizeResult): boolean {
  const asked = result.sizes.filter((size) => size.asked);
  if (result.varied.length !== 2) return false;
  const [down, across] = result.varied.map((stage) => countsOf(asked, stage));
  if (down!.length * across!.length !== asked.length || down!.length > MOST_ROWS || asked.length < 2)
    return false;
  return table(result, headsCell).every((line) => line.length <= WIDTH);
}

export function sizeGrid(result: SizeResult): string {
  const knee = result.knee === null ? '' : `  ${KNEE} the knee`;
  return [
    'Heads a week / what holes and times would allow',
    ...table(result, headsCell),
    `  ${PRESENT} as it is${knee}`,
    '',
    'Heads in a bad week (1 in 10 brings this or fewer)',
    ...table(result, (size) => countText(size.figures['bad_week']!.mean)),
  ].join('\n');
}

function headsCell({ figures, bound }: SizeOfLine): string {
  return `${headsText(figures['heads_a_week']!.mean)}/${headsText(bound.pure.heads_a_week)}`;
}

function table(result: SizeResult, cell: (size: SizeOfLine) => string): string[] {
  const [down, across] = result.varied as [string, string];
  const asked = result.sizes.filter((size) => size.asked);
  const columns = countsOf(asked, across);
  const rows = countsOf(asked, down).map((count) =>
    columns.map((other) => {
      const size = asked.find(({ channels }) => channels[down] === count && channels[across] === other)!;
      return [cell(size), signsOf(result, size)] as const;
    }),
  );
  const numbers = Math.max(
    ...[...rows.flat().map(([text]) => text), ...columns.map(String)].map((t) => t.length),
  );
  const signs = Math.max(...rows.flat().map(([, text]) => text.length));
  const called = shortNames([down, across], NAME);
  const label = called.get(down)!;
  const first = Math.max(label.length, 6);
  return [
    `  ${' '.repeat(first)}  channels of ${called.get(across)}`,
    `  ${label.padEnd(first)}${columns.map((count) => `  ${String(count).padStart(numbers)}${' '.repeat(signs)}`).join('')}`.trimEnd(),
    ...countsOf(asked, down).map((count, i) =>
      `  ${String(count).padStart(first)}${rows[i]!.map(([text, sign]) => `  ${text.padStart(numbers)}${sign.padEnd(signs)}`).join('')}`.trimEnd(),
    ),
  ];
}

function countsOf(sizes: readonly SizeOfLine[], stage: string): number[] {
  return [...new Set(sizes.map(({ channels }) => channels[stage]!))].sort((a, b) => a - b);
}
