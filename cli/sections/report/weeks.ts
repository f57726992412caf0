/** Heads of each week, with their band. */

import type { RunResult } from '../../../sim/study/summary.js';
import { COUNT, counted, fixed } from '../../words/numbers.js';
import type { WeeksChart } from '../page.js';
import { day, figure, type Section, section, table } from '../section.js';
import type { Logged } from './reported.js';

export function weeksChart({ weeks, running, seasons }: RunResult, logged: Logged | null): WeeksChart {
  const usual =
    running === null
      ? ''
      : ` Once the line runs a usual week brings ${counted(running.p50, 'head')}, a bad one ${counted(running.p10, 'head')}.`;
  return {
    kind: 'weeks',
    title: 'Heads of each week',
    text: `The middle of ${counted(seasons, 'season')} and, around it, what 8 in 10 of them stay within${logged === null ? '' : '; a cross is what was picked by the log'}.${usual} The table below has each week.`,
    weeks: weeks.map(({ start, p10, p50, p90 }, w) => ({
      start,
      low: p10,
      middle: p50,
      high: p90,
      picked: logged?.picks[w] ?? null,
    })),
    running: running === null ? null : { from: running.from, usual: running.p50, bad: running.p10 },
  };
}

export function weeksSections({ weeks }: RunResult): Section[] {
  return [
    section(
      'Each week in figures (10 %, middle and 90 % of all seasons)',
      table(
        weeks.map(({ start, mean, p10, p50, p90 }) => [
          day(start),
          figure(p10, COUNT),
          figure(p50, COUNT),
          figure(p90, COUNT),
          figure(mean, fixed(1)),
        ]),
        { head: ['week of', '10 %', 'middle', '90 %', 'mean'] },
      ),
    ),
  ];
}
