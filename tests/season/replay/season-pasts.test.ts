/** The ways in which what a log does not show can have been are like what was. */

import { expect, test } from 'vitest';
import { Moments } from '../../../sim/engine/tally.js';
import { planDraws } from '../../../sim/models/line/line.js';
import { seasonDays } from '../../../sim/models/plan.js';
import { cohortsOf } from '../../../sim/season/history/cohorts.js';
import { occupancy } from '../../../sim/season/history/occupancy.js';
import { shortVisits } from '../../../sim/season/history/short-visits.js';
import type { ObservedDraws } from '../../../sim/season/replay/observed-draws.js';
import { SeasonPasts } from '../../../sim/season/replay/season-pasts.js';
import { planted, ROOMY } from '../../support/planted.js';
import { seasonOf } from '../../support/replayed.js';

const SEED = 20270104;
const SEASONS = 5;
const WAYS = 6;

/** Times of plants that became ready. */
function addTimes(into: Moments, { times, moments, sprouts }: Draws): void {
  for (let k = 0; k < times.length; k++) if (moments[k]! > 1 && sprouts[k] === 1) into.add(times[k]!);
}
type Draws = Pick<ObservedDraws, 'times' | 'moments' | 'sprouts'>;

/** What a season's plants truly drew. */
function truly(season: number, stage: number, count: number): Draws {
  const draws = planDraws(ROOMY)(0, stage);
  draws.start(SEED, season);
  const [times, moments] = [new Float64Array(count), new Float64Array(count)];
  const sprouts = new Uint8Array(count);
  for (let k = 0; k < count; k++) {
    const at = draws.take();
    times[k] = draws.times[at]!;
    moments[k] = draws.moments[at]!;
    sprouts[k] = draws.sprouts[at]!;
  }
  return { times, moments, sprouts };
}

// A nursery that is too small: seedlings wait, and batches come in over several visits.
const seasons = Array.from({ length: SEASONS }, (_, number) => {
  const { rows, plan } = planted('stage_before_full', ROOMY, 500 + number);
  const season = seasonOf(plan, rows, seasonDays(plan));
  const cohorts = cohortsOf(season);
  const { days: visits } = plan.visits as { days: readonly number[] };
  const short = shortVisits(season, occupancy(season, cohorts, visits), visits);
  const pasts = new SeasonPasts(season, cohorts, visits, short);
  const ways = Array.from({ length: WAYS }, () => pasts.next()[0]!);
  return { number: 500 + number, ways };
});

test.each([0, 1, 2])('growing times of stage %i have their mean and their spread', (s) => {
  const mean = new Moments();
  const spread = new Moments();
  for (const { number, ways } of seasons) {
    const truth = new Moments();
    addTimes(truth, truly(number, s, ways[0]![s]!.times.length));
    const told = new Moments();
    for (const way of ways) addTimes(told, way[s]!);
    mean.add(told.mean - truth.mean);
    spread.add(Math.sqrt(told.variance / truth.variance));
  }
  // Five standard errors. Taken to leave in turn, plants had spreads a tenth to a quarter too small.
  const off = (of: Moments): number => 5 * Math.sqrt(of.variance / SEASONS);
  expect(Math.abs(mean.mean)).toBeLessThan(Math.max(0.02, off(mean)));
  expect(Math.abs(spread.mean - 1)).toBeLessThan(0.05);
});

test('each way has the plants of the log: as many, as many lost', () => {
  for (const { ways } of seasons) {
    for (const s of [0, 1, 2]) {
      const lost = ways.map((way) => way[s]!.lostOf.filter((batch) => batch > 0).length);
      expect(new Set(lost).size).toBe(1);
      expect(new Set(ways.map((way) => way[s]!.times.length)).size).toBe(1);
    }
  }
});
