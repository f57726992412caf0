/**
 * What rows of the tank tell of the litres used: spells between two moments at which the tank was full, and what was topped up at
 * the end of each. Where a row may be missing the spell is left out, by its length and never by its litres, so that what is left
 * out does not pull the figures its way.
 */

import { groupedBy } from '../../../engine/lists.js';
import { dayFrom } from '../../../models/dates.js';
import { usualGap } from '../../history/attendance.js';
import type { TankRow } from '../../log/rows.js';

/** What was done with the tank on one day, its rows taken together. */
export interface TankDay {
  /** [d from the start] */
  readonly day: number;
  /** Conductivity before anything was done [mS/cm]; null if not read. */
  readonly ec: number | null;
  /** Topped up, before a new filling if there was one [L]; null if it was not, or not logged. */
  readonly litres: number | null;
  /** A new filling [L], null if its litres are not logged; undefined if there was none. */
  readonly filling?: number | null;
}

/**
 * Why a spell tells nothing of what was used. `gap`: it holds twice the visits of a usual one, or is twice as long as nearly all
 * are, so a row may be missing. `drained`: it ended with a new filling, and what was used of the old one nobody knows. `not_full`:
 * the new filling that it began with was short of the full tank. `too_much`: more was topped up than the tank holds. `untold`: it
 * reaches beyond the rows of plants. `other_air`: `climate.dated` tells of other air in it (other-air.ts).
 */
export type LeftOutWhy = 'gap' | 'drained' | 'not_full' | 'too_much' | 'untold' | 'other_air';

/** From one full tank to the next. */
export interface Spell {
  /** Days [d from the start]. */
  readonly from: number;
  readonly to: number;
  /** Topped up at its end [L]; 0 where it is not known. */
  readonly litres: number;
  /** null: it tells what was used. */
  readonly leftOut: LeftOutWhy | null;
}

/** What is known of the tank; null without a scenario's tank. */
export interface TankSize {
  readonly litres: number;
  readonly fullL: number;
}

/** From this share of the full tank on a new filling has filled it: nobody fills to the last litre. */
const FULL = 0.95;
/** So many times the visits, or the days, of a usual spell: a row may be missing. */
const TWICE = 2;

/** @param rows in the order of their dates @param start of the season, ISO */
export function tankDays(rows: readonly TankRow[], start: string): TankDay[] {
  return [...groupedBy(rows, ({ date }) => date)].map(([date, some]): TankDay => {
    const changed = some.findIndex((row) => row.changed);
    const before = changed < 0 ? some : some.slice(0, changed);
    const told = {
      day: dayFrom(start, date),
      ec: some.find(({ ec }) => ec !== null)?.ec ?? null,
      litres: sumIfAny(before),
    };
    return changed < 0 ? told : { ...told, filling: sumIfAny(some.slice(changed)) };
  });
}

function sumIfAny(rows: readonly TankRow[]): number | null {
  const litres = rows.flatMap((row) => row.litres ?? []);
  return litres.length === 0 ? null : litres.reduce((sum, one) => sum + one);
}

/**
 * @param visits days on which something was done with plants, ascending; at least one
 * @param tank null: whatever was filled in anew filled it
 */
export function spellsOf(
  days: readonly TankDay[],
  visits: readonly number[],
  tank: TankSize | null,
): readonly Spell[] {
  const spells: Spell[] = [];
  /** Since when what stands in the tank is counted; null before the first row that fills it. */
  let since: { readonly day: number; readonly full: boolean } | null = null;
  for (const { day, litres, filling } of days) {
    if (litres !== null) {
      if (since !== null) {
        const why = since.full ? (tank !== null && litres > tank.litres ? 'too_much' : null) : 'not_full';
        spells.push({ from: since.day, to: day, litres, leftOut: why });
      }
      since = { day, full: true };
    }
    if (filling === undefined) continue;
    if (litres === null && since !== null)
      spells.push({ from: since.day, to: day, litres: 0, leftOut: 'drained' });
    since = { day, full: filling === null || tank === null || filling >= FULL * tank.fullL };
  }
  const told = spells.map((spell) =>
    spell.leftOut === null && (spell.from < visits[0]! || spell.to > visits.at(-1)!)
      ? { ...spell, leftOut: 'untold' as const }
      : spell,
  );
  return withoutGaps(told, [...new Set([...visits, ...days.map(({ day }) => day)])]);
}

/** A forgotten row leaves a spell with the visits of two. @param visits with those that only the tank had */
function withoutGaps(spells: readonly Spell[], visits: readonly number[]): readonly Spell[] {
  const visitsIn = ({ from, to }: Spell): number => visits.filter((day) => day > from && day <= to).length;
  const whole = spells.filter(({ leftOut }) => leftOut === null);
  const counts = whole.map(visitsIn).sort((a, b) => a - b);
  const usual = counts[Math.floor((counts.length - 1) / 2)] ?? 0;
  const longest = usualGap(
    spells.flatMap(({ from, to }, i) => (spells[i - 1]?.to === from ? [to] : [from, to])),
  );
  return spells.map((spell) => {
    const twice = visitsIn(spell) >= TWICE * usual || spell.to - spell.from >= TWICE * longest;
    return spell.leftOut === null && twice ? { ...spell, leftOut: 'gap' } : spell;
  });
}
