/** What the coming weeks take: lamps, water, work, harvest and money, week by week. */

import { isLeftOut } from '../../../sim/models/physical/assumes.js';
import { TAKES_CAUTION } from '../../../sim/models/physical/cautions.js';
import type { TakesAhead, TakesRange, WeekTakes } from '../../../sim/season/ahead/takes-ahead.js';
import { decimalsFor, type Form, figureText, fixed, intervalText } from '../../words/numbers.js';
import { type Cell, day, figure, type Section, section, table } from '../section.js';

/** The figures that vary from future to future: their words, and whether a range is told (picked heads have theirs). */
const FIGURES = [
  { of: 'used_l', head: 'litres', ranges: true },
  { of: 'minutes', head: 'min', ranges: true },
  { of: 'picked_kg', head: 'kg', ranges: false },
  { of: 'cost', head: 'cost', ranges: true },
] as const;

/** Nothing where the scenario tells nothing of it. */
export function takesSections(takes: TakesAhead | undefined): Section[] {
  if (takes === undefined) return [];
  const { weeks, good_to_factor: factor, assumes } = takes;
  const first = weeks[0]!;
  const told = FIGURES.filter(({ of }) => first[of] !== null);
  const columns = told.map(({ of, ranges }) =>
    columnOf(
      weeks.map((week) => week[of]!),
      ranges,
    ),
  );
  const { kwh } = first;
  return [
    section(
      'What these weeks take: the middle one of all futures, and what 8 of 10 stay within',
      table(
        weeks.map((week, i): Cell[] => [
          day(week.start, true),
          ...(kwh === null ? [] : [figure(week.kwh, formOf(kwh))]),
          ...columns.map((cells) => cells[i]!),
        ]),
        {
          head: ['week from', ...(kwh === null ? [] : ['kWh']), ...told.map(({ head }) => head)],
        },
      ),
      ...sentences(first, factor, assumes.filter(isLeftOut)),
      TAKES_CAUTION,
    ),
  ];
}

function sentences({ used_l }: WeekTakes, factor: number | null, leftOut: readonly string[]): string[] {
  const good =
    factor === null
      ? 'scaled to your meter'
      : `until a meter scales them (water.scale) all of them may be off by a factor of ${factor}`;
  const parts = [
    ...(used_l === null
      ? []
      : [`Litres are those that plants use, ${good}; a new filling of the tank comes on top.`]),
    ...leftOut,
  ];
  return parts.length === 0 ? [] : [parts.join(' ')];
}

/** The cell of a figure, week by week: its middle and its range. */
function columnOf(weeks: readonly TakesRange[], ranges: boolean): Cell[] {
  const form = formOf(Math.max(...weeks.map(({ p90 }) => p90)));
  return weeks.map(({ p10, p50, p90 }) => figure(p50, form, ranges ? rangeText(p10, p90, form) : ''));
}

/** From so many on a tenth says nothing. */
const WHOLE_FROM = 50;

function formOf(largest: number): Form {
  return fixed(largest >= WHOLE_FROM ? 0 : decimalsFor(largest));
}

/** Nothing where both ends read alike. */
function rangeText(low: number, high: number, form: Form): string {
  return figureText(low, form) === figureText(high, form) ? '' : `(${intervalText({ low, high }, form)})`;
}
