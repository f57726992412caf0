/** `evensow run [FILE]`: simulate many seasons and say what comes of it. */

import { defaultSeasons } from '../../sim/seasons/how-many.js';
import { type Loaded, loadScenario, scenarioInput } from '../inputs/scenario-file.js';
import { checkOut, type Options, type StudyOptions, seasonFaults, studyOptions } from '../options/options.js';
import { Problem } from '../problem.js';
import { carryOutStudy } from '../studies/perform.js';

export async function runCommand(file: string | undefined, options: Options): Promise<number> {
  const faults: string[] = [];
  const asked = studyOptions(options, faults);
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  await checkOut(asked.execution.out, [scenarioInput(file)]);
  return runLoaded(await loadScenario(file, 'optional'), asked);
}

/** @throws Problem if there are too few seasons for what was asked */
export async function runLoaded(
  { plan, source }: Loaded,
  { seasons, seed, execution }: StudyOptions,
): Promise<number> {
  const count = seasons ?? defaultSeasons(plan);
  const faults = seasonFaults(count, execution);
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  return carryOutStudy(
    { command: 'run', sources: [source], seed: seed ?? plan.seed, seasons: count },
    execution,
  );
}
