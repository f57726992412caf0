/**
 * What can be turned about a plan by keys: seeds, cadence, channels, visit days, want. Each knob reads its
 * value off a scenario and gives the scenario with the next value, or with one that was typed. Pure: a scenario in, a scenario out.
 */

import { WEEKDAYS, type Weekday } from '../../../sim/models/dates.js';
import { CHANNELS, HEADS, SEEDS } from '../../../sim/models/limits.js';
import { success } from '../../../sim/models/result.js';
import { step, VISITS } from '../../../sim/scenario/neighbours.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { withChannels } from '../../../sim/scenario/vary.js';
import { besideCadence, cadenceTyped, daysOrDaily, daysTyped, numberTyped, type Typed } from './typing.js';

export interface Knob {
  /** What stands before its value, such as "butterhead seeds". */
  readonly label: string;
  /** Its present value in words. */
  value(scenario: Scenario): string;
  /** The scenario with the next higher (1) or lower (-1) value; the same one at the end of the range. */
  turn(scenario: Scenario, by: 1 | -1): Scenario;
  /** The scenario with a value that was typed, in the words of a scenario file. */
  typed(scenario: Scenario, text: string): Typed;
  /**
   * The scenario with one day of the week (0 Monday) put in or taken out, the same one where it was the last; null where its present value
   * is none of days.
   */
  toggle(scenario: Scenario, weekday: number): Scenario | null;
}

type Crop = Scenario['crops'][number];
type Sow = Crop['sow'];

/** Days between sowings that the cadence knob stops at. */
const CADENCES = [1, 2, 3, 4, 5, 6, 7, 10, 14, 21, 28];

/**
 * The knobs of a scenario: for each crop cadence and seeds, for each stage channels, then visits and want.
 */
export function knobsOf(scenario: Scenario): Knob[] {
  const one = scenario.crops.length === 1;
  return [
    ...scenario.crops.flatMap((crop, c) => {
      const before = one ? '' : `${crop.name} `;
      return [cadenceKnob(`${before}sow`, c), seedsKnob(`${before}seeds`, c)];
    }),
    ...scenario.stages.map((stage, s) => channelsKnob(`${stage.name} channels`, s)),
    visitsKnob,
    ...(scenario.want === undefined ? [] : [wantKnob, wantedOnKnob]),
  ];
}

function cadenceKnob(label: string, c: number): Knob {
  return {
    label,
    value: ({ crops }) => sowText(crops[c]!.sow),
    turn: (scenario, by) => {
      const { sow } = scenario.crops[c]!;
      // Beyond the longest cadence lies the refill; weekdays and dates are left for the nearest cadence.
      const beside = besideCadence(sow);
      if ('refill' in sow) {
        return by === 1 ? scenario : withSow(scenario, c, { every: CADENCES.at(-1)!, ...beside });
      }
      const every = 'every' in sow ? sow.every : 'on' in sow ? 7 / sow.on.length : 7;
      const next =
        by === 1 ? CADENCES.find((days) => days > every) : CADENCES.findLast((days) => days < every);
      if (next !== undefined) return withSow(scenario, c, { every: next, ...beside });
      return by === 1 ? withSow(scenario, c, { refill: true }) : scenario;
    },
    typed: (scenario, text) => cadenceTyped(scenario, c, text),
    toggle: (scenario, weekday) => {
      const { sow } = scenario.crops[c]!;
      if (!('on' in sow)) return null;
      const on = toggled(sow.on, weekday);
      return on.length === 0 ? scenario : withSow(scenario, c, { ...sow, on });
    },
  };
}

/** `every 3 d`, `mon thu`, `4 dates`, `refill`. */
export function sowText(sow: Sow): string {
  if ('refill' in sow) return 'refill';
  if ('every' in sow) return `every ${sow.every} d`;
  return 'on' in sow ? sow.on.join(' ') : `${sow.dates.length} dates`;
}

function seedsKnob(label: string, c: number): Knob {
  return {
    label,
    value: ({ crops }) => {
      const { sow } = crops[c]!;
      return 'refill' in sow ? 'as needed' : String(sow.seeds);
    },
    turn: (scenario, by) => {
      const { sow } = scenario.crops[c]!;
      if ('refill' in sow) return scenario;
      const seeds = step(sow.seeds, by, SEEDS);
      return seeds === sow.seeds ? scenario : withSow(scenario, c, { ...sow, seeds });
    },
    typed: (scenario, text) => numberTyped(scenario, ['crops', c, 'sow', 'seeds'], text),
    toggle: () => null,
  };
}

