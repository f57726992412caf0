/** Words of the trade, as evensow uses them. Where a key of the scenario says it all, the schema explains it (glossary.ts). */

import type { Word } from './word.js';

export const TRADE: readonly Word[] = [
  {
    name: 'hole',
    text: 'A place for one plant: a cell of a germination tray, a hole of a nursery or finishing channel.',
  },
  {
    name: 'channel',
    also: ['tray'],
    text: 'A row of holes that shares a film of solution and is cleaned as one piece; in germination a tray.',
  },
  {
    name: 'stage',
    also: ['germination stage', 'nursery', 'finishing'],
    text: 'Germination, nursery, finishing, or what you call them: any number from 1 up, in order, each with its own spacing.',
  },
  {
    name: 'sowing',
    also: ['batch'],
    text: 'Seeds of one crop that are sown together, and the plants that come of them.',
  },
  {
    name: 'cadence',
    text: 'When sowings fall due: every so many days, on weekdays, on dates, or to refill.',
  },
  {
    name: 'refill',
    text: 'A cadence that sows at each visit what the line will miss until the next one. It goes by what stands in the line and by the pace of the scarcest stage, or of what is wanted.',
  },
  {
    name: 'missed sowing',
    also: ['missed', 'made up', 'dropped'],
    text: 'A sowing that fell due while nobody came. The next visit makes it up as far as cells are free, or drops all but the latest with missed: dropped.',
  },
  {
    name: 'visit',
    text: 'A time at which somebody tends the line; between visits nothing is moved, picked, sown or cleared.',
  },
  {
    name: 'absence',
    also: ['away', 'nobody came'],
    text: 'A time in which nobody comes, such as a holiday. Ready plants wait until the next visit, which throws away those that did not keep for so long.',
  },
  {
    name: 'head',
    text: 'What one pick brings: a whole plant, or one cut of a plant that is cut several times.',
  },
  {
    name: 'cuts',
    also: ['cut'],
    text: 'How many times a plant is picked. After each pick but the last it stays in its hole and grows again, as regrow says.',
  },
  {
    name: 'growing time',
    also: ['days'],
    text: 'The days from when a plant enters a stage until it is ready there. It has a mean (days), a spread and a shape.',
  },
  {
    name: 'spread',
    text: 'How much growing times differ from plant to plant: their standard deviation over their mean. Common practice is 0.10 to 0.20; your own comes from your log, by evensow fit.',
  },
  {
    name: 'shape',
    text: 'How growing times lie about their mean. The usual choice is lognormal: never below 0, slow plants farther from the mean than quick ones.',
  },
  {
    name: 'germination',
    text: 'The share of seeds that sprout, and the name that the first stage often has. A seed that does not sprout keeps its cell until its time is over.',
  },
  {
    name: 'loss',
    text: 'The share of plants that die in a stage. A dead plant keeps its hole until a visit clears it.',
  },
  {
    name: 'ready',
    text: 'A plant is ready when its growing time in a stage is over. It waits in its hole until a visit moves or picks it.',
  },
  {
    name: 'keeps',
    also: ['overgrown', 'ready for too long'],
    text: 'How many days a ready plant stays good where it stands. A visit throws away what has been ready for longer.',
  },
  {
    name: 'want',
    text: 'Heads that are wanted on some weekdays; no more than that is picked. What is missing on a day is not asked for again.',
  },
];
