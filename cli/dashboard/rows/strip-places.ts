/** Where the columns of the strip stand: the most important first, and nothing jumps when figures come. */

import { type FigureName, figureNamed } from '../../../sim/study/figures/figures.js';
import { widthOf } from '../../render/width.js';
import { type Cells, OUT } from './strip-cells.js';

/** Columns before a label: whether it is the plan on the screen, and whether the pointer stands there. */
export const PREFIX = 2;

/** Columns of the bars, at least, where there is room for more, and at most. */
const SHORTEST_BAR = 8;
const FAIR_BAR = 20;
const LONGEST_BAR = 40;
/** Columns of what holds a plan back: at least, and where there is room. */
const HELD = 9;
const WIDE_HELD = 13;
const FULL_HELD = 22;
/** Columns of a stage: its share alone; and at most, with its name. */
const IDLE = 5;
const FULL_IDLE = 14;
const SEEDS = 12;
/** Columns of a figure of a head, at least: one in brackets. */
const TAKES = 7;

/** Where the columns of the strip stand. */
export interface Columns {
  readonly label: number;
  readonly usual: number;
  readonly bad: number;
  readonly bar: number;
  /** Columns of each stage that is shown. */
  readonly idle: readonly number[];
  /** Stages that are left out. */
  readonly leftOut: boolean;
  readonly percent: string;
  /** 0: not shown. */
  readonly seeds: number;
  /** Of each figure of a head that is shown, the first ones: its heading, and its columns. */
  readonly takes: readonly { readonly heading: string; readonly width: number }[];
  readonly held: number;
}

/** @param aHead figures of a head, what matters most first */
export function columnsOf(
  rows: readonly Cells[],
  title: string,
  stages: readonly string[],
  aHead: readonly FigureName<'whole'>[],
  width: number,
): Columns {
  const widest = (texts: readonly string[]): number => Math.max(...texts.map(widthOf));
  const label = Math.min(
    Math.floor(width / 4),
    Math.max(9, widest(rows.map((row) => row.label + (row.now ? ' now' : ''))), widthOf(title) - PREFIX),
  );
  // Room for the brackets of what is not fresh.
  const heads = (name: 'usual' | 'bad', least: number): number =>
    1 +
    Math.max(
      least,
      ...rows.map((row) => (row[name] === OUT ? 0 : widthOf(row[name].replace(/[()]/g, '')) + 2)),
    );
  const usual = heads('usual', 5);
  const bad = heads('bad', 4);
  let room = width - PREFIX - label - usual - bad - 2 - SHORTEST_BAR - 2 - HELD - 1;
  /** Take so many columns if they are there. */
  const take = (columns: number): boolean => {
    if (columns > room) return false;
    room -= columns;
    return true;
  };
  // The most important first; the widths do not depend on what has come so far, so that nothing jumps.
  let idle: number[] = stages.map(() => IDLE);
  while (!take(idle.reduce((sum, one) => sum + one, 0))) idle.pop();
  const percent = take(2 * idle.length) ? ' %' : '';
  idle = idle.map((one) => one + percent.length);
  let held = HELD;
  if (take(WIDE_HELD - held)) held = WIDE_HELD;
  const takes: { heading: string; width: number }[] = [];
  /** The next figure of a head, if it is there and has room: with its heading in full, or else with its first word. */
  const takeAHead = (forms: readonly ('full' | 'first')[]): boolean => {
    const [place, name] = [takes.length, aHead[takes.length]];
    if (name === undefined) return false;
    const short = figureNamed(name).short;
    return forms.some((form) => {
      const heading = form === 'full' ? short.replace(' a ', '/') : short.split(' ')[0]!;
      const columns = 1 + Math.max(TAKES - 1, widthOf(heading), widest(rows.map((row) => row.takes[place]!)));
      return take(columns) && takes.push({ heading, width: columns }) > 0;
    });
  };
  takeAHead(['full', 'first']);
  let bar = SHORTEST_BAR;
  const lengthen = (to: number): void => {
    const more = Math.max(0, Math.min(to - bar, room));
    bar += more;
    room -= more;
  };
  lengthen(FAIR_BAR);
  const full = idle.map((one, s) => Math.max(one, Math.min(widthOf(stages[s]!) + 1, FULL_IDLE)));
  if (take(full.reduce((sum, one, s) => sum + one - idle[s]!, 0))) idle = full;
  while (takeAHead(['full']));
  if (take(FULL_HELD - held)) held = FULL_HELD;
  const seeds = take(SEEDS) ? SEEDS : 0;
  lengthen(LONGEST_BAR);
  held += room;
  return { label, usual, bad, bar, idle, leftOut: idle.length < stages.length, percent, seeds, takes, held };
}
