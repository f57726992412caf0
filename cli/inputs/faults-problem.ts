/** The faults of a file as a Problem, with all that was found, in lines that are not broken: somebody may search in them. */

import type { Fault } from '../../sim/scenario/faults.js';
import type { LogFault } from '../../sim/season/log/faults.js';
import { Problem } from '../problem.js';
import { messageOf } from '../render/text.js';
import { faultSections } from '../sections/faults.js';

/** @param file as the user named it */
export function faultsProblem(file: string, faults: readonly (Fault | LogFault)[]): Problem {
  return new Problem(messageOf(faultSections(file, faults)));
}
