/** Why holes stood empty in the logged season, as far as it touches the day on the screen. */

import { isoOfDay } from '../../../sim/models/dates.js';
import { wrapped } from '../../render/wrap.js';
import { shortDate } from '../../words/dates.js';
import { counted } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import type { Spell } from '../thread/real-season.js';
import { cut, span } from './rows.js';

export function spellsOn(spells: readonly Spell[], day: number): Spell[] {
  return spells.filter(({ from, to }) => from <= day && day < to);
}

/** The last day of the log for the picture of its end, which still shows what stood empty then. */
export function lastOr(day: number, { lastDay }: Pick<State, 'lastDay'>): number {
  return Math.min(day, lastDay - 1);
}

/** `finishing, 1 Feb to 14 Feb: `, why, and how many: the cause comes before what may have no room. */
export function spellWords({ stage, from, to, holes, cause }: Spell, start: string): string {
  const [first, last] = [isoOfDay(start, from), isoOfDay(start, to - 1)].map(shortDate);
  const when = first === last ? first : `${first} to ${last}`;
  return `${stage}, ${when}: ${cause}; up to ${counted(holes, 'hole')} empty`;
}

export interface SpellRoom {
  /** The first day of the season, an ISO date. */
  readonly start: string;
  readonly width: number;
  readonly height: number;
  readonly signs: Signs;
}

export function spellRows(spells: readonly Spell[], day: number, room: SpellRoom): Row[] {
  const { width, height, signs } = room;
  const touching = spellsOn(spells, day);
  const [first, ...others] = touching;
  if (first === undefined) return [[span('No hole of the log stood empty that day.', 'faint')]];
  if (height === 1 && others.length > 0) {
    const tail = ` and ${others.length} more`;
    return [
      [
        ...stageFirst(cut(spellWords(first, room.start), width - tail.length, signs.more), first),
        span(tail, 'faint'),
      ],
    ];
  }
  const rows: Row[] = [];
  for (const [i, spell] of touching.entries()) {
    const rest = touching.length - i;
    const left = height - rows.length;
    if (rest > 1 && left === 1) {
      rows.push([span(`and ${counted(rest, 'more cause')}`, 'faint')]);
      break;
    }
    // A row is kept for how many more there are, if there are.
    rows.push(...spellLines(spell, { ...room, height: rest > 1 ? left - 1 : left }));
  }
  return rows.slice(0, height);
}

/** One spell in at most `height` rows: the stage stands out, further rows are set in. */
function spellLines(spell: Spell, { start, width, height, signs }: SpellRoom): Row[] {
  const lines = wrapped(spellWords(spell, start), width - 2);
  const shown = lines.slice(0, height);
  // What follows has no room: as much of it as there is, then the sign that it goes on.
  if (shown.length < lines.length) shown.push(cut(`${shown.pop()} ${lines[height]}`, width - 2, signs.more));
  return shown.map((line, l): Row => (l > 0 ? [span(`  ${line}`)] : stageFirst(line, spell)));
}

function stageFirst(line: string, { stage }: Spell): Row {
  return [span(line.slice(0, stage.length), 'strong'), span(line.slice(stage.length))];
}
