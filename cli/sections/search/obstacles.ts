/** What stands in the way of a goal that no plan meets: the answer first, then what was tried. */

import type { Obstacle, Obstacles, Relief } from '../../../sim/study/search/obstacles.js';
import { COUNT, counted, listed, SHARE } from '../../words/numbers.js';
import { type Cell, figure, type Section, section, table } from '../section.js';

/** What it is, how it is told that it is gone, and what can be done about it. */
const WORDS: Readonly<
  Record<Obstacle, { readonly is: string; readonly gone: string; readonly remedy: string }>
> = {
  want: { is: 'what is wanted', gone: 'all that is ready is picked', remedy: 'let want ask for more' },
  absence: { is: 'the absence', gone: 'nobody is away', remedy: 'shorten away' },
  visits: { is: 'the visits', gone: 'a visit every day', remedy: 'come more often (--visits)' },
  holes: { is: 'the holes', gone: '10 times the holes', remedy: 'add channels (--channels)' },
  seeds: { is: 'the seeds', gone: 'twice the seeds', remedy: 'sow more (--seeds)' },
};

export function inTheWay({ in_the_way: obstacles, one_is_enough: one, together }: Obstacles): string {
  if (obstacles.length === 0) {
    const why = together.meets
      ? 'No one thing is enough, and there is more than one way to take several away: all of them are enough'
      : 'Not even all that was tried, taken away together, is enough';
    return `${why}. Ask for fewer heads or a smaller share of the weeks${together.meets ? ', or change several of these' : ''}.`;
  }
  const what = listed(obstacles.map((obstacle) => WORDS[obstacle].is));
  const remedies = obstacles.map((obstacle) => WORDS[obstacle].remedy);
  if (obstacles.length === 1) return `In the way: ${what}. So ${remedies[0]}, or ask for less.`;
  return one
    ? `In the way: ${what}; taking away any one of them is enough. So ${remedies.join(', or ')}, or ask for less.`
    : `In the way: ${what}, and they must all go. So ${listed(remedies)}, or ask for less.`;
}

export function takenAway({ seasons, alone, together }: Obstacles): Section {
  const row = (what: string, { weeks_met, heads_a_week, meets }: Relief): Cell[] => [
    what,
    figure(weeks_met, SHARE),
    figure(heads_a_week, COUNT),
    meets ? 'enough' : '',
  ];
  return section(
    `How we know: ${counted(seasons, 'season')} of that plan again with the same luck and one thing taken away`,
    table(
      [
        ...alone.map((one) => row(WORDS[one.taken_away].gone, one)),
        ...(alone.length > 1 ? [row('all of them', together)] : []),
      ],
      { head: ['', 'weeks\nmet', 'heads\na week', ''] },
    ),
  );
}
