/** What can hurt somebody at a line, in sentences. */

/** At the work itself. */
export const CAUTION: readonly string[] = [
  'Switch off and unplug lamps and pumps before you reach into wet channels; fixed wiring is for your local code and a licensed electrician.',
  'Do not look into lamps that are lit.',
  'Channels and trays with water are heavy: keep to the rated load of the shelf, and lift with two.',
  'At picking: clean hands, a clean knife, and heads into the cold at once.',
];

/** Beside what a shelf bears, whatever it is. */
export const LOAD_CAUTION =
  "The shelf's own label and a competent person decide; even static load only; add people, sloshing, overdue heads and water on the floor; rack and floor are not checked.";

/** Beside water that may end on a floor. */
export const WATER_CAUTION =
  'Water and mains power: keep plugs, lamps and pumps out of its way, and leave fixed wiring to your local code and a licensed electrician.';

/** Before something is built or bought. */
export const INSTALLATION =
  'A plan tells nothing of your installation: mains power beside water, the load of filled channels on a shelf, strong lamps and your eyes, and clean food are matters for the labels on your equipment, your local codes and licensed people. When a plan makes you add channels, lamps or pumps, ask them first.';
