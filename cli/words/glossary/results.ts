/** Words of the results that are no figure and no state. */

import type { CountName } from '../../../sim/models/ledger.js';
import type { Bottleneck } from '../../../sim/study/bottleneck.js';
import type { Verdict } from '../../../sim/study/compare.js';
import type { CostKind } from '../../../sim/study/search/candidates.js';
import type { Word } from './word.js';

export const RESULTS: readonly Word[] = [
  {
    name: 'hole-day',
    also: ['hole-days'],
    text: 'One hole for one day. Every hole is always in exactly one state, so the hole-days of a stage add up to its holes times the days.',
  },
  {
    name: 'running',
    also: ['when the line is running'],
    text: 'The line is running from the week on by which 9 of 10 seasons have had a first pick. The figures of a week count from there.',
  },
  {
    name: 'season',
    also: ['seasons'],
    text: 'The weeks of a scenario, from its start on. A study simulates many of them, each with luck of its own.',
  },
  {
    name: 'luck',
    also: ['same luck'],
    text: 'What differs from season to season: growing times, losses, and which seeds sprout. Plans that are compared meet the same luck, so that what differs comes from the plan.',
  },
  {
    name: 'held back by',
    also: [
      'held back',
      'bottleneck',
      'what holds it back',
      'which stage holds the line back',
      'what is sown',
      'the visits',
      'what is wanted',
      'nothing that was tried',
    ],
    text: 'The stage where more room brings more heads, for its share, than in any other; or what is sown, the visits, the absence, what is wanted, or nothing that was tried. It is tried and not guessed: seasons are run again with the same luck and one thing changed.',
  },
  {
    name: 'per 1 %',
    also: ['elasticity'],
    text: 'By how many % each 1 % more (of that room, of the seeds, of the visits) raises the heads. What limits alone has 1, what never limits 0.',
  },
  {
    name: 'interval',
    also: ['95 % interval', '95 %'],
    text: 'A range that is made in such a way that it holds the true figure in 95 of 100 studies. More seasons make it narrower: four times as many, half as wide.',
  },
  {
    name: 'difference',
    also: ['more', 'less', 'no difference', 'same', 'too few seasons to tell'],
    text: 'How much more or less a plan brings than the first one, with the same luck. It is told as no difference while its interval holds 0: these seasons cannot tell, more of them (-n) may.',
  },
  {
    name: 'knee',
    text: 'The size up to which more room pays. Beyond it each 1 % more room brings less than 0.5 % more heads.',
  },
  {
    name: 'what holes and times allow',
    also: ['bound', 'holes and times allow'],
    text: 'The heads a week that holes and growing times would allow in the long run if nothing varied and nothing had to wait. What is sown and what is wanted bound it too.',
  },
  {
    name: 'weeks met',
    also: ['goal', 'weeks-met'],
    text: 'The share of the weeks that bring at least the heads that search looks for. A plan meets the goal if that share is large enough.',
  },
  {
    name: 'light',
    also: ['lit area'],
    text: 'The lit area in m2: all holes times the area of a hole. What search spends least of with --least light.',
  },
  {
    name: 'future',
    also: ['futures'],
    text: 'A season that goes on from what stands today by the log, with luck of its own. What ahead and chores tell is counted over many of them.',
  },
  {
    name: 'range',
    also: ['8 in 10'],
    text: 'Two whole numbers between which the share of the futures is as near to 8 in 10 as it can be. Where small numbers do not allow it, the true share is told.',
  },
  {
    name: 'shard',
    also: ['part'],
    text: 'One part of a study that is spread over machines. evensow merge joins the parts to what one machine would have given.',
  },
];

/** What a season counts; of what is a figure or an action too, the name of that word. */
export const COUNTED: Readonly<Record<CountName, string | Word>> = {
  sown: { name: 'sown', text: 'Seeds that were sown in a season.' },
  unsown: {
    name: 'unsown',
    also: ['not sown'],
    text: 'Seeds that a visit found due and had no free cell for. They are not sown later either.',
  },
  failed: {
    name: 'failed',
    also: ['did not sprout'],
    text: 'Seeds that did not sprout. Each keeps its cell until its time is over and a visit clears it.',
  },
  lost: {
    name: 'lost',
    also: ['died'],
    text: 'Plants that died before they were ready. They count from then on, though they stand until a visit clears them.',
  },
  discarded: 'thrown away',
  picked: { name: 'picked', text: 'Picks of a season: a plant with 3 cuts counts 3 times.' },
  picked_out: {
    name: 'picked out',
    also: ['picked for the last time'],
    text: 'Plants that have given their last pick.',
  },
  wanted: { name: 'wanted', text: 'Heads that were wanted in a season, on all days together.' },
  short: {
    name: 'short',
    also: ['missing'],
    text: 'Heads that were wanted and not picked. A wanted day on which nobody comes is short by all its heads.',
  },
  standing: {
    name: 'standing',
    also: ['still standing at the end'],
    text: 'Plants and seeds that stand in the line at the end of the season, growing or ready. What is dead does not stand.',
  },
};

/** The word that explains what holds a line back, a verdict, or what search spends least of. */
export const TOLD_BY: Readonly<Record<Bottleneck['by'] | Verdict | CostKind, string>> = {
  stage: 'stage',
  sowing: 'what is sown',
  visits: 'the visits',
  away: 'absence',
  want: 'what is wanted',
  nothing: 'nothing that was tried',
  more: 'more',
  less: 'less',
  none: 'no difference',
  unknown: 'too few seasons to tell',
  holes: 'hole',
  seeds: 'seeds',
  light: 'light',
};
