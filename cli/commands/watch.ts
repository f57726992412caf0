/** `evensow watch [FILE] [LOG]`: the line on the screen, and what each change to the plan does. */

import type { RealSeason } from '../dashboard/thread/real-season.js';
import { type Loaded, loadScenario, type Source } from '../inputs/scenario-file.js';
import { isTerminal, tell } from '../io/streams.js';
import { type Options, studyOptions } from '../options/options.js';
import { runLoaded } from './run.js';

export interface Watching {
  readonly options: Options;
  /** The user asked for the dashboard; else it is what opens when nothing was asked for. */
  readonly demanded: boolean;
}

export async function watch(
  file: string | undefined,
  other: string | undefined,
  { options, demanded }: Watching,
): Promise<number> {
  const { scenario, log } = await lineToWatch([file, other]);
  // Also where it cannot be drawn: a log that is missing or wrong is told, not passed over.
  const real = log === null ? null : await realSeasonOf(log, scenario);
  if (!isTerminal()) {
    if (demanded) {
      const instead =
        log === null
          ? ''
          : ` Of the log, see: evensow replay ${[file, other].filter((path) => path !== undefined).join(' ')}`;
      tell(`evensow: pictures can be drawn on a terminal only; here is what run says instead.${instead}`);
    }
    return runLoaded(scenario, studyOptions({}, []));
  }
  const { open } = await import('../dashboard/open.js');
  return open({
    scenario: scenario.scenario,
    text: scenario.source.text,
    real,
    listening: options.aloud === true || process.env['INK_SCREEN_READER'] === 'true',
  });
}

async function lineToWatch([file, other]: readonly (string | undefined)[]): Promise<{
  scenario: Loaded;
  log: Source | null;
}> {
  if (file === undefined) return { scenario: await loadScenario(file, 'optional'), log: null };
  const { loadLineFiles, WATCH } = await import('../inputs/line-files.js');
  const { scenario, log } = await loadLineFiles(WATCH, [file, other]);
  return { scenario: scenario as Loaded, log };
}

async function realSeasonOf(log: Source, scenario: Loaded): Promise<RealSeason> {
  const [{ seasonRows }, { replaySeason }, { realSeason }, { faultsProblem }] = await Promise.all([
    import('../inputs/season-log.js'),
    import('../../sim/season/replay/replay.js'),
    import('../dashboard/thread/real-season.js'),
    import('../inputs/faults-problem.js'),
  ]);
  const { rows, stages, name, plan } = seasonRows(log, scenario);
  const replayed = replaySeason(rows, stages, plan);
  if (!replayed.ok) throw faultsProblem(name, replayed.faults);
  return realSeason(replayed.value, plan!, rows);
}
