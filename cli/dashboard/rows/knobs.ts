/**
 * What can be turned, in columns: up and down go down a column and on to the next. The chosen one has a
 * pointer too, while the mark is here.
 */

import type { Scenario } from '../../../sim/scenario/schema.js';
import { shortNames } from '../../render/short-names.js';
import { widthOf } from '../../render/width.js';
import { knobsOf } from '../state/knobs.js';
import type { Row, Signs } from '../theme.js';
import { beside, cut, fitted, span } from './rows.js';

export interface KnobInput {
  readonly scenario: Scenario;
  /** Place of the chosen knob. */
  readonly chosen: number;
  /** Whether keys act on it now. */
  readonly isMarked: boolean;
  readonly width: number;
  readonly height: number;
  readonly signs: Signs;
}

interface Column {
  readonly rows: Row[];
  readonly width: number;
}

const GAP = 2;

/** Columns to which the names of knobs are shortened, at most, so that all have room. */
const LEAST_LABEL = 12;

/**
 * Rows that all knobs take in so many columns of the screen, at most `most`.
 * @param scenario the one that was opened, whatever its values are by now, so that no key moves what stands above
 */
export function knobHeight(scenario: Scenario, width: number, most: number, signs: Signs): number {
  const knobs = labelled(scenario);
  for (let height = 1; height < most; height++) {
    const columns = columnsOf(knobs, { chosen: 0, isMarked: false, width, height, signs });
    if (widthOfAll(columns) <= width) return height;
  }
  return most;
}

export function knobRows(input: KnobInput): Row[] {
  const { chosen, width, height, signs } = input;
  const knobs = labelled(input.scenario);
  const columns = columnsOf(knobs, input);
  if (widthOfAll(columns) <= width) return beside(columns, GAP);
  const shorter = shortened(knobs, input);
  if (shorter !== null) return beside(shorter, GAP);
  const { from, to } = window(columns, Math.floor(chosen / height), width - 4);
  const shown = columns.slice(from, to);
  const marks = (here: boolean): Column => ({
    width: 1,
    rows: [[span(here ? signs.more : ' ', 'faint')]],
  });
  const whole = { width: Math.min(width - 4, widthOfAll(shown)), rows: beside(shown, GAP) };
  return beside([marks(from > 0), whole, marks(to < columns.length)], 1);
}

/** All columns with shorter names; null if there is no room for them all the same. */
function shortened(knobs: readonly Labelled[], input: KnobInput): readonly Column[] | null {
  const labels = knobs.map(({ label }) => label);
  for (let longest = Math.max(...labels.map(widthOf)) - 1; longest >= LEAST_LABEL; longest--) {
    const short = shortNames(labels, longest, input.signs.more);
    const columns = columnsOf(
      knobs.map(({ label, value }) => ({ label: short.get(label)!, value })),
      input,
    );
    if (widthOfAll(columns) <= input.width) return columns;
  }
  return null;
}

interface Labelled {
  readonly label: string;
  readonly value: string;
}

function labelled(scenario: Scenario): Labelled[] {
  return knobsOf(scenario).map(({ label, value }) => ({ label, value: value(scenario) }));
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

function columnsOf(
  all: readonly Labelled[],
  { chosen, isMarked, width, height, signs }: Omit<KnobInput, 'scenario'>,
): Column[] {
  const knobs = all.map((knob, i) => ({ ...knob, i }));
  const columns: Column[] = [];
  for (let from = 0; from < knobs.length; from += height) {
    const here = knobs.slice(from, from + height);
    const most = Math.max(4, width - 4);
    const value = Math.min(Math.floor(most / 2), Math.max(...here.map((knob) => widthOf(knob.value))));
    const label = Math.min(most - value - 3, Math.max(...here.map((knob) => widthOf(knob.label))));
    columns.push({
      width: 2 + label + 1 + value,
      rows: here.map((knob) => {
        const isChosen = isMarked && knob.i === chosen;
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
