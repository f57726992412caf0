/** Sizes as rows of CSV: one a size and figure; then what one more channel is worth. */

import type { Estimate } from '../../../sim/seasons/sections.js';
import type { SizeOfLine, SizeResult } from '../../../sim/study/size/size.js';
import type { Rows } from '../section.js';

type Cells = Rows[number];

export function sizeRows({ sizes, present, worth }: SizeResult): Rows {
  const stages = Object.keys(sizes[0]!.channels);
  const header = [
    'size',
    ...stages.map((stage) => `channels ${stage}`),
    'holes',
    'area_m2',
    'figure',
    'mean',
    'low',
    'high',
    'difference',
    'difference_low',
    'difference_high',
  ];
  const rows = sizes.flatMap((size) => figuresOf(size).map((figure) => [...about(size), ...figure]));
  const base = sizes.find(({ name }) => name === present)!;
  const worths = worth.stages.map(({ stage, heads_a_week: gain }) => [
    ...about(base),
    `worth of one more channel ${stage}`,
    ...interval(gain),
    ...NOTHING,
  ]);
  return [header, ...rows, ...worths];
}

const NOTHING: Cells = [null, null, null];

function about({ name, channels, holes, area_m2 }: SizeOfLine): Cells {
  return [name, ...Object.values(channels), holes, area_m2];
}

function figuresOf({ figures, idle, behind_best, bound, gap }: SizeOfLine): Cells[] {
  const alone = (name: string, value: number | null | undefined): Cells[] =>
    value == null ? [] : [[name, value, null, null, ...NOTHING]];
  return [
    ...Object.entries(figures).map(([name, value]) => [
      name,
      ...interval(value),
      ...interval(value?.difference),
    ]),
    ...idle.map(({ stage, share }) => [`idle ${stage}`, ...interval(share), ...interval(share?.difference)]),
    ...(behind_best === null ? [] : [['behind_best', ...interval(behind_best), ...NOTHING]]),
    ...alone('bound', bound.heads_a_week),
    ...alone('gap holes_over_time', gap?.holes_over_time.heads_a_week),
    ...(gap?.steps ?? []).map(({ name, change }) => [`gap ${name}`, ...interval(change), ...NOTHING]),
    ...alone('gap heads_a_week', gap?.heads_a_week),
  ];
}

function interval(estimate: Estimate | null | undefined): Cells {
  return estimate == null ? NOTHING : [estimate.mean, estimate.low, estimate.high];
}
