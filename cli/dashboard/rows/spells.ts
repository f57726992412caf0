/** Why holes stood empty in the logged season, as far as it touches the day on the screen. */

import { isoOfDay } from '../../../sim/models/dates.js';
import { wrapped } from '../../render/wrap.js';
import { daysText } from '../../words/dates.js';
import { counted } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row } from '../theme.js';
import type { Spell } from '../thread/real-season.js';
import { span } from './rows.js';

export function spellsOn(spells: readonly Spell[], day: number): Spell[] {
  return spells.filter(({ from, to }) => from <= day && day < to);
}

/** The last day of the log for the picture of its end, which still shows what stood empty then. */
export function lastOr(day: number, { lastDay }: Pick<State, 'lastDay'>): number {
  return Math.min(day, lastDay - 1);
}

/** `finishing: up to 6 holes empty, Mon 1 Feb 2027 to Sun 14 Feb 2027` and why. */
export function spellWords({ stage, from, to, holes, cause }: Spell, start: string): string {
  const when = daysText(isoOfDay(start, from), isoOfDay(start, to - 1));
  return `${stage}: up to ${counted(holes, 'hole')} empty, ${when}: ${cause}`;
}

export function spellRows(
  spells: readonly Spell[],
  day: number,
  start: string,
  width: number,
  height: number,
): Row[] {
  const touching = spellsOn(spells, day);
  if (touching.length === 0) return [[span('No hole of the log stood empty that day.', 'faint')]];
  const rows: Row[] = [];
  for (const [i, spell] of touching.entries()) {
    const rest = touching.length - i;
    const room = height - rows.length;
    if (rest > 1 && room === 1) {
      rows.push([span(`and ${counted(rest, 'more cause')}`, 'faint')]);
      break;
    }
    // A row is kept for how many more there are, if there are.
    rows.push(...spellLines(spell, start, width, rest > 1 ? room - 1 : room));
  }
  return rows.slice(0, height);
}

/** One spell in at most `height` rows: the stage stands out, further rows are set in. */
function spellLines(spell: Spell, start: string, width: number, height: number): Row[] {
  const lines = wrapped(spellWords(spell, start), width - 6);
  return lines.slice(0, height).map((line, l): Row => {
    const text = l === height - 1 && lines.length > height ? `${line} ...` : line;
    if (l > 0) return [span(`  ${text}`)];
    return [span(text.slice(0, spell.stage.length), 'strong'), span(text.slice(spell.stage.length))];
  });
}
