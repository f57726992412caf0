/** `evensow report [FILE] [LOG] --out PAGE`: a plan on one page, to look at and to print. */

import packageJson from '../../package.json' with { type: 'json' };
import { choresFrom } from '../../sim/calls/look.js';
import { replaySeason } from '../../sim/season/replay/replay.js';
import { USUAL_DAYS } from '../../sim/seasons/how-many.js';
import { realSeason } from '../dashboard/thread/real-season.js';
import { faultsProblem } from '../inputs/faults-problem.js';
import { futuresOptions, lookInto, tellingOf } from '../inputs/futures-inputs.js';
import { loadLineFiles, REPORT } from '../inputs/line-files.js';
import { type Loaded, loadScenario, type Source, scenarioInput } from '../inputs/scenario-file.js';
import { seasonRows } from '../inputs/season-log.js';
import { EXIT_DONE, EXIT_INTERRUPTED, tell } from '../io/streams.js';
import { writeWhole } from '../io/write-file.js';
import { checkOut, type Input, type Options, seasonsOf } from '../options/options.js';
import { Problem } from '../problem.js';
import { pageHtml } from '../render/html/page.js';
import { reportPage } from '../sections/report/report.js';
import { studiesOfPage } from '../studies/page.js';

/**
 * @param file path of the scenario or the log, or `-` for standard input; the built-in scenario if left out
 * @param other path of the other one; the log that the scenario names if left out
 * @throws Problem if an option, the scenario or the log is wrong, or the page cannot be written
 */
export async function report(
  file: string | undefined,
  other: string | undefined,
  options: Options,
): Promise<number> {
  const faults: string[] = [];
  const asked = futuresOptions(options, faults);
  const out = options['out'];
  if (out === undefined) {
    faults.push(
      '--out must not be left out. It must be a file for the page. Example: evensow report my-line.yaml --out plan.html',
    );
  }
  if (faults.length > 0 || out === undefined) throw new Problem(faults.join('\n'));
  const { scenario, log, inputs } = await lineOf(file, other);
  await checkOut(out, inputs);
  if (log === null && asked.today !== null) {
    throw new Problem(
      '--today must not be given without a log. It says from when on the work of the next two weeks is told. Example: evensow report my-line.yaml season.csv --today 2027-03-15 --out plan.html',
    );
  }
  const { plan, source } = scenario;
  const { workers, seed = plan.seed } = asked;
  const seasons = seasonsOf([plan], {
    ...asked,
    execution: { form: 'text', out, all: true, workers, shard: null },
  });
  // The log first, for it may be wrong.
  const past = log === null ? null : logged(scenario, log);
  const chores = past === null ? null : await lookInto(past.line, asked, past.look(asked.today));
  const stopped = past !== null && chores === null;
  const studied = stopped ? null : await studiesOfPage({ ...scenario, seed, seasons, workers });
  if (studied === null) {
    tell(`evensow: stopped; ${out} was not written.`);
    return EXIT_INTERRUPTED;
  }
  const page = reportPage({
    ...studied,
    plan,
    scenario: { text: source.text, path: file === undefined || file === '-' ? null : source.name },
    made: `evensow ${packageJson.version}`,
    ...(past === null || chores === null
      ? { logged: null }
      : { film: past.film, logged: { ...past.told, chores, telling: tellingOf(options, past.line) } }),
  });
  await writeWhole(out, pageHtml(page));
  tell(`evensow: ${out} is written. Open it in a browser, and print it from there.`);
  return EXIT_DONE;
}

async function lineOf(
  file: string | undefined,
  other: string | undefined,
): Promise<{ scenario: Loaded; log: Source | null; inputs: readonly Input[] }> {
  if (file === undefined)
    return { scenario: await loadScenario(file, 'optional'), log: null, inputs: [scenarioInput(file)] };
  const { scenario, log, inputs } = await loadLineFiles(REPORT, [file, other]);
  // One is needed.
  return { scenario: scenario as Loaded, log, inputs };
}

/** What a log tells, and what is to be asked of the weeks to come. @throws Problem with every fault of it */
function logged(scenario: Loaded, log: Source) {
  const { rows, stages, name, plan } = seasonRows(log, scenario);
  const replayed = replaySeason(rows, stages, plan);
  if (!replayed.ok) throw faultsProblem(name, replayed.faults);
  const { film, picks } = realSeason(replayed.value, plan!, rows);
  return {
    line: { scenario, name, rows },
    look: (today: string | null) => choresFrom(scenario.scenario, rows, today, USUAL_DAYS),
    film,
    told: { replayed: replayed.value, picks },
  };
}
