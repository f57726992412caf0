/** What a log tells as CSV (RFC 4180): one row a crop, stage and figure, numbers in full. */

import type { FitResult } from '../../sim/season/fit/fit.js';
import { csvText } from '../render/csv.js';

const FIGURES = ['days', 'spread', 'loss', 'germination'] as const;

export function fitCsv({ crops }: FitResult): string {
  const rows = crops.flatMap(({ crop, stages }) =>
    stages.flatMap((fit) =>
      FIGURES.flatMap((figure) => {
        const told = fit[figure];
        if (told === null) return [];
        const { value, low, high, good } = told;
        return [[crop, fit.stage, String(fit.regrowth), figure, value, low, high, String(good)]];
      }),
    ),
  );
  return csvText([['crop', 'stage', 'regrowth', 'figure', 'value', 'low', 'high', 'good'], ...rows]);
}
