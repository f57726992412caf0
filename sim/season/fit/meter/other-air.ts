/**
 * Days with other air than usual. The model's litres of a log's plants are those of the usual air, so a spell between top-ups in which
 * plants gave off more or less than then tells nothing of their scale.
 */

import type { LineMatter } from '../../../models/physical/line-matter.js';
import type { Spell } from './spells.js';

/** Spells that touch days on which some stage gives off another water than usual are left out. @param matter by the days of the spells */
export function withoutOtherAir(spells: readonly Spell[], { air, stages }: LineMatter): Spell[] {
  const others = air.filter((_, i) =>
    stages.some(({ water, waterByDate }) => {
      const there = waterByDate[i]?.day;
      return there !== undefined && (there.cover !== water!.day.cover || there.leaf !== water!.day.leaf);
    }),
  );
  const isTouched = (spell: Spell): boolean =>
    others.some(({ from, beyond }) => from < spell.to && beyond > spell.from);
  return spells.map((spell) =>
    spell.leftOut === null && isTouched(spell) ? { ...spell, leftOut: 'other_air' } : spell,
  );
}
