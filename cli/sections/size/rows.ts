/** Sizes as rows of CSV: one a size and figure; then what more channels are worth. */

import type { SizeOfLine, SizeResult } from '../../../sim/study/size/size.js';
import { estimateCells, type Rows } from '../section.js';

type Row = Rows[number];

const FIGURE = 'figure,mean,low,high,difference,difference_low,difference_high';
const NOTHING: Row = [null, null, null];

export function sizeRows({ sizes, present, worth, assumes = [] }: SizeResult): Rows {
  const stages = Object.keys(sizes[0]!.channels).map((stage) => `channels ${stage}`);
  const base = sizes.find(({ name }) => name === present)!;
  return [
    ['size', ...stages, 'holes', 'area_m2', ...FIGURE.split(',')],
    ...sizes.flatMap((size) => figuresOf(size).map((figure) => [...about(size), ...figure])),
    ...worth.stages.flatMap(({ stage, channels, heads_a_week: gain, money_a_year: money }) => {
      const what = `worth of ${channels === 1 ? 'one more channel' : `${channels} more channels`} ${stage}`;
      return [
        [...about(base), what, ...estimateCells(gain), ...NOTHING],
        ...Object.entries(money ?? {}).map(([of, value]) => [
          ...about(base),
          `${what}: ${of} a year`,
          ...estimateCells(value),
          ...NOTHING,
        ]),
      ];
    }),
    // Cautions go wherever the figures go.
    ...assumes.map((sentence) => [...about(base), `assumes: ${sentence}`, ...NOTHING, ...NOTHING]),
  ];
}

function about({ name, channels, holes, area_m2 }: SizeOfLine): Row {
  return [name, ...Object.values(channels), holes, area_m2];
}

function figuresOf({ figures, idle, behind_best, bound, gap }: SizeOfLine): Row[] {
  const alone = (name: string, value: number | null | undefined): Row[] =>
    value == null ? [] : [[name, value, null, null, ...NOTHING]];
  const shares = idle.map(({ stage, share }) => [`idle ${stage}`, share] as const);
  return [
    ...[...Object.entries(figures), ...shares].map(([name, value]) => [
      name,
      ...estimateCells(value),
      ...estimateCells(value?.difference),
    ]),
    ...(behind_best === null ? [] : [['behind_best', ...estimateCells(behind_best), ...NOTHING]]),
    ...alone('bound', bound.heads_a_week),
    ...alone('gap holes_over_time', gap?.holes_over_time.heads_a_week),
    ...(gap?.steps ?? []).map(({ name, change }) => [`gap ${name}`, ...estimateCells(change), ...NOTHING]),
    ...alone('gap heads_a_week', gap?.heads_a_week),
  ];
}
