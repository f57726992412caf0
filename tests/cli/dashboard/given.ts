/** What the tests of the dashboard start from: scenarios, films filled in by hand, figures made up. */

import { readFileSync } from 'node:fs';
import { actionsFor } from '../../../cli/dashboard/rows/actions.js';
import type { Press } from '../../../cli/dashboard/state/keys.js';
import { type Action, beginning, reduce, type State } from '../../../cli/dashboard/state/state.js';
import type { Cover } from '../../../cli/dashboard/state/types.js';
import type { Row } from '../../../cli/dashboard/theme.js';
import { COUNTS, type HoleState, STATE_COUNT, STATES } from '../../../sim/models/ledger.js';
import { readScenario } from '../../../sim/scenario/read.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import type { Estimate } from '../../../sim/seasons/sections.js';
import type { Bottleneck } from '../../../sim/study/bottleneck.js';
import { ofFigures } from '../../../sim/study/figures/figures.js';
import {
  blankFilm,
  Film,
  WORK_MOVED,
  WORK_PICKED,
  WORK_SOWN,
  workWidth,
} from '../../../sim/study/film/film-data.js';
import type { RunResult } from '../../../sim/study/summary.js';

/** A scenario of the examples. */
export function example(name: string): Scenario {
  return read(readFileSync(`scenarios/${name}.yaml`, 'utf8'));
}

