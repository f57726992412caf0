import { describe, expect, test } from 'vitest';
import { spokenLines } from '../../../../cli/dashboard/rows/spoken.js';
import { stripRows } from '../../../../cli/dashboard/rows/strip.js';
import { takesRows, takesWords, toldAHead } from '../../../../cli/dashboard/rows/takes.js';
import type { State } from '../../../../cli/dashboard/state/state.js';
import { PLAIN } from '../../../../cli/dashboard/theme.js';
import { widthOf } from '../../../../cli/render/width.js';
import { TAKES_CAUTION } from '../../../../sim/models/physical/cautions.js';
import type { PlanResult } from '../../../../sim/study/compare.js';
import type { RunResult } from '../../../../sim/study/summary.js';
import { acted, answered, CELLAR, example, figures, linesOf, pressing, read, start } from '../given.js';

const RACK = example('lettuce-rack');

/** Figures of a head, and how well litres are known. */
function taking(aHead: Readonly<Record<string, number | null>>, factor: number | null = 1.5): RunResult {
  const told = Object.entries(aHead).map(([name, mean]) => [
    name,
    mean === null ? null : { mean, low: null, high: null },
  ]);
  const result = figures();
  return {
    ...result,
    figures: { ...result.figures, ...Object.fromEntries(told) },
    water: { good_to_factor: factor } as NonNullable<RunResult['water']>,
  };
}

const ALL = { kwh_a_head: 2.3614, litres_a_head: 1.8796, minutes_a_head: 7.5762, cost_a_head: 3.3527 };

function rows(state: State, width: number): string[] {
  return linesOf(takesRows({ state, width, signs: PLAIN }));
}

const KNOWN = answered(start(RACK), taking(ALL));

describe('what a head takes', () => {
  test('is told as far as the scenario tells of it, the cost before its parts', () => {
    expect(toldAHead(CELLAR)).toEqual([]);
    expect(toldAHead(RACK)).toEqual(['cost_a_head', 'kwh_a_head', 'litres_a_head', 'minutes_a_head']);
    const { prices: _, climate: __, ...bare } = RACK;
    const text = JSON.stringify({
      ...bare,
      crops: bare.crops.map((crop) => ({
        ...crop,
        stages: Object.fromEntries(
          Object.entries(crop.stages).map(([name, { days_at: ___, ...stay }]) => [name, stay]),
        ),
      })),
    });
    expect(toldAHead(read(text))).toEqual(['kwh_a_head', 'minutes_a_head']);
  });

  test('stands in one row, in fewer words where there is less room', () => {
    expect(rows(KNOWN, 116)[0]).toBe(
      'A head takes 2.36 kWh, 1.88 litres (good to a factor of 1.5) and 7.6 minutes of work; it costs 3.35',
    );
    expect(rows(KNOWN, 78)[0]).toBe(
      'A head takes 2.36 kWh, 1.88 L (good to a factor of 1.5), 7.6 min; costs 3.35',
    );
    expect(rows(KNOWN, 58)[0]).toBe('A head: 2.36 kWh, 1.88 L (factor 1.5), 7.6 min; costs 3.35');
  });

  test.each([
    [{ cost_a_head: 3 }, 1.5, 'A head costs 3.00'],
    [{ kwh_a_head: 2 }, 1.5, 'A head takes 2.00 kWh'],
    [{ kwh_a_head: 2, cost_a_head: 3 }, 1.5, 'A head takes 2.00 kWh; it costs 3.00'],
    [{ litres_a_head: 2 }, 1.5, 'A head takes 2.00 litres (good to a factor of 1.5)'],
    // Scaled to a meter.
    [{ litres_a_head: 2 }, null, 'A head takes 2.00 litres'],
    [{ kwh_a_head: null, minutes_a_head: 9 }, null, 'A head takes - kWh and 9.0 minutes of work'],
    [{ kwh_a_head: null, cost_a_head: null }, null, 'What a head takes is not known: nothing is picked'],
    [{}, null, ''],
  ] as const)('of %j, litres good to %s, is told as: %s', (aHead, factor, words) => {
    expect(takesWords(taking(aHead, factor))).toBe(words);
  });

  test('of the plan before is called that; before there are figures it is said that there are none', () => {
    expect(rows(pressing(KNOWN, '+'), 96)[0]).toBe(
      'the plan before: A head takes 2.36 kWh, 1.88 L (good to a factor of 1.5), 7.6 min; costs 3.35',
    );
    expect(rows(start(RACK), 78)[0]).toBe('what a head takes is being worked out');
  });

  test('has its caution below it, whole on any screen, whatever is known', () => {
    for (let width = 58; width <= 210; width++) {
      for (const state of [KNOWN, start(RACK), pressing(KNOWN, '+')]) {
        const [told, caution, ...more] = rows(state, width);
        expect(more).toEqual([]);
        expect(widthOf(told!)).toBeLessThanOrEqual(width);
        expect(widthOf(caution!)).toBeLessThanOrEqual(width);
        expect(caution).toMatch(/^Mains\b.* load.* lamps.* food: labels, .*codes.* licensed people/);
        expect(caution).toMatch(width < 78 ? /people\.$/ : /eyes/);
      }
    }
    expect(rows(KNOWN, 131)[1]).toBe(TAKES_CAUTION);
  });

  test('is said to somebody who listens, with the whole caution, and of each plan side by side', () => {
    const spoken = spokenLines({ state: KNOWN, film: null, spells: [] });
    const at = spoken.findIndex((line) => line.startsWith('A head takes 2.36 kWh'));
    expect(spoken[at + 1]).toBe(TAKES_CAUTION);
    const beside = spokenLines({ state: beside_(KNOWN), film: null, spells: [] });
    expect(beside).toContain(
      '2. every 2 d, now: usual week 15, bad week 12, cost a head 3.35, kWh a head 2.36, litres a head 1.88, minutes a head 7.6',
    );
    const bare = spokenLines({ state: answered(start()), film: null, spells: [] }).join('\n');
    expect(bare).not.toMatch(/A head|Mains/);
  });
});

