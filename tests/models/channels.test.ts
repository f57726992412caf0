/** Metered lamps hang over every channel: a line with other channels draws as much a hole as the same line whose lamps are told by their efficacy. */

import { describe, expect, test } from 'vitest';
import { lineMatter } from '../../sim/models/physical/line-matter.js';
import { holesOf, type Plan, seasonDays } from '../../sim/models/plan.js';
import { applied, changesOf } from '../../sim/seasons/changes.js';
import { gather } from '../../sim/seasons/gather.js';
import { figureOf } from '../../sim/study/figures/estimates.js';
import { FIGURES } from '../../sim/study/figures/figures.js';
import { samplesOf } from '../../sim/study/figures/samples.js';
import { sizesOf } from '../../sim/study/size/layout.js';
import { sizeStudy } from '../../sim/study/size/size.js';
import { EXAMPLES, readExample } from '../support/examples.js';
import { expectNear } from '../support/near.js';

const RACK = `${EXAMPLES}lettuce-rack.yaml`;
/** 40 holes of 80 cm2, and 56 of 340 cm2: what a meter shows is area x ppfd / (efficacy x reaches) of all holes. */
const WATTS = { nursery: (40 * 0.008 * 200) / 2.21, finishing: (56 * 0.034 * 240) / 2.21 };

const made = readExample(RACK).plan;
const metered = readExample(RACK, (text) => {
  const watts = Object.values(WATTS);
  return text.replaceAll(
    / {4}efficacy: 2\.6.*\n {4}reaches: 0\.85.*\n/g,
    () => `    watts: ${watts.shift()}\n`,
  );
}).plan;

const kwhOf = (plan: Plan) => lineMatter(plan)!.stages.map(({ kwhPerHoleDay }) => kwhPerHoleDay!);

test('the two are alike as they stand', () => {
  expect(metered.physical!.stages.map(({ lamps }) => lamps!.power!.kind)).toEqual(Array(3).fill('metered'));
  for (const [s, kwh] of kwhOf(made).entries()) expectNear(kwhOf(metered)[s]!, kwh, 1e-12);
});

describe('with other channels', () => {
  test('every line that size runs draws the same by watts as by efficacy, and costs as much a head', async () => {
    const studyOf = (plan: Plan) => {
      const sizes = sizesOf(plan, { kind: 'channels', stages: [{ stage: 'finishing', counts: [4, 8, 12] }] });
      if (!sizes.ok) throw new Error(sizes.faults.join());
      return sizeStudy(plan, sizes.value, 'channels', 1, 4);
    };
    const [ours, theirs] = [studyOf(metered), studyOf(made)];
    const cost = FIGURES.find(({ name }) => name === 'cost_a_head')!;
    const [watts, efficacy] = [await gather(ours.workload), await gather(theirs.workload)];
    expect(ours.workload.jobs.length).toBeGreaterThan(3);
    for (const [job, { plan }] of ours.workload.jobs.entries()) {
      const known = theirs.workload.jobs[job]!.plan;
      for (const [s, kwh] of kwhOf(known).entries()) expectNear(kwhOf(plan)[s]!, kwh, 1e-11);
      const [found, right] = [
        figureOf(samplesOf(watts, job, plan, 0), cost),
        figureOf(samplesOf(efficacy, job, known, 0), cost),
      ];
      expectNear(found!.mean, right!.mean, 1e-10);
    }
  });

  test('a channel that is tried brings its lamps', () => {
    const change = changesOf(metered).find((one) => one.kind === 'channel' && one.stage === 'seedlings')!;
    const more = applied(metered, change);
    expect(more.stages[0]!.channels).toBe(2);
    // 10 W over one channel.
    expect(more.physical!.stages[0]!.lamps!.power).toEqual({ kind: 'metered', watts: 20 });
    expectNear(kwhOf(more)[0]! * holesOf(more.stages[0]!) * seasonDays(more), (20 * 16 * 182) / 1000, 1e-12);
  });
});
