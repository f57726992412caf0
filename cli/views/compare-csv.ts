/** A comparison as CSV (RFC 4180): one row a plan and figure, numbers in full. */

import type { Compared, CompareResult } from '../../sim/study/compare.js';
import { csvText } from '../render/csv.js';

export function compareCsv(result: CompareResult): string {
  const rows = result.plans.flatMap(({ name, figures, idle }) => [
    ...Object.entries(figures).map(([figure, compared]) => [name, figure, ...cells(compared)]),
    ...idle.map(({ stage, share }) => [name, `idle ${stage}`, ...cells(share)]),
  ]);
  const header = [
    'plan',
    'figure',
    'mean',
    'low',
    'high',
    'difference',
    'difference_low',
    'difference_high',
    'verdict',
  ];
  return csvText([header, ...rows]);
}

function cells(compared: Compared | null): (string | number | null)[] {
  if (compared === null) return [null, null, null, null, null, null, null];
  const { mean, low, high, difference } = compared;
  return [
    mean,
    low,
    high,
    difference?.mean ?? null,
    difference?.low ?? null,
    difference?.high ?? null,
    difference?.verdict ?? null,
  ];
}
