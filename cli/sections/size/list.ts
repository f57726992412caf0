/** Sizes one below the other: room, heads a week and the bound as a bar, the bad week, and where holes stand empty. */

import type { SizeOfLine, SizeResult } from '../../../sim/study/size/size.js';
import { COUNT, fixed, SHARE } from '../../words/numbers.js';
import { bar, figure, key, type Section, section, type Table, table, words } from '../section.js';
import { headsForm, headsOf, signsOf } from './signs.js';

/** Rows that are shown; the rest is in the CSV. */
const MOST_ROWS = 20;
/** Stages whose empty holes are shown. */
const MOST_STAGES = 2;

/** @param inGrid true if all sizes stand in a grid already: then only those that no other beats are listed */
export function list(result: SizeResult, inGrid: boolean): Section {
  const { varied, frontier, sizes } = result;
  const shown = chosen(result, inGrid);
  const there = new Set(shown.map(({ name }) => name));
  const all = inGrid ? frontier!.sizes : sizes.map(({ name }) => name);
  const beyond = all.filter((name) => !there.has(name)).length;
  const unbeaten = inGrid || (beyond > 0 && frontier !== null);
  const which = unbeaten ? 'The sizes that no other beats with as little room' : 'The sizes';
  return section(
    `${which} (channels of ${varied.join(' + ')})`,
    sizesTable(result, shown),
    ...(beyond > 0 ? [`${beyond} more in --csv`] : []),
  );
}

function sizesTable(result: SizeResult, shown: readonly SizeOfLine[]): Table {
  const area = shown.some(({ area_m2 }) => area_m2 !== null);
  const stages = result.varied.slice(-MOST_STAGES);
  const form = headsForm(result);
  const most = Math.max(...shown.flatMap((size) => [size.bound.pure.heads_a_week, headsOf(size)]));
  const rows = shown.map((size) => [
    `${result.varied.map((stage) => size.channels[stage]).join(' + ')} ${signsOf(result, size)}`.trimEnd(),
    area ? figure(size.area_m2, fixed(2)) : figure(size.holes, COUNT),
    figure(size.figures.bad_week?.mean, COUNT),
    ...stages.map((stage) => figure(size.idle.find((one) => one.stage === stage)?.share?.mean, SHARE)),
    figure(headsOf(size), form),
    figure(size.bound.pure.heads_a_week, form),
    bar(headsOf(size) / most, { upTo: size.bound.pure.heads_a_week / most }),
  ]);
  const head = [
    'channels',
    area ? 'm2' : 'holes',
    'bad\nweek',
    ...stages.map((stage) => words('empty in\n', { name: stage })),
    'heads\na week',
    'at\nmost',
    '',
  ];
  return table(rows, { head, bars: key(['=', 'picked'], ['-', 'what holes and times would allow besides']) });
}

/** All of them if they are few; else the frontier, or those around the best; always the present one and the knee. */
function chosen(result: SizeResult, inGrid: boolean): SizeOfLine[] {
  const { sizes, frontier, present, best, knee } = result;
  if (!inGrid && sizes.length <= MOST_ROWS) return inOrder(sizes, result);
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
  return [...sizes].sort((a, b) => a[frontier.cost]! - b[frontier.cost]! || headsOf(a) - headsOf(b));
}
