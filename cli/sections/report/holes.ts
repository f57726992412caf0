/** A season hole by hole, and what was done week by week. */

import { isoOfDay } from '../../../sim/models/dates.js';
import { emptyIn, GROWING, STATES } from '../../../sim/models/ledger.js';
import type { Plan } from '../../../sim/models/plan.js';
import type { Film } from '../../../sim/study/film/film-data.js';
import { COUNT, counted, listed, thousands } from '../../words/numbers.js';
import { STATE_WORDS } from '../../words/states.js';
import type { HolesChart, Stretch } from '../page.js';
import { type Cell, day, figure, type Section, section, table } from '../section.js';

/** Holes of a stage that are drawn; of more the first channels, or the first holes. */
const MOST_DRAWN = 120;
const WEEK = 7;

/** @param logged whether it is the season of a log @returns nothing if only counts were kept of so many holes */
export function filmChart(plan: Plan, film: Film, logged: boolean): (HolesChart | Section)[] {
  if (film.holes === null) {
    return [
      section(
        null,
        `A line of ${thousands(film.holeCount)} holes is not drawn hole by hole. The chapter before tells where its hole-days went, week by week.`,
      ),
    ];
  }
  const drawn = film.stages.map(({ holes, holesPerChannel }) =>
    holes <= MOST_DRAWN
      ? holes
      : holesPerChannel <= MOST_DRAWN
        ? Math.floor(MOST_DRAWN / holesPerChannel) * holesPerChannel
        : MOST_DRAWN,
  );
  const places = STATES.map((_, k) => k).filter((k) => film.holes!.includes(k));
  const left = film.stages.flatMap(({ name, holes }, s) =>
    drawn[s]! < holes ? [`${thousands(drawn[s]!)} of the ${thousands(holes)} holes of ${name}`] : [],
  );
  return [
    {
      kind: 'holes',
      title: logged
        ? 'Every hole on every day, by the log'
        : 'Every hole on every day, in the first simulated season',
      text: `${
        logged
          ? 'How many plants stood in each stage is as the log tells; which hole each stood in is made up.'
          : 'One row a hole, from the first day to the last; other seasons have other luck.'
      }${left.length === 0 ? '' : ` Drawn: ${listed(left)}.`} The table below has the work and the empty holes of each week.`,
      states: places.map((k) => ({
        state: STATES[k]!,
        // A log does not tell when plants became ready.
        text: logged && k === GROWING ? 'taken: growing, ready or dead' : STATE_WORDS[STATES[k]!].text,
      })),
      start: plan.start,
      days: film.days,
      stages: film.stages.map(({ name, holesPerChannel, firstHole }, s) => ({
        name,
        holesPerChannel,
        holes: Array.from({ length: drawn[s]! }, (_, hole) => stretches(film, firstHole + hole, places)),
      })),
    },
  ];
}

/** The stretches of a hole: picture d shows it from day d on. */
function stretches({ holes, holeCount, days }: Film, hole: number, places: readonly number[]): Stretch[] {
  const found: Stretch[] = [];
  for (let from = 0; from < days; ) {
    const state = holes![from * holeCount + hole]!;
    let to = from + 1;
    while (to < days && holes![to * holeCount + hole] === state) to++;
    found.push({ from, to, state: places.indexOf(state) });
    from = to;
  }
  return found;
}

/** What was done in each week of the season, and the holes that stood empty at its beginning. */
export function filmTable({ start, weeks }: Plan, film: Film): Section {
  const sum = (week: number, of: (work: ReturnType<Film['workAt']>) => number): Cell => {
    let total = 0;
    for (let d = week * WEEK; d < Math.min(film.days, (week + 1) * WEEK); d++) total += of(film.workAt(d));
    return figure(total, COUNT);
  };
  const moved = film.stages.slice(1);
  const shown = Math.min(weeks, Math.ceil(film.days / WEEK));
  return section(
    `The work of ${counted(shown, 'week')} of this season, and the holes that stood empty when each began`,
    table(
      Array.from({ length: shown }, (_, week) => [
        day(isoOfDay(start, week * WEEK)),
        sum(week, ({ sown }) => sown),
        ...moved.map((_, i) => sum(week, (work) => work.moved[i + 1]!)),
        sum(week, ({ picked }) => picked),
        ...film.stages.map((_, s) => figure(emptyIn(film.countsAt(week * WEEK, s)), COUNT)),
      ]),
      {
        head: [
          'week of',
          'sown',
          ...moved.map(({ name }) => `moved to ${name}`),
          'picked',
          ...film.stages.map(({ name }) => `empty in ${name}`),
        ],
      },
    ),
  );
}
