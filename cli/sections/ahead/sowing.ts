/** What to sow, and why nothing is. */

import type { AheadResult, Sowings } from '../../../sim/season/ahead/ahead.js';
import { dateText } from '../../words/dates.js';
import {
  COUNT,
  counted,
  countText,
  decimalsFor,
  gainText,
  intervalText,
  signed,
  thousands,
} from '../../words/numbers.js';
import { span } from '../range.js';
import { type Block, type Cell, day, figure, name, type Section, section, table } from '../section.js';

/** Visits with refilled crops that are told. */
const MOST_REFILLS = 14;

export function sowingSection(result: AheadResult): Section {
  const { sowings, refills } = result;
  return section(
    'What to sow',
    ...(sowings === null ? [] : [verdict(sowings), sowingTable(sowings)]),
    ...(refills.length === 0 ? [] : [section('Refilled, as the scenario says:', refillTable(refills))]),
    ...notSown(result),
  );
}

function sowingTable({ dates }: Sowings): Block {
  const several = new Set(dates.map(({ crop }) => crop)).size > 1;
  const only = (cell: Cell): Cell[] => (several ? [cell] : []);
  return table(
    dates.map(({ date, crop, planned_seeds, advised_seeds }) => [
      day(date),
      ...only(name(crop)),
      figure(planned_seeds, COUNT),
      figure(advised_seeds, COUNT),
    ]),
    { head: ['visit', ...only('crop'), 'seeds by the plan', 'seeds that fill the gap'] },
  );
}

function refillTable(refills: AheadResult['refills']): Block {
  return table(
    refills
      .slice(0, MOST_REFILLS)
      .map(({ date, crop, seeds }) => [
        day(date),
        name(crop),
        figure(Math.round(seeds.mean), COUNT),
        span(seeds),
      ]),
    { head: ['visit', 'crop', 'seeds', ''] },
  );
}

function verdict({ verdict: kind, planned, advised, difference, until, dates }: Sowings): string {
  const { low, high, mean } = difference;
  const decimals = decimalsFor(Math.max(1, ...[mean, low ?? 0, high ?? 0].map(Math.abs)));
  const interval =
    low === null || high === null ? '' : ` (95 %: ${intervalText({ low, high }, signed(decimals))})`;
  const change = `${counted(advised, 'head')} by ${dateText(until)} against ${countText(planned)} with the plan's seeds, ${gainText(mean, decimals)}${interval}`;
  const seeds = (of: 'planned_seeds' | 'advised_seeds'): string =>
    thousands(dates.reduce((sum, date) => sum + date[of], 0));
  const fewer = `${seeds('advised_seeds')} seeds in place of ${seeds('planned_seeds')}`;
  switch (kind) {
    case 'more':
      return `Seeds that fill what would stand empty bring more: ${change}.`;
    case 'fewer seeds':
      return `Fewer seeds bring as many heads (${fewer}): ${change}.`;
    case 'keep':
      return `Keep to the plan: seeds that fill what would stand empty are not worth a change. ${change}.`;
  }
}

/** Why nothing is sown, or nothing any more. */
function notSown({ sowings, refills, weeks, visits, not_sown }: AheadResult): string[] {
  const span = weeks.length === 1 ? 'week' : `${weeks.length} weeks`;
  const seeds = not_sown.reduce((sum, one) => sum + one.seeds, 0);
  const due = `${counted(not_sown.length, 'sowing falls', 'sowings fall')} due (${counted(seeds, 'seed')})`;
  if (visits === 0) {
    const missed = not_sown.length === 0 ? '' : `, though ${due}`;
    return [
      `Nobody comes in the next ${span} (see visits and away in the scenario), so nothing is sown${missed}.`,
    ];
  }
  // What falls due in the last days is often sown at the first visit behind them.
  if (not_sown.some((one) => one.due <= weeks.at(-1)!.start)) {
    return [
      `From ${dateText(not_sown[0]!.due)} on ${due} in these weeks that nobody comes to sow (see visits and away in the scenario).`,
    ];
  }
  if (sowings !== null || refills.length > 0) return [];
  return [
    not_sown.length === 0
      ? `No sowing is due in the next ${span}.`
      : `No sowing is made in the next ${span}: ${due} after the last visit.`,
  ];
}
