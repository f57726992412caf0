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
    text: 'One hole for one day: every hole is always in exactly one state, so the hole-days of a stage add up to its holes times the days. As a price it is the wear and interest of one hole, a day.',
  },
  {
    name: 'what it takes',
    also: ['takes', 'what a head takes', 'what these weeks take'],
    text: 'Light in kWh, litres, kilograms, minutes and money of a season, of a head or of the coming weeks. Only what the scenario has keys for is told; check says which keys would tell more.',
  },
  {
    name: 'money',
    also: ['cost', 'costs', 'price', 'left out'],
    text: 'What a season, a head or an empty hole costs, in the money of the prices that the scenario tells. What has no price is in no sum, and is named beside it.',
  },
  {
    name: 'minutes',
    also: ['usual visit', 'full visit', 'longest visit'],
    text: 'Minutes of work: those of each visit itself, and the seconds of each deed. A usual visit is the middle one of a season, a full one that which 1 in 10 exceeds.',
  },
  {
    name: 'cost of an empty hole',
    also: ['empty holes', 'what empty holes cost', 'idle hole-day'],
    text: 'What the lamps over a hole draw in a day, at its price, and hole_day. The sale that is lost is not in it.',
  },
  {
    name: 'light of a day',
    also: ['daily light', 'dli', 'mol', 'mol of light'],
    text: 'Light that falls on a square metre in a day: ppfd times hours times 0.0036, in mol.',
  },
  {
    name: 'air by date',
    also: ['spell', 'spells', 'warm spell'],
    text: 'Days with other air than usual, as climate.dated tells them. Days of plants and water go by it, kWh do not.',
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
    name: 'kWh of a season',
    also: ['kwh'],
    text: 'What the lamps draw in a season, over full holes and empty ones alike, so the plan alone tells it. What search spends least of with --least kwh.',
  },
  {
    name: 'season without luck',
    also: ['without luck', 'luckless season'],
    text: 'A season in which every plant takes its mean time, and seeds and plants are lost by their shares, evenly spread. What it costs orders the plans of search with --least cost; what a head truly costs is told of those that are found.',
  },
  {
    name: 'light on leaves',
    also: ['leaves', 'on leaves'],
    text: 'The share of the light under the lamps that falls on leaves, by how far the plants have grown; good to a fifth. The rest falls on gaps between leaves, on waiting and dead plants and on empty holes, and is paid for all the same.',
  },
  {
    name: 'gaps',
    also: ['gaps between leaves', 'on gaps between them'],
    text: 'Light on holes whose plants grow, beside their leaves: most of it while plants are small. Narrower holes for small plants make it less.',
  },
  {
    name: 'wide from the start',
    also: ['one spacing', 'what staging saves'],
    text: "The same crop at its widest spacing from its beginning on, in that stage's light and as efficient as in the last stage. What a head takes more then, in m2-days, kWh and money, is what staging saves.",
  },
  {
    name: 'light use efficiency',
    also: ['efficiency of growth', 'regrow efficiency'],
    text: 'Grams of dry plant that grow of a mol of light on leaves, solved so that the days of the scenario give its masses. Outside 0.5 to 1.6 something told is doubtful: days, light or grams.',
  },
  {
    name: 'litres',
    also: ['litres a day', 'good to a factor of'],
    text: 'Water that plants use: what leaves give off and what plants hold. Good to a factor of 1.5 until water.scale is set by a meter; the range beside it says so.',
  },
  {
    name: 'days to low',
    also: ['runs low'],
    text: 'Days in which a full tank with every hole growing gets down to low_l, where the pump begins to draw air. Plants of the simulated line do not suffer then; real ones do.',
  },
  {
    name: 'ec good days',
    also: ['conductivity'],
    text: "Days for which the tank's conductivity can be told at all: until it may be 30 % off that of a new filling. Measure it.",
  },
  {
    name: 'spill',
    also: ['drain-back'],
    text: 'Litres that run back when the pump stops and find no room in the tank: they end on the floor.',
  },
  {
    name: 'dry hours',
    also: ['hours to wilting'],
    text: 'Hours after a pump stop until the thirstiest plant wilts, at least and at most. A judgement, no measured hours were found: do not count on them.',
  },
  {
    name: 'load',
    also: ['flooded', 'full to the brim'],
    text: "What a tier bears with the pump running, and with its channels full to the brim, as a blocked drain fills them. The shelf's own label and a competent person decide, not this figure.",
  },
  {
    name: 'margin',
    text: 'Of money: what a season earns less what it costs, of all that has a price in the scenario. Of load: what the label leaves beyond channels that are full to the brim.',
  },
  {
    name: 'idle hole-day',
    also: ['what a hole costs that stands empty'],
    text: 'What the lamps over an empty hole cost in a day, and its wear: not the head that it could have brought.',
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
  kwh: 'kWh of a season',
  cost: 'season without luck',
};
