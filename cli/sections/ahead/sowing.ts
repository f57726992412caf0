/** What to sow, and why nothing is. */

import type { AheadResult, Sowings } from '../../../sim/season/ahead/ahead.js';
import { absenceSentences } from '../../words/absence.js';
import type { Telling } from '../../words/assumed.js';
import { dateText, mondayOf } from '../../words/dates.js';
import { missedSowingSentences } from '../../words/missed.js';
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

/** Sowings that are told one by one. */
const MOST_SOWINGS = 30;
/** Visits with refilled crops that are told. */
const MOST_REFILLS = 14;

/** @param telling what is advised against is told only if all is asked for */
export function sowingSection(result: AheadResult, { all }: Telling): Section {
  const { sowings, refills } = result;
  return section(
    'What to sow',
    ...missedSowingSentences(result.missed_sowings),
    ...absenceSentences(result.lost_to_absence),
    ...(sowings === null ? [] : [verdict(sowings, all)]),
    ...(sowings === null || (sowings.verdict === 'keep' && !all) ? [] : sowingTable(sowings, all)),
    ...(refills.length === 0
      ? []
      : [
          section(
            'Refilled, as the scenario says:',
            refillTable(all ? refills : refills.slice(0, MOST_REFILLS)),
          ),
        ]),
    ...notSown(result),
  );
}

/** Visit by visit, or of a long list the seeds of each week. */
function sowingTable({ dates }: Sowings, all: boolean): Block[] {
  const several = new Set(dates.map(({ crop }) => crop)).size > 1;
  const only = (cell: Cell): Cell[] => (several ? [cell] : []);
  const weekly = !all && dates.length > MOST_SOWINGS;
  const rows = weekly ? weeklySeeds(dates) : dates;
  return [
    table(
      rows.map(({ date, crop, planned_seeds, advised_seeds }) => [
        day(date),
        ...only(name(crop)),
        figure(planned_seeds, COUNT),
        figure(advised_seeds, COUNT),
      ]),
      {
        head: [weekly ? 'week of' : 'visit', ...only('crop'), 'seeds by the plan', 'seeds that fill the gap'],
      },
    ),
    ...(weekly ? [`Seeds of each of ${counted(dates.length, 'sowing')}: --all, or --csv.`] : []),
  ];
}

/** Seeds of each week and crop, under the Monday. */
function weeklySeeds(dates: Sowings['dates']): Sowings['dates'] {
  const weeks = new Map<string, Sowings['dates'][number]>();
  for (const one of dates) {
    const date = mondayOf(one.date);
    const sum = weeks.get(`${date} ${one.crop}`);
    weeks.set(`${date} ${one.crop}`, {
      date,
      crop: one.crop,
      planned_seeds: one.planned_seeds + (sum?.planned_seeds ?? 0),
      advised_seeds: one.advised_seeds + (sum?.advised_seeds ?? 0),
    });
  }
  return [...weeks.values()];
}

function sumOf(dates: Sowings['dates'], of: 'planned_seeds' | 'advised_seeds'): number {
  return dates.reduce((sum, date) => sum + date[of], 0);
}

function refillTable(refills: AheadResult['refills']): Block {
  return table(
    refills.map(({ date, crop, seeds }) => [
      day(date),
      name(crop),
      figure(Math.round(seeds.mean), COUNT),
      span(seeds, Math.round(seeds.mean)),
    ]),
    { head: ['visit', 'crop', 'seeds', ''] },
  );
}

function verdict(
  { verdict: kind, planned, advised, difference, until, dates }: Sowings,
  all: boolean,
): string {
  const { low, high, mean } = difference;
  const decimals = decimalsFor(Math.max(1, ...[mean, low ?? 0, high ?? 0].map(Math.abs)));
  const interval =
    low === null || high === null ? '' : ` (95 %: ${intervalText({ low, high }, signed(decimals))})`;
  const change = `${counted(advised, 'head')} by ${dateText(until)} against ${countText(planned)} with the plan's seeds, ${gainText(mean, decimals)}${interval}`;
  const fewer = `${thousands(sumOf(dates, 'advised_seeds'))} seeds in place of ${thousands(sumOf(dates, 'planned_seeds'))}`;
  switch (kind) {
    case 'more':
      return `Seeds that fill what would stand empty bring more: ${change}.`;
    case 'fewer seeds':
      return `Fewer seeds bring as many heads (${fewer}): ${change}.`;
    case 'keep':
      return `Keep to the plan: seeds that fill what would stand empty are not worth a change${all ? '' : ' (--all lists them)'}. ${change}.`;
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
