/** The studies of a page, carried out as one, and its season week by week and day by day. */

import { Line } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import { aboutsOf, type Neighbour, neighbours } from '../../sim/scenario/neighbours.js';
import { toPlan } from '../../sim/scenario/plan.js';
import type { Scenario } from '../../sim/scenario/schema.js';
import { variationText } from '../../sim/scenario/vary.js';
import { startThreads } from '../../sim/seasons/threads.js';
import { plantsOf } from '../../sim/seasons/workload.js';
import { type CompareResult, compareStudy } from '../../sim/study/compare.js';
import { type CourseErrand, courseOfSeason, HoleDayCourse } from '../../sim/study/film/course.js';
import { type FilmErrand, filmOf } from '../../sim/study/film/film.js';
import { Film, type FilmData } from '../../sim/study/film/film-data.js';
import { jointly } from '../../sim/study/jointly.js';
import { sizesOf } from '../../sim/study/size/layout.js';
import { type SizeResult, sizeStudy } from '../../sim/study/size/size.js';
import { WHOLE } from '../../sim/study/study.js';
import { type RunResult, runStudy } from '../../sim/study/summary.js';
import { type Hold, onThreads } from '../inputs/threads.js';
import type { Reported } from '../sections/report/reported.js';
import { collect } from './perform.js';

/** Plans side by side. */
const PLANS = 5;
/** Plants of the seasons that are gone through week by week, and the fewest seasons. */
const COURSE_PLANTS = 25_000;
const COURSE_SEASONS = 5;

/** Which plan, and how its seasons are run. */
export interface PageStudies {
  readonly scenario: Scenario;
  readonly plan: Plan;
  readonly seed: number;
  readonly seasons: number;
  /** By the size of the work if undefined. */
  readonly workers: number | undefined;
}

/** @returns null if somebody stopped it */
export async function studiesOfPage(
  asked: PageStudies,
): Promise<Pick<Reported, 'run' | 'compared' | 'sized' | 'course' | 'film'> | null> {
  const compared = await studied(asked);
  if (compared === null) return null;
  const { result: seen, stopped } = await onThreads(asked.workers, (hold) => seasonsSeen(asked, hold));
  return stopped || seen === null ? null : { ...compared, ...seen };
}

interface Results {
  readonly run: RunResult;
  readonly compared?: CompareResult;
  readonly sized?: SizeResult;
}

async function studied({ scenario, plan, seed, seasons, workers }: PageStudies) {
  // Its cadence, or what else says most where it has none.
  const about = aboutsOf(scenario)[0]!;
  const plans = neighbours(scenario, about, PLANS);
  const sizes = sizesOf(plan, { kind: 'around' });
  const now = plans.find((one) => one.now)!;
  const contenders = [now, ...plans.filter((one) => !one.now)].map((one) => ({
    name: nameOf(one),
    plan: one.now ? plan : toPlan(one.scenario),
  }));
  const study = jointly<Results>({
    run: runStudy(plan, seed, seasons),
    ...(plans.length < 2 ? {} : { compared: compareStudy(contenders, seed, seasons, null) }),
    ...(sizes.ok ? { sized: sizeStudy(plan, sizes.value, 'around', seed, seasons) } : {}),
  });
  const { result, stopped } = await collect(study, workers, WHOLE);
  const results = study.conclude(result)!;
  if (stopped || results.run === null) return null;
  const { run, compared = null, sized = null } = results;
  return {
    run,
    compared: compared === null ? null : { about, result: compared, order: plans.map(nameOf) },
    sized: sizes.ok ? sized! : sizes.faults,
  };
}

/** Of several crops the plan may have several cadences, which no variation gives. */
function nameOf({ now, scenario, variation }: Neighbour): string {
  return now && scenario.crops.length > 1 ? 'as it is' : variationText(variation);
}

/** Where hole-days go week by week, and the first season day by day. @returns null if it was stopped */
async function seasonsSeen(
  { plan, seed, seasons }: PageStudies,
  { threadsFor, keep, step }: Hold,
): Promise<Pick<Reported, 'course' | 'film'> | null> {
  const plants = plantsOf(plan);
  const most = Math.min(seasons, Math.max(COURSE_SEASONS, Math.floor(COURSE_PLANTS / Math.max(1, plants))));
  // A long season is gone through on a thread, so that this one hears who stops it.
  const thread = threadsFor(0, plants) === 0 ? null : keep(await startThreads(1));
  const line = thread === null ? new Line(plan) : null;
  const course = new HoleDayCourse(plan);
  for (let season = 0; season < most; season++) {
    const errand: CourseErrand = { kind: 'course', plan, seed, season };
    const days = line === null ? await thread!.send<Float64Array>(errand) : courseOfSeason(errand, line);
    if (days === null) return null;
    course.add(days);
    const more = step(season + 1, most + 1);
    if (more !== null && !(await more)) return null;
  }
  const errand: FilmErrand = { kind: 'film', plan, seed };
  const data = thread === null ? filmOf(plan, { seed }).data : await thread.send<FilmData>(errand);
  return data === null ? null : { course, film: new Film(data) };
}
