/**
 * What the second thread of the dashboard runs: it answers one question after another, and lets go of one when a newer one comes.
 *
 * The film, which is a single season, and the figures of as many seasons as a study takes with the difference to the plan before; last what holds
 * the line back.
 */

import { parentPort } from 'node:worker_threads';
import { toPlan } from '../../../sim/scenario/plan.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { neverAway } from '../../../sim/seasons/changes.js';
import { gather } from '../../../sim/seasons/gather.js';
import { defaultSeasons } from '../../../sim/seasons/how-many.js';
import { firstCommonWeek, firstRunningWeek, type Tallies } from '../../../sim/seasons/tallies.js';
import { sectionsFor } from '../../../sim/seasons/workload.js';
import type { TrialSeason, WorkloadTallies } from '../../../sim/seasons/workload-tallies.js';
import { trialSeasons } from '../../../sim/study/bottleneck.js';
import { type Difference, judgedDifference } from '../../../sim/study/compare.js';
import { figureNamed, samplesOf } from '../../../sim/study/figures.js';
import { filmBuffers, filmOf } from '../../../sim/study/film/film.js';
import { concludeRun, type RunResult } from '../../../sim/study/summary.js';
import { COMPARED, type Differences, type Question, type Reply } from './messages.js';

/** Milliseconds of work between two looks for a newer question. */
const SLICE = 8;
/** Plans whose seasons are remembered: going back and forth between two is common. */
const MOST_REMEMBERED = 12;

const port = parentPort!;
const remembered = new Map<string, WorkloadTallies>();
let waiting: Question | null = null;
let busy = false;

port.on('message', (question: Question) => {
  waiting = question;
  if (!busy) void work();
});

async function work(): Promise<void> {
  busy = true;
  while (waiting !== null) {
    const question = waiting;
    waiting = null;
    try {
      await answer(question);
    } catch (error) {
      const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
      send({ kind: 'failed', id: question.id, message });
    }
  }
  busy = false;
}

async function answer({ id, scenario, before, season, onlyFilm }: Question): Promise<void> {
  const plan = toPlan(scenario);
  const { data: film } = filmOf(plan, { season });
  // The first picture comes at once; later ones come with the figures, so that the screen is drawn once for both.
  const alone = onlyFilm || remembered.size === 0;
  // Handed over, not copied.
  if (alone) port.postMessage({ kind: 'film', id, film } satisfies Reply, filmBuffers(film));
  if (onlyFilm) return;

  const gathered = await seasonsFor(scenario);
  if (gathered === null) return;
  const { seasons } = gathered.whole(0);
  const trials = trialSeasons(seasons);
  const result = (tried: readonly TrialSeason[], present: Tallies | null = null): RunResult =>
    concludeRun(plan, plan.seed, { seasons, trials }, gathered, tried, present)!;
  const differences = before === null ? null : await differencesTo(before, scenario, gathered);
  if (waiting !== null) return;
  const figures: Reply = {
    kind: 'figures',
    id,
    film: alone ? null : film,
    result: result([]),
    differences,
  };
  port.postMessage(figures, alone ? [] : filmBuffers(film));

  const tried = await gather(
    { seed: plan.seed, sections: 1, jobs: [{ plan, seasons: trials, trials }] },
    { pause: breath() },
  );
  if (tried.trials(0).length < trials) return;
  const present = neverAway(plan) === plan ? null : await seasonsFor({ ...scenario, away: [] });
  if (waiting !== null) return;
  const complete = result(tried.trials(0), present?.whole(0));
  send({ kind: 'figures', id, film: null, result: complete, differences });
}

/** @returns null if a newer question came before they were run */
async function seasonsFor(scenario: Scenario): Promise<WorkloadTallies | null> {
  const name = JSON.stringify(scenario);
  const known = remembered.get(name);
  if (known !== undefined) return known;
  const plan = toPlan(scenario);
  const seasons = defaultSeasons(plan);
  const gathered = await gather(
    { seed: plan.seed, sections: sectionsFor(seasons), jobs: [{ plan, seasons, trials: 0 }] },
    { pause: breath() },
  );
  if (gathered.whole(0).seasons < seasons) return null;
  if (remembered.size === MOST_REMEMBERED) remembered.delete(remembered.keys().next().value!);
  remembered.set(name, gathered);
  return gathered;
}

async function differencesTo(
  before: Scenario,
  scenario: Scenario,
  gathered: WorkloadTallies,
): Promise<Differences | null> {
  const earlier = await seasonsFor(before);
  if (earlier === null) return null;
  const firsts = [earlier, gathered].map((seasons) => firstRunningWeek(seasons.whole(0)));
  const from = firstCommonWeek(firsts, scenario.weeks);
  const [theirs, ours] = [
    samplesOf(earlier, 0, toPlan(before), from),
    samplesOf(gathered, 0, toPlan(scenario), from),
  ];
  return Object.fromEntries(
    COMPARED.map((name): [string, Difference | null] => [
      name,
      judgedDifference(ours, theirs, figureNamed(name)),
    ]),
  ) as Differences;
}

/** Looks up now and then; says to stop when a newer question waits. */
function breath(): () => Promise<boolean> | null {
  let looked = performance.now();
  return () => {
    if (performance.now() - looked < SLICE) return null;
    return new Promise((resolve) => {
      setImmediate(() => {
        looked = performance.now();
        resolve(waiting === null);
      });
    });
  };
}

function send(reply: Reply): void {
  port.postMessage(reply);
}
