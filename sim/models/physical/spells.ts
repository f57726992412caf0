/** Air that changes by date: the season in stretches of one air each, and the same spells in a season that begins later. */

import { dayFrom, isoOfDay } from '../dates.js';
import { growingsOf, withGrowings } from '../growings.js';
import type { Growing, Plan } from '../plan.js';
import type { Air, Climate } from './plan.js';

/** Days of a season with one air. */
export interface AirStretch {
  /** First day, and the first day after it, whole [d from the start]. */
  readonly from: number;
  readonly beyond: number;
  /** Its place among the climate's spells; null where the air is as usual. */
  readonly spell: number | null;
  readonly air: Air;
}

/** The stretches of a season, one after the other. @param days its length [d] */
export function airStretches(climate: Climate, days: number): AirStretch[] {
  const { dated, ...usual } = climate;
  const stretches: AirStretch[] = [];
  let day = 0;
  const usualUntil = (beyond: number): void => {
    if (beyond > day) stretches.push({ from: day, beyond, spell: null, air: usual });
    day = Math.max(day, beyond);
  };
  for (const [spell, { from, beyond, air }] of dated.entries()) {
    usualUntil(Math.min(from, days));
    const until = Math.min(beyond, days);
    if (until > day) stretches.push({ from: day, beyond: until, spell, air });
    day = Math.max(day, until);
  }
  usualUntil(days);
  return stretches;
}

/** How many times as long as usual a growth takes on a day [d from the start]. */
export function timesOn({ spells = [] }: Growing, day: number): number {
  return spells.find(({ from, beyond }) => from <= day && day < beyond)?.times ?? 1;
}

/** Spells in which some crop takes other days than usual, of which a day lies within two dates: first and last day of each. */
export function growthSpells(
  { start, crops }: Plan,
  first: string,
  last: string,
): readonly { readonly from: string; readonly to: string }[] {
  const [since, until] = [dayFrom(start, first), dayFrom(start, last)];
  const days = new Map<number, number>();
  for (const { spells = [] } of crops.flatMap(growingsOf))
    for (const { from, beyond } of spells) if (from <= until && beyond > since) days.set(from, beyond - 1);
  return [...days]
    .sort(([a], [b]) => a - b)
    .map(([from, to]) => ({ from: isoOfDay(start, from), to: isoOfDay(start, to) }));
}

/** The plan with its spells so many days later, as seen from a start so much earlier; the same object if it has none. */
export function withSpellsLater(plan: Plan, days: number): Plan {
  const { physical } = plan;
  const climate = physical?.climate;
  if (days === 0 || !physical || !climate || climate.dated.length === 0) return plan;
  const later = <Spell extends { readonly from: number; readonly beyond: number }>(spell: Spell): Spell => ({
    ...spell,
    from: spell.from + days,
    beyond: spell.beyond + days,
  });
  const grown = (growing: Growing): Growing =>
    growing.spells === undefined ? growing : { ...growing, spells: growing.spells.map(later) };
  return {
    ...plan,
    crops: plan.crops.map((crop) => withGrowings(crop, grown)),
    physical: { ...physical, climate: { ...climate, dated: climate.dated.map(later) } },
  };
}
