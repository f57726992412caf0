/** Two stages against each other: heads a week of each size beside what holes and times allow, then its bad week. */

import type { SizeOfLine, SizeResult } from '../../../sim/study/size/size.js';
import { COUNT, fixed } from '../../words/numbers.js';
import { type Figure, figure, type Section, section, type Table, table } from '../section.js';
import { headsForm, headsOf, signsKey, signsOf } from './signs.js';

/** More sizes of a stage than these are no picture any more. */
const MOST = { down: 20, across: 7 };

/** true if the sizes that were asked for are a grid of two stages that can be overlooked. */
export function isGrid(result: SizeResult): boolean {
  const asked = result.sizes.filter((size) => size.asked);
  if (result.varied.length !== 2 || asked.length < 2) return false;
  const [down, across] = result.varied.map((stage) => countsOf(asked, stage).length) as [number, number];
  return down * across === asked.length && down <= MOST.down && across <= MOST.across;
}

export function grid(result: SizeResult): Section[] {
  const form = headsForm(result);
  return [
    section(
      'Heads a week / what holes and times would allow',
      ...across(result, (size, signs) => figure(headsOf(size), form, signs, size.bound.pure.heads_a_week)),
      signsKey(result),
    ),
    section(
      'Heads in a bad week (1 in 10 brings this or fewer)',
      ...across(result, ({ figures }, signs) => figure(figures.bad_week?.mean, COUNT, signs)),
    ),
  ];
}

function across(
  result: SizeResult,
  cell: (size: SizeOfLine, signs: string) => Figure | null,
): [words: string, grid: Table] {
  const [down, beside] = result.varied as [string, string];
  const asked = result.sizes.filter((size) => size.asked);
  const columns = countsOf(asked, beside);
  const rows = countsOf(asked, down).map((count) => [
    figure(count, fixed(0)),
    ...columns.map((other) => {
      const size = asked.find(({ channels }) => channels[down] === count && channels[beside] === other)!;
      return cell(size, signsOf(result, size));
    }),
  ]);
  return [
    `channels of ${down} (down) and of ${beside} (across)`,
    table(rows, { head: ['', ...columns.map((count) => figure(count, fixed(0)))] }),
  ];
}

function countsOf(sizes: readonly SizeOfLine[], stage: string): number[] {
  return [...new Set(sizes.map(({ channels }) => channels[stage]!))].sort((a, b) => a - b);
}
