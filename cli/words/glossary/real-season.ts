/** Words of a real season: what is logged, why holes stood empty, why a fitted figure is not sure. */

import type { FitDoubt } from '../../../sim/season/fit/fit.js';
import type { MeterDoubt } from '../../../sim/season/fit/meter/metered.js';
import type { LogAction } from '../../../sim/season/log/rows.js';
import type { IdleCause } from '../../../sim/season/replay/causes.js';
import type { SeasonCause } from '../../../sim/season/replay/season-causes.js';
import type { Word } from './word.js';

export const LOGGED: Readonly<Record<LogAction, Word>> = {
  sow: {
    name: 'sow',
    text: 'To put seeds of a crop into free cells of the first stage. One row of a log is one sowing, and names its batch.',
  },
  move: { name: 'move', text: 'To bring ready plants of a batch into free holes of the next stage.' },
  pick: { name: 'pick', text: 'To take a head (or one cut) from a plant of the last stage.' },
  lose: {
    name: 'lose',
    also: ['clear'],
    text: 'To take out plants or seeds that are dead, failed or thrown away. Their holes are free from then on.',
  },
  clean: {
    name: 'clean',
    text: 'To put holes of a stage out of use, from that date until the next row that uses them.',
  },
  stand: {
    name: 'stand',
    text: 'To enter what stands when a log begins in the middle of a season, and since when. Sown on that day it would look as if it grew far quicker than it does.',
  },
  tank: {
    name: 'tank',
    text: 'The vessel from which the line is fed; as a row of a log, how many litres it was topped up with, and its conductivity (EC) before that. Of one that was emptied and filled anew the note says changed, and its litres do not count as used.',
  },
};

/** Why holes stood empty and what cost heads; of what is a state, a figure or a word of the trade too, the name of that word. */
export const CAUSES: Readonly<Record<IdleCause['kind'] | SeasonCause['kind'], string | Word>> = {
  filling: 'filling',
  cleaning: 'cleaning',
  absent: 'absence',
  thrown_away: 'thrown away',
  end: {
    name: 'end',
    also: ["season's end"],
    text: 'Holes that stood empty because nothing that came in then could have been picked before the end of the season.',
  },
  between_visits: {
    name: 'between visits',
    text: 'Ready plants, or seeds that were due, waited for the next visit. What it cost is told against a visit every day.',
  },
  too_little_sown: {
    name: 'too little sown',
    also: ['too little was sown', 'less was sown than planned'],
    text: 'Fewer seeds were sown than would have kept the holes full, or than the plan says though cells were free. What it cost is told against the plan.',
  },
  few_seeds: {
    name: 'few seeds',
    also: ['too few seeds'],
    text: 'What is sown cannot keep the scarcest stage full, even if all goes well. What it cost is told against more seeds.',
  },
  batch_failed: {
    name: 'batch failed',
    text: 'A batch lost far more plants or seeds in a stage than had to be expected.',
  },
  batches_failed: 'batch failed',
  stage_before_full: {
    name: 'stage before full',
    also: ['was full', 'nothing more could come'],
    text: 'Nothing more could come, because a stage was full and plants before it had to wait. What it cost is told against more channels there.',
  },
  late: {
    name: 'late',
    also: ['plants came late', 'chance'],
    text: 'Enough was sown, but plants came later or fewer than the means say: they took longer than planned, or it was chance.',
  },
};

/** Why a figure of a fit is not sure. */
export const DOUBTS: Readonly<Record<FitDoubt['why'] | MeterDoubt['why'], string | Word>> = {
  wide: {
    name: 'wide',
    text: 'The 95 % interval of a fitted figure is too wide for it to be written into a scenario. More plants in the log make it narrower.',
  },
  waited: {
    name: 'waited',
    text: 'So many plants may have waited for a free hole that the spread of their growing times is not sure.',
  },
  few_ended: {
    name: 'few ended',
    text: 'Too few plants have left the stage or were cleared there to tell losses or germination.',
  },
  begun_midway: {
    name: 'begun midway',
    text: 'Batches stood in the stage when the log began, and were entered as if they had come that day. Put stand rows in the place of theirs.',
  },
  survivors_only: {
    name: 'survivors only',
    text: 'Of the first batches, it seems, only what still stood was entered, so losses look smaller than they are. Put stand rows in the place of theirs.',
  },
  unused_holes: {
    name: 'unused holes',
    text: 'Holes of the next stage that were never taken while plants waited, so it may have fewer than the scenario says. As it is, waiting is taken for growing.',
  },
  thrown_away: 'thrown away',
  died_or_failed: {
    name: 'died or failed',
    text: 'Which of the lost plants died and which never sprouted is not known, because they were not cleared at every visit.',
  },
  unmentioned: {
    name: 'unmentioned',
    text: 'Plants that must be gone by now though no row says so. They are taken as dead or failed, and losses there are not sure if they are many.',
  },
  untold_line: {
    name: 'untold line',
    text: 'The scenario does not tell what a figure of the tank takes: head_g, hole_area_cm2, ppfd and climate with humidity for litres, top_up_ec for the conductivity.',
  },
  unknown_crops: {
    name: 'unknown crops',
    text: 'Crops that the scenario does not have took water too, so litres by the meter cannot be held against the model.',
  },
  few_top_ups: {
    name: 'few top-ups',
    text: 'Too few spells between two rows of the tank with litres to tell water.scale.',
  },
  few_readings: {
    name: 'few readings',
    text: 'Too few rows of the tank with litres and ec to tell what conductivity plants take up.',
  },
  wide_meter: {
    name: 'wide meter',
    text: 'The 95 % interval of a figure of the tank is too wide for it to be written into a scenario. More rows of the tank make it narrower.',
  },
  far_off: {
    name: 'far off',
    text: 'A figure of the tank is further from what is usual than plants are: look for a leak, other units, rows that are missing.',
  },
  left_out: {
    name: 'left out',
    text: 'Spells between top-ups of which nothing is made, because a row may be missing or the tank was not full; here they are more than half of the days.',
  },
  same_readings: {
    name: 'same readings',
    text: 'All readings of the conductivity are alike, however much was used, so they tell nothing of what plants take up.',
  },
  refused_log: {
    name: 'refused log',
    text: 'The log does not fit the scenario, so nothing of it is sure.',
  },
};

export const REAL_SEASON: readonly Word[] = [
  {
    name: 'overdue',
    text: 'Plants that stand for so long by the log that hardly any would still grow. They are taken as failed; if they are gone, log them with evensow log lose.',
  },
  {
    name: 'blocked seedlings',
    text: 'Ready plants that find no free hole in the next stage in the weeks to come. ahead tells how many heads that costs.',
  },
];
