/** A plan on a page: the answer first, then what it stands on. Put together from the sections of every result, and charts between. */

import type { NeighbourAbout } from '../../../sim/scenario/neighbours.js';
import { dateText } from '../../words/dates.js';
import { counted } from '../../words/numbers.js';
import { inShell } from '../../words/shell.js';
import { choresSections } from '../chores.js';
import type { Page, PageChapter } from '../page.js';
import { replaySections } from '../replay.js';
import { answerSections, holeDaySections } from '../run.js';
import { section } from '../section.js';
import { sizeSections } from '../size/size.js';
import { takesInFull } from '../takes/takes.js';
import { answerOf, effectsChart, factsOf } from './answer.js';
import { assumptions, cautions, sources } from './assumptions.js';
import { courseChart, sharesChart } from './hole-days.js';
import { filmChart, filmTable } from './holes.js';
import { plansChart, plansSections } from './plans.js';
import type { Logged, Reported } from './reported.js';
import { weeksChart, weeksSections } from './weeks.js';

export function reportPage(of: Reported): Page {
  const { plan, run, made, scenario } = of;
  return {
    title: plan.title,
    about: `${counted(plan.weeks, 'week')} from ${dateText(plan.start)}; ${counted(run.seasons, 'season')} simulated (seed ${run.seed}).`,
    answer: answerOf(run),
    facts: factsOf(run),
    chapters: chaptersOf(of),
    scenario: scenario.text,
    again: againText(of),
    made,
  };
}

function chaptersOf(of: Reported): PageChapter[] {
  const { plan, run, compared, sized, course, film, logged } = of;
  const takes = takesInFull(run);
  return [
    { title: 'The answer', parts: [...effectsChart(run), ...answerSections(run)] },
    {
      title: compared === null ? 'Plans side by side' : `${aboutText(compared.about)} side by side`,
      parts:
        compared === null
          ? [section(null, 'There is no plan beside this one that differs in one thing only.')]
          : [plansChart(compared), ...plansSections(compared)],
    },
    { title: 'Heads week by week', parts: [weeksChart(run, logged), ...weeksSections(run)] },
    {
      title: 'Where the hole-days went',
      parts: [sharesChart(run), ...holeDaySections(run), courseChart(plan, course)],
    },
    ...(takes.length === 0 ? [] : [{ title: 'What it takes', parts: takes }]),
    {
      title: logged === null ? 'A season, hole by hole' : 'The season of the log, hole by hole',
      parts: [...filmChart(plan, film, logged !== null), filmTable(plan, film)],
    },
    {
      title: 'Other sizes',
      parts: 'sizes' in sized ? sizeSections(sized) : [section(null, ...sized)],
    },
    ...(logged === null ? [] : loggedChapters(logged)),
    { title: 'What this rests on', parts: [...assumptions(plan, run), sources(), cautions()] },
  ];
}

function loggedChapters({ replayed, chores, telling }: Logged): PageChapter[] {
  return [
    { title: 'The season so far, by the log', parts: replaySections(replayed) },
    { title: 'The work of the next two weeks', parts: choresSections(chores, telling) },
  ];
}

function aboutText(about: NeighbourAbout): string {
  switch (about.kind) {
    case 'cadence':
      return 'Cadences';
    case 'seeds':
      return 'Seeds of a sowing';
    case 'visits':
      return 'Visits';
    case 'channels':
      return `Channels of ${about.stage}`;
  }
}

/** By which commands the page is made again, and its figures told in other forms. */
function againText({ scenario: { path }, run: { seed, seasons }, logged }: Reported): string {
  const file = path === null ? 'my-line.yaml' : inShell(path);
  const save = path === null ? `Save it as ${file}. ` : '';
  const log =
    logged === null ? '' : ` ${logged.telling.log === null ? 'season.csv' : inShell(logged.telling.log)}`;
  const same = `--seasons ${seasons} --seed ${seed}`;
  return `${save}This page again: evensow report ${file}${log} ${same} --out plan.html. The figures as text: evensow run ${file} ${same}`;
}
