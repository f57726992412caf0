/** `evensow run [FILE]`: simulate many seasons and say what comes of it. */

import { type Loaded, loadScenario, scenarioInput } from '../inputs/scenario-file.js';
import { checkOut, type Options, type StudyOptions, seasonsOf, studyOptions } from '../options/options.js';
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
export async function runLoaded({ plan, source }: Loaded, asked: StudyOptions): Promise<number> {
  const { seed = plan.seed, execution } = asked;
  const seasons = seasonsOf([plan], asked);
  return carryOutStudy({ command: 'run', sources: [source], seed, seasons }, execution);
}
