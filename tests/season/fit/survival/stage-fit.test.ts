/** The fit of a stage where the data leave much open. */

import { expect, test } from 'vitest';
import { observe } from '../../../../sim/season/fit/observations.js';
import type { KindModel } from '../../../../sim/season/fit/survival/kind-search.js';
import { fittedLaw } from '../../../../sim/season/fit/survival/laws.js';
import { fitStage } from '../../../../sim/season/fit/survival/stage-fit.js';
import { StageLikelihood } from '../../../../sim/season/fit/survival/stage-likelihood.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../../support/plans.js';
import { simulatedLog } from '../../../support/simulated-log.js';

/** Six days in a tray that is seen on days 3 or 4 and on day 7, and a nursery that is nearly always full. */
const PLAN = line(
  [stage('tray', 48), stage('nursery', 46), stage('finishing', 72)],
  [crop([grow(time(6, 0.15)), grow(time(13, 0.12)), grow(time(19, 0.12))], every(3.5, 119, 14))],
  { weeks: 20, visits: visitDays(20, [1, 0, 0, 1, 0, 0, 0]) },
);

const QUESTION: KindModel = {
  shape: 'lognormal',
  seeds: false,
  losses: false,
  guess: { mean: 14, cv: 0.15 },
  fit: true,
};

test('where no plant was seen before the bulk of them, the interval holds every mean that is about as likely', () => {
  // Such a log says little: most plants were ready between two visits, whether early and widely spread or late
  // and all at once. On a grid too coarse for the latter it looked likelier than it was.
  const { record } = observe(simulatedLog(PLAN, 1, 0), ['tray', 'nursery', 'finishing'], PLAN).stages[0]!;
  const { days } = fitStage(record, [QUESTION], false)[0]!;
  // Outside check: the profile by trying spreads one by one on a grid twice as fine as any that a fit uses. Cells half as wide once
  // more change no height by a tenth.
  const fine = new StageLikelihood(record, 1, 1 / 64);
  const value = (mean: number, k: number): number =>
    fine.value(
      [{ law: fittedLaw('lognormal', mean, 0.035 * 1.1 ** k), loss: 0, germination: 1, cleared: 1 }],
      0,
    );
  /** Of spreads from a place on, up to the top. */
  let place = 9;
  const height = (mean: number): number => {
    let found = value(mean, place);
    for (const step of [1, -1]) {
      for (let next = value(mean, place + step); next > found; next = value(mean, place + step)) {
        place += step;
        found = next;
      }
    }
    return found;
  };
  const means = [5.4, 5.7, 6, 6.2, 6.5, 6.8];
  const heights = means.map(height);
  const best = Math.max(...heights);
  for (const [i, mean] of means.entries()) {
    const fall = best - heights[i]!;
    // An interval holds what has fallen by less than 1.92; the rest is room for the steps between spreads.
    if (fall < 1.2) expect(mean, `${mean} has fallen by ${fall}`).toBeGreaterThan(days.low);
    if (fall < 1.2) expect(mean, `${mean} has fallen by ${fall}`).toBeLessThan(days.high);
    if (fall > 3) expect(mean < days.low || mean > days.high, `${mean} has fallen by ${fall}`).toBe(true);
  }
});
