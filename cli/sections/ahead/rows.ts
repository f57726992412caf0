/** What lies ahead as rows: one for each figure and date. */

import type { AheadResult } from '../../../sim/season/ahead/ahead.js';
import type { Rows } from '../section.js';

const COLUMNS = [
  ...['figure', 'date', 'until', 'stage', 'batch', 'crop'],
  ...['mean', 'se', 'p10', 'p50', 'p90', 'chance', 'low', 'high'],
];

export function aheadRows({ weeks, takes, stages, no_room, overgrown, sowings, refills }: AheadResult): Rows {
  const rows: Readonly<Record<string, string | number | null>>[] = [
    ...weeks.flatMap(({ start, ready, picked, wanted }) => [
      { figure: 'ready', date: start, ...ready },
      { figure: 'picked', date: start, ...picked },
      ...(wanted === null ? [] : [{ figure: 'wanted', date: start, mean: wanted }]),
    ]),
    ...(takes?.weeks ?? []).flatMap(({ start: date, kwh, ...figures }) => [
      ...(kwh === null ? [] : [{ figure: 'kwh', date, mean: kwh }]),
      ...Object.entries(figures).flatMap(([figure, range]) =>
        range === null ? [] : [{ figure, date, ...range }],
      ),
    ]),
    ...stages.flatMap(({ name: stage, empty, first_empty: first }) => [
      ...empty.map((range, i) => ({ figure: 'empty holes', date: weeks[i]!.start, stage, ...range })),
      ...(first === null ? [] : [{ figure: 'more empty from', date: first.p50, stage, ...first }]),
    ]),
    ...no_room.flatMap(({ from: date, to: until, stage, batch, crop, chance, blocked, thrown_away }) => {
      const place = { date, until, stage, batch, crop, chance };
      return [
        { figure: 'blocked', ...place, ...blocked },
        { figure: 'thrown away', ...place, ...thrown_away },
      ];
    }),
    ...overgrown.map(({ from: date, to: until, stage, batch, crop, chance, thrown_away }) => {
      const place = { date, until, stage, batch, crop, chance };
      return { figure: 'thrown away, not for want of room', ...place, ...thrown_away };
    }),
    ...(sowings?.dates ?? []).flatMap(({ date, crop, planned_seeds, advised_seeds }) => [
      { figure: 'planned seeds', date, crop, mean: planned_seeds },
      { figure: 'advised seeds', date, crop, mean: advised_seeds },
    ]),
    ...refills.map(({ date, crop, seeds }) => ({ figure: 'refill seeds', date, crop, ...seeds })),
    ...(takes?.assumes ?? []).map((sentence) => ({ figure: `assumes: ${sentence}` })),
  ];
  return [COLUMNS, ...rows.map((row) => COLUMNS.map((column) => row[column] ?? null))];
}
