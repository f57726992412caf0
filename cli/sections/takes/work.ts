/** Hours and minutes of work, by deed. */

import type { WorkMinutes } from '../../../sim/models/physical/work.js';
import type { Takes } from '../../../sim/study/takes/takes.js';
import { COUNT, figureText, fixed, SHARE } from '../../words/numbers.js';
import { type Block, figure, table } from '../section.js';

const DEEDS: Readonly<Record<keyof WorkMinutes, string>> = {
  visit: 'a visit itself',
  tank: 'the tank',
  sow: 'sowing',
  move: 'moving',
  pick: 'picking',
  clear: 'clearing',
  clean: 'cleaning holes',
};

const MINUTES = 60;

/** Beside minutes of visits and deeds. */
export const TIME_YOUR_OWN =
  'A visit takes its fixed minutes, the rest the seconds of each deed: defaults are a judgement, so time your own.';

/** `1.5 hours a week, 7.6 minutes a head.` @param heads of a season */
export function workText({ work }: Takes, weeks: number, heads: number): string | null {
  if (work === undefined) return null;
  const { mean } = work.hours;
  const each = heads > 0 ? `, ${figureText((MINUTES * mean) / heads, fixed(1))} minutes a head` : '';
  return `${figureText(mean / weeks, fixed(1))} hours a week${each}.`;
}

/** `A usual visit takes 22 minutes; 1 in 10 takes more than 26.` */
function visitText({ visit_min: visit }: NonNullable<Takes['work']>): string[] {
  if (visit === null) return [];
  const minutes = ({ mean }: { readonly mean: number }): string => figureText(mean, fixed(0));
  return [
    `A usual visit takes ${minutes(visit.p50)} minutes; 1 in 10 takes more than ${minutes(visit.p90)}.`,
  ];
}

export function workDetails(takes: Takes, weeks: number, heads: number): Block[] {
  const { work } = takes;
  if (work === undefined) return [];
  const all = MINUTES * work.hours.mean;
  const rows = (Object.keys(DEEDS) as (keyof WorkMinutes)[]).map((deed) => {
    const { mean } = work.minutes[deed];
    return [
      DEEDS[deed],
      figure(mean / weeks, COUNT, 'min'),
      figure(all > 0 ? mean / all : null, SHARE),
      figure(heads > 0 ? mean / heads : null, fixed(2)),
    ];
  });
  return [
    [workText(takes, weeks, heads)!, ...visitText(work)].join(' '),
    table(rows, { head: ['', 'a week', 'of all', 'min a head'] }),
    TIME_YOUR_OWN,
  ];
}
