/** The help: every key from the table of keys, and every sign with its meaning. */

import { STATES } from '../../../sim/models/ledger.js';
import { STATE_WORDS } from '../../words/states.js';
import { GROUPS } from '../state/keys.js';
import type { Meaning, Row, Signs } from '../theme.js';
import { putMeaning } from './line.js';
import { beside, fitted, piece, RowWriter } from './rows.js';

/** Columns of the names of keys. */
const KEYS = 13;

export function helpRows(width: number, height: number, signs: Signs): Row[] {
  const keys = keyRows();
  const meanings = signRows(signs);
  const right = 24;
  const rows =
    width >= 78
      ? beside(
          [
            { rows: keys, width: width - right - 2 },
            { rows: meanings, width: right },
          ],
          2,
        )
      : [...keys, ...meanings];
  if (rows.length <= height) return rows;
  return [
    ...rows.slice(0, Math.max(0, height - 1)),
    [piece('A window of 80 x 24 shows all of the help.', 'warn')],
  ];
}

function keyRows(): Row[] {
  return GROUPS.flatMap(({ title, bindings }) => [
    [piece(title, 'strong')],
    ...bindings.map(({ keys, words }): Row => [piece(`${fitted(keys, KEYS)} `), piece(words, 'faint')]),
  ]);
}

function signRows(signs: Signs): Row[] {
  const holes = STATES.map((state): Row => {
    const writer = new RowWriter();
    putMeaning(writer, state, STATE_WORDS[state].short, signs);
    return writer.row();
  });
  const chart: [string, Meaning, string][] = [
    [signs.middle[1], 'middle', 'a usual week'],
    [signs.band, 'band', '8 of 10 seasons'],
    [signs.want, 'want', 'wanted'],
    [signs.picked, 'picked', 'picked this season'],
    [signs.today, 'faint', 'the day on the screen'],
  ];
  return [
    [piece('A hole is', 'strong')],
    ...holes,
    [],
    [piece('In the chart', 'strong')],
    ...chart.map(([sign, meaning, words]): Row => [piece(sign, meaning), piece(` ${words}`, 'faint')]),
  ];
}
