/** What a page rests on: what the plan says, what is simulated and what is not, whose methods, and what there is to mind. */

import { type CropPlan, type Growing, holesOf, type Plan } from '../../../sim/models/plan.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { CAUTION, INSTALLATION } from '../../words/cautions.js';
import { counted, fixed, percentText, SHARE, thousands } from '../../words/numbers.js';
import { checkSections } from '../check.js';
import { type Cell, figure, type Section, section, table } from '../section.js';

export function assumptions(plan: Plan, { seasons, seed, assumes }: RunResult): Section[] {
  return [
    ...checkSections('The scenario', plan, plan.stages.map(holesOf)),
    ...plan.crops.map((crop) => growing(plan, crop)),
    section(
      'What is simulated, and what is not',
      'Plants in holes: they sprout or fail, grow for as long as they take, die or get ready, and wait for a visit and for a free hole. All that is done is done on a visit, those that are ready longest first.',
      'Growing times, losses and germination are taken to be as the scenario says, and alike all season. Measure your own: evensow fit takes them from a season log. A spread of 0.10 to 0.20 is common practice where nothing was measured.',
      plan.physical == null
        ? 'Not simulated: light, water, food, heat, pests and money. Which channel a hole belongs to makes no difference.'
        : 'Light, water, weight, work and money are worked out from what the line does, as far as the scenario tells of them; they change nothing in it. Not simulated: food, heat, pests, and plants that suffer. Which channel a hole belongs to makes no difference.',
      ...(assumes ?? []),
    ),
    section(
      'How far to trust the figures',
      `${counted(seasons, 'season')} with seed ${seed}: the same file, seed and number of seasons give the same page again, to the last letter. Plans beside each other have the same luck.`,
      'Of all weeks in which the line runs half bring at least a usual week, and 1 in 10 brings a bad week or less. A line runs from the first week by whose beginning 9 of 10 seasons have had their first pick.',
      'An interval of 95 % holds the true figure of the simulated line in 19 of 20 studies. It tells of luck only: if a growing time of the scenario is wrong, so is the figure, and the interval does not show it.',
    ),
  ];
}

const SHAPE_OBSERVED = 'observed';

function growing({ stages, crops }: Plan, crop: CropPlan): Section {
  const row = (of: string, { time, loss, keeps }: Growing): Cell[] => [
    of,
    figure(time.days, fixed(1)),
    figure(time.spread, fixed(2)),
    time.shape === SHAPE_OBSERVED ? `${thousands(time.times.length)} observed times` : time.shape,
    figure(loss, SHARE),
    keeps === Number.POSITIVE_INFINITY ? 'for ever' : figure(keeps, fixed(1)),
  ];
  return section(
    crops.length === 1 ? `How ${crop.name} grows` : `How it grows: ${crop.name}`,
    table(
      [
        ...stages.map(({ name }, s) => row(name, crop.stages[s]!)),
        ...(crop.regrow === null ? [] : [row('between two cuts', crop.regrow)]),
      ],
      { head: ['stage', 'mean days', 'spread', 'shape', 'dies', 'ready ones keep, days'] },
    ),
    `Seeds that sprout: ${percentText(crop.germination)}.${crop.cuts === 1 ? '' : ` Each plant is cut ${crop.cuts} times.`}`,
  );
}

/** What a method is used for on a page, and whose it is: as in the list of all sources, where it is told how far each was seen. */
export const SOURCES: readonly (readonly [source: string, used: string])[] = [
  ['Hyndman & Fan', 'a usual and a bad week, and the 10, 50 and 90 % of each week'],
  [
    'Woodruff 1952, Journal of the American Statistical Association 47:635-646',
    'intervals of a usual and a bad week',
  ],
  ['Asmussen & Glynn 2007, Stochastic Simulation, chapter III', 'intervals of all other figures'],
  ['Cochran 1977, Sampling Techniques, chapter 6', 'by how many % each 1 % more raises the heads'],
  ['Denning & Buzen 1978, Computing Surveys 10:225', 'what holes and times would allow'],
  [
    'Little 1961; Stidham 1974',
    'plants that stand = plants that come a day x days that they stay: the line is held against it',
  ],
];

export function sources(): Section {
  return section(
    'Whose methods these are',
    table(
      SOURCES.map(([source, used]) => [used, source]),
      { head: ['used for', 'source'] },
    ),
    'How far each of them was seen, and all others: docs/sources.md, which comes with the program. Rules of the line: docs/how-the-line-behaves.md.',
  );
}

export function cautions(): Section {
  return section('Take care', INSTALLATION, ...CAUTION);
}
