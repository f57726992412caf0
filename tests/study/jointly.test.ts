import { expect, test } from 'vitest';
import { neighbours } from '../../sim/scenario/neighbours.js';
import { toPlan } from '../../sim/scenario/plan.js';
import { gather } from '../../sim/seasons/gather.js';
import type { WorkloadTallies } from '../../sim/seasons/workload-tallies.js';
import { compareStudy } from '../../sim/study/compare.js';
import { jointly } from '../../sim/study/jointly.js';
import { sizesOf } from '../../sim/study/size/layout.js';
import { sizeStudy } from '../../sim/study/size/size.js';
import type { Study } from '../../sim/study/study.js';
import { runStudy } from '../../sim/study/summary.js';
import { readExample, SHELF } from '../support/examples.js';
import { successOf } from '../support/success-of.js';

const { scenario, plan } = readExample(SHELF);
const SEASONS = 8;

async function alone<Result>(study: Study<WorkloadTallies, Result>): Promise<Result | null> {
  return study.conclude(await gather(study.workload));
}

test('each study of several that are carried out as one says what it says alone, and fewer seasons are run', async () => {
  const contenders = neighbours(scenario, { kind: 'cadence' }, 5).map((one, i) => ({
    name: `${i}`,
    plan: toPlan(one.scenario),
  }));
  const sizes = successOf(sizesOf(plan, { kind: 'around' }));
  const studies = {
    run: runStudy(plan, 3, SEASONS),
    compared: compareStudy(contenders, 3, SEASONS, null),
    sized: sizeStudy(plan, sizes, 'around', 3, SEASONS),
  };
  const joint = jointly(studies);
  expect(await alone(joint)).toEqual({
    run: await alone(studies.run),
    compared: await alone(studies.compared),
    sized: await alone(studies.sized),
  });
  const jobs = Object.values(studies).map(({ workload }) => workload.jobs.length);
  // The plan as it is, and the same with nobody away, stand in two studies and in three.
  expect(joint.workload.jobs.length).toBeLessThanOrEqual(jobs.reduce((sum, count) => sum + count, 0) - 3);
});

test('studies of other luck are not carried out as one', () => {
  expect(() => jointly({ a: runStudy(plan, 3, SEASONS), b: runStudy(plan, 4, SEASONS) })).toThrow(RangeError);
  expect(() => jointly({ a: runStudy(plan, 3, SEASONS), b: runStudy(plan, 3, SEASONS + 1) })).toThrow(
    RangeError,
  );
});
