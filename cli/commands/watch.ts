/** `evensow watch [FILE] [LOG]`: the line on the screen, and what each change to the plan does. */

import type { RealSeason } from '../dashboard/real-season.js';
import type { Options } from '../options.js';
import { loadScenario } from '../scenario-file.js';
import { isTerminal, tell } from '../streams.js';
import { runCommand } from './run.js';

export interface Watching {
  readonly options: Options;
  /** The user asked for the dashboard; else it is what opens when nothing was asked for. */
  readonly demanded: boolean;
}

export async function watch(
  file: string | undefined,
  log: string | undefined,
  { options, demanded }: Watching,
): Promise<number> {
  if (!isTerminal()) {
    if (demanded) {
      tell('evensow: pictures can be drawn on a terminal only; here is what run says instead.');
    }
    return runCommand(file, {});
  }
  const scenario = await loadScenario(file);
  const real = log === undefined ? null : await realSeasonOf(log, scenario);
  const { open } = await import('../dashboard/open.js');
  return open({
    scenario: scenario.scenario,
    text: scenario.source.text,
    real,
    listening: options.aloud === true || process.env['INK_SCREEN_READER'] === 'true',
  });
}

async function realSeasonOf(
  log: string,
  scenario: Awaited<ReturnType<typeof loadScenario>>,
): Promise<RealSeason> {
  const [{ loadSeasonLog }, { replaySeason }, { realSeason }, { logFaultsText }, { Problem }] =
    await Promise.all([
      import('../season-log.js'),
      import('../../sim/season/replay/replay.js'),
      import('../dashboard/real-season.js'),
      import('../views/log-faults-text.js'),
      import('../problem.js'),
    ]);
  const { rows, stages, name } = await loadSeasonLog(log, scenario.plan);
  const replayed = replaySeason(rows, stages, scenario.plan);
  if (!replayed.ok) throw new Problem(logFaultsText(name, replayed.faults));
  return realSeason(replayed.result, scenario.plan, rows);
}
