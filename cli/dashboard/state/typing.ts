/**
 * What is typed as the value of a knob: the words of a scenario file, brackets and commas left out where nobody would type them. Read by
 * the scenario's own reader, whose sentence is shown where it refuses.
 */

import { WEEKDAYS, type Weekday } from '../../../sim/models/dates.js';
import { failure, type Result, success } from '../../../sim/models/result.js';
import type { Path } from '../../../sim/scenario/faults.js';
import { nearestWeekday } from '../../../sim/scenario/fields.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { type TypedFault, typedValue, withTyped } from '../../../sim/scenario/typed.js';
import { faultSentences } from '../../sections/faults.js';

/** The scenario with what was typed; else a sentence for each thing that is wrong. */
export type Typed = Result<Scenario, string>;

type Sow = Scenario['crops'][number]['sow'];
type Reading = Result<Scenario, TypedFault>;

/** Seeds of a sowing where a cadence takes the place of a refill, which has none. */
const SEEDS_AFTER_REFILL = 10;

/** What a sowing has beside its cadence, whatever that becomes. */
export function besideCadence(sow: Sow): { readonly seeds: number; readonly missed?: 'made_up' | 'dropped' } {
  if ('refill' in sow) return { seeds: SEEDS_AFTER_REFILL };
  return sow.missed === undefined ? { seeds: sow.seeds } : { seeds: sow.seeds, missed: sow.missed };
}

/** `12`. */
export function numberTyped(scenario: Scenario, path: Path, text: string): Typed {
  const value = typedValue(text);
  return told(value.ok ? withTyped(scenario, path, value.value) : value);
}

/** `mon thu sat`, or a word that stands for days, such as `daily`. */
export function daysTyped(scenario: Scenario, path: Path, text: string): Typed {
  const value = typedValue(text);
  if (!value.ok) return told(value);
  const whole = withTyped(scenario, path, value.value);
  const words = typeof value.value === 'string' ? wordsOf(value.value) : [];
  const isWord = words.length < 2 && nearestWeekday(words[0] ?? '') === null;
  if (whole.ok || isWord || whole.faults[0]!.nearest !== null) return told(whole);
  return told(withTyped(scenario, path, words));
}

/** `3`, `every 3`, `mon thu`, `2027-01-04 2027-01-18`, `refill`. */
export function cadenceTyped(scenario: Scenario, crop: number, text: string): Typed {
  const value = typedValue(text);
  if (!value.ok) return told(value);
  const timing = timingOf(value.value);
  const beside = besideCadence(scenario.crops[crop]!.sow);
  const sow = !isMap(timing) || 'refill' in timing ? timing : { ...timing, ...beside, ...timing };
  return told(withTyped(scenario, ['crops', crop, 'sow'], sow));
}

const KEYED = /^(every|on|dates)\s+(.+)$/s;

/** The keys of a sowing that are meant; what was typed where none can be told. */
function timingOf(value: unknown): unknown {
  if (typeof value === 'number') return { every: value };
  if (Array.isArray(value)) return isDate(value[0]) ? { dates: value } : { on: value };
  if (typeof value !== 'string') return value;
  if (value === 'refill') return { refill: true };
  const [, key, rest = ''] = KEYED.exec(value) ?? [];
  // As the screen itself writes it: every 3 d.
  if (key === 'every') return { every: plain(rest.replace(/\s*d(ays?)?$/, '')) };
  const words = wordsOf(key === undefined ? value : rest);
  if (key === 'dates' || isDate(words[0])) return { dates: words };
  if (/^[-+.]?\d/.test(value)) return { every: value };
  return key === 'on' || words.length > 1 || nearestWeekday(value) !== null ? { on: words } : value;
}

function plain(text: string): unknown {
  const value = typedValue(text);
  return value.ok ? value.value : text;
}

function isDate(word: unknown): boolean {
  return typeof word === 'string' && /^\d{4}-/.test(word);
}

function isMap(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function wordsOf(text: string): string[] {
  return text.split(/[\s,]+/).filter((word) => word !== '');
}

function told(reading: Reading | Result<never, TypedFault>): Typed {
  return reading.ok ? success(inOrder(reading.value)) : failure(reading.faults.map(faultSentences));
}

/** Weekdays in the order of the week, and all seven visits as daily: the same plan is the same text. */
function inOrder(scenario: Scenario): Scenario {
  const { visits, want, crops } = scenario;
  return {
    ...scenario,
    visits: typeof visits === 'string' ? visits : daysOrDaily(sorted(visits)),
    crops: crops.map((crop) =>
      'on' in crop.sow ? { ...crop, sow: { ...crop.sow, on: sorted(crop.sow.on) } } : crop,
    ),
    ...(want === undefined ? {} : { want: { ...want, on: sorted(want.on) } }),
  };
}

function sorted(days: readonly Weekday[]): Weekday[] {
  return WEEKDAYS.filter((day) => days.includes(day));
}

export function daysOrDaily(days: readonly Weekday[]): Scenario['visits'] {
  return days.length === WEEKDAYS.length ? 'daily' : [...days];
}
