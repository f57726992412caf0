/** Schema of what a grower's deeds take. */

import { between, looseMap } from '../fields.js';

const SECONDS = { least: 0, most: 100_000 };
const MINUTES = { least: 0, most: 10_000 };

/** Seconds of a deed. */
function seconds(meaning: string, key: string, usual: number) {
  return between(SECONDS, `${meaning} [s].`, 'seconds', `${key}: ${usual}`).default(usual);
}

/** Minutes of every visit. */
function minutes(meaning: string, key: string, usual: number) {
  return between(MINUTES, `${meaning} [min].`, 'minutes', `${key}: ${usual}`).default(usual);
}

export const work = looseMap(
  {
    sow_s: seconds('To sow a seed', 'sow_s', 4),
    move_s: seconds('To move a plant into the next stage', 'move_s', 10),
    pick_s: seconds('To pick a head', 'pick_s', 40),
    clear_s: seconds('To clear a dead plant, a failed seed or a plant that is thrown away', 'clear_s', 10),
    clean_s: seconds('To clean a hole', 'clean_s', 20),
    visit_min: minutes('What every visit takes besides', 'visit_min', 10),
    tank_min: minutes('What the tank takes at every visit, where there is a tank', 'tank_min', 5),
  },
  'What the work takes; work: {} takes the usual times. Measure yours.',
  'work: {pick_s: 40, visit_min: 10}',
);
