/** `run`: many seasons of one scenario. */

import type { Gathered } from '../../sim/seasons/gathered.js';
import { type RunResult, runStudy } from '../../sim/study/summary.js';
import { readSource } from '../inputs/scenario-file.js';
import { runRows, runSections } from '../sections/run.js';
import type { RunAssignment } from './assignment.js';
import type { Kind } from './kind.js';

export const run: Kind<RunAssignment, Gathered, RunResult> = {
  study: ({ sources, seed, seasons }) => runStudy(readSource(sources[0]!).plan, seed, seasons),
  sections: runSections,
  rows: runRows,
};
