/** Why holes stood empty, in a grower's words. */

import type { IdleCause } from '../../sim/season/replay/causes.js';
import { dateText } from './dates.js';
import { counted, countText, firstOf, thousands } from './numbers.js';

/** @param seeds whether it is about the first stage, into which seeds come */
export function causeText(cause: IdleCause, seeds: boolean): string {
  switch (cause.kind) {
    case 'filling':
      return cause.midway
        ? 'what should have stood there was not sown before the log begins, and why is not known'
        : 'the line was still filling';
    case 'end':
      return "the season's end: nothing that came in then could have been picked";
    case 'between_visits':
      return `${seeds ? 'seeds that were due' : 'ready plants'} waited for the next visit`;
    case 'absent': {
      const until =
        cause.until === null ? 'nobody came any more' : `nobody came until ${dateText(cause.until)}`;
      return `after ${dateText(cause.since)} ${until}${plannedText(cause.planned)}`;
    }
    case 'batch_failed':
      return `batch ${cause.batch} failed: ${cause.lost} of ${cause.came} lost in ${cause.stage}, where ${countText(cause.expected)} had to be expected`;
    case 'thrown_away': {
      const plants = counted(cause.plants, 'plant was', 'plants were');
      return `${plants} thrown away in ${cause.stage} on ${dateText(cause.date)}, ready for too long`;
    }
    case 'too_little_sown':
      return sownText(cause);
    case 'stage_before_full':
      return `nothing more could come: ${cause.stage} was full`;
    case 'late':
      return lateText(cause);
    case 'cleaning':
      return `out for cleaning${cause.channel === null ? '' : `: channel ${cause.channel}`}`;
  }
}

/** Whether it was planned that nobody came; nothing where no plan is known. */
export function plannedText(planned: boolean | null): string {
  if (planned === null) return '';
  return planned ? ', as planned' : ', although visits were planned';
}

function sownText({ sowings }: Extract<IdleCause, { kind: 'too_little_sown' }>): string {
  if (sowings === null) return 'nothing was ready: too few sowings in the time before';
  const { count, from, to, sown, needed, below_plan, nobody_came } = sowings;
  const seeds = sown === 0 ? 'nothing' : counted(sown, 'seed');
  const when =
    count === 1 ? `on ${dateText(from)}` : `in ${count} sowings from ${dateText(from)} to ${dateText(to)}`;
  const missed = firstOf(below_plan.map(dateText), 3);
  const some = nobody_came < below_plan.length ? ` on ${thousands(nobody_came)} of these days` : '';
  const absent = nobody_came > 0 ? ` (nobody came${some})` : '';
  const plan = below_plan.length === 0 ? '' : `; less than planned on ${missed}${absent}`;
  return `too little was sown: ${seeds} ${when}, about ${thousands(Math.round(needed))} would have kept it full${plan}`;
}

function lateText({ stay, planned_stay }: Extract<IdleCause, { kind: 'late' }>): string {
  const slow = stay !== null && planned_stay !== null && stay > planned_stay + 0.5;
  return slow
    ? `plants came late: they stayed ${stay.toFixed(1)} days in the stage before, ${planned_stay.toFixed(1)} were to be expected`
    : 'enough was sown, but fewer came, or later, than the means say: chance';
}