function channelsKnob(label: string, s: number): Knob {
  return {
    label,
    value: ({ stages }) => String(stages[s]!.channels),
    turn: (scenario, by) => {
      const { channels } = scenario.stages[s]!;
      const next = step(channels, by, CHANNELS);
      if (next === channels) return scenario;
      return withChannelsAt(scenario, s, next);
    },
    typed: (scenario, text) => {
      const typed = numberTyped(scenario, ['stages', s, 'channels'], text);
      return typed.ok ? success(withChannelsAt(scenario, s, typed.value.stages[s]!.channels)) : typed;
    },
    toggle: () => null,
  };
}

/** Another number of channels in one stage, and what comes with them. */
function withChannelsAt(scenario: Scenario, s: number, channels: number): Scenario {
  const stages = scenario.stages.map((stage, i) => (i === s ? withChannels(stage, channels) : stage));
  return { ...scenario, stages };
}

const visitsKnob: Knob = {
  label: 'visits',
  value: ({ visits }) => (typeof visits === 'string' ? visits : visits.join(' ')),
  turn: (scenario, by) => {
    const { visits } = scenario;
    if (visits === 'always') return by === 1 ? scenario : { ...scenario, visits: 'daily' };
    const next = daysBeside(visits === 'daily' ? WEEKDAYS.length : visits.length, by);
    return next === undefined ? scenario : { ...scenario, visits: daysOrDaily(next) };
  },
  typed: (scenario, text) => daysTyped(scenario, ['visits'], text),
  toggle: (scenario, weekday) => {
    const { visits } = scenario;
    const days = toggled(typeof visits === 'string' ? WEEKDAYS : visits, weekday);
    return days.length === 0 ? scenario : { ...scenario, visits: daysOrDaily(days) };
  },
};

const wantKnob: Knob = {
  label: 'want',
  value: ({ want }) => (want === undefined ? '-' : String(want.heads)),
  turn: (scenario, by) => {
    const { want } = scenario;
    if (want === undefined) return scenario;
    const heads = step(want.heads, by, HEADS);
    return heads === want.heads ? scenario : { ...scenario, want: { ...want, heads } };
  },
  typed: (scenario, text) => numberTyped(scenario, ['want', 'heads'], text),
  toggle: () => null,
};

const wantedOnKnob: Knob = {
  label: 'wanted on',
  value: ({ want }) => (want === undefined ? '-' : want.on.join(' ')),
  turn: (scenario, by) => {
    const { want } = scenario;
    const on = want && daysBeside(want.on.length, by);
    return want && on ? { ...scenario, want: { ...want, on: [...on] } } : scenario;
  },
  typed: (scenario, text) => daysTyped(scenario, ['want', 'on'], text),
  toggle: (scenario, weekday) => {
    const { want } = scenario;
    if (want === undefined) return null;
    const on = toggled(want.on, weekday);
    return on.length === 0 ? scenario : { ...scenario, want: { ...want, on } };
  },
};

/** The next list of weekdays that is longer or shorter; undefined if there is none. */
function daysBeside(days: number, by: 1 | -1): readonly Weekday[] | undefined {
  return by === 1 ? VISITS.find((list) => list.length > days) : VISITS.findLast((list) => list.length < days);
}

function toggled(days: readonly Weekday[], weekday: number): Weekday[] {
  const day = WEEKDAYS[weekday]!;
  return WEEKDAYS.filter((one) => (one === day ? !days.includes(one) : days.includes(one)));
}

/** In which knobs a plan differs from another: `seeds 12, visits daily`. */
export function differing(plan: Scenario, other: Scenario): string {
  return knobsOf(plan)
    .flatMap(({ label, value }) => (value(plan) === value(other) ? [] : [`${label} ${value(plan)}`]))
    .join(', ');
}

function withSow(scenario: Scenario, c: number, sow: Sow): Scenario {
  return { ...scenario, crops: scenario.crops.map((crop, i) => (i === c ? { ...crop, sow } : crop)) };
}
