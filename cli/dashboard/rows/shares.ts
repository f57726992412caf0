/** A stage that is too large to be drawn hole by hole: its states as bars, and their shares of the holes. */

import { STATES } from '../../../sim/models/ledger.js';
import type { Film } from '../../../sim/study/film/film.js';
import { parted, percentText } from '../../words/numbers.js';
import type { Row, Signs } from '../theme.js';
import { factsOf, statesSeen } from './film.js';
import type { LineLayout } from './line-layout.js';
import { span } from './rows.js';

/** Columns of a share behind its bar: ` 100.0 %`. */
const SHARE = 8;

/** Columns of all holes of a stage, the same for all stages: their bars are on one scale. */
export function placesOf({ bands }: LineLayout): number {
  const widths = bands.flatMap(({ places }) =>
    places.flatMap(({ width, arrangement }) => (arrangement === null ? [width] : [])),
  );
  return Math.max(1, Math.min(...widths) - SHARE);
}

/**
 * A row a state, in their usual order; where there are more states than rows the last row has all those that the stage shows least over
 * the season, one behind the other. The bars of all rows have `places` columns together, and the shares add up to 100 %.
 */
export function shareRows(
  film: Film,
  frame: number,
  stage: number,
  body: number,
  places: number,
  signs: Signs,
): Row[] {
  const counts = film.countsAt(frame, stage);
  const groups = grouped(film, stage, body);
  const holes = groups.map((group) => group.reduce((sum, k) => sum + counts[k]!, 0));
  const thousandths = apportioned(holes, 1000);
  const states = groups.flat();
  const columns = seen(
    states.map((k) => counts[k]!),
    places,
  );
  return groups.map((group, g): Row => {
    if (holes[g] === 0) return [span(`${signs.holes[STATES[group[0]!]!]} 0 %`, 'faint')];
    const bar = group.map((k) => {
      const state = STATES[k]!;
      return span(signs.holes[state].repeat(columns[states.indexOf(k)]!), state);
    });
    // What is rounded to nothing or to all is not.
    const isRounded = thousandths[g]! % 1000 === 0;
    const share = isRounded ? holes[g]! / film.stages[stage]!.holes : thousandths[g]! / 1000;
    return [...bar, span(` ${percentText(share)}`)];
  });
}

/** The states of each row, by what the stage shows over the season: so no row changes its meaning while it runs. */
function grouped(film: Film, stage: number, body: number): number[][] {
  const { totals } = factsOf(film);
  const shown = (k: number): number => totals[stage * STATES.length + k]!;
  const all = [...statesSeen(film, stage)].sort((a, b) => shown(b) - shown(a));
  const own = all.length > body ? all.slice(0, body - 1) : all;
  const rest = all.slice(own.length).sort((a, b) => a - b);
  const rows = own.sort((a, b) => a - b).map((k) => [k]);
  return rest.length === 0 ? rows : [...rows, rest];
}

/** So many whole places shared out by amounts, so that they add up. */
export function apportioned(amounts: readonly number[], places: number): number[] {
  const all = amounts.reduce((sum, amount) => sum + amount, 0);
  if (all === 0) return amounts.map(() => 0);
  return parted(
    places,
    amounts.map((amount) => (amount * places) / all),
  );
}

/** The same, but what is not nothing has a place, as long as another one has two. */
function seen(amounts: readonly number[], places: number): number[] {
  const shares = apportioned(amounts, places);
  for (const [i, amount] of amounts.entries()) {
    const most = shares.indexOf(Math.max(...shares));
    if (amount === 0 || shares[i]! > 0 || shares[most]! < 2) continue;
    shares[i] = 1;
    shares[most]!--;
  }
  return shares;
}
