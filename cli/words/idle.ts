/** Why holes stood empty, in a grower's words. */

import type { IdleCause } from '../../sim/season/replay/causes.js';
import type { EmptyCosts } from '../../sim/season/replay/empty-costs.js';
import { dateText } from './dates.js';
import { counted, countText, figureText, firstOf, fixed, listed, thousands } from './numbers.js';

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

/** Kinds of causes, in few words. */
const KINDS: Readonly<Record<IdleCause['kind'], string>> = {
  filling: 'while the line was filling',
  end: "at the season's end",
  between_visits: 'between visits',
  absent: 'while nobody came',
  batch_failed: 'for batches that failed',
  thrown_away: 'for plants that were thrown away',
  too_little_sown: 'for too few seeds',
  stage_before_full: 'for a stage before that was full',
  late: 'for plants that came late',
  cleaning: 'for channels that were out for cleaning',
};

/** Causes that are told one by one. */
const MOST_KINDS = 3;

/** What empty holes cost, in one or two sentences. */
export function emptyCostText({ hole_days, kwh, cost, causes, stages }: EmptyCosts): string {
  const both = (of: Pick<EmptyCosts, 'kwh' | 'cost'>): string[] => [
    ...(of.kwh === null ? [] : [`${figureText(of.kwh, fixed(of.kwh < 100 ? 1 : 0))} kWh`]),
    ...(of.cost === null ? [] : [`${figureText(of.cost, fixed(2))} in money`]),
  ];
  // In a list: the money holds what the kWh cost.
  const oneOf = (of: Pick<EmptyCosts, 'kwh' | 'cost'>): string => {
    const [first, second] = both(of);
    return second === undefined ? first! : `${first} (${second})`;
  };
  const told = causes.slice(0, MOST_KINDS).filter((of) => both(of).length > 0);
  const rest = causes.length > told.length ? ', the rest for other causes' : '';
  const dark = stages.filter((stage) => stage.kwh === null).map(({ name }) => name);
  return [
    `${thousands(hole_days)} empty hole-days cost ${both({ kwh, cost }).join(' and ')}${cost === null ? '' : ' (their light and wear, not the lost sale)'}: ${listed(told.map((of) => `${oneOf(of)} ${KINDS[of.kind]}`))}${rest}.`,
    ...(dark.length === 0 ? [] : [`What the lamps draw in ${listed(dark)} is not told, and not counted.`]),
  ].join(' ');
}
