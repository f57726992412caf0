/** What can hurt somebody at a line, in sentences. */

import { TAKES_CAUTION } from '../../sim/models/physical/cautions.js';

/** At the work itself. */
export const CAUTION: readonly string[] = [
  'Switch off and unplug lamps and pumps before you reach into wet channels; fixed wiring is for your local code and a licensed electrician.',
  'Do not look into lamps that are lit.',
  'Channels and trays with water are heavy: keep to the rated load of the shelf, and lift with two.',
  'At picking: clean hands, a clean knife, and heads into the cold at once.',
];

/** Beside figures of lamps. */
export const LAMPS_CAUTION =
  'Do not look into lamps that are lit; their wiring is for their label, your local code and a licensed electrician.';

/** Beside water that may end on a floor. */
export const WATER_CAUTION =
  'Water and mains power: keep plugs, lamps and pumps out of its way, and leave fixed wiring to your local code and a licensed electrician.';

/** Before something is built or bought. */
export const INSTALLATION =
  'A plan tells nothing of your installation: mains power beside water, the load of filled channels on a shelf, strong lamps and your eyes, and clean food are matters for the labels on your equipment, your local codes and licensed people. When a plan makes you add channels, lamps or pumps, ask them first.';

/** Beside any figure of what a plan takes, in one row of the screen: the longest that has room. The last one has on any. */
export const TAKES_CAUTIONS: readonly string[] = [
  TAKES_CAUTION,
  'Mains by water, loads, lamps and eyes, food: labels, codes, licensed people.',
  'Mains, loads, lamps, food: labels, codes, licensed people.',
];
