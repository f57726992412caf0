/** What held a season back and what it cost, in a grower's words. */

import type { CostlyCause, Heads } from '../../sim/season/replay/costs.js';
import { dateText, daysText } from './dates.js';
import { plannedText } from './idle.js';
import { counted, countText, thousands } from './numbers.js';

/** `58 heads (52 to 63)` */
export function costText({ mean, low, high }: Heads): string {
  return `${counted(Math.round(mean), 'head')} (${thousands(Math.round(low))} to ${thousands(Math.round(high))})`;
}

/** What it was; for what could be otherwise in the line itself, also what is tried instead. */
export function seasonCauseText(cause: CostlyCause): string {
  switch (cause.kind) {
    case 'absent': {
      if (cause.times > 1) {
        const until = cause.until === null ? 'the end of the log' : dateText(cause.until);
        return `${cause.times} shorter times between ${dateText(cause.since)} and ${until} nobody came for longer than usual`;
      }
      const until =
        cause.until === null ? 'nobody came any more' : `nobody came until ${dateText(cause.until)}`;
      return `after ${dateText(cause.since)} ${until}${plannedText(cause.planned)}`;
    }
    case 'between_visits':
      return 'ready plants and sowings waited for the next visit (against a visit every day)';
    case 'too_little_sown': {
      const { count, from, to, sown, planned } = cause;
      const when =
        count === 1 ? `on ${dateText(from)}` : `in ${counted(count, 'sowing')}, ${daysText(from, to)}`;
      return `less was sown than planned: ${counted(sown, 'seed')} of ${thousands(planned)} ${when}`;
    }
    case 'few_seeds':
      return `too few seeds to keep ${cause.stage} full (against ${cause.more_percent} % more)`;
    case 'batch_failed':
      return `batch ${cause.batch} failed: ${cause.lost} of ${cause.came} lost in ${cause.stage}, where ${countText(cause.expected)} had to be expected`;
    case 'batches_failed':
      return `${cause.batches} batches failed: ${cause.lost} of ${cause.came} lost, where ${countText(cause.expected)} had to be expected`;
    case 'stage_before_full':
      return `${cause.stage} was full (against ${counted(cause.channels, 'channel')} more there)`;
    case 'thrown_away':
      return `${counted(cause.plants, 'plant was', 'plants were')} thrown away, ready for too long, ${daysText(cause.from, cause.to)}`;
    case 'late': {
      const { crop, stage, days, planned_days } = cause;
      return `${crop} took ${days.toFixed(1)} days in ${stage}, ${planned_days.toFixed(1)} by the plan`;
    }
  }
}