export function read(text: string): Scenario {
  const reading = readScenario(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.value.scenario;
}

export const CELLAR = example('home-shelf');
export const KITCHEN = example('kitchen-garden');

/** Whether the plan may be written over a file is asked. */
export function askedOver(path: string, scenario = CELLAR): Cover {
  return { kind: 'over', wish: { path, over: false, as: 'plan', scenario } };
}

export interface GivenStage {
  readonly name: string;
  readonly channels: number;
  readonly holesPerChannel: number;
}

/** A scenario with these stages, all else plain. */
export function lineOf(stages: readonly GivenStage[], weeks = 4): Scenario {
  return read(
    JSON.stringify({
      title: 'a line',
      start: '2027-01-04',
      weeks,
      visits: 'daily',
      stages: stages.map(({ name, channels, holesPerChannel }) => ({
        name,
        channels,
        holes: holesPerChannel,
      })),
      crops: [
        {
          name: 'leaf',
          germination: 1,
          sow: { every: 1, seeds: 1 },
          stages: Object.fromEntries(stages.map(({ name }) => [name, { days: 5, shape: 'fixed' }])),
        },
      ],
    }),
  );
}

export interface GivenFilm {
  readonly stages: readonly GivenStage[];
  readonly days: number;
  /** State of a hole of a stage on a day; unsupplied if left out. */
  readonly stateOf?: (day: number, stage: number, hole: number) => HoleState;
  /** [sown, picked, moved into stage 1, into stage 2, ...] before each picture; nothing if left out. */
  readonly dealt?: (day: number) => readonly number[];
  readonly visits?: (day: number) => boolean;
  /** Keep the counts only, as films of very large lines do. */
  readonly onlyCounts?: boolean;
}

export function filmBy({ stages, days, stateOf, dealt, visits, onlyCounts = false }: GivenFilm): Film {
  const data = blankFilm(stages, days, !onlyCounts);
  const all = stages.reduce((sum, one) => sum + one.channels * one.holesPerChannel, 0);
  for (let day = 0; day <= days; day++) {
    let hole = 0;
    stages.forEach(({ channels, holesPerChannel }, s) => {
      for (let h = 0; h < channels * holesPerChannel; h++, hole++) {
        const k = STATES.indexOf(stateOf?.(day, s, h) ?? 'unsupplied');
        if (data.holes !== null) data.holes[day * all + hole] = k;
        data.counts[(day * stages.length + s) * STATE_COUNT + k]!++;
      }
    });
    const [sown = 0, picked = 0, ...moved] = dealt?.(day) ?? [];
    const at = day * workWidth(stages.length);
    data.work[at + WORK_SOWN] = sown;
    data.work[at + WORK_PICKED] = picked;
    moved.forEach((plants, s) => {
      data.work[at + WORK_MOVED + s + 1] = plants;
    });
    data.visits[day] = (visits?.(day) ?? true) && day < days ? 1 : 0;
  }
  return new Film(data);
}

const MEAN = { mean: 0, se: 0 };

export interface GivenFigures {
  /** [p10, p50, p90] of each week. */
  readonly weeks?: readonly (readonly [number, number, number])[];
  readonly limits?: Bottleneck | null;
  /** null: no week of a running line. */
  readonly p50?: number | null;
  readonly p10?: number;
  readonly sown?: number;
  readonly wanted?: number;
  readonly short?: number;
}

export function figures(given: GivenFigures = {}): RunResult {
  const { weeks = [], limits = null, p50 = 22, p10 = 14, sown = 260, wanted = 0, short = 0 } = given;
  const counts = Object.fromEntries(COUNTS.map((name) => [name, MEAN])) as RunResult['counts'];
  const ofWeeks = (mean: number): Estimate | null => (p50 === null ? null : { mean, low: null, high: null });
  return {
    title: 'Cellar line',
    start: '2027-01-04',
    seed: 7,
    seasons: 200,
    partial: false,
    attended: { visits: 78, pick_days: 78, last_pick_day: '2027-07-03' },
    counts: {
      ...counts,
      sown: { mean: sown, se: 0 },
      wanted: { mean: wanted, se: 0 },
      short: { mean: short, se: 0 },
    },
    running:
      p50 === null
        ? null
        : {
            from: '2027-02-15',
            weeks: 20,
            mean: 20.5,
            p50,
            p10,
            without_pick: 0.031,
            wanted: wanted || null,
            missing: wanted ? short : null,
            without_absence: null,
            bad_by_absence: [],
          },
    figures: {
      ...ofFigures('whole', () => null),
      heads_a_week: ofWeeks(20.5),
      usual_week: ofWeeks(p50 ?? 0),
      bad_week: ofWeeks(p10),
      weeks_without_pick: ofWeeks(0.031),
    },
    first_pick: { p10: '2027-02-11', p50: '2027-02-15', p90: '2027-02-18', p50_days: 42, never: 0 },
    limits,
    weeks: weeks.map(([low, middle, high], w) => ({
      ...MEAN,
      start: `week ${w}`,
      p10: low,
      p50: middle,
      p90: high,
    })),
    stages: [],
  };
}

/** One more channel of finishing brings 1.9 heads a week, 1.6 to 2.2; one of nursery nothing. */
export const HELD_BY_FINISHING: Bottleneck = {
  by: 'stage',
  stages: ['finishing'],
  better: [],
  seasons: 12,
  trials: [
    {
      change: { kind: 'channel', stage: 'nursery', channels: 1, holes: 24 },
      gain: 0,
      low: -0.1,
      high: 0.1,
      added: 0.5,
      elasticity: { mean: 0, low: -0.01, high: 0.01 },
      brings: false,
    },
    {
      change: { kind: 'channel', stage: 'finishing', channels: 1, holes: 9 },
      gain: 1.9,
      low: 1.6,
      high: 2.2,
      added: 0.125,
      elasticity: { mean: 0.74, low: 0.62, high: 0.86 },
      brings: true,
    },
    {
      change: { kind: 'seeds', percent: 10 },
      gain: 0.4,
      low: 0.1,
      high: 0.7,
      added: 0.1,
      elasticity: { mean: 0.2, low: 0.05, high: 0.34 },
      brings: true,
    },
  ],
  risk: { change: { kind: 'growing', percent: 10 }, gain: -1.9, low: -2.3, high: -1.5 },
};

export function start(scenario = CELLAR, size = { columns: 80, rows: 24 }, hasLog = false): State {
  return beginning({ scenario, ...size, hasLog });
}

/** The state after some actions. */
export function acted(state: State, ...actions: readonly Action[]): State {
  return actions.reduce(reduce, state);
}

/** The state after some keys: a letter, a word that arrives in one burst, or a key without a letter. */
export function pressing(state: State, ...keys: readonly (string | Omit<Press, 'input'>)[]): State {
  return keys.reduce<State>((now, key) => {
    const press: Press = typeof key === 'string' ? { input: key } : { input: '', ...key };
    return actionsFor(press, now).reduce(reduce, now);
  }, state);
}

/** The figures of the question that is out have come. */
export function answered(state: State, result = figures({ limits: HELD_BY_FINISHING })): State {
  return reduce(state, { type: 'figures', id: state.asked, figures: { result, differences: null } });
}

export function textOf(row: Row): string {
  return row.map(({ text }) => text).join('');
}

/** Rows as lines of text, blanks at the ends left out. */
export function linesOf(rows: readonly Row[]): string[] {
  return rows.map((row) => textOf(row).trimEnd());
}

/** What a piece of text that reads so means. */
export function meaningOf(rows: readonly Row[], text: string): string | undefined {
  return rows.flat().find((piece) => piece.text.trim() === text)?.meaning;
}
