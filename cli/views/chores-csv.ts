/** A work list as CSV (RFC 4180): one row a chore, and one for each batch of it; the words are those of a season log. */

import type { ChoresResult } from '../../sim/season/ahead/chores.js';
import { csvText } from '../render/csv.js';

const HEADER = ['date', 'action', 'crop', 'batch', 'from', 'stage', 'expected', 'p10', 'p50', 'p90'];

export function choresCsv({ visits }: ChoresResult): string {
  const rows = visits.flatMap(({ date, chores }) =>
    chores.flatMap(({ action, stage, from, count, batches }) => {
      const cells = ({ mean, p10, p50, p90 }: typeof count): (string | number | null)[] => [
        from,
        stage,
        mean,
        p10,
        p50,
        p90,
      ];
      return [
        // All batches together: the row has no crop and no batch.
        [date, action, null, null, ...cells(count)],
        ...batches.map((one) => [date, action, one.crop, one.batch, ...cells(one.count)]),
      ];
    }),
  );
  return csvText([HEADER, ...rows]);
}
