/** Sizes one below the other: room, heads a week and the bound as a bar, the bad week, and where holes stand empty. */

import type { SizeOfLine, SizeResult } from '../../sim/study/size/size.js';
import { shortNames } from '../render/short-names.js';
import { countText, percentText } from '../words/numbers.js';
import { columns, WIDTH, wrap } from './format.js';
import { barUpTo } from './pictures.js';
import { headsText, signsOf } from './size-words.js';

/** Rows that are shown; the rest is in the CSV. */
const MOST_ROWS = 20;
/** Places of the bar, where there are so many. */
const BAR = 16;
/** Longest name of a stage over a column. */
const MOST_NAME = 9;
/** Stages whose empty holes are shown. */
const MOST_STAGES = 2;

/** @param grid true if all sizes stand in a grid already: then only those that no other beats are listed */
export function sizeList(result: SizeResult, grid: boolean): string {
  const { varied, frontier, sizes } = result;
  const shown = chosen(result, grid);
  const there = new Set(shown.map(({ name }) => name));
  const all = grid ? frontier!.sizes : sizes.map(({ name }) => name);
  const beyond = all.filter((name) => !there.has(name)).length;
  const unbeaten = grid || (beyond > 0 && frontier !== null);
  const which = unbeaten ? 'The sizes that no other beats with as little room' : 'The sizes';
  return [
    wrap(`${which} (channels of ${varied.join(' + ')})`, WIDTH),
    ...table(result, shown),
    '  = picked  - what holes and times would allow besides',
    ...(beyond > 0 ? [`  ${beyond} more in --csv`] : []),
  ].join('\n');
}

function table(result: SizeResult, shown: readonly SizeOfLine[]): string[] {
  const area = shown.some(({ area_m2 }) => area_m2 !== null);
  const stages = result.varied.slice(-MOST_STAGES);
  const called = shortNames(stages, MOST_NAME);
  const heading = [
    ['', area ? 'm2' : 'holes', 'bad', ...stages.map(() => 'empty in'), 'heads', 'at'],
    ['channels', '', 'week', ...stages.map((stage) => called.get(stage)!), 'a week', 'most'],
  ];
  const rows = shown.map((size) => [
    `${result.varied.map((stage) => size.channels[stage]).join(' + ')} ${signsOf(result, size)}`.trimEnd(),
    area ? (size.area_m2?.toFixed(2) ?? '-') : countText(size.holes),
    countText(size.figures['bad_week']!.mean),
    ...stages.map((stage) => percentText(size.idle.find((one) => one.stage === stage)!.share!.mean)),
    headsText(heads(size.figures)),
    headsText(size.bound.pure.heads_a_week),
  ]);
  const lines = columns([...heading, ...rows]);
  const left = Math.max(...lines.map((line) => line.length));
  const places = Math.max(0, Math.min(BAR, WIDTH - left - 4));
  const most = Math.max(...shown.flatMap(({ bound, figures }) => [bound.pure.heads_a_week, heads(figures)]));
  return lines.map((line, i) => {
    const size = shown[i - heading.length];
    const picture =
      size === undefined
        ? ''
        : barUpTo(heads(size.figures) / most, size.bound.pure.heads_a_week / most, places);
    return `  ${line.padEnd(left)}  ${picture}`.trimEnd();
  });
}

function heads(figures: SizeOfLine['figures']): number {
  return figures['heads_a_week']!.mean;
}

/** All of them if they are few; else the frontier, or those around the best; always the present one and the knee. */
function chosen(result: SizeResult, grid: boolean): SizeOfLine[] {
  const { sizes, frontier, present, best, knee } = result;
  if (!grid && sizes.length <= MOST_ROWS) return inOrder(sizes, result);
  const always = new Set([present, best!.size, ...(knee === null ? [] : [knee.size])]);
  const line =
    frontier === null ? around(sizes, best!.size) : spread(frontier.sizes, MOST_ROWS - always.size);
  const names = new Set([...always, ...line]);
  return inOrder(
    sizes.filter(({ name }) => names.has(name)),
    result,
  );
}

/** Names of the sizes next to one in the list, itself included. */
function around(sizes: readonly SizeOfLine[], name: string): string[] {
  const at = sizes.findIndex((size) => size.name === name);
  const from = Math.max(0, Math.min(at - Math.floor(MOST_ROWS / 2), sizes.length - MOST_ROWS + 1));
  return sizes.slice(from, from + MOST_ROWS - 1).map((size) => size.name);
}

/** At most `most` of them, evenly taken, the first and the last included. */
function spread(names: readonly string[], most: number): string[] {
  if (names.length <= most) return [...names];
  return Array.from({ length: most }, (_, i) => names[Math.round((i * (names.length - 1)) / (most - 1))]!);
}

/** By what they cost, where it differs; else as they are. */
function inOrder(sizes: readonly SizeOfLine[], { frontier }: SizeResult): SizeOfLine[] {
  if (frontier === null) return [...sizes];
  return [...sizes].sort(
    (a, b) => a[frontier.cost]! - b[frontier.cost]! || heads(a.figures) - heads(b.figures),
  );
}
