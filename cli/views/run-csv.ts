/** The weeks of a run as CSV (RFC 4180): one row a week, numbers in full. */

import type { RunResult } from '../../sim/study/summary.js';

export function runCsv(result: RunResult): string {
  const rows = result.weeks.map((week) =>
    [week.start, week.mean, week.se ?? '', week.p10, week.p50, week.p90].join(','),
  );
  return `${['start,mean,se,p10,p50,p90', ...rows].join('\r\n')}\r\n`;
}
