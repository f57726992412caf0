/** Spells of a plan: which lie in some time, and the same ones in a season that begins earlier. */

import { dayFrom, isoOfDay } from './dates.js';
import { growingsOf, withGrowings } from './growings.js';
import type { Growing, Plan } from './plan.js';

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
