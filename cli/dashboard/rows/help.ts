/** The help: every key from the table of keys, and every sign with its meaning. */

import { STATES } from '../../../sim/models/ledger.js';
import { STATE_WORDS } from '../../words/states.js';
import { GROUPS } from '../state/keys.js';
import type { Meaning, Row, Signs } from '../theme.js';
import { fitted, halves, mark, span } from './rows.js';

/** Columns of the names of keys; of those of the program, which stand below the signs. */
const KEYS = 13;
const PROGRAM_KEYS = 6;

export function helpRows(width: number, height: number, signs: Signs): Row[] {
  const [program, ...others] = [...GROUPS].reverse();
  const keys = keyRows(others.reverse(), KEYS);
  const meanings = [...signRows(signs), ...keyRows([program!], PROGRAM_KEYS)];
  const rows = width >= 78 ? halves([keys, meanings], width, 24, 2) : [...keys, ...meanings];
  if (rows.length <= height) return rows;
  return [
    ...rows.slice(0, Math.max(0, height - 1)),
    [span('A window of 80 x 24 shows all of the help.', 'warn')],
  ];
}

function keyRows(groups: typeof GROUPS, columns: number): Row[] {
  return groups.flatMap(({ title, bindings }) => [
    [span(title, 'strong')],
    ...bindings.map(({ keys, words }): Row => [span(`${fitted(keys, columns)} `), span(words, 'faint')]),
  ]);
}

function signRows(signs: Signs): Row[] {
  const holes = STATES.map((state) => mark(signs.holes[state], state, STATE_WORDS[state].short));
  const chart: [string, Meaning, string][] = [
    [signs.middle[1], 'middle', 'a usual week'],
    [signs.band, 'band', '8 of 10 seasons'],
    [signs.want, 'want', 'wanted'],
    [signs.picked, 'picked', `picked; ${signs.soFar} so far`],
    [signs.today, 'faint', 'the day on the screen'],
  ];
  return [
    [span('A hole is', 'strong')],
    ...holes,
    [span('In the chart', 'strong')],
    ...chart.map(([sign, meaning, words]) => mark(sign, meaning, words)),
  ];
}
