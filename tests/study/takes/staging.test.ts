/** What staging saves a head: held against the sums of a plan's own days and holes, and against the crop grown in one stage. */

import { describe, expect, test } from 'vitest';
import { lineMatter } from '../../../sim/models/physical/line-matter.js';
import type { Plan } from '../../../sim/models/plan.js';
import { stagingOf } from '../../../sim/study/takes/staging.js';
import { EXAMPLES, readExample } from '../../support/examples.js';

const rack = (change: (text: string) => string = (text) => text): Plan =>
  readExample(`${EXAMPLES}lettuce-rack.yaml`, change).plan;
const stagingIn = (plan: Plan) => stagingOf(plan, lineMatter(plan)!);
/** No days are told for other conditions. */
const asNow = (text: string): string => text.replace(/, days_at: \{.*?\}/, '');
/** Nor is a nursery plant weighed: there is one efficiency from seed to head. */
const oneEfficiency = (text: string): string => asNow(text).replace(', ready_g: 4', '');

describe('what staging saves', () => {
  test('as planned a head takes its days times its holes, and what the lamps over them draw', () => {
    const [told] = stagingIn(rack(asNow));
    expect(told!.days).toBeCloseTo(11 + 12 + 24, 9);
    expect(told!.m2_days).toBeCloseTo((11 * 20 + 12 * 80 + 24 * 340) / 1e4, 9);
    // 10 W over 48 holes; light of 200 and 240 umol for 16 h by lamps of 2.6 umol/J of which 0.85 arrives.
    const lamps = (areaCm2: number, ppfd: number) => ((areaCm2 / 1e4) * ppfd * 16) / (1000 * 2.6 * 0.85);
    const kwh = (11 * 10 * 16) / 1000 / 48 + 12 * lamps(80, 200) + 24 * lamps(340, 240);
    expect(told!.kwh).toBeCloseTo(kwh, 9);
    expect(told!.cost).toBeCloseTo(0.3 * kwh, 9);
  });

  test('wide from the start it is ready earlier, and takes its days there in the widest hole', () => {
    const [told] = stagingIn(rack(oneEfficiency));
    const { days, m2_days, kwh } = told!.one_spacing;
    expect(days).toBeLessThan(told!.days);
    expect(m2_days).toBeCloseTo((days * 340) / 1e4, 9);
    expect(kwh! / m2_days).toBeCloseTo((240 * 16) / (1000 * 2.6 * 0.85), 9);
    expect(m2_days).toBeGreaterThan(told!.m2_days);
  });

  test('days under other conditions go with the ratio of the widest stage', () => {
    const plan = rack();
    const [told] = stagingIn(plan);
    const [then] = stagingIn(rack((text) => asNow(text).replace('ppfd: 240', 'ppfd: 200')));
    const now = plan.crops[0]!.stages[2]!.time.days;
    expect(now).not.toBeCloseTo(24, 1);
    expect(told!.days).toBeCloseTo(11 + 12 + now, 9);
    expect(told!.one_spacing.days).toBeCloseTo((then!.one_spacing.days * now) / 24, 9);
  });

  test('where all holes are alike there is nothing to save', () => {
    expect(stagingIn(rack((text) => text.replaceAll(/hole_area_cm2: \d+/g, 'hole_area_cm2: 340')))).toEqual(
      [],
    );
  });

  test('money needs a price, kWh need lamps that are told', () => {
    const [told] = stagingIn(rack((text) => text.replace('kwh: 0.3, ', '')));
    expect(told).toMatchObject({ cost: null, one_spacing: { cost: null } });
  });
});
