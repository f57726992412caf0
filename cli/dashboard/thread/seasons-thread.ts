/**
 * What the second thread of the dashboard runs: it answers one question after another, and lets go of one when a newer one comes.
 *
 * The film, which is a single season; the figures of as many seasons as a study takes, the first of them early where all take
 * long, with the difference to the plan before; what holds the line back; the plans beside it, one after the other, and their whole
 * comparison where that is to be saved; last the figures that kept plans lack.
 */

import { parentPort } from 'node:worker_threads';
import { isoOfDay } from '../../../sim/models/dates.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { neverAway } from '../../../sim/seasons/changes.js';
import { firstCommonWeek, firstRunningWeek } from '../../../sim/seasons/tallies.js';
import { trialSeasons } from '../../../sim/study/bottleneck.js';
import {
  comparison,
  type Difference,
  judgedDifference,
  type Ran,
  sideBySide,
} from '../../../sim/study/compare.js';
import { figureNamed } from '../../../sim/study/figures/figures.js';
import { samplesOf } from '../../../sim/study/figures/samples.js';
import { filmBuffers } from '../../../sim/study/film/film.js';
import type { FilmData } from '../../../sim/study/film/film-data.js';
import { concludeRun, type RunResult } from '../../../sim/study/summary.js';
import {
  COMPARED,
  type Differences,
  type NamedPlan,
  type Question,
  type Reply,
  type RowTold,
} from './messages.js';
import type { Look, PlanSeasons } from './plan-seasons.js';
import { Store } from './store.js';

/** Milliseconds of work between two looks for a newer question. */
const SLICE = 8;
/** Seasons after which figures are told for the first time; fewer if these take longer than `FIRST`. */
const FEW = 20;
/** Milliseconds until something is told for the first time, and between two times. */
const FIRST = 1000;
const NEXT = 500;
/** What is complete within so many milliseconds is told when it is: nobody could read the figures before. */
const SOON = 150;

const port = parentPort!;
const store = new Store();
let waiting: Question | null = null;
let busy = false;
/** What was filmed last. */
let filmed = '';

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

/** A question and the plans that it takes. */
interface Task {
  readonly question: Question;
  /** The plan on the screen. */
  readonly own: PlanSeasons;
  /** Those of the strip, and how many of their seasons stand side by side. */
  readonly strip: readonly PlanSeasons[];
  readonly seasons: number;
  /** The plan before and the one on the screen, as far as they are compared; null for none. */
  readonly pair: { readonly before: PlanSeasons; readonly own: PlanSeasons; readonly seasons: number } | null;
  readonly look: Look;
}

async function answer(question: Question): Promise<void> {
  const { id, scenario, season, isKnown } = question;
  const task = taskOf(question);
  const { own } = task;
  const name = `${season} ${JSON.stringify(scenario)}`;
  const began = performance.now();
  const film = name === filmed ? null : { name, data: own.film(season).data };
  const took = performance.now() - began;
  // The first picture comes at once; later ones come with the figures, so that the screen is drawn once for both.
  const alone = filmed === '' || isKnown || took > SOON;
  if (film !== null && alone) sendFilm(id, film);
  if (!isKnown) {
    const few = took > FIRST / FEW;
    if (!(await tellFigures(task, alone ? null : film, few))) return;
    if (!(await tellStrip(task, few ? FEW : 0))) return;
    if (!(await tellLimits(task))) return;
  }
  if (!(await tellStrip(task, task.seasons))) return;
  if (!(await tellCompared(task))) return;
  await tellKept(task);
}

function taskOf(question: Question): Task {
  const { scenario, before, strip } = question;
  const { plans, seasons } = together(strip);
  const paired = before === null ? 0 : leastOf([scenario, before]);
  return {
    question,
    own: store.of(scenario),
    strip: plans,
    seasons,
    pair: before && {
      before: store.until(before, paired),
      own: store.until(scenario, paired),
      seasons: paired,
    },
    look: lookout(),
  };
}

/**
 * The figures of the plan on the screen: of its first seasons, where all of them take long, and of more and more.
 * @param few true if the first seasons are told at once where they were run before
 * @returns false if a newer question came before all were run
 */
