/** What can hurt somebody at the work on a line, in few sentences. */

export const CAUTION: readonly string[] = [
  'Switch off and unplug lamps and pumps before you reach into wet channels; fixed wiring is for your local code and a licensed electrician.',
  'Do not look into lamps that are lit.',
  'Channels and trays with water are heavy: keep to the rated load of the shelf, and lift with two.',
  'At picking: clean hands, a clean knife, and heads into the cold at once.',
];
