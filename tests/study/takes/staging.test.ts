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

describe('of a plant that is cut several times', () => {
  /** Each cut takes 0.7 of it, and 13 days later it is cut again. */
  const cutThrice = (text: string): string =>
    oneEfficiency(text).replace(
      'head_g: 150',
      'head_g: 150\n    left: 0.3\n    cuts: 3\n    regrow: {days: 13, spread: 0.1}',
    );

  test('a head takes a third of its stages and of two times between cuts, which it spends where it is picked', () => {
    const [told] = stagingIn(rack(cutThrice));
    expect(told!.picks).toBe(3);
    expect(told!.days).toBeCloseTo((11 + 12 + 24 + 2 * 13) / 3, 9);
    expect(told!.m2_days).toBeCloseTo((11 * 20 + 12 * 80 + (24 + 26) * 340) / 1e4 / 3, 9);
  });

  test('what it saves is what it saves a plant of that mass that is cut once, over its heads: it grows again in the same hole either way', () => {
    const [told] = stagingIn(rack(cutThrice));
    const once = (text: string) => oneEfficiency(text).replace('head_g: 150', `head_g: ${150 / 0.7}`);
    const [plant] = stagingIn(rack(once));
    for (const key of ['days', 'm2_days', 'kwh', 'cost'] as const) {
      const saved = plant!.one_spacing[key]! - plant![key]!;
      expect(told!.one_spacing[key]! - told![key]!).toBeCloseTo(saved / 3, 9);
      expect(Math.abs(saved)).toBeGreaterThan(0.01);
    }
  });

  test('where the widest hole is not the last one it grows again there by the curve of that hole, in its light', () => {
    const widestBefore = (text: string) => cutThrice(text).replace('hole_area_cm2: 80', 'hole_area_cm2: 500');
    const plan = rack(widestBefore);
    const [told] = stagingIn(plan);
    const [once] = stagingIn(
      rack((text) =>
        oneEfficiency(text)
          .replace('hole_area_cm2: 80', 'hole_area_cm2: 500')
          .replace('head_g: 150', `head_g: ${150 / 0.7}`),
      ),
    );
    // Dry mass of the whole plant before a cut, and after it; ln(exp(a w) - 1) climbs as fast as light falls on it.
    const full = (150 * 0.05) / 0.93 / 0.7;
    const climb = (cm2: number) => {
      const a = (0.58 * (350 / 1e4) * 0.92 * 0.93) / (cm2 / 1e4);
      return Math.log(Math.expm1(a * full)) - Math.log(Math.expm1(a * 0.3 * full));
    };
    const again = (13 * climb(500) * 240) / (climb(340) * 200);
    expect(told!.one_spacing.days).toBeCloseTo((once!.one_spacing.days + 2 * again) / 3, 9);
    expect(told!.one_spacing.m2_days).toBeCloseTo((0.05 * (once!.one_spacing.days + 2 * again)) / 3, 9);
  });
});