async function tellFigures(task: Task, film: NamedFilm | null, few: boolean): Promise<boolean> {
  const { question, own, look } = task;
  let unsent = film;
  const tell = (differences: Differences | null): void => {
    sendFigures(question.id, unsent, runResult(own), differences);
    unsent = null;
  };
  if (few && own.done >= FEW && own.done < own.all) tell(null);
  const [began, first] = [performance.now(), own.done];
  let next = began + FIRST;
  while (own.done < own.all) {
    const to = own.done < FEW ? Math.min(FEW, own.all) : own.all;
    if (!(await own.run(to, next, look))) return false;
    const now = performance.now();
    const left = ((now - began) / (own.done - first)) * (own.all - own.done);
    if (own.done < own.all && left > SOON) {
      tell(null);
      next = now + NEXT;
    }
  }
  const differences = await differencesTo(task);
  if (waiting !== null) return false;
  tell(differences);
  return true;
}

/** What holds the line back, and the weeks if nobody were away. @returns false if a newer question came before */
async function tellLimits({ question, own, look, pair }: Task): Promise<boolean> {
  if (!(await own.try(trialSeasons(own.all), look))) return false;
  const present = await presentOf(question.scenario, own, look);
  if (waiting !== null) return false;
  const differences = pair === null ? null : judged(pair);
  sendFigures(question.id, null, runResult(own, present), differences);
  return true;
}

/** The same seasons if nobody were away; null if nobody is, or if a newer question came before. */
async function presentOf(
  scenario: Scenario,
  own: PlanSeasons,
  look: Look,
  seasons = own.all,
): Promise<PlanSeasons | null> {
  if (neverAway(own.plan) === own.plan) return null;
  const present = store.until({ ...scenario, away: [] }, seasons);
  return (await ran(present, seasons, look)) ? present : null;
}

function runResult(own: PlanSeasons, present: PlanSeasons | null = null): RunResult {
  const { plan, all } = own;
  const trials = trialSeasons(all);
  // Without those who are away what holds the line back is not told either: all of it comes together.
  const isWhole = present !== null || neverAway(plan) === plan;
  const tried = (isWhole && own.done === all && own.tried(trials)) || [];
  return concludeRun(
    plan,
    plan.seed,
    { seasons: all, trials },
    own.after(own.done),
    tried,
    present?.after(all).whole(0) ?? null,
  )!;
}

/**
 * The plans of the strip, row by row, the nearest first.
 * @param upTo seasons that each is run at most now; all of them: with what holds each back
 * @returns false if a newer question came before
 */
async function tellStrip(task: Task, upTo: number): Promise<boolean> {
  const { question, strip, seasons, look } = task;
  const whole = upTo >= seasons;
  const trials = trialSeasons(seasons);
  const now = question.strip.findIndex((row) => row.now);
  const nearest = [...strip.keys()].sort((a, b) => Math.abs(a - now) - Math.abs(b - now));
  const lacks = (plan: PlanSeasons): boolean =>
    plan.done < Math.min(upTo, seasons) || (whole && plan.tried(trials) === null);
  sendStrip(task);
  for (const i of nearest) {
    const plan = strip[i]!;
    if (!lacks(plan)) continue;
    if (whole) {
      while (plan.done < seasons) {
        if (!(await plan.run(seasons, performance.now() + FIRST, look))) return false;
        if (plan.done < seasons) sendStrip(task);
      }
      if (!(await plan.try(trials, look))) return false;
    } else if (!(await plan.run(Math.min(upTo, seasons), performance.now() + FIRST, look))) return false;
    sendStrip(task);
  }
  return true;
}

/** The figures that kept plans lack. */
async function tellKept({ question, look }: Task): Promise<void> {
  for (const { number, scenario } of question.kept) {
    const plan = store.of(scenario);
    if (!(await ran(plan, plan.all, look))) return;
    if (!(await plan.try(trialSeasons(plan.all), look))) return;
    const present = await presentOf(scenario, plan, look);
    if (waiting !== null) return;
    send({ kind: 'kept', number, result: runResult(plan, present) });
  }
}

/** Run a plan to so many seasons. @returns false if a newer question came before */
async function ran(plan: PlanSeasons, seasons: number, look: Look): Promise<boolean> {
  return plan.run(seasons, Number.POSITIVE_INFINITY, look);
}

async function differencesTo({ pair, look }: Task): Promise<Differences | null> {
  if (pair === null) return null;
  const both = (await ran(pair.before, pair.seasons, look)) && (await ran(pair.own, pair.seasons, look));
  return both ? judged(pair) : null;
}

