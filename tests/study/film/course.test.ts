import { expect, test } from 'vitest';
import { STATES } from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import { holesOf } from '../../../sim/models/plan.js';
import { courseOfSeason, HoleDayCourse } from '../../../sim/study/film/course.js';
import { EXAMPLES, readExample } from '../../support/examples.js';

const SEASONS = 6;

test.each(['home-shelf', 'kitchen-garden', 'school-club'])(
  'the hole-days of all weeks of %s are those of the ledger, and those of a week all that there are',
  (name) => {
    const { plan } = readExample(`${EXAMPLES}${name}.yaml`);
    const line = new Line(plan);
    const course = new HoleDayCourse(plan);
    const ledger = new Float64Array(plan.stages.length * STATES.length);
    for (let season = 0; season < SEASONS; season++) {
      course.add(courseOfSeason({ plan, seed: 5, season }, line));
      line.run(5, season).ledger.forEach((days, i) => {
        ledger[i]! += days / SEASONS;
      });
    }
    plan.stages.forEach((stage, s) => {
      const sums = STATES.map(() => 0);
      for (let week = 0; week < plan.weeks; week++) {
        const days = course.weekOf(week, s);
        expect(days.reduce((sum, of) => sum + of, 0)).toBeCloseTo(7 * holesOf(stage), 9);
        days.forEach((of, k) => {
          sums[k]! += of;
        });
      }
      STATES.forEach((state, k) => {
        expect({ state, days: sums[k]! }).toEqual({
          state,
          days: expect.closeTo(ledger[s * STATES.length + k]!, 6),
        });
      });
    });
  },
);