/** With the plans of the strip told: all alike but for what a head costs. */
function beside_(state: State, of: Readonly<Record<string, number>> = ALL): State {
  const estimate = (mean: number) => ({ mean, low: mean, high: mean, difference: null });
  const rows = state.strip.rows.map(({ scenario }, i) => ({
    seasons: 200,
    result: {
      name: '',
      title: '',
      figures: {
        usual_week: estimate(15),
        bad_week: estimate(12),
        heads_a_week: estimate(15),
        seeds_a_head: estimate(1.5),
        ...Object.fromEntries(
          Object.entries(of).map(([name, mean]) => [
            name,
            estimate(name === 'cost_a_head' ? mean + i - 1 : mean),
          ]),
        ),
      } as unknown as PlanResult['figures'],
      idle: scenario.stages.map(({ name }) => ({ stage: name, share: estimate(0.3) })),
      limits: null,
      without_absence: null,
    } satisfies PlanResult,
  }));
  return acted(state, {
    type: 'strip',
    id: state.asked,
    told: { seasons: 200, from: '2027-02-22', rows },
  });
}

describe('the strip', () => {
  const lines = (state: State, width: number): string[] =>
    linesOf(stripRows({ state, width, plans: 5, signs: PLAIN }));

  test('has what a head costs where there is room for one figure, and all of them where there is more', () => {
    const state = beside_(KNOWN);
    expect(lines(state, 78)[0]).toMatch(/ cost {2}held back by$/);
    expect(
      lines(state, 78)
        .slice(1, 6)
        .map((line) => line.slice(57, 64).trim()),
    ).toEqual(['2.35', '3.35', '4.35', '5.35', '6.35']);
    const wide = lines(state, 196);
    expect(wide[0]).toMatch(/ cost\/head kWh\/head litres\/head minutes\/head +seeds\/head {2}held back by$/);
    expect(wide[2]).toMatch(/ 3\.35 +2\.36 +1\.88 +7\.6 +1\.50 {2}/);
  });

  test('keeps its columns while figures are in brackets, and no row is longer than its room', () => {
    const state = beside_(KNOWN);
    for (const width of [74, 78, 96, 116, 136, 196]) {
      const [fresh, before] = [lines(state, width), lines(pressing(state, '+'), width)];
      for (const line of [...fresh, ...before]) expect(widthOf(line)).toBeLessThanOrEqual(width);
      expect(before[0]!.indexOf('cost')).toBe(fresh[0]!.indexOf('cost'));
    }
    expect(lines(pressing(state, '+'), 78)[1]).toMatch(/ 30 % \(2\.35\) {2}/);
  });

  test('has no such column where the scenario tells of nothing', () => {
    expect(lines(beside_(start(), {}), 196)[0]).not.toMatch(/cost|kWh|litres|minutes/);
  });
});