function judged({ before, own, seasons }: NonNullable<Task['pair']>): Differences {
  const [theirs, ours] = [before.after(seasons), own.after(seasons)];
  const firsts = [theirs, ours].map((gathered) => firstRunningWeek(gathered.whole(0)));
  const from = firstCommonWeek(firsts, own.plan.weeks);
  const [their, our] = [samplesOf(theirs, 0, before.plan, from), samplesOf(ours, 0, own.plan, from)];
  return Object.fromEntries(
    COMPARED.map((name): [string, Difference | null] => [
      name,
      judgedDifference(our, their, figureNamed(name)),
    ]),
  ) as Differences;
}

/** The whole comparison that is wished for, as `compare` tells it of its plans, the one that was on the screen first. */
async function tellCompared({ question, look }: Task): Promise<boolean> {
  const { id, compared } = question;
  if (compared === null) return true;
  const { plans, seasons } = together(compared);
  const all: Ran[] = [];
  for (const i of fromPresent(compared)) {
    const { name, scenario } = compared[i]!;
    const plan = plans[i]!;
    if (!(await ran(plan, seasons, look)) || !(await plan.try(trialSeasons(seasons), look))) return false;
    const present = await presentOf(scenario, plan, look, seasons);
    if (waiting !== null) return false;
    all.push(ranOf(plan, name, seasons, { sections: true, present }));
  }
  const { seed } = all[0]!.plan;
  send({ kind: 'compared', id, result: comparison(all, { seed, run: seasons, seasons, by: null }) });
  return true;
}

/** Plans that stand side by side, and how many of their seasons do: as many as the least of them takes. */
function together(rows: readonly NamedPlan[]): Pick<Task, 'seasons'> & { readonly plans: PlanSeasons[] } {
  const seasons = leastOf(rows.map(({ scenario }) => scenario));
  return { plans: rows.map(({ scenario }) => store.until(scenario, seasons)), seasons };
}

function leastOf(plans: readonly Scenario[]): number {
  return Math.min(...plans.map((plan) => store.of(plan).all));
}

/** Places of plans side by side, that of the plan on the screen first, with which the others are compared. */
function fromPresent(rows: readonly NamedPlan[]): number[] {
  const now = rows.findIndex((row) => row.now);
  return [now, ...[...rows.keys()].filter((i) => i !== now)];
}

/** A plan of several side by side as far as it was run. */
function ranOf(
  plan: PlanSeasons,
  name: string,
  seasons: number,
  { sections, present }: { readonly sections: boolean; readonly present: PlanSeasons | null },
): Ran {
  const done = Math.min(plan.done, seasons);
  const gathered = plan.after(done);
  return {
    name,
    plan: plan.plan,
    tallies: gathered.whole(0),
    sections: sections ? gathered.sectionsOf(0) : [],
    tried: done === seasons ? plan.tried(trialSeasons(seasons)) : null,
    present: present?.after(seasons).whole(0) ?? null,
  };
}

/** What is known of the plans of the strip, as `compare` concludes it. */
function sendStrip(task: Task): void {
  const { question, strip, seasons } = task;
  // As long as they are of different numbers of seasons there are no intervals of differences.
  const sections = strip.every((plan) => plan.done >= seasons);
  const [now, ...others] = fromPresent(question.strip);
  const rows = new Array<RowTold>(strip.length).fill(null);
  if (strip[now!]!.done === 0) return;
  const known = [now!, ...others.filter((i) => strip[i]!.done > 0)];
  const ran = known.map((i) =>
    ranOf(strip[i]!, question.strip[i]!.name, seasons, { sections, present: null }),
  );
  const { from, plans } = sideBySide(ran);
  known.forEach((i, place) => {
    rows[i] = { result: plans[place]!, seasons: Math.min(strip[i]!.done, seasons) };
  });
  const { weeks, start } = ran[0]!.plan;
  const first = from < weeks ? isoOfDay(start, from * 7) : null;
  send({ kind: 'strip', id: question.id, told: { seasons, from: first, rows } });
}

/** Looks up now and then; says to stop when a newer question waits. */
function lookout(): Look {
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

interface NamedFilm {
  readonly name: string;
  readonly data: FilmData;
}

function sendFilm(id: number, film: NamedFilm): void {
  filmed = film.name;
  // Handed over, not copied.
  port.postMessage({ kind: 'film', id, film: film.data } satisfies Reply, filmBuffers(film.data));
}

function sendFigures(
  id: number,
  film: NamedFilm | null,
  result: RunResult,
  differences: Differences | null,
): void {
  if (film !== null) filmed = film.name;
  const reply: Reply = { kind: 'figures', id, film: film?.data ?? null, result, differences };
  port.postMessage(reply, film === null ? [] : filmBuffers(film.data));
}

function send(reply: Reply): void {
  port.postMessage(reply);
}
