/**
 * What can be turned, in columns: up and down go down a column and on to the next. The chosen one has a
 * pointer too.
 */

import type { Scenario } from '../../../sim/scenario/schema.js';
import { widthOf } from '../../render/width.js';
import { knobsOf } from '../state/knobs.js';
import type { Row, Signs } from '../theme.js';
import { beside, cut, fitted, span } from './rows.js';

export interface KnobInput {
  readonly scenario: Scenario;
  /** Place of the chosen knob. */
  readonly chosen: number;
  readonly width: number;
  readonly height: number;
  readonly signs: Signs;
}

interface Column {
  readonly rows: Row[];
  readonly width: number;
}

const GAP = 2;

/** Rows that all knobs take in so many columns of the screen, at most `most`. */
export function knobHeight(scenario: Scenario, width: number, most: number, signs: Signs): number {
  for (let height = 1; height < most; height++) {
    const columns = columnsOf({ scenario, chosen: 0, width, height, signs });
    if (widthOfAll(columns) <= width) return height;
  }
  return most;
}

export function knobRows(input: KnobInput): Row[] {
  const { chosen, width, height, signs } = input;
  const columns = columnsOf(input);
  if (widthOfAll(columns) <= width) return beside(columns, GAP);
  const { from, to } = window(columns, Math.floor(chosen / height), width - 4);
  const shown = columns.slice(from, to);
  const marks = (here: boolean): Column => ({
    width: 1,
    rows: [[span(here ? signs.more : ' ', 'faint')]],
  });
  const whole = { width: Math.min(width - 4, widthOfAll(shown)), rows: beside(shown, GAP) };
  return beside([marks(from > 0), whole, marks(to < columns.length)], 1);
}

function widthOfAll(columns: readonly Column[]): number {
  return columns.reduce((sum, { width }) => sum + width + GAP, -GAP);
}

/** The columns around `at` that fit. */
function window(columns: readonly Column[], at: number, width: number): { from: number; to: number } {
  let from = at;
  let to = at + 1;
  let taken = columns[at]!.width;
  for (;;) {
    // First what lies behind, then what lies before.
    const next = columns[to];
    if (next !== undefined && taken + GAP + next.width <= width) {
      taken += GAP + next.width;
      to++;
      continue;
    }
    const previous = columns[from - 1];
    if (previous === undefined || taken + GAP + previous.width > width) return { from, to };
    taken += GAP + previous.width;
    from--;
  }
}

function columnsOf({ scenario, chosen, width, height, signs }: KnobInput): Column[] {
  const knobs = knobsOf(scenario).map((knob, i) => ({ label: knob.label, value: knob.value(scenario), i }));
  const columns: Column[] = [];
  for (let from = 0; from < knobs.length; from += height) {
    const here = knobs.slice(from, from + height);
    const most = Math.max(4, width - 4);
    const value = Math.min(Math.floor(most / 2), Math.max(...here.map((knob) => widthOf(knob.value))));
    const label = Math.min(most - value - 3, Math.max(...here.map((knob) => widthOf(knob.label))));
    columns.push({
      width: 2 + label + 1 + value,
      rows: here.map((knob) => {
        const isChosen = knob.i === chosen;
        const text = `${fitted(knob.label, label, signs.more)} `;
        return [
          span(isChosen ? `${signs.pointer} ` : '  ', isChosen ? 'strong' : 'plain'),
          span(text, isChosen ? 'plain' : 'faint'),
          span(cut(knob.value, value, signs.more), isChosen ? 'chosen' : 'plain'),
        ];
      }),
    });
  }
  return columns;
}
