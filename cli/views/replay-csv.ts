/** What stood per day and stage as CSV: one row for each. */

import { isoOfDay } from '../../sim/models/dates.js';
import type { ReplayResult } from '../../sim/season/replay/result.js';
import { csvText } from '../render/csv.js';

export function replayCsv({ start, days, stages }: ReplayResult): string {
  const rows: (string | number)[][] = [['date', 'stage', 'holes', 'standing', 'cleaning', 'empty']];
  for (let day = 0; day < days; day++) {
    const date = isoOfDay(start, day);
    for (const { name, holes, standing, cleaning } of stages) {
      const empty = Math.max(0, holes - standing[day]! - cleaning[day]!);
      rows.push([date, name, holes, standing[day]!, cleaning[day]!, empty]);
    }
  }
  return csvText(rows);
}
