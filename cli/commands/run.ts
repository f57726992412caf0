/** `evensow run [FILE]`: simulate many seasons and say what comes of it. */

import { defaultSeasons } from '../../sim/study/replicate.js';
import { type Options, seasonFaults, studyOptions } from '../options.js';
import { Problem } from '../problem.js';
import { loadScenario } from '../scenario-file.js';
import { carryOutStudy } from './study.js';

export async function runCommand(file: string | undefined, options: Options): Promise<number> {
  const faults: string[] = [];
  const { seasons, seed, manner } = studyOptions(options, faults);
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const { plan, source } = await loadScenario(file);
  const count = seasons ?? defaultSeasons(plan);
  faults.push(...seasonFaults(count, manner));
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  return carryOutStudy(
    { command: 'run', sources: [source], seed: seed ?? plan.seed, seasons: count },
    manner,
  );
}
